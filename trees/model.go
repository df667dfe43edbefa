package trees

import "faultwalk/trees/strict"

// Model is how one kind of part acts in the simulation: its branches, the
// variables it brings, the rules that move them, what trips, and how it fails.
// Inside it everything is named as it is there; a plant's part fills it in.
// The kinds "core", "earth" and "pole" are links: their branches are built
// from length, area and device, and the model brings only how they fail.
type Model struct {
	Kind      string
	Is        string
	Pos       strict.Pos
	Optional  []strict.Text // terminals that a part of this kind may leave out, with the branches at them
	Nodes     []strict.Text // nodes inside, beside the terminals
	Values    []ModelValue
	Variables []ModelVariable
	Branches  []ModelBranch
	Rules     []ModelRule
	Slow      []ModelRule // what minutes of ordinary use move, once the plant has settled
	Trips     []ModelTrip
	Faults    []ModelFault
}

// ModelValue is a number of a part, with what it is where the part gives none.
// Tolerance is the fraction by which one part of this make differs from the next.
type ModelValue struct {
	ID        strict.Text
	Is        strict.Number
	Given     bool // it has a default
	Zero      bool // nought is a value it may have
	Tolerance float64
}

// ModelVariable is something about a part that changes: a number, true or
// false (1 and 0), or a word. First is what it is on the day the plant was
// handed over.
type ModelVariable struct {
	ID    strict.Text
	First strict.Text
	Fixed bool // no rule moves it, only a fault: a free spindle, a whole contact
}

// ModelBranch is one two-terminal element between terminals or nodes. Ohms,
// Reactance (ohm at the mains' frequency), Farads, Volts (an ac source in
// series, rms) and DCVolts are formulas; DCOhms differs from Ohms for
// electronics. A branch that is not Closed is not there.
type ModelBranch struct {
	ID                                              strict.Text
	From, To                                        strict.Text
	Ohms, Reactance, Farads, DCOhms, Volts, DCVolts strict.Text
	Closed                                          strict.Text
	Tolerance                                       float64
}

// ModelRule sets a variable from the solved network and the variables as they
// were; all rules are applied at once, again and again until nothing changes.
type ModelRule struct{ Set, To strict.Text }

// ModelTrip is a protection: when its overload reaches 1 it sets its variable,
// the worst of the plant first and one at a time.
type ModelTrip struct {
	ID       strict.Text
	Overload strict.Text
	Set, To  strict.Text
}

// ModelFault is one way to fail. Each of Do is one change: "lock V to X", "start V
// to X", "open B", "ohms B 2000", "add A B 4000 ohms", "land C at P on Q".
// Causes are the causes that name it, each a cause's instance text or its
// beginning; Refers are the referrals that are the right end where nobody may
// repair it.
type ModelFault struct {
	ID     strict.Text
	Words  string
	Weight float64
	Scaled bool          // Weight is a share of the weight of the link
	Only   []strict.Text // the links it happens to; empty means all of that kind
	Except []strict.Text // the links it never happens to
	Do     []strict.Text
	Causes []strict.Text
	Refers []strict.Text
	Hidden string // why it shows no sign, for those that show none
	Source string
}

// Sign is something that somebody notices about a plant, as the simulation
// sees it. Signs stand in the order in which people tell them: one that shows
// overshadows those it names.
type Sign struct {
	ID      strict.Text
	Words   string
	Calls   []CallState
	Shows   strict.Text // a formula over the plant settled with those calls
	Shadows []strict.Text
}

// Levels are what a plant shows while it is healthy, worked out once from its
// model: of each pair of points and meter mode the most volts read while
// nothing drives it and the least while something does.
type Levels struct {
	Plant string
	Of    []Level
}

// Level is one pair of points in one mode, in volts. Off is the most read
// while it is not driven, On the least while it is; a pair that is never
// driven has no On, and one that always is no Off (both negative then).
type Level struct {
	From, To, Mode string
	Off, On        float64
}
