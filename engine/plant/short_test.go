package plant_test

import (
	"strings"
	"testing"
)

// A fuse of 3 or 5 A before a short of 2 ohm lets more than a hundred amperes
// pass: it goes first, its breaker of 16 A or more stays, and the glass shows it
// (common practice, no source).
func TestShortedLoadTakesItsFuseAndTheFuseShowsIt(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		calls, found := []string{}, 0
		for _, c := range m.Plant.Calls {
			calls = append(calls, c.ID)
		}
		for _, f := range m.Faults() {
			if !strings.HasPrefix(f.ID, "shorted of ") || strings.HasSuffix(f.ID, "-sensor") {
				continue
			}
			found++
			s := m.New(f, nil)
			silvered := shows(s, `part("control-fuse").blown and part("control-fuse").trace == "silvered" or has("controls-fuse")
				and part("controls-fuse").blown and part("controls-fuse").trace == "silvered"`, calls...)
			if !silvered || shows(s, `device("unit-breaker").tripped != "none" or has("controls-fuse") and device("house-breaker").tripped != "none"`, calls...) {
				t.Errorf("%s, %s: no fuse is silvered, or a breaker tripped", m.Plant.ID, f.ID)
			}
		}
		if found < 4 {
			t.Errorf("%s: %d shorted loads, expected its valves, its diverter and its pump", m.Plant.ID, found)
		}
	}
}

// What blew by itself shows a gap.
func TestFuseThatBlewByItselfShowsAGap(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		if s := m.New(m.Fault("blown of control-fuse"), nil); !shows(s, `part("control-fuse").blown and part("control-fuse").trace == "gap"`) {
			t.Errorf("%s: the fuse is not blown with a gap", m.Plant.ID)
		}
	}
}
