package sheet

// Finding is a likely cause with what supports it, as it stood when it was
// acted on.
type Finding struct {
	Event    int      `json:"event,omitempty"` // of its repair; 0 without one
	Epoch    int      `json:"epoch"`
	Causes   []Named  `json:"causes"`
	Deciding string   `json:"deciding,omitempty"`
	Second   string   `json:"second,omitempty"`
	Against  string   `json:"against,omitempty"`
	RuledOut []string `json:"ruled_out,omitempty"`
	Also     []string `json:"also_possible,omitempty"`
	Behind   string   `json:"behind,omitempty"`
	Source   string   `json:"source,omitempty"`
	Repair   *Repair  `json:"repair,omitempty"`
}

// Repair is what was done about a finding, and what was read to prove it.
type Repair struct {
	Mark
	Cause   Named    `json:"cause"`
	Did     string   `json:"did,omitempty"`
	Parts   []string `json:"parts,omitempty"`
	Retests []Retest `json:"retests,omitempty"`
}

// Retest is one check after a repair: due, passed, failed or not possible.
type Retest struct {
	Check   string `json:"check"`
	Words   string `json:"words"`
	Purpose string `json:"purpose"`
	State   string `json:"state"`
}

// Reading is what one check gave. Epoch counts the repairs before it.
type Reading struct {
	Mark
	Epoch        int     `json:"epoch"`
	Step         string  `json:"step,omitempty"`
	Check        string  `json:"check"`
	Words        string  `json:"words"`
	State        string  `json:"state,omitempty"`
	Purpose      string  `json:"purpose"`
	Quantity     string  `json:"quantity,omitempty"`
	Values       []Value `json:"values,omitempty"`
	Answer       string  `json:"answer,omitempty"`
	Answered     string  `json:"answered,omitempty"`
	Expected     string  `json:"expected,omitempty"`
	Verdict      string  `json:"verdict,omitempty"`
	TakenBack    int     `json:"taken_back,omitempty"`
	TakenBackWhy string  `json:"taken_back_why,omitempty"`
	Doubt        string  `json:"doubt,omitempty"`
}

// Value is one probe's reading: where, with what, what was typed, and the
// interval it stands for. High is nil above every range, and so is Low for OL
// on a meter whose range is not known.
type Value struct {
	As       string   `json:"as"`
	Name     string   `json:"name,omitempty"`
	From     string   `json:"from,omitempty"`
	To       string   `json:"to,omitempty"`
	Mode     string   `json:"mode"`
	Meter    string   `json:"meter"`
	Typed    string   `json:"typed"`
	Low      *float64 `json:"low"`
	High     *float64 `json:"high"`
	Unit     string   `json:"unit,omitempty"`
	Open     bool     `json:"open,omitempty"`
	Moving   bool     `json:"moving,omitempty"`
	Reads    string   `json:"reads"`
	Expected string   `json:"expected,omitempty"`
}

// Pair is the same check before and after a repair.
type Pair struct {
	Epoch  int    `json:"epoch"` // after which repair
	Check  string `json:"check"`
	Words  string `json:"words"`
	Before *Got   `json:"before,omitempty"`
	After  Got    `json:"after"`
}

// Got is one side of a Pair.
type Got struct {
	Event   int    `json:"event"`
	Reads   string `json:"reads"`
	Verdict string `json:"verdict,omitempty"`
}

// LeftOut is a check that was not made.
type LeftOut struct {
	Mark
	Check     string `json:"check"`
	Words     string `json:"words"`
	Why       string `json:"why,omitempty"`
	TakenBack int    `json:"taken_back,omitempty"`
}

// Turn leaves the tree's order: to another step, or to another sign.
type Turn struct {
	Mark
	To        string `json:"to"`
	Words     string `json:"words"`
	Why       string `json:"why,omitempty"`
	TakenBack int    `json:"taken_back,omitempty"`
}

// Act is something done to the plant. Proof is its form, line by line.
type Act struct {
	Mark
	Do      string  `json:"do"`
	On      string  `json:"on,omitempty"`
	Words   string  `json:"words"`
	Minutes float64 `json:"minutes,omitempty"`
	Outcome string  `json:"outcome"`
	Why     string  `json:"why,omitempty"`
	Proof   []Line  `json:"proof,omitempty"`
}

// Line is one line of a proof. Volts is nil for what is answered yes or no.
type Line struct {
	Line  string   `json:"line"`
	Words string   `json:"words"`
	Mode  string   `json:"mode,omitempty"`
	Typed string   `json:"typed"`
	Volts *float64 `json:"volts,omitempty"`
}

// Caution is what was shown, with the event at which it first was.
type Caution struct {
	ID    string `json:"id"`
	Words string `json:"words,omitempty"`
	Event int    `json:"event"`
}

// Remark is a note, a stop, a resumption, or an answer taken back.
type Remark struct {
	Mark
	Kind  string `json:"kind"`
	Words string `json:"words"`
}

// End is how the job was closed.
type End struct {
	Mark
	As        string   `json:"as"`
	Words     string   `json:"words,omitempty"`
	To        string   `json:"to,omitempty"`
	Leave     string   `json:"leave,omitempty"`
	Customer  []string `json:"customer,omitempty"`
	Overnight []string `json:"overnight,omitempty"`
}

// Left is how the plant stands otherwise than it was found, in words.
type Left struct {
	Off       []string `json:"off,omitempty"`
	Locked    []string `json:"locked,omitempty"`
	Open      []string `json:"open,omitempty"`
	Unplugged []string `json:"unplugged,omitempty"`
	Called    []string `json:"called,omitempty"`
	Exposed   []string `json:"exposed,omitempty"`
	Unseen    []string `json:"unseen,omitempty"`
}
