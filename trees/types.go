package trees

import "faultwalk/trees/strict"

// Set is everything the authors wrote, read and checked for spelling: start
// with Embedded or Load, choose with Symptoms and Plants, and Bind one symptom
// to one plant to get something that can be walked.
type Set struct {
	Scales        map[string]*Scale
	Checks        map[string]*Check
	Causes        map[string]*Cause
	Routines      map[string]*Routine
	Symptoms      map[string]*Symptom
	Assemblies    map[string]*Assembly
	Plants        map[string]*PlantFile
	Referrals     map[string]*Referral
	Cautions      []*Caution
	Stops         []*Stop
	Jurisdictions map[string]*Jurisdiction
	Models        map[string]*Model  // by kind of part or link, for the simulation
	Signs         []*Sign            // in the order in which people tell them
	Levels        map[string]*Levels // by plant; none where they were not worked out
	Words         []*Word            // what callers say, and what is meant
	Cases         []*Case            // told by their authors, in the order of the files
	Layers        []Layer            // the files it was read from: embedded first, then from outside
	whole         func() (*Set, strict.Problems)
}

// Param is one parameter of a check, cause or routine: `of: {at: point}`.
// Kind is one of the parameter kinds listed in ParamKinds.
type Param struct {
	Name, Kind string
	Pos        strict.Pos
}

// ParamKinds are the kinds of thing a parameter may name on a plant.
var ParamKinds = []string{"point", "part", "call", "chain", "core", "device", "enclosure", "setting", "word"}

// Scale names the ranges of a quantity. Bands may differ with the meter mode.
type Scale struct {
	ID      string
	Pos     strict.Pos
	Modes   []ModeBands
	leveled bool // an edge names levels
}

// ModeBands are the bands that hold for the named meter modes; no modes means any.
type ModeBands struct {
	Modes []string
	Bands []Band
}

// Band reaches from the band before it up to the edge To, a number expression
// over `mains.*` and `expected.*`; the last band has no edge. Including says
// the edge itself still belongs to it.
type Band struct {
	Name      string
	To        strict.Text
	Last      bool
	Including bool
}

// Probe is one reading of a check: where the two probes go and in which modes,
// best first.
type Probe struct {
	As       string
	From, To strict.Text
	Joined   []strict.Text // also joined to the from probe: neutral with live, for an insulation test
	Modes    []string
}

// CallState is what must be asked of the plant while a check is made.
type CallState struct {
	Call strict.Text
	On   bool
}

// Answer is one thing a look can give. When is for the simulation only.
type Answer struct {
	ID, Say string
	When    strict.Text
	Pos     strict.Pos
}

// Check is one thing to measure or look at, a template over its parameters.
type Check struct {
	ID        string
	Pos       strict.Pos
	Of        []Param
	Look      strict.Text // the question, for a look
	Read      string      // the quantity, for a measurement
	Probes    []Probe
	Calls     []CallState
	For       float64 // minutes in that state before reading
	Minutes   float64 // minutes the check itself takes
	Unplugged []strict.Text
	Lifted    []strict.Text // parts and cores whose ends are off for the reading
	Does      []strict.Text // acts that move the plant for good: "reset unit-breaker"
	Sure      float64       // of a look: the chance that it shows what is there
	Inside    []strict.Text // enclosures a look reaches into
	Asks      []string      // capabilities beyond the derived ones
	Dead      bool          // the author demands dead where less is derived
	Powered   bool          // a look that means nothing with a supply off
	Once      bool          // may be done once in a job: a reset
	Scale     string
	Expect    strict.Text
	Uses      []Use
	Answers   []Answer
	Good      strict.Text // the healthy verdict: a condition, or answer ids joined by " or "
	Where     string      // where exactly, for the hands
	How       string      // what to do with the probes or hands, beyond the obvious
	Why       string
	Else      string // what else could read the same
	Say       string // plain words for the phone; empty means it is never talked through
	Source    string // 'common practice, no source' or the reference
}

