// Package journal is the record of a job: the events that can happen in one,
// and the codec that writes them as lines and reads them back. It does no I/O.
// Start with Append to write a line and Decode to get the events of a file.
package journal

import "time"

// Format is the version of the journal's lines. A reader meeting a later one
// reads what it can and overwrites nothing.
const Format = 1

// Event is one thing that happened in a job. N counts from 1. At is told by
// the caller: nothing below the faces reads a clock. Body is one of the body
// types of this package, by pointer, named by Kind.
type Event struct {
	N    int
	At   time.Time
	By   string
	Kind string
	Body any
}

// The kinds of event.
const (
	KindOpened    = "opened"
	KindAnswered  = "answered"
	KindHanded    = "handed"
	KindActed     = "acted"
	KindRead      = "read"
	KindSkipped   = "skipped"
	KindTurned    = "turned"
	KindRetracted = "retracted"
	KindRepaired  = "repaired"
	KindNoted     = "noted"
	KindStopped   = "stopped"
	KindResumed   = "resumed"
	KindClosed    = "closed"
)

// Opened starts a job.
type Opened struct {
	Format       int    `json:"format"`
	Job          string `json:"job"`
	Build        string `json:"build"`
	Jurisdiction string `json:"jurisdiction"`
	Trees        string `json:"trees"`  // hash of the tree set
	Safety       string `json:"safety"` // hash of cautions, gates and stops
}

// Answered is an answer to a question of the intake or of the walk that is
// neither an act nor a reading.
type Answered struct {
	Ask      string            `json:"ask"`
	Choice   string            `json:"choice,omitempty"`
	Values   map[string]string `json:"values,omitempty"`
	Cautions []string          `json:"cautions,omitempty"` // ids shown with the question
}

// Hands says who touches the plant, and what they hold.
type Hands struct {
	Kind         string   `json:"kind"` // householder, installer, apprentice, electrical
	Certificates []string `json:"certificates,omitempty"`
	Supervisor   string   `json:"supervisor,omitempty"`
	Phone        bool     `json:"phone,omitempty"` // the operator is not there
	Kit          []string `json:"kit,omitempty"`   // instrument ids
	ProvingUnit  bool     `json:"proving_unit,omitempty"`
	Calibration  string   `json:"calibration,omitempty"`
	Name         string   `json:"name,omitempty"`
}

// Handed gives the plant to other hands: every proof and every wait is void.
type Handed struct {
	Hands Hands `json:"hands"`
}

// The acts: what is done to the plant.
const (
	ActRelease   = "release"    // a call is withdrawn
	ActCall      = "call"       // a call is made
	ActBack      = "give back"  // a call's settings are put back as they were noted
	ActWait      = "wait"       // the plant is left in its state for Minutes
	ActSwitchOff = "switch off" // a device
	ActLock      = "lock"       // a device
	ActOpen      = "open"       // an enclosure
	ActProve     = "prove"      // an enclosure: the whole form
	ActUnplug    = "unplug"     // a plug
	ActRefit     = "refit"      // a plug
	ActClose     = "close"      // an enclosure
	ActUnlock    = "unlock"     // a device
	ActSwitchOn  = "switch on"  // a device
)

// Act is something done to the plant. On is the id of the device, enclosure,
// plug or call.
type Act struct {
	Do      string  `json:"do"`
	On      string  `json:"on"`
	Minutes float64 `json:"minutes,omitempty"`
}

// The outcomes of an act.
const (
	Done   = "done"
	Cannot = "cannot"
	Found  = "found" // a voltage, while proving dead
)

// Acted records an act and how it ended.
type Acted struct {
	Act      Act      `json:"act"`
	Outcome  string   `json:"outcome"`
	Form     []Field  `json:"form,omitempty"`
	Why      string   `json:"why,omitempty"`
	Cautions []string `json:"cautions,omitempty"` // ids shown
}

// Field is one line of a proving form: what was tested and what was read, in volts.
type Field struct {
	Name  string  `json:"name"`
	Typed string  `json:"typed"`
	Value float64 `json:"value"`
}

// The purposes of a reading.
const (
	ForTree    = "tree"
	ForEarly   = "early"
	ForAgain   = "again"
	ForConfirm = "confirm"
	ForRetest  = "retest"
	ForCleared = "cleared"
)

// Value is one probe's reading: the mode and meter it was taken with, what was
// typed, and the interval it stands for in SI units or °C, before widening, as
// measurements.Reading has it. High is +Inf for ">20M", and so is Low for OL;
// an infinite end is left out of the line, since JSON has none. Open says OL.
type Value struct {
	As     string
	Mode   string
	Meter  string
	Typed  string
	Low    float64
	High   float64
	Open   bool
	Moving bool
}

// Read records what a check gave. Measured is the hash of what was measured,
// where and in which state, never of prose.
type Read struct {
	Step     string   `json:"step,omitempty"`
	Check    string   `json:"check"`
	Measured string   `json:"measured"`
	Purpose  string   `json:"purpose"`
	Values   []Value  `json:"values,omitempty"`
	Answer   string   `json:"answer,omitempty"`
	Called   []string `json:"called,omitempty"`   // calls made in doing it, which may stand
	Expected string   `json:"expected,omitempty"` // as it was shown
	Verdict  string   `json:"verdict"`
	Leads    string   `json:"leads,omitempty"`
	Cautions []string `json:"cautions,omitempty"`
}

// Skipped leaves a step without a reading.
type Skipped struct {
	Step  string `json:"step"`
	Check string `json:"check"`
	Why   string `json:"why"`
}

// Turned leaves the tree's order: to another step, or to another symptom's tree.
type Turned struct {
	To  string `json:"to"`
	Why string `json:"why"`
}

// Retracted takes an earlier event back, in the mind only: never in the world.
type Retracted struct {
	Event int    `json:"event"`
	Why   string `json:"why,omitempty"`
}

// Repaired ends an epoch: earlier readings stop being evidence.
type Repaired struct {
	Cause string   `json:"cause"`
	Did   string   `json:"did"`
	Parts []string `json:"parts,omitempty"`
}

// Noted is a remark, in the words of whoever made it.
type Noted struct {
	Text string `json:"text"`
}

// Stopped leaves a job to be resumed.
type Stopped struct {
	Why string `json:"why,omitempty"`
}

// Resumed takes a job up again: every proof and every wait is void.
type Resumed struct {
	Build string `json:"build"`
	Trees string `json:"trees"`
}

// The ways a job ends.
const (
	Proven    = "proven"
	LeftSafe  = "left safe, retest due"
	Referred  = "referred"
	Abandoned = "abandoned"
)

// Closed ends a job.
type Closed struct {
	As    string `json:"as"`
	Words string `json:"words,omitempty"`
	To    string `json:"to,omitempty"`
}
