package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
)

func TestFaultIsNamedByWholeWordsOfItsCauses(t *testing.T) {
	t.Parallel()
	f := &plant.Fault{Causes: []string{"open-core of valve-core", "burnt"}, Refers: []string{"low-flow"}}
	for cause, want := range map[string]bool{
		"open-core of valve-core":                 true,
		"open-core of valve-core at valve-live":   true,
		"open-core of valve-core-2":               false,
		"open-core of valve":                      false,
		"burnt of lamp":                           true,
		"burnt-contact of lamp":                   false,
		"poor-core of valve-core":                 false,
		"":                                        false,
		"low-flow":                                false,
		"open-core of valve-core calling heat on": true,
	} {
		if f.Is(cause) != want {
			t.Errorf("the cause %q names it: %v, want %v", cause, !want, want)
		}
	}
	if !f.Ends("low-flow") || f.Ends("low") || f.Ends("") {
		t.Error("only its own referral ends it")
	}
}

func TestFaultKnowsWhatItHappensToAndWhetherItIsElectrical(t *testing.T) {
	t.Parallel()
	m := bench(t)
	for _, c := range []struct {
		id, on, words string
		weight        float64
		electrical    bool
	}{
		{"dead of stat", "stat", "the stat does not make", 2, false},
		{"open of lamp", "lamp", "the lamp is burnt open", 3, true},
		{"no-live", "", "the live core is off", 1, true},
	} {
		f := m.Fault(c.id)
		if f == nil {
			t.Fatalf("there is no fault %q", c.id)
		}
		if f.On != c.on || f.Words != c.words || f.Weight != c.weight || f.Electrical != c.electrical {
			t.Errorf("%s: on %q, %q, weight %g, electrical %v", f.ID, f.On, f.Words, f.Weight, f.Electrical)
		}
	}
	if m.Fault("open of stat") != nil {
		t.Error("a fault nobody wrote is found")
	}
}
