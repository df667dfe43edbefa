package walk

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// What callers say, and what they mean by it: common practice, no source.
func TestWhatACallerSaysFindsTheSymptom(t *testing.T) {
	t.Parallel()
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	for said, want := range map[string]string{
		"tank cold rads hot":                                  "cylinder-stays-cold",
		"no hot water but the heating is fine":                "cylinder-stays-cold",
		"the house is freezing and it shows no demand":        "no-heat-demand",
		"the screen is blank":                                 "controller-blank",
		"screen keeps rebooting":                              "controller-blank",
		"rcd trips when hot water comes on":                   "rcd-trips",
		"fuse keeps blowing":                                  "fuse-blows",
		"communication error with the outdoor unit":           "link-lost",
		"low flow warning":                                    "low-flow",
		"screen says minus forty degrees":                     "absurd-temperature",
		"the immersion does not heat":                         "booster-cold",
		"fan unit outside is dead but the screen is on":       "unit-dead",
		"pressure keeps dropping":                             "pressure-odd",
		"works on boost but not on the timer":                 "not-by-schedule",
		"starts and stops every few minutes":                  "short-cycling",
		"heat pump running with nothing calling":              "runs-uncalled",
		"water is scalding hot":                               "water-too-hot",
		"stuck on hot water, heating never comes back":        "stuck-in-hot-water",
		"radiators get warm when only the hot water is on":    "radiators-warm-in-hot-water",
		"electricity bill doubled, the booster is always on":  "booster-runs-on",
		"it runs all day and the rooms never get warm enough": "not-warm-enough",
		"outdoor unit runs and the radiators stay cold":       "radiators-cold",
	} {
		heard := Hear(set, said)
		at := slices.IndexFunc(heard, func(h Heard) bool { return h.Symptom == want })
		if at < 0 || at > 2 {
			var first []string
			for _, h := range heard[:min(3, len(heard))] {
				first = append(first, h.Symptom+" ("+h.Because+")")
			}
			t.Errorf("%q: %s is at %d; first: %s", said, want, at+1, strings.Join(first, ", "))
		}
	}
}

func TestWordsThatSayNothingFindNothing(t *testing.T) {
	t.Parallel()
	set, _ := trees.Embedded()
	for _, said := range []string{"", "   ", "is it the", "qqqq zzzz"} {
		if heard := Hear(set, said); len(heard) > 0 {
			t.Errorf("%q is heard as %s", said, heard[0].Symptom)
		}
	}
}

func TestSlipOfTheKeyboardIsHeardAsTheNearestWord(t *testing.T) {
	t.Parallel()
	set, _ := trees.Embedded()
	for said, want := range map[string]string{"scren blnak": "controller-blank", "presure keeps droping": "pressure-odd"} {
		heard := Hear(set, said)
		if len(heard) == 0 || heard[0].Symptom != want {
			t.Errorf("%q is heard as %v, expected %s first", said, heard, want)
		}
	}
}

func TestTheContraryOfWhatASymptomSaysSpeaksAgainstIt(t *testing.T) {
	t.Parallel()
	set := &trees.Set{
		Words: []*trees.Word{{ID: strict.Text{Value: "cold"}, Against: []strict.Text{{Value: "hot"}}}, {ID: strict.Text{Value: "hot"}}},
		Symptoms: map[string]*trees.Symptom{"cold-tank": {ID: "cold-tank", Sign: "cylinder cold"},
			"noise": {ID: "noise", Sign: "the pump is loud"}},
	}
	score := func(said string) float64 {
		for _, h := range Hear(set, said) {
			if h.Symptom == "cold-tank" {
				return h.Score
			}
		}
		return 0
	}
	if same, none, contrary := score("cylinder cold"), score("cylinder odd"), score("cylinder hot"); !(same > none && none > contrary) {
		t.Errorf("cold %.2f, odd %.2f, hot %.2f; expected each less than the one before", same, none, contrary)
	}
}
