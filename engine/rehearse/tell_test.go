package rehearse

import (
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// tripped is a case that holds: handbook Y03, a high-limit that is open at 20 °C and was found overheated.
const tripped = `- case: tripped
  symptom: cylinder-stays-cold
  plant: millrace-small
  is: The booster ran all night and the water went cold.
  source: handbook Y03
  gives:
    screen-lives: lit
    hot-water-settings: wanted
    tap-against-screen: both-cold
    hot-water-demand: heating-water
    legs: flow-only
    head-seat of cylinder-valve: seated
    lever of cylinder-valve: springs
    limit-wiring: limit-half-only
    limit-ohms of high-limit: OL
    overheat-search: overheated
  path: [screen, settings, tap, demand, legs, valve-head, valve-lever, limit-wiring, limit, overheat]
  cause: limit-tripped of high-limit
`

// inCase walks a case with some of its text replaced.
func inCase(t *testing.T, text string) []string {
	t.Helper()
	set, problems := trees.Overlay(embedded(t), fstest.MapFS{"cases/own.yaml": {Data: []byte(text)}}, "own")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	only := []*trees.Case{}
	for _, c := range set.Cases {
		if strings.HasPrefix(c.Pos.File, "own/") {
			only = append(only, c)
		}
	}
	set.Cases = only
	var out []string
	for _, p := range Tell(set, measurements.Kit{}) {
		out = append(out, p.Error())
	}
	return out
}

func TestCaseThatHoldsIsNoProblem(t *testing.T) {
	t.Parallel()
	if all := inCase(t, tripped); len(all) != 0 {
		t.Errorf("%q", all)
	}
}

func TestCaseThatComesOutOtherwiseIsToldWithItsPlace(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, old, new, want string }{
		{"another end", "cause: limit-tripped of high-limit", "cause: limit-open of high-limit", `own/cases/own.yaml:18:10: the case "tripped" ends at: cause limit-tripped of high-limit; expected "limit-open of high-limit"`},
		{"a referral for a cause", "cause: limit-tripped of high-limit", "refer: not-found", "ends at: cause limit-tripped"},
		{"another reading", "high-limit: OL", "high-limit: 0.2", `gives nothing for the check "motor-ohms of cylinder-valve"`},
		{"another step", "limit-wiring, limit,", "limit, limit-wiring,", `comes to the step "limit-wiring"`},
		{"a step too few", "limit, overheat]", "limit]", `goes on to the step "overheat"`},
		{"a step too many", "limit, overheat]", "limit, overheat, motor]", `expected the step "motor"`},
		{"an unknown answer", "legs: flow-only", "legs: flow-onyl", `did you mean "flow-only"`},
		{"an unknown check", "    legs: flow-only", "    legs: flow-only\n    lags: flow-only", `no check "lags"`},
		{"an idle reading", "    legs: flow-only", "    legs: flow-only\n    travel of diverter: travels", "never comes to"},
		{"no reading", "high-limit: OL", "high-limit: lots", `15:31: "lots" is not a reading`},
		{"too many readings", "high-limit: OL", "high-limit: [OL, 1]", "2 readings"},
		{"a tree that does not serve the plant", "plant: millrace-small", "plant: millrace-volt-free", "check"},
	} {
		text := strings.Replace(tripped, c.old, c.new, 1)
		if text == tripped {
			t.Fatalf("%s: nothing replaced", c.name)
		}
		all := inCase(t, text)
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s: %q; expected %q", c.name, all, c.want)
		}
	}
}