// Use names an earlier reading that the expectation needs: `uses: {pocket: pocket-temperature of $of}`.
type Use struct {
	As    string
	Check strict.Text
}

// Cause is what is wrong, with how it is put right and proved.
type Cause struct {
	ID       string
	Pos      strict.Pos
	Of       []Param
	Words    string
	Behind   string // the cause behind the cause, to look for
	Rivals   []strict.Text
	Confirm  *Confirm
	Remedy   Remedy
	Retest   strict.Text // a check beside the deciding one
	Customer string
	Night    string // how to leave it safe overnight
	Observed string // why no fault of the simulation is this: it is only seen
	Weight   float64
	Source   string
}

// Confirm is a second reading that the nearest rival would contradict.
type Confirm struct {
	Check strict.Text
	If    strict.Text // what it must read for the cause to stand
	Rival strict.Text
}

// Remedy is what to do, in which state of the plant, by whom.
type Remedy struct {
	Do        string
	Parts     []string
	Dead      bool
	Inside    []strict.Text
	Unplugged []strict.Text
	Asks      []string
	Say       string
}

// Symptom is a tree that starts from what somebody notices.
type Symptom struct {
	ID      string
	Pos     strict.Pos
	Sign    string
	Words   []string
	Plants  strict.Text
	Cleared strict.Text
	Start   string
	Steps   []*Step
}

// Routine is a part of a tree used by several trees.
type Routine struct {
	ID    string
	Pos   strict.Pos
	Of    []Param
	Exits []string
	Start string
	Steps []*Step
}

// Step is a place in a tree: a check, a split of a chain, or a routine, then
// where each possible reading leads.
type Step struct {
	ID        string
	Pos       strict.Pos
	If        strict.Text
	Otherwise strict.Text // step taken when this one is absent, skipped or cannot be done
	Check     strict.Text
	Split     strict.Text
	Routine   strict.Text
	Good, Bad strict.Text // of a split
	Past      *Branch     // of a split: everything up to the load is good
	Dead      strict.Text // step that answers the same question dead
	Why       string
	Branches  []*Branch
	Exits     map[string]*Branch
}

// Branch says where one kind of reading leads: exactly one of Go, Causes,
// Refer, Pass, Exit.
type Branch struct {
	Pos     strict.Pos
	If      strict.Text
	Answer  []strict.Text
	Else    bool
	Meaning string
	Untaken string // why no fault of the simulation and no case takes it
	Go      strict.Text
	Causes  []strict.Text
	Refer   strict.Text
	Pass    strict.Text
	Exit    strict.Text
}

// Referral is a stop or a passing-on, with its reason. Stop means danger: the
// job ends here for these hands and the plant is left as Leave says. Isolated
// means that nothing that is off goes back on.
type Referral struct {
	ID, Words, To, Leave, Say string
	Stop, Isolated            bool
	Names                     bool // it says what is wrong, not only that somebody else goes on
	Pos                       strict.Pos
}

// Caution is shown when one of its triggers is met. See Triggers.
type Caution struct {
	ID, Words string
	At        []string
	Source    string
	Pos       strict.Pos
}

// Stop is a row that ends the job wherever it is met: a condition over the
// readings of any check that takes all of its variables.
type Stop struct {
	ID    string
	If    strict.Text
	Refer string
	Words string
	Pos   strict.Pos
}

// Jurisdiction holds what differs between countries: the mains, whom to ring,
// and who may do what.
type Jurisdiction struct {
	ID, Name                string
	Low, Nominal, High      float64 // volts, live to neutral, at the supply terminals
	Emergency, Network, Gas string  // whom to ring
	Standards               []string
	Law                     string
	Gates                   []Gate
	Pos                     strict.Pos
}

// Gate says who may do one kind of thing.
type Gate struct {
	May     string            // the capability: see Capabilities
	Words   string            // "take a cover off mains terminals"
	Who     map[string]string // kind of hands → yes, supervised, never
	Needs   []string          // certificates, whoever it is
	ByPhone string            // yes or never
}
