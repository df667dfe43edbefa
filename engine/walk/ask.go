package walk

import (
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees/prove"
)

// Kind is what sort of answer an Ask wants.
type Kind string

// The kinds of Ask.
const (
	Choose  Kind = "choose"  // one of Choices
	Measure Kind = "measure" // one reading, as typed
	Fill    Kind = "fill"    // a value for each of Fields
	Write   Kind = "write"   // free words
	Over    Kind = "over"    // nothing more: the job is closed
)

// Ask is one question of a job, ready to be shown. A face renders it and
// brings back an Answer; it decides nothing.
type Ask struct {
	ID       string // what is asked, in plain words: "danger", "plant", "reading", "acts"
	Kind     Kind
	Title    string
	Body     []string // paragraphs
	Cautions []Caution
	Choices  []Choice
	Fields   []Field
	Commands []Choice // what may be typed instead of an answer
	Check    string   // the check instance, of a look or a reading
	Reading  *ReadingAsk
	Minutes  float64 // how long it is likely to take
	Urgent   bool    // what to do comes first, and the cautions after it
}

// Caution is shown before the question. The first time its words are shown in
// full; afterwards Again is true and a face may shorten it to a reminder.
type Caution struct {
	ID, Words string
	Again     bool
}

// Choice is one thing that can be chosen.
type Choice struct{ ID, Text, Detail string }

// Field is one line of a form: volts, yes or no, or words.
type Field struct {
	Name, Text string
	Number     bool
	YesNo      bool
	Halts      bool // a voltage or a no ends the form here: see Ends
}

// Ends says whether what was typed ends the form at this line: nobody reads on
// in a box that is not dead, nor with a tester that was not proved.
func (f Field) Ends(typed string) bool {
	if !f.Halts {
		return false
	}
	if f.YesNo {
		no, _ := yesNo(typed)
		return no == "no"
	}
	v, err := provedVolts(typed)
	return err == nil && v > safety.FoundAbove
}

// ReadingAsk is what a face needs to show where the probes go and what each
// reading would mean.
type ReadingAsk struct {
	As       string // the probe's name
	Quantity string
	From, To string // words and marking of the two places; To is empty for a reading at one place
	Mode     string
	Meter    string
	Expected string // in the trade's writing, with its source
	Ranges   []Range
}

// Range is a stretch of readings that lead the same way, in words and numbers.
type Range struct {
	Words   string // "216.2 V to 253 V"
	Meaning string
	Owned   prove.Range
}

// Holds says whether a reading, widened, lies in the stretch at least in part.
func (r Range) Holds(i measurements.Interval) bool {
	below := i.Hi < r.Owned.Lo || i.Hi == r.Owned.Lo && !r.Owned.LoIn
	above := i.Lo > r.Owned.Hi || i.Lo == r.Owned.Hi && !r.Owned.HiIn
	return !below && !above
}

// Answer is what came back. Exactly one of Choice, Typed, Fields or Command is
// used, as the Ask's Kind wants. The Fields of a proof may end at the line that
// ends it: see Field.Ends.
type Answer struct {
	Choice  string
	Typed   string
	Fields  []string
	Command string
	Rest    string // the words behind a command: note TEXT
}

// Refused says why an answer was not taken and what was expected. Nothing was
// recorded.
type Refused struct{ Why string }

// Error gives the one line.
func (r *Refused) Error() string { return r.Why }
