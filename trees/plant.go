package trees

import "faultwalk/trees/strict"

// PlantFile is a plant as written: a list of assemblies with their parameters.
type PlantFile struct {
	ID, Is string
	Pos    strict.Pos
	Facts  []Fact
	Uses   []AssemblyUse
}

// Fact is one of the things that invert expectations and are confirmed before
// any tree: monobloc or split, kind of heat call, who feeds the board.
type Fact struct {
	ID, Ask, Is string
	Say         string // the question in plain words, for the phone
	Options     []FactOption
}

// FactOption is one possible answer to a fact. The id "unknown" is for those who cannot say.
type FactOption struct{ ID, Say string }

// AssemblyUse puts an assembly into a plant. Names are the keys of With as
// written, in the order of the file.
type AssemblyUse struct {
	Use   strict.Text
	With  map[string]strict.Text
	Names []strict.Text
}

// Assembly brings parts, cores, points, enclosures and chains, with `$name`
// parameters filled in by the plant that uses it.
type Assembly struct {
	ID, Is string
	Pos    strict.Pos
	Of     []Param
	Body   *strict.Node // decoded again for each use, parameters filled in
}

// Plant is one installed arrangement, composed of assemblies. Everything that
// has an id is found by it; slices keep the order of the files.
type Plant struct {
	ID, Is     string
	Facts      []Fact
	Supplies   []*Supply
	Devices    []*Device
	Enclosures []*Enclosure
	Points     []*Point
	Links      []*Link
	Parts      []*Part
	Plugs      []*Plug
	Calls      []*Call
	Chains     []*Chain
	Settings   []string
	Faults     []ModelFault // of its assemblies, for the simulation
	index      index
}

// Supply is a way in for mains: where it starts and the devices in its path,
// from the origin on. Two supplies with the same RCD share one device.
type Supply struct {
	Pos                     strict.Pos
	ID, Words, Breaker, RCD string
	Live, Neutral           string // points where it starts
}

// Device is something that can be switched off: a breaker, an isolator, a
// spur. Its poles are links of kind "pole".
type Device struct {
	Pos                      strict.Pos
	ID, Words, Supply, Where string
	Poles                    int
	Lockable                 bool
	How                      string // how it is switched off and locked
	Outdoor                  bool
}

// Enclosure is what a cover closes. Mains is derived from the wiring.
type Enclosure struct {
	Pos              strict.Pos
	ID, Words, Where string
	Outdoor, Sealed  bool
	Unit             bool   // the outdoor unit itself
	Wet              bool   // water, pipes or a cylinder at scalding heat beside it
	Reference        string // the enclosure whose neutral and earth its readings are taken to
	Mains            bool
}

// Point is a place for a probe. Role is live, switched, neutral, earth or elv.
// In names its enclosure; empty means outside every enclosure.
type Point struct {
	Pos                          strict.Pos
	ID, Words, Marking, In, Role string
}

// Link joins two points: a core, a contact, a fuse, a load, a pole of a
// device, or an earth core.
type Link struct {
	ID, Kind, Words string
	From, To        string
	Of              string  // the part or device it belongs to
	Area            float64 // mm², of a core
	Length          float64 // m, of a core
	Weight          float64 // relative likelihood that it fails
	Cause           string  // what is wrong when this link fails; empty means by kind
	Pos             strict.Pos
	AreaPos         strict.Pos // of a core
	LengthPos       strict.Pos // of a core
}

// Part is a thing that does something: a valve, a limit, a board output.
type Part struct {
	ID, Kind, Words string
	Terminals       map[string]string // terminal → point
	Values          map[string]float64
	Texts           map[string]string
	Plug            string
	Weight          float64
	Follows         strict.Text // the formula of what drives it: "followed" in its model
	Pos             strict.Pos
	TerminalPos     map[string]strict.Pos
	ValuePos        map[string]strict.Pos
}

// Plug is what can be parted and refitted without a tool on the cores.
// Terminals are those of its part that it parts; none means all of them.
type Plug struct {
	ID, Words, In, Of string
	Terminals         []string
	Pos               strict.Pos
}

// Call is something asked of the plant.
type Call struct {
	ID, Words string
	How, Off  string // how it is made and withdrawn
	Back      string // how what it changed is put back as it was noted; empty where it changes nothing
	Say       string // the same in plain words
	Unless    Shown  // the answer by which there is nothing to withdraw; none where the check is empty
	Still     string // what is done then in place of Off
	Settle    float64
	Stands    bool // keeps asking with every supply off: made while proving dead
	Stop      float64
	Seldom    bool // ordinary use does not call for it: a booster
}

// Shown is one answer of a look.
type Shown struct{ Check, Answer string }

// Chain is the links from a source to a load, derived from the wiring.
type Chain struct {
	ID, Words string
	From, To  string
	Calls     []CallState
	Links     []ChainLink
}

// ChainLink is one link of a chain and the point behind it.
type ChainLink struct {
	Over   *Link
	To     string
	Cause  string
	Weight float64
}
