package plant

import (
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

type numeric = formula.Value[*Subject]

// scope is where a formula stands: inside the model of a part, or (part nil)
// beside the plant, where only quoted names mean something. It notes what the
// formulas read, so that branches no state moves are worked out once.
type scope struct {
	m              *Model
	part           *trees.Part
	model          *trees.Model
	follows        numeric
	drives         bool // it is what a part follows
	dynamicFollows bool
	networkFollows bool
	followsReads   []int
	dynamic        bool  // since the last took
	network        bool  // the same, on the network
	reads          []int // variables read since the last took
}

// took says whether what was compiled since depends on the state, and begins anew.
func (sc *scope) took() bool {
	was := sc.dynamic
	sc.m.loose = sc.m.loose || sc.network
	for _, i := range sc.reads {
		sc.m.electric[i] = true
	}
	sc.dynamic, sc.network, sc.reads = false, false, nil
	return was
}

// compile reads a formula; what is wrong with it is recorded at its place.
func (sc *scope) compile(t strict.Text, what string) numeric {
	f, errs := formula.Parse(t.Value)
	if len(errs) == 0 {
		var v numeric
		if v, errs = formula.Compile(f, formula.Resolver[*Subject]{Words: &sc.m.words, Name: sc.name, Call: sc.call}); len(errs) == 0 {
			return v
		}
	}
	sc.m.problems = append(sc.m.problems, errs.In(t, what)...)
	return formula.Constant[*Subject](0)
}

// function compiles a formula and gives what it reads: variables, and whether
// the network.
func (sc *scope) function(t strict.Text, what string) (f func(*Subject) float64, reads []int, network bool) {
	f = sc.compile(t, what).Func()
	reads, network = sc.reads, sc.network
	sc.dynamic, sc.network, sc.reads = false, false, nil
	return f, reads, network
}

// optional is nil for a formula that is not there.
func (sc *scope) optional(t strict.Text, what string) func(*Subject) float64 {
	if t.Value == "" {
		return nil
	}
	return sc.compile(t, what).Func()
}

func (sc *scope) own() []string {
	var names []string
	for _, v := range sc.model.Variables {
		names = append(names, v.ID.Value)
	}
	return names
}

func (sc *scope) inner(name string) bool {
	for _, n := range sc.model.Nodes {
		if n.Value == name {
			return true
		}
	}
	return false
}

func (sc *scope) mayLack(name string) bool {
	for _, n := range sc.model.Optional {
		if n.Value == name {
			return true
		}
	}
	return false
}
