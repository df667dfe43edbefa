package rehearse

import (
	"math"
	"slices"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
)

// A plant that is drawn has other volts than the nominal one, and is walked by
// them: here four fifths of 231 V, which is no longer sound.
func TestDrawnPlantIsWalkedByItsOwnVolts(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "lamp-holder", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(10)})
	m.share = 0.8
	for noise, want := range map[int]string{0: "cause lamp-holder of diverter | lamp-switch of diverter", 1: "refer intermittent"} {
		if c := one(t, m, Options{Noise: noise}); c.End != want {
			t.Errorf("with %d draws it ends at %s, expected %s", noise, c.End, want)
		}
	}
}

// The simulated plants: a draw is not the nominal plant, nor another draw, and
// stays what it is.
func TestDrawOfASimulatedPlantDiffersFromNominal(t *testing.T) {
	t.Parallel()
	set, p, m := simulatedSmall(t)
	read := func(s subject, id string) float64 {
		check, problems := set.BindCheck(id, p)
		if err := problems.Err(); err != nil {
			t.Fatal(err)
		}
		got, err := s.answer(check, nil, standing{})
		if err != nil {
			t.Fatal(err)
		}
		return got.values[0]
	}
	one, two := uint64(1), uint64(2)
	for _, id := range []string{"supply-at at permanent-live", "motor-ohms of cylinder-valve", "sensor-ohms of cylinder-sensor"} {
		nominal, first := read(m.subject(nil, nil), id), read(m.subject(nil, &one), id)
		used := m.subject(nil, nil)
		used.be(nil, &one)
		if second := read(m.subject(nil, &two), id); nominal == first || first == second || first != read(used, id) {
			t.Errorf("%s: nominal %g, drawn %g and %g, drawn in used room %g", id, nominal, first, second, read(used, id))
		}
		// By far more than the joints on the way would, and by no more than the widest tolerance of these.
		if share := math.Abs(first/nominal - 1); share < 1e-3 || share > 0.3 {
			t.Errorf("%s: a draw strays %.2g %% from nominal", id, 100*share)
		}
	}
}

// The first tree reads the feed sound; the second resets the plant and then has
// to read it anew.
func TestResetVoidsWhatIsKnownOfThePlant(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	m.shown["f"] = []string{"lamp-dark", "lamp-trips"}
	m.after = map[string]reply{"lamp-fed": volts(0, 0)}
	r := rehearsed(t, m, Options{})
	ends := map[string]string{}
	for _, c := range r.Cases {
		ends[c.Symptom] = c.End
	}
	if ends["lamp-dark"] != "cause lamp-filament" || ends["lamp-trips"] != "cause lamp-live" {
		t.Errorf("the walks end at %v; expected the filament before the reset and the feed after it", ends)
	}
}

// What was reset in one walk is as it was for the next person.
func TestResetOfOneWalkIsGoneInTheNext(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	m.shown["f"] = []string{"lamp-dark", "lamp-trips"}
	m.after = map[string]reply{"lamp-fed": volts(0, 0)}
	m.answers["f"]["lamp-reset"] = reply{answer: "trips"}
	m.after["lamp-reset"] = reply{answer: "holds"} // a second reset would hold, and find no feed
	kit := measurements.DefaultKit()
	r := rehearsed(t, m, Options{Persons: []Person{Engineer(kit), {"second", equipped("electrical", kit)}}, Symptoms: []string{"lamp-trips"}})
	for _, c := range r.Cases {
		if len(r.Cases) != 2 || c.End != "refer intermittent" {
			t.Errorf("%s of %d walks ends at %s", c.Person, len(r.Cases), c.End)
		}
	}
}

// A tester reads volts and no ohms, whatever else the rehearsal's kit holds.
func TestPersonReadsWithTheirOwnInstrumentsOnly(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	tester, _, ok := kit.Find(measurements.TwoPoleLoaded, measurements.ACVolts)
	if !ok {
		t.Fatal("the kit has no two-pole tester")
	}
	p := Engineer(kit)
	p.Hands.Kit = []string{tester.ID}
	m := lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	c := one(t, m, Options{Persons: []Person{p}})
	if c.Verdict != Referred {
		t.Errorf("without an ohmmeter the ohms are read: %s, %s", c.Verdict, c.End)
	}
	for at := c.node; at != nil; at = at.before {
		for _, body := range at.bodies {
			if b, ok := body.(*journal.Read); ok && slices.ContainsFunc(b.Values, func(v journal.Value) bool { return v.Meter != tester.ID }) {
				t.Errorf("%s is read with %v, in hands that hold %s", b.Check, b.Values, tester.ID)
			}
		}
	}
}

func TestOnlyAHouseholderHoldsNoInstrument(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	for _, p := range Everyone(kit) {
		if empty := len(held(kit, p).Instruments) == 0; empty != (p.Hands.Kind == "householder") || empty == p.Hands.ProvingUnit {
			t.Errorf("%s holds %d instruments, proving unit %v", p.Name, len(held(kit, p).Instruments), p.Hands.ProvingUnit)
		}
	}
}
