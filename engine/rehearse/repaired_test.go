package rehearse

import (
	"slices"
	"testing"
)

// fails lists what a healthy plant of a fake fails, of the lamp's own.
func fails(t *testing.T, healthy map[string]reply) (out []string) {
	t.Helper()
	m := loose(volts(231, 231))
	m.answers[""] = healthy
	for _, u := range rehearsed(t, m, Options{}).Unproved {
		if slices.Contains([]string{"lamp", "lamp-tight", "lamp-fed"}, u.Check) {
			out = append(out, u.Check+" = "+u.Reads+", "+u.For)
		}
	}
	return out
}

func TestHealthyPlantThatFailsAProofOfARepairIsNamed(t *testing.T) {
	t.Parallel()
	lit := reply{answer: "lit"}
	for _, c := range []struct {
		what    string
		healthy map[string]reply
		want    []string
	}{
		{"a plant that passes", map[string]reply{"lamp": lit}, nil},
		{"what clears the sign", map[string]reply{"lamp": {answer: "dark"}}, []string{"lamp = dark: expected lit, what clears lamp-dark"}},
		{"the retest", map[string]reply{"lamp": lit, "lamp-tight": {answer: "loose"}},
			[]string{"lamp-tight = loose: expected tight, the retest of lamp-loose"}},
		{"the second reading", map[string]reply{"lamp": lit, "lamp-fed": volts(0, 231)},
			[]string{"lamp-fed = ln 0 V: expected sound(ln), the second reading of lamp-loose"}},
		{"one that nobody can tell", map[string]reply{"lamp": lit, "lamp-tight": {answer: untold}},
			[]string{"lamp-tight = : this decides nothing, the retest of lamp-loose"}},
	} {
		if got := fails(t, c.healthy); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, expected %q", c.what, got, c.want)
		}
	}
}

// What the repair has to put right is read again after it: here the look that
// was answered dark.
func TestWhatWasAmissInAnExactCaseIsReadOnTheHealthyPlant(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": volts(0, 0)})
	m.answers[""] = map[string]reply{"lamp": {answer: "lit"}, "lamp-fed": volts(0, 0)}
	r := rehearsed(t, m, Options{})
	if c := r.Cases[0]; c.Verdict != Exact || c.amiss == nil || c.amiss.ID != "lamp-fed" {
		t.Fatalf("%s, amiss is %v, expected lamp-fed", c.Verdict, c.amiss)
	}
	if !slices.ContainsFunc(r.Unproved, func(u Unproved) bool { return u.Check == "lamp-fed" }) {
		t.Errorf("%v lacks lamp-fed", r.Unproved)
	}
	if r.Holds() {
		t.Error("a healthy plant fails a retest and the gates hold")
	}
}
