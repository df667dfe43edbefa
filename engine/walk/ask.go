package walk

import "faultwalk/trees/prove"

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
// Several branches mean that this reading alone does not decide.
type Range struct {
	Branches []int
	Words    string // "216.2 V to 253 V"
	Meaning  string
	Owned    prove.Range
}

// Answer is what came back. Exactly one of Choice, Typed, Fields or Command is
// used, as the Ask's Kind wants. The Fields of a proof may end at the line where
// a voltage was found: nobody reads on.
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
