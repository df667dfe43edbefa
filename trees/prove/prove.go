// Package prove knows exactly which readings each branch of a step owns. Conditions are short expressions over one
// to three readings, written in bands, comparisons and the words and, or, not.
//
// Use [Prover.Table] first: it compiles the conditions of a step, splits each reading's range at every value where
// any condition can change, runs every condition on the real expression machine in every part, and gives a
// [Partition]. The walk asks it for a verdict ([Partition.Judge]), the screen for the ranges ([Partition.Owned]),
// and the check of trees for what is wrong ([Partition.Findings]). [Prover.Compile] alone checks one condition
// where the values are not known yet.
//
// A condition is not always a range: two readings may be compared with each other. Such a condition is undecided:
// it still runs, a verdict on it errs only towards "no verdict", and the branches need a final else.
package prove

import "github.com/expr-lang/expr/conf"

// Variable is one reading a condition may name. Quantities are in SI units.
type Variable struct {
	Name     string  // an identifier, such as ln
	Unit     string  // shown behind numbers in findings; may be empty
	Min, Max float64 // every value the check can give; Max is +Inf where the meter may show OL
	Bands    []Band  // in ascending order, from Min up
}

// Band is one named range. It begins where the band before it ends.
type Band struct {
	Name      string
	To        float64 // upper edge; +Inf for the last
	Including bool    // whether the edge itself belongs to this band
}

// Branch is one way out of a step.
type Branch struct {
	If   string // the condition; ignored when Else is set
	Else bool   // owns what no other branch owns; only the last branch may be it
}

// Set is the branches of one step with everything their conditions may name.
type Set struct {
	Variables []Variable         // one to three
	Constants map[string]float64 // numbers with a name, such as mains.low
	Facts     []string           // true or false of a reading, such as moving: written moving(ln)
	Branches  []Branch
	FirstTrue bool // several readings: the first true branch wins, and the last must be else
}

// Prover compiles and proves, and remembers both by text and values. It is not safe for several goroutines at once.
type Prover struct {
	config     *conf.Config // of the parser
	conditions map[string]*Condition
	programs   map[string]*program
	partitions map[string]proved
}

// New returns a prover that remembers nothing yet.
func New() *Prover {
	config := conf.CreateNew()
	config.MaxNodes = maxNodes
	return &Prover{
		config:     config,
		conditions: map[string]*Condition{},
		programs:   map[string]*program{},
		partitions: map[string]proved{},
	}
}

// Limits of one set and one condition: trees from outside are hostile.
const (
	maxSource    = 512    // bytes of one condition
	maxNesting   = 32     // brackets inside one another
	maxNodes     = 200    // parts of one condition
	maxBranches  = 64     // one bit each
	maxVariables = 3      // readings of one check
	maxCells     = 30_000 // combinations of ranges of one set
)
