package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/walk"
	"faultwalk/measurements"
)

// kitOf is the default kit with only some of its instruments, changed by edit.
func kitOf(edit func(i *measurements.Instrument), ids ...string) walk.Library {
	lib := theHouse().lib
	kit := measurements.DefaultKit()
	lib.Kit = measurements.Kit{ProvingUnit: true}
	for _, in := range kit.Instruments {
		if slices.Contains(ids, in.ID) {
			if edit != nil {
				edit(&in)
			}
			lib.Kit.Instruments = append(lib.Kit.Instruments, in)
		}
	}
	return lib
}

// low finds the low impedance mode of a multimeter and changes or drops it.
func low(input float64) func(i *measurements.Instrument) {
	return func(i *measurements.Instrument) {
		i.Modes = slices.Clone(i.Modes)
		for n := range i.Modes {
			if i.Modes[n].Mode == measurements.LowImpedance {
				i.Modes[n].InputOhms = input
			}
		}
		if input == 0 {
			i.Modes = slices.DeleteFunc(i.Modes, func(s measurements.ModeSpec) bool { return s.Mode == measurements.LowImpedance })
		}
	}
}

// liveToNeutral plays to the board's live to neutral reading with a kit.
func liveToNeutral(t *testing.T, lib walk.Library) *player {
	t.Helper()
	p := playWith(t, lib, "gb", with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	return p.untilAsk("the board's live", func(a *walk.Ask) bool { return a.Check == "supply-at at permanent-live" || a.ID == "beyond" })
}

func TestModeFollowsThePair(t *testing.T) {
	t.Parallel()
	p := liveToNeutral(t, theHouse().lib)
	if r := p.job.Ask().Reading; r.Mode != "low impedance" {
		t.Errorf("live to neutral of one RCD is read on %s, expected low impedance", r.Mode)
	}
	p.typed("0.4")
	if r := p.job.Ask().Reading; r.As != "le" || r.Mode != "high impedance" {
		t.Errorf("live to earth is read on %s, expected high impedance", r.Mode)
	}
	p = play(t, with(engineer("millrace-spur", "no-heat-demand"), callouts[8].wrong)).until("arrives at heat-call calling heat")
	if r := p.job.Ask().Reading; r.Mode != "high impedance" {
		t.Errorf("a call of another RCD is read on %s, expected high impedance", r.Mode)
	}
	if p.command("other meter", ""); p.job.Ask().Reading.Mode != "two-pole unloaded" {
		t.Errorf("with the other meter on %s, expected two-pole unloaded", p.job.Ask().Reading.Mode)
	}
}

// 300 kΩ leaves most of a ghost standing, whatever the meter calls the mode
// (handbook 3.0).
func TestLowImpedanceOf300KilohmCountsAsHigh(t *testing.T) {
	t.Parallel()
	p := liveToNeutral(t, kitOf(low(300e3), "multimeter", "two-pole"))
	for range 3 {
		if r := p.job.Ask().Reading; r.Mode != "two-pole loaded" {
			t.Errorf("live to neutral is read on %s with the %s", r.Mode, r.Meter)
		}
		if slices.Contains(offered(p.job.Ask().Commands), "other meter") {
			p.command("other meter", "")
		}
	}
}

func TestWithoutLowImpedanceTheLoadButtonIsUsed(t *testing.T) {
	t.Parallel()
	for name, lib := range map[string]walk.Library{"a meter without it": kitOf(low(0), "multimeter", "two-pole"), "a tester alone": kitOf(nil, "two-pole")} {
		p := liveToNeutral(t, lib)
		a := p.job.Ask()
		if a.Reading == nil || a.Reading.Mode != "two-pole loaded" || !strings.Contains(p.body(), "load button in") {
			t.Fatalf("%s: it asks %s %q\n%s", name, a.ID, a.Title, p.body())
		}
		// nought and a whole live are told apart by such a tester, too
		p.typed("0")
		if a := p.job.Ask(); a.Reading == nil || a.Reading.As != "le" || a.Reading.Mode == "two-pole loaded" {
			t.Errorf("%s: after 0 V it asks %q", name, a.Title)
		}
		if p.typed("0"); p.job.Ask().ID == "again" {
			t.Errorf("%s: nought on both does not decide", name)
		}
	}
}

func TestWithNeitherTheStepIsNotAvailable(t *testing.T) {
	t.Parallel()
	lib := kitOf(low(0), "multimeter", "two-pole")
	tester := &lib.Kit.Instruments[1]
	tester.Modes = slices.DeleteFunc(slices.Clone(tester.Modes), func(s measurements.ModeSpec) bool { return s.Mode == measurements.TwoPoleLoaded })
	p := liveToNeutral(t, lib)
	if a := p.job.Ask(); a.ID != "beyond" || a.Reading != nil {
		t.Errorf("without any mode that loads it asks %s %q", a.ID, a.Title)
	}
}

// A multimeter proves nothing dead; without a proving unit neither does a tester.
func TestWithoutAProvedTesterNoCoverComesOff(t *testing.T) {
	t.Parallel()
	for name, says := range map[string]map[string]string{"no tester": {"instruments": "1"}, "no proving unit": {"tester": "no|not known"}} {
		p := play(t, with(engineer("millrace-small", "no-heat-demand"), with(says, map[string]string{"demand-shows": "none"})))
		p.until("beyond")
		for _, a := range p.asks {
			if strings.HasPrefix(a.Title, "Covers off") {
				t.Errorf("%s: a cover comes off", name)
			}
		}
	}
}
