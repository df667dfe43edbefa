package rehearse

import (
	"strings"
	"testing"
)

// A fault of the sweep is the causes of its own core and no others.
func TestSweptFaultIsTheCausesOfItsOwnCore(t *testing.T) {
	t.Parallel()
	_, _, m := simulatedSmall(t)
	swept := 0
	for _, f := range m.sweep(1) {
		if f.of.On != "valve-core" {
			continue
		}
		swept++
		for cause, want := range map[string]bool{"open-core of valve-core": true, "dropping-core of valve-core at valve-live calling hot-water": true,
			"open-core of call-core": false, "stuck of cylinder-valve": false, "open-neutral of valve-neutral-core": false} {
			if f.is(cause) != want {
				t.Errorf("%s is %q: %v", f.id, cause, !want)
			}
		}
		if f.ends("supply-neutral") || f.ends("not-found") {
			t.Errorf("%s ends at a referral of another core", f.id)
		}
		t1, t2 := m.twin(f, "call-core"), m.twin(f, "none-such")
		if t1 == nil || t2 != nil || !t1.is("open-core of call-core") || t1.is("open-core of valve-core") ||
			strings.Fields(t1.id)[0] != strings.Fields(f.id)[0] {
			t.Errorf("the twin of %s on call-core is %v", f.id, t1)
		}
	}
	if swept != 27 {
		t.Errorf("%d faults of valve-core", swept)
	}
	for _, f := range m.faults()[:3] {
		if m.twin(f, "call-core") != nil {
			t.Errorf("%s was written and has a twin", f.id)
		}
	}
}

// drawnGroup is a holder of 10 ohms and a switch of 60, as two draws of a sweep;
// with twins each may have the other's ohms as well.
func drawnGroup(twins bool) *fake {
	m := two(map[string]reply{"lamp-ohms": ohms(10)}, map[string]reply{"lamp-ohms": ohms(60)})
	for _, f := range m.all {
		f.drawn = true
	}
	if twins {
		a, b := broke("burnt holder twin", 1, "lamp-switch", ""), broke("worn switch twin", 1, "lamp-holder", "")
		a.drawn, b.drawn = true, true
		m.twins = map[string]*fault{"burnt holder on diverter": a, "worn switch on diverter": b}
		m.answers[a.id], m.answers[b.id] = m.answers["burnt holder"], m.answers["worn switch"]
		m.shown[a.id], m.shown[b.id] = m.shown["burnt holder"], m.shown["worn switch"]
	}
	return m
}

func TestCheckThatOnlyTellsDrawnOhmsDividesNoGroup(t *testing.T) {
	t.Parallel()
	for twins, want := range map[bool]Verdict{false: Wrong, true: Grouped} {
		for _, c := range rehearsed(t, drawnGroup(twins), Options{Sweep: true}).Cases {
			if c.Verdict != want {
				t.Errorf("twins %v: %s is %s: %s", twins, c.Fault, c.Verdict, c.Why)
			}
		}
	}
}

// A twin that does not show the sign is walked in another tree.
func TestTwinThatShowsAnotherSignStandsForNothing(t *testing.T) {
	t.Parallel()
	m := drawnGroup(true)
	delete(m.shown, "burnt holder twin")
	delete(m.shown, "worn switch twin")
	if c := rehearsed(t, m, Options{Sweep: true}).Cases[0]; c.Verdict != Wrong {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

// Readings that lie in between each other are drawn from one range, near though
// none of them is to another.
func TestDrawnReadingsInBetweenEachOtherDivideNoGroup(t *testing.T) {
	t.Parallel()
	m := two(map[string]reply{"lamp-ohms": ohms(10)}, map[string]reply{"lamp-ohms": ohms(25)})
	third := broke("burnt holder, worse", 1, "lamp-holder", "")
	m.all = append(m.all, third)
	m.answers[third.id] = map[string]reply{"lamp": {answer: "dark"}, "lamp-fed": volts(231, 231), "lamp-ohms": ohms(60)}
	m.shown[third.id] = []string{"lamp-dark"}
	for drawn, want := range map[bool]Verdict{false: Wrong, true: Grouped} {
		for _, f := range m.all {
			f.drawn = drawn
		}
		for _, c := range rehearsed(t, m, Options{Sweep: drawn}).Cases {
			if c.Verdict != want {
				t.Errorf("drawn %v: %s is %s: %s", drawn, c.Fault, c.Verdict, c.Why)
			}
		}
	}
}
