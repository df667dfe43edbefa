package trees_test

import (
	"regexp"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/trees"
)

// measuring are words of somebody with an instrument.
var measuring = regexp.MustCompile(`(?i)\b(insulation test\w*|clamp|volts?|ohms?|amps?|mA|megohms?|terminals?)\b`)

// A fact has one meaning: the plants differ in the answer only.
func TestFactsAreAskedTheSameOnEveryPlant(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	first := set.Plants["millrace-small"]
	heat := map[string]string{"millrace-small": "controller", "millrace-large": "linked", "millrace-spur": "end-switches",
		"millrace-volt-free": "volt-free"}
	for id, p := range set.Plants {
		for i, f := range p.Facts {
			if f.ID == "heat-call" && f.Is != heat[id] {
				t.Errorf("%s: the heat call is %s; expected %s", id, f.Is, heat[id])
			}
			if f.Say == "" || !slices.ContainsFunc(f.Options, func(o trees.FactOption) bool { return o.ID == "unknown" }) {
				t.Errorf("%s: the fact %s needs words for the phone and an answer for those who cannot say", id, f.ID)
			}
			f.Is = first.Facts[i].Is
			if diff := cmp.Diff(first.Facts[i], f); diff != "" {
				t.Errorf("%s: the fact %s is asked otherwise (-small +this)\n%s", id, f.ID, diff)
			}
		}
	}
}

// Who may not measure is not told to: common practice, no source.
func TestARepairThatAnybodyMakesAsksForNoMeasurement(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	plain := []string{"look", "controls", "settings", "switches", "gauge", "pipes", "water", "fit-mechanical", "sensor-plug"}
	for id, c := range set.Causes {
		beyond := slices.ContainsFunc(c.Remedy.Asks, func(a string) bool { return !slices.Contains(plain, a) })
		if beyond || c.Remedy.Dead || len(c.Remedy.Inside) > 0 {
			continue
		}
		if c.Remedy.Say == "" {
			t.Errorf("%s: whoever may do it has no plain words for it", id)
		}
		if w := measuring.FindString(c.Remedy.Do); w != "" {
			t.Errorf("%s: its repair says %q to people who measure nothing", id, w)
		}
	}
}

// A part is ordered by its whole line: one that was cut at a comma begins in
// the middle of a sentence.
func TestPartsAreNotCutAtTheirCommas(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	cut := regexp.MustCompile(`^(with|or|of|if|and|travel|rating|sleeved|for|each)\b`)
	for id, c := range set.Causes {
		for _, part := range c.Remedy.Parts {
			if cut.MatchString(part) {
				t.Errorf("the cause %s orders %q; quote the line it was cut from", id, part)
			}
		}
	}
}
