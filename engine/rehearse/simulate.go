package rehearse

import (
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// model is a plant that can be simulated, as a rehearsal sees it.
type model interface {
	faults() []*fault
	sweep(seed uint64) []*fault
	twin(f *fault, core string) *fault      // the same on another core; nil for a written one
	subject(f *fault, draw *uint64) subject // nil draw: nominal values
}

// subject is a plant with one fault in it. It is used by one goroutine.
type subject interface {
	be(f *fault, draw *uint64) // another one, in the room it has
	answer(c *trees.BoundCheck, specs []measurements.ModeSpec, s standing) (answered, error)
	act(act string) error
	shows(sign *trees.Sign) bool
	touch(enclosure string, off, calls map[string]bool) (volts float64, at string)
	volts(line safety.FormField, off, calls map[string]bool) float64
	dark(off map[string]bool) bool // the controller's screen
}

// standing is how the plant stands while a check is taken: the devices that
// are off and the plugs that are parted.
type standing struct {
	off       map[string]bool
	unplugged []string
}

// answered is what a check gives on a simulated plant: SI units or °C for each
// probe, +Inf where nothing conducts, or the answer of a look.
type answered struct {
	values  []float64
	answer  string
	moving  bool
	moved   []string // what the meter itself changed
	tripped []string // protection that acts because of the meter
	lifted  float64  // V, the most that the meter lifts a case above what it had
	live    bool     // volts stood where ohms were read
}

// fault is one way in which a plant fails.
type fault struct {
	id, words string
	weight    float64
	is        func(cause string) bool    // a cause that names it
	ends      func(referral string) bool // a referral that is its right end
	right     []string                   // its right ends as a person names them
	hidden    string                     // why it shows no sign
	drawn     bool                       // one of many as severe or more or less so
	of        *plant.Fault
}
