package prove

// formula is a condition or a part of one.
type formula struct {
	kind        formulaKind
	a, b        *formula
	operator    string // of a comparison
	left, right *term
	index       int    // reading of a band or a fact
	name        string // of a band or a fact
	value       bool   // of a truth
	at          int    // offset in the source, in characters
	reads       mask
	reason      string // why this comparison cannot be decided, with its place
	reasonAt    int
}

type formulaKind int

const (
	truth formulaKind = iota
	and
	or
	not
	compare
	band
	fact
)

// each visits every part.
func (f *formula) each(visit func(*formula)) {
	if f == nil {
		return
	}
	visit(f)
	f.a.each(visit)
	f.b.each(visit)
}
