package sheet

import "time"

// Format is the version of the JSON keys.
const Format = 1

// LikelyOnly stands on every sheet.
const LikelyOnly = "What is found here is a likely cause only, never certain. A competent person at the plant decides what is done."

// Sheet is a job sheet. The package comment says what each field holds.
type Sheet struct {
	Format     int       `json:"format"`
	Job        string    `json:"job"`
	State      string    `json:"state"`
	Opened     time.Time `json:"opened,omitzero"`
	Last       time.Time `json:"last,omitzero"`
	By         []string  `json:"recorded_by,omitempty"`
	Builds     []string  `json:"builds,omitempty"`
	Trees      string    `json:"trees,omitempty"`
	Safety     string    `json:"safety,omitempty"`
	Damage     string    `json:"damage,omitempty"` // for the caller to set: journal.Damage in words
	Doubts     []string  `json:"doubts,omitempty"`
	Intake     Intake    `json:"intake,omitzero"`
	Signs      []Named   `json:"sign,omitempty"`
	Hands      []Hands   `json:"hands,omitempty"`
	Plant      *Plant    `json:"plant,omitempty"`
	Findings   []Finding `json:"findings,omitempty"`
	Readings   []Reading `json:"readings,omitempty"`
	Compared   []Pair    `json:"compared,omitempty"`
	LeftOut    []LeftOut `json:"left_out,omitempty"`
	Turns      []Turn    `json:"turns,omitempty"`
	Acts       []Act     `json:"acts,omitempty"`
	Cautions   []Caution `json:"cautions,omitempty"`
	Remarks    []Remark  `json:"remarks,omitempty"`
	End        *End      `json:"end,omitempty"`
	Left       Left      `json:"left,omitzero"`
	Open       []string  `json:"open,omitempty"`
	Rules      Rules     `json:"rules,omitzero"`
	LikelyOnly string    `json:"likely_only"`
}

// Named is an id with its words.
type Named struct {
	ID    string `json:"id"`
	Words string `json:"words"`
}

// Mark says when something was recorded, by whom, and as which event.
type Mark struct {
	Event int       `json:"event"`
	At    time.Time `json:"at"`
	By    string    `json:"by,omitempty"`
}

// Intake are the answers before any tree, in words.
type Intake struct {
	Danger   string `json:"danger,omitempty"`
	Operator string `json:"operator,omitempty"`
	ByPhone  bool   `json:"by_phone,omitempty"`
	Told     string `json:"told,omitempty"`
	Changed  string `json:"changed,omitempty"`
}

// Hands is who touched the plant, from an event on.
type Hands struct {
	Mark
	Kind         string       `json:"kind"`
	Words        string       `json:"words"`
	Certificates []string     `json:"certificates,omitempty"`
	Supervisor   string       `json:"supervisor,omitempty"`
	ByPhone      bool         `json:"by_phone,omitempty"`
	ProvingUnit  bool         `json:"proving_unit,omitempty"`
	Calibrated   string       `json:"calibrated,omitempty"`
	Instruments  []Instrument `json:"instruments,omitempty"`
}

// Instrument is one meter of the kit.
type Instrument struct {
	ID         string `json:"id"`
	Name       string `json:"name"`
	Calibrated string `json:"calibrated,omitempty"`
}

// Plant is the installed arrangement the job was on.
type Plant struct {
	ID       string   `json:"id"`
	Words    string   `json:"words"`
	Facts    []Fact   `json:"facts,omitempty"`
	Supplies []Supply `json:"supplies,omitempty"`
}

// Fact is one thing that was confirmed of the plant.
type Fact struct {
	Ask    string `json:"ask"`
	Answer string `json:"answer"`
}

// Supply is a way in for mains, with the devices in its path.
type Supply struct {
	ID      string   `json:"id"`
	Words   string   `json:"words"`
	Breaker string   `json:"breaker,omitempty"`
	RCD     string   `json:"rcd,omitempty"`
	Devices []Device `json:"devices,omitempty"`
}

// Device is something that can be switched off.
type Device struct {
	ID       string `json:"id"`
	Words    string `json:"words"`
	Where    string `json:"where,omitempty"`
	Poles    int    `json:"poles,omitempty"`
	Lockable bool   `json:"lockable"`
}

// Rules are what the trade is held to where the job was.
type Rules struct {
	Jurisdiction Named    `json:"jurisdiction"`
	Law          string   `json:"law,omitempty"`
	Standards    []string `json:"standards,omitempty"`
}
