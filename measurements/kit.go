package measurements

import (
	"errors"
	"fmt"
)

// Instrument is one meter in the bag.
type Instrument struct {
	ID         string     `json:"id"`
	Name       string     `json:"name"`                 // by function, as a person would call it
	Calibrated string     `json:"calibrated,omitempty"` // date of the last calibration as told, for the sheet
	Modes      []ModeSpec `json:"modes"`
}

// Spec finds the instrument's mode for a quantity by what it acts as.
func (i Instrument) Spec(m Mode, q Quantity) (ModeSpec, bool) {
	for _, s := range i.Modes {
		if s.ActsAs() == m && s.Quantity == q {
			return s, true
		}
	}
	return ModeSpec{}, false
}

// Kit is the instruments at hand.
type Kit struct {
	Instruments []Instrument `json:"instruments"`
	ProvingUnit bool         `json:"proving_unit"` // something to prove a voltage tester on, before and after
}

// Find gives the first instrument with a mode that acts as m for q. A low
// impedance mode of 300 kΩ is found as high impedance, never as low.
func (k Kit) Find(m Mode, q Quantity) (Instrument, ModeSpec, bool) {
	for _, i := range k.Instruments {
		if s, ok := i.Spec(m, q); ok {
			return i, s, true
		}
	}
	return Instrument{}, ModeSpec{}, false
}

// Instrument finds an instrument by id.
func (k Kit) Instrument(id string) (Instrument, bool) {
	for _, i := range k.Instruments {
		if i.ID == id {
			return i, true
		}
	}
	return Instrument{}, false
}

// Validate reports everything wrong with a kit, one line each, naming instrument,
// mode and field; nil when it can be used.
func (k Kit) Validate() error {
	var problems []error
	seen := map[string]bool{}
	for n, i := range k.Instruments {
		name := fmt.Sprintf("instrument %d", n+1)
		switch {
		case i.ID == "":
			problems = append(problems, fmt.Errorf("%s: id is missing: give it a short name", name))
		case seen[i.ID]:
			problems = append(problems, fmt.Errorf("%s: id %q is used twice: give each its own", name, i.ID))
		default:
			name = fmt.Sprintf("instrument %q", i.ID)
		}
		seen[i.ID] = true
		if len(i.Modes) == 0 {
			problems = append(problems, fmt.Errorf("%s: modes is empty: a meter needs at least one", name))
		}
		for _, s := range i.Modes {
			for _, err := range s.problems() {
				problems = append(problems, fmt.Errorf("%s: %w", name, err))
			}
		}
	}
	return errors.Join(problems...)
}

func (s ModeSpec) problems() []error {
	var found []error
	add := func(format string, args ...any) {
		found = append(found, fmt.Errorf("mode %q: "+format, append([]any{s.Mode}, args...)...))
	}
	switch {
	case !s.Mode.Known():
		add("there is no such mode: see the list in the documentation of meters")
	case !s.Quantity.Known():
		add("quantity %q is not one of %v", s.Quantity, Quantities())
	case !s.Mode.Reads(s.Quantity):
		add("cannot read %s; %s is read by %v", s.Quantity, s.Quantity, ModesFor(s.Quantity))
	}
	if s.Quantity.Unit() == "V" && !(s.InputOhms > 0) {
		add("input_ohms is missing: ohms of the input, such as 10000000 or 3000")
	}
	if !(s.Accuracy.Percent >= 0) || !(s.Accuracy.Counts >= 0) {
		add("accuracy is below zero: expected percent of reading and counts, such as 1 and 3")
	}
	return append(found, s.rangeProblems()...)
}

func (s ModeSpec) rangeProblems() []error {
	if len(s.Ranges) == 0 {
		return []error{fmt.Errorf("mode %q: ranges is empty: give at least one, with max and resolution", s.Mode)}
	}
	var found []error
	last := 0.0
	for n, r := range s.Ranges {
		if !(r.Max > last) {
			found = append(found, fmt.Errorf("mode %q: range %d: max %g is not above the one before (%g)", s.Mode, n+1, r.Max, last))
		}
		if !(r.Resolution > 0) || r.Resolution > r.Max {
			found = append(found, fmt.Errorf("mode %q: range %d: resolution %g: expected above 0 and at most max", s.Mode, n+1, r.Resolution))
		}
		last = r.Max
	}
	return found
}
