package plant_test

import (
	"fmt"
	"math/cmplx"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/engine/plant"
	"faultwalk/measurements"
)

// The last rows of the handbook's section 4.5 are estimates with two conductors:
// "order of size, not decimals". They are held on the small plant, whose 10 m
// cable ends at the load that each row names, by 15 %.

// electronics is the small plant with so many ohms on its call in the place of
// the coil, two filters of 10 nF to its case, and one fault.
func electronics(tb testing.TB, ohms, do string) *plant.Subject {
	m := bench(tb, "{id: ohms, is: 1000, tolerance: 0.1}", "{id: ohms, is: "+ohms+"}",
		"    - {id: winding,", "    - {id: live-filter, from: live, to: earth, farads: 1e-8}\n    - {id: neutral-filter, from: neutral, to: earth, farads: 1e-8}\n    - {id: winding,",
		"{live: call, neutral: neutral}", "{live: call, neutral: neutral, earth: earth}",
		"do: [open feed-live@to]", "do: [lock device breaker tripped to none, "+do+"]")
	return m.New(m.Fault("no-live"), nil)
}

// bare is the same without filters.
func bare(tb testing.TB, ohms, do string) *plant.Subject {
	m := bench(tb, "{id: ohms, is: 1000, tolerance: 0.1}", "{id: ohms, is: "+ohms+"}", "do: [open feed-live@to]", "do: [lock device breaker tripped to none, "+do+"]")
	return m.New(m.Fault("no-live"), nil)
}

func TestBrokenNeutralsAreThoseOfTheHandbook(t *testing.T) {
	t.Parallel()
	const broken = "open feed-neutral@from"
	for _, s := range []struct {
		signature
		of *plant.Subject
	}{
		{signature{condition: "20 kΩ of electronics left on it", from: "call", to: "neutral", handbook: readings{1.4, 1.3, 0.4},
			ours: readings{1.4, 1.3, 0.18}, why: "the 68 µA that make the table's 1.4 V over 20 kΩ make 0.18 V over those and 3 kΩ"}, bare(t, "20000", broken)},
		{signature{condition: "20 kΩ of electronics left on it", from: "neutral", to: "earth", handbook: readings{240, 225, 31}}, bare(t, "20000", broken)},
		{signature{condition: "300 kΩ left on it", from: "call", to: "neutral", handbook: readings{20, 10, 0.2}}, bare(t, "300000", broken)},
		{signature{condition: "300 kΩ left on it", from: "neutral", to: "earth", handbook: readings{230, 120, 2}}, bare(t, "300000", broken)},
		{signature{condition: "nothing on it", from: "call", to: "neutral", handbook: readings{112, 20, 0.2}}, bare(t, "20000", broken+", open lamp/winding")},
		{signature{condition: "nothing on it", from: "neutral", to: "earth", handbook: readings{112, 20, 0.2}}, bare(t, "20000", broken+", open lamp/winding")},
	} {
		s.call = "heat"
		s.hold(t, s.of, 0.15)
	}
}

func TestBrokenEarthsAreThoseOfTheHandbook(t *testing.T) {
	t.Parallel()
	const broken, leak = "open feed-earth@to", ", add call earth 20000 ohms"
	for _, s := range []struct {
		signature
		of *plant.Subject
	}{
		{signature{condition: "two filters", from: "call", to: "earth", handbook: readings{119, 106, 2}}, electronics(t, "20000", broken)},
		{signature{condition: "two filters", from: "neutral", to: "earth", handbook: readings{119, 106, 2}}, electronics(t, "20000", broken)},
		{signature{condition: "and a leak of 20 kΩ", from: "call", to: "earth", handbook: readings{15, 14, 2}}, electronics(t, "20000", broken+leak)},
		{signature{condition: "and a leak of 20 kΩ", from: "neutral", to: "earth", handbook: readings{238, 224, 31}}, electronics(t, "20000", broken+leak)},
	} {
		s.call = "heat"
		s.hold(t, s.of, 0.15)
	}
}

// TestMeterLiftsACaseWithoutEarth: the case of the same electronics against true
// earth while the meter sits from live to it.
func TestMeterLiftsACaseWithoutEarth(t *testing.T) {
	t.Parallel()
	s := electronics(t, "20000", "open feed-earth@to")
	s.Stand(plant.Standing{Calls: map[string]bool{"heat": true}})
	at := func(id string) network.Node { n, _ := s.Model().Node(id); return n }
	for ohms, want := range map[float64]float64{10e6: 121, 300e3: 155, 3e3: 240} {
		v := s.Solved().Load(at("call"), at("earth"), complex(1/ohms, 0), 1/ohms)
		near(t, fmt.Sprintf("the case under %g Ω", ohms), cmplx.Abs(v.AC(at("earth"))), want, within(want, 0.05))
		if r := read(t, s, measurements.ACVolts, "call", "earth", ohms, "heat"); ohms < 1e6 && !(r.LiftsTo > want*0.95-1) {
			t.Errorf("%g Ω: the reading says that the case is lifted to %g V, want %g", ohms, r.LiftsTo, want)
		}
	}
}
