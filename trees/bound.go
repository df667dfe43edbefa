package trees

import (
	"faultwalk/measurements"
	"faultwalk/trees/strict"
)

// The three states a check or a remedy may need. They are derived from what is
// measured and where; an author may only demand more.
const (
	Outside = "outside" // no mains enclosure is reached into
	DeadWay = "dead"    // every mains enclosure reached into is proved dead
	Live    = "live"    // mains enclosures stand open and the supplies are on
)

// Graph is one symptom bound to one plant: flat, every name resolved, nothing
// left to look up. Proof, walk and rehearsal all use it.
type Graph struct {
	Symptom *Symptom
	Plant   *Plant
	Start   Target
	Steps   map[string]*Bound
	Order   []string // step paths as written, for stable listings
	Cleared *BoundCheck
	Visited map[*Step]bool // the steps as written that something leads to
	Held    map[*Step]bool // of those, the ones whose `if` holds on this plant
	checks  map[string]*BoundCheck
	causes  map[string]*BoundCause
}

// Bound is one step of a graph. Path is its id: symptom/step, and inside a
// routine symptom/step/step.
type Bound struct {
	Path      string
	Pos       strict.Pos
	Check     *BoundCheck
	Branches  []*BoundBranch
	Otherwise Target // where it leads when skipped or not possible; zero: a referral
	Dead      string // path of the step that answers the same question dead
	Why       string
	Group     string // the routine instance or split it belongs to: its covers come off together
	Chain     string // the chain it halves, if any
}

// Target is where a branch leads; exactly one field is set.
type Target struct {
	Go     string
	Causes []*BoundCause
	Refer  *Referral
	Pass   string
}

// BoundBranch is one branch of a step, with the condition as written.
type BoundBranch struct {
	Pos     strict.Pos
	If      strict.Text
	Answers []string
	Else    bool
	Stop    *Stop // a row that ends the job wherever it is met
	Meaning string
	Untaken string // why nothing takes it; empty: something must
	To      Target
}

// Need is what a check or a remedy asks of the world, derived.
type Need struct {
	Power      string   // Outside, DeadWay or Live
	Enclosures []string // mains enclosures reached into, sorted
	Covers     []string // other enclosures reached into (extra-low voltage only)
	Unplugged  []string // exactly these plugs are off
	Calls      map[string]bool
	For        float64  // minutes in that state
	Powered    bool     // every supply as found, none isolated by us
	Asks       []string // capabilities, derived and demanded, sorted
}

// Called says whether something has to be called: a call that must only be absent
// is absent with every supply off as well.
func (n Need) Called() bool {
	for _, on := range n.Calls {
		if on {
			return true
		}
	}
	return false
}

// BoundProbe is one reading to take: where, in which modes, best first. To is
// nil for a reading at one place.
type BoundProbe struct {
	As       string
	From, To *Point
	Modes    []string
	Earth    bool     // one side is earth or a case
	Joined   []Joined // clipped to From for the reading
	// FromSide and ToSide are the part or core whose end the place was written
	// as ("$of.live"): with its plug parted or its end lifted the probe is on
	// its side. Empty for a point: the probe is on the wiring's.
	FromSide, ToSide string
	Levels           []Level // of this pair of points, of ac volts; none where they were not worked out
}

// Joined is a place that a clip joins to another for a reading. Side is as the
// sides of a probe.
type Joined struct {
	At   *Point
	Side string
}

// BoundCheck is a check with its parameters filled in. ID is its instance
// text, used everywhere: "driven at limit-out calling hot-water".
type BoundCheck struct {
	ID                         string
	Check                      *Check // as written: Minutes, Once, Scale, Source
	Look                       string
	Quantity                   measurements.Quantity
	Probes                     []BoundProbe
	Answers                    []Answer // each When filled in
	Lifted                     []string // parts and cores whose ends are off, sorted
	Does                       []string // acts that move the plant for good
	Need                       Need
	Expect                     strict.Text
	Uses                       map[string]*BoundCheck
	Where, How, Why, Else, Say string
	Good                       strict.Text
}

// BoundCause is a cause with its parameters filled in; ID is its instance text.
type BoundCause struct {
	ID              string
	Cause           *Cause
	Words           string
	Behind          string
	Rivals          []*BoundCause // one level: their own rivals are nil
	Confirm         *BoundConfirm
	Remedy          BoundRemedy
	Retest          *BoundCheck
	Customer, Night string
}

// BoundConfirm is the second reading of a cause, bound.
type BoundConfirm struct {
	Check   *BoundCheck
	If      strict.Text
	Rival   string // in words
	RivalID string // its instance text; empty where it names none on this plant
}

// BoundRemedy is a remedy, bound, with what it needs.
type BoundRemedy struct {
	Do, Say string
	Parts   []string
	Need    Need
}
