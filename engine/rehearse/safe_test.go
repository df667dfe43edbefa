package rehearse

import (
	"strings"
	"testing"
)

// needsDead is a lamp whose tree reaches the dead reading in the control enclosure.
func needsDead() *fake {
	return lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
}

func TestForgottenSupplyIsFoundByTheProof(t *testing.T) {
	t.Parallel()
	m := needsDead()
	m.shut = map[string]string{"control-enclosure": "unit-isolator"}
	r := rehearsed(t, m, Options{Forgotten: true})
	halted := 0
	for _, c := range r.Cases {
		if c.Verdict == Unsafe {
			t.Errorf("%s forgotten: %s", c.Forgotten, c.Why)
		}
		halted += c.Halts
	}
	if halted == 0 {
		t.Error("no proof found the supply that was left on")
	}
}

func TestEnclosureProvedDeadWithVoltsInItIsUnsafe(t *testing.T) {
	t.Parallel()
	m := needsDead()
	m.live = map[string]float64{"control-enclosure": 120} // no line of the form reads it
	c := one(t, m, Options{})
	if c.Verdict != Unsafe || !strings.Contains(c.Why, "120 V") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// 50 V ac is the touch voltage limit of IEC 60364-4-41, 411.3.2.
func TestMeterThatLiftsACaseIsUnsafe(t *testing.T) {
	t.Parallel()
	for lifted, want := range map[float64]Verdict{49: Exact, 51: Unsafe} {
		r := volts(0, 0)
		r.lifted = lifted
		if c := one(t, lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": r}), Options{}); c.Verdict != want {
			t.Errorf("a case lifted to %g V is %s", lifted, c.Verdict)
		}
	}
}

func TestMeterThatMovesThePlantIsCounted(t *testing.T) {
	t.Parallel()
	r := volts(0, 0)
	r.moved = []string{"relay.made"}
	m := lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": r})
	if f := rehearsed(t, m, Options{}).Figures(nil); f.Moved != 1 {
		t.Errorf("moved in %d walks", f.Moved)
	}
}

func TestOhmsReadWhereVoltsStandAreUnsafe(t *testing.T) {
	t.Parallel()
	m := needsDead()
	r := m.answers["f"]["lamp-ohms"]
	r.live = true
	m.answers["f"]["lamp-ohms"] = r
	if c := one(t, m, Options{}); c.Verdict != Unsafe || !strings.Contains(c.Why, "lamp-ohms") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// The plants themselves: whatever is wrong with the smallest of them, and
// whichever of its supplies is left on, nobody is led into danger.
func TestNobodyIsLedIntoDangerOnASimulatedPlant(t *testing.T) {
	t.Parallel()
	for _, forgotten := range []bool{false, true} {
		r, err := Run(embedded(t), Options{Plants: []string{"millrace-small"}, Forgotten: forgotten})
		if err != nil {
			t.Fatal(err)
		}
		halts := 0
		for _, c := range r.Cases {
			halts += c.Halts
			if c.Verdict == Unsafe {
				t.Error(c.Text(true))
			}
		}
		if len(r.Cases) < 100 || forgotten && halts == 0 {
			t.Errorf("%d walks, volts found %d times", len(r.Cases), halts)
		}
	}
}
