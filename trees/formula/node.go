package formula

// Op is what a part of a formula does.
type Op int

// The parts of a formula. Compare, Arithmetic and Logic carry their operator in Name.
const (
	Number     Op = iota // Value
	Word                 // Name, quoted
	Name                 // a bare name: Name
	Not                  // Args[0]
	Minus                // Args[0]
	Logic                // Name "and", "or"
	Compare              // Name "==", "!=", "<", "<=", ">", ">="
	Arithmetic           // Name "+", "-", "*", "/"
	Choice               // Args[0] ? Args[1] : Args[2]
	Function             // Name, Words, Args, Field
)

// Node is one part of a formula and where it begins, in characters from 0.
type Node struct {
	Op      Op
	At      int
	Value   float64
	Name    string
	Words   []string // quoted arguments of a function
	WordsAt []int    // where the quotes begin
	Args    []*Node  // operands, or the arguments of a function that are no names
	Field   string   // of part("x").field
	FieldAt int
	Acts    []Act // of after
}

// Walk visits a part and all within it, as written.
func (n *Node) Walk(visit func(*Node)) {
	visit(n)
	for _, a := range n.Args {
		a.Walk(visit)
	}
}

// Walk visits every part of a formula.
func (f *Formula) Walk(visit func(*Node)) { f.Root.Walk(visit) }

// Type is what a value is.
type Type int

// The types of value. What a name stands for is not known before it is resolved.
const (
	Untyped Type = iota
	Numeric
	Wordy
)

func (t Type) String() string { return [...]string{"a value", "a number", "a word"}[t] }

// typ gives the type of a part as far as its form alone shows.
func (n *Node) typ() Type {
	switch n.Op {
	case Word:
		return Wordy
	case Name:
		return Untyped
	case Choice:
		if t := n.Args[1].typ(); t != Untyped {
			return t
		}
		return n.Args[2].typ()
	case Function:
		return functions[n.Name].gives
	}
	return Numeric
}
