package rehearse

import (
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// burnt is a case of the lamp that holds.
const burnt = `- case: burnt
  symptom: lamp-dark
  plant: millrace-small
  is: It was bright, then dark.
  source: common practice, no source
  gives:
    lamp: dark
    lamp-fed: 231
    lamp-ohms: OL
  path: [look, fed, filament]
  cause: lamp-filament
`

// inCase walks a case and gives what came out otherwise.
func inCase(t *testing.T, text string) []string {
	t.Helper()
	lamps, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	set, problems := trees.Overlay(lamps, fstest.MapFS{"cases/own.yaml": {Data: []byte(text)}}, "own")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	set.Cases = set.Cases[len(set.Cases)-strings.Count(text, "- case:"):]
	var out []string
	for _, p := range Tell(set, measurements.Kit{}) {
		out = append(out, p.Error())
	}
	return out
}

func TestCaseThatHoldsIsNoProblem(t *testing.T) {
	t.Parallel()
	for _, text := range []string{
		burnt,
		swap(t, burnt, "lamp: dark\n    lamp-fed: 231\n    lamp-ohms: OL", "lamp: stolen", "look, fed, filament", "look", "cause: lamp-filament", "refer: lamp-stolen"),
		swap(t, burnt, "lamp: dark\n    lamp-fed: 231\n    lamp-ohms: OL", "lamp: elsewhere", "look, fed, filament", "look", "cause: lamp-filament", "pass: controller-blank"),
		swap(t, burnt, "lamp-fed: 231\n    lamp-ohms: OL", "lamp-fed: [0.4, 230]", "look, fed, filament", "look, fed", "lamp-filament", "lamp-neutral"),
		swap(t, burnt, "lamp-ohms: OL", "lamp-ohms: 3R", "cause: lamp-filament", "cause: [lamp-switch of diverter, lamp-holder of diverter]"),
	} {
		if all := inCase(t, text); len(all) != 0 {
			t.Errorf("%q in\n%s", all, text)
		}
	}
}

func TestCaseThatComesOutOtherwiseIsToldWithItsPlace(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, old, new, want string }{
		{"another end", "cause: lamp-filament", "cause: lamp-live", `own/cases/own.yaml:11:10: the case "burnt" ends at: cause lamp-filament; expected "lamp-live"`},
		{"a referral for a cause", "cause: lamp-filament", "refer: lamp-stolen", "own/cases/own.yaml:11:10: "},
		{"another reading", "lamp-fed: 231", "lamp-fed: [0, 0]", `ends after`},
		{"one reading of two", "lamp-fed: 231", "lamp-fed: 0.3", `gives 1 readings for "lamp-fed"; the step lamp-dark/fed wants 2`},
		{"another step", "look, fed,", "look, feed,", `own/cases/own.yaml:10:16: the case "burnt" comes to the step "fed", after lamp-dark/look: lamp = dark → it is dark; expected "feed"`},
		{"a step too few", "fed, filament]", "fed]", `goes on to the step "filament"`},
		{"a step too many", "filament]", "filament, holder]", `expected the step "holder"`},
		{"an unknown answer", "lamp: dark", "lamp: drak", `own/cases/own.yaml:7:11: the check "lamp" has no such answer`},
		{"an unknown check", "lamp: dark", "lamp: dark\n    lump: dark", `own/cases/own.yaml:8:5: the tree of "lamp-dark" takes no check "lump" on the plant "millrace-small"; did you mean "lamp"?`},
		{"a reading that nothing comes to", "lamp: dark", "lamp: stolen", `never comes to the check "lamp-fed"`},
		{"nothing for a check", "    lamp-fed: 231\n", "", `gives nothing for the check "lamp-fed"`},
		{"no reading", "ohms: OL", "ohms: lots", `own/cases/own.yaml:9:16: "lots" is not a reading`},
		{"too many readings", "ohms: OL", "ohms: [OL, 1]", "2 readings"},
	} {
		all := inCase(t, swap(t, burnt, c.old, c.new))
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s: %q; expected %q", c.name, all, c.want)
		}
	}
}

// swap replaces pairs of texts, each of which must be there.
func swap(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("no %q in %s", pairs[i], text)
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}
