package trees_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/trees"
)

// isolation says which supplies reach an enclosure and, for each, what keeps
// it out, the nearest first: "unit: unit-isolator unit-breaker".
func isolation(p *trees.Plant, enclosure string) []string {
	var all []string
	for _, s := range p.Reaching(enclosure) {
		words := []string{s + ":"}
		for _, d := range p.Isolators(s, enclosure) {
			words = append(words, d.ID)
		}
		all = append(all, strings.Join(words, " "))
	}
	return all
}

// The Millrace Row retrofit is invented: the expected lists follow from what
// each plant says of itself.
func TestSuppliesReachWhatTheyAreWiredTo(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	const unit = "unit: unit-isolator unit-breaker"
	const booster = "booster: booster-isolator booster-breaker"
	const controls = "controls: controls-spur house-breaker"
	const immersion = "immersion: immersion-switch immersion-breaker"
	for _, c := range []struct {
		plant, enclosure string
		supplies         []string
	}{
		{"millrace-small", "control-enclosure", []string{booster, unit}},
		{"millrace-small", "booster-head", []string{booster}},
		{"millrace-small", "unit-isolator-box", []string{"unit: unit-breaker"}},
		{"millrace-small", "limit-box", []string{unit}},
		{"millrace-large", "control-enclosure", []string{unit}},
		{"millrace-large", "receiver-box", []string{unit}},
		{"millrace-large", "zone-pump-box", []string{unit}},
		{"millrace-large", "booster-box", []string{booster, unit}},
		{"millrace-spur", "control-enclosure", []string{controls, unit}},
		{"millrace-spur", "booster-box", []string{booster, controls, unit}},
		{"millrace-spur", "spur-box", []string{"controls: house-breaker", unit}},
		{"millrace-spur", "centre-box", []string{controls, unit}},
		{"millrace-spur", "upstairs-stat-box", []string{controls, unit}},
		{"millrace-spur", "zone-pump-box", []string{controls, unit}},
		{"millrace-spur", "controller-base", nil},
		{"millrace-volt-free", "control-enclosure", []string{booster, unit}},
		{"millrace-volt-free", "receiver-box", []string{controls}},
		{"millrace-volt-free", "immersion-head", []string{immersion}},
		{"millrace-volt-free", "immersion-box", []string{"immersion: immersion-breaker"}},
		{"millrace-volt-free", "diverter-box", []string{unit}},
	} {
		if got := isolation(plants[c.plant], c.enclosure); !slices.Equal(got, c.supplies) {
			t.Errorf("%s, %s: reached and kept out by %q; expected %q", c.plant, c.enclosure, got, c.supplies)
		}
	}
}

// With controls on a spur of their own, live and neutral at the board come
// through two RCDs: a meter that loads would trip both.
func TestHeatCallCrossesRCDsOnlyWithItsOwnSpur(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	for plant, same := range map[string]bool{"millrace-large": true, "millrace-spur": false} {
		if got := plants[plant].SameRCD("heat-call", "neutral"); got != same {
			t.Errorf("%s: heat call and board neutral on one RCD: %v; expected %v", plant, got, same)
		}
	}
}

// The breaker pairs are common practice, no source.
func TestBreakersComeInTheTwoUsualPairs(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	for plant, pair := range map[string][2]string{
		"millrace-small": {"C16", "B16"}, "millrace-large": {"C40", "B32"}, "millrace-spur": {"C16", "B16"}, "millrace-volt-free": {"C16", "B16"}} {
		p := plants[plant]
		if got := [2]string{p.Supply("unit").Breaker, p.Supply("booster").Breaker}; got != pair {
			t.Errorf("%s: breakers %v; expected %v", plant, got, pair)
		}
	}
}

// Common practice, no source: nothing is wired to the control half of a double
// cylinder thermostat, nor to the end switch of a head that needs none.
func TestUnusedContactsTouchNothing(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	for id, p := range plants {
		for _, point := range []string{"control-half-in", "control-half-out", "parked-grey", "parked-orange"} {
			if p.IsLive(point) {
				t.Errorf("%s: mains reaches %s", id, point)
			}
		}
	}
}

// A volt-free contact has no voltage of its own and the board senses at extra-low
// voltage: no mains may be wired to either end of the pair.
func TestMainsReachesNeitherEndOfAVoltFreeCall(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	for _, point := range []string{"call-a", "call-b", "contact-com", "contact-no"} {
		if plants["millrace-volt-free"].IsLive(point) {
			t.Errorf("mains reaches %s", point)
		}
	}
}

// Either zone alone makes the call: the way from the spur's live through each
// end switch leads to the heat call without passing the other's.
func TestEachZoneMakesTheCallByItsOwnEndSwitch(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	p := plants["millrace-spur"]
	for _, zone := range []string{"downstairs", "upstairs"} {
		var over []string
		for _, l := range p.Chain(zone + "-switch-run").Links {
			over = append(over, l.Over.ID)
		}
		if want := []string{zone + "-grey-link", zone + "-end-switch.in"}; !slices.Equal(over, want) {
			t.Errorf("%s: the run to its orange passes %q; expected %q", zone, over, want)
		}
		if l := p.Core(zone + "-orange-link"); l == nil || l.To != "centre-call" {
			t.Errorf("%s: its orange does not lead to the wiring centre's heat call", zone)
		}
	}
}

// A dead supply sends a spring-return diverter home, so it has one live only;
// the other type keeps a permanent live beside its switch wire.
func TestOnlyADrivenDiverterHasAPermanentLive(t *testing.T) {
	t.Parallel()
	_, plants := embedded(t)
	for id, p := range plants {
		if got, want := p.Chain("diverter-live-run") != nil, id != "millrace-volt-free"; got != want {
			t.Errorf("%s: a permanent live at the diverter: %v; expected %v", id, got, want)
		}
	}
}
