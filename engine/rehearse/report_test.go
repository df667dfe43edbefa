package rehearse

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
)

// mixed is a plant with one fault that is found, one that is not, one that is
// passed on, and weights that tell count from weight.
func mixed() *fake {
	m := lamp(broke("found", 6, "lamp-live", ""), map[string]reply{"lamp-fed": volts(0, 0)})
	m.all = append(m.all, broke("missed", 2, "lamp-live", ""), broke("other", 8, "", ""))
	m.shown["missed"], m.shown["other"] = []string{"lamp-dark"}, []string{"lamp-dark", "controller-blank"}
	m.answers["missed"] = map[string]reply{"lamp": {answer: "dark"}, "lamp-fed": volts(0, 231)}
	m.answers["other"] = map[string]reply{"lamp": {answer: "elsewhere"}}
	return m
}

func TestSharesLeaveOutWhatIsPassedOn(t *testing.T) {
	t.Parallel()
	r := rehearsed(t, mixed(), Options{Symptoms: []string{"lamp-dark"}})
	f := r.Figures(nil)
	if f.Walks != 3 || f.Of[PassedOn].Cases != 1 {
		t.Fatalf("%d walks, %d passed on", f.Walks, f.Of[PassedOn].Cases)
	}
	if e := f.Of[Exact]; e.Share != 0.5 || e.Weighted != 0.75 {
		t.Errorf("exact is %g of the rest by count and %g by weight, expected 1/2 and 6/8", e.Share, e.Weighted)
	}
	if r.Holds() {
		t.Error("a walk is wrong and the gates hold")
	}
}

func TestGatesFollowWhatIsRehearsed(t *testing.T) {
	t.Parallel()
	report := func(wrong, exact, referred int) *Report {
		r := &Report{}
		for v, n := range map[Verdict]int{Wrong: wrong, Exact: exact, Referred: referred} {
			for range n {
				r.Cases = append(r.Cases, &Case{Verdict: v, Weight: 1})
			}
		}
		return r
	}
	engineer := []Person{{}}
	for _, c := range []struct {
		what                   string
		o                      Options
		wrong, exact, referred int
		holds                  bool
	}{
		{"nothing wrong and 95 of 100 found", Options{Persons: engineer}, 0, 95, 5, true},
		{"94 of 100 found", Options{Persons: engineer}, 0, 94, 6, false},
		{"94 of 100 found on one plant", Options{Persons: engineer, Plants: []string{"one"}}, 0, 94, 6, true},
		{"one wrong", Options{Persons: engineer}, 1, 999, 0, false},
		{"three wrong of a thousand under noise", Options{Persons: engineer, Noise: 1}, 3, 997, 0, true},
		{"four wrong of a thousand under noise", Options{Persons: engineer, Noise: 1}, 4, 996, 0, false},
		{"two of a hundred wrong in the sweep", Options{Persons: engineer, Sweep: true}, 2, 86, 12, true},
		{"thirteen of a hundred referred in the sweep", Options{Persons: engineer, Sweep: true}, 0, 87, 13, false},
	} {
		r := report(c.wrong, c.exact, c.referred)
		if r.Gates = c.o.gates(r); r.Holds() != c.holds {
			t.Errorf("%s: %v", c.what, r.Gates)
		}
	}
}

func TestOneHurtBreaksEveryGate(t *testing.T) {
	t.Parallel()
	for _, o := range []Options{{}, {Sweep: true}, {Noise: 20}, {Forgotten: true}} {
		r := &Report{Cases: []*Case{{Verdict: Unsafe, Weight: 1}}}
		if r.Gates = o.gates(r); r.Holds() {
			t.Errorf("%+v holds", o)
		}
	}
}

func TestEachGateBreaks(t *testing.T) {
	t.Parallel()
	whole, walked := Options{Persons: []Person{{}}}, &Case{Verdict: Exact, Weight: 1}
	for name, c := range map[string]struct {
		o Options
		r *Report
	}{
		"something was walked":                       {whole, &Report{}},
		"healthy plants show no sign":                {whole, &Report{Cases: []*Case{walked}, Signs: []NoTree{{}}}},
		"healthy plants pass what proves a repair":   {whole, &Report{Cases: []*Case{walked}, Unproved: []Unproved{{}}}},
		"second readings speak against their rivals": {whole, &Report{Cases: []*Case{walked}, Silenced: []Unopposed{{}}}},
		"the deciding reading is not its own second": {whole, &Report{Cases: []*Case{walked}, Second: map[Second]int{Deciding: 1}}},
		"what proves a repair can be simulated":      {whole, &Report{Cases: []*Case{walked}, Failed: []Failed{{}}}},
		"no walk is wrong":                           {Options{Persons: []Person{{}, {}}}, &Report{Cases: []*Case{walked, {Verdict: Wrong, Weight: 1}}}},
		"a fault without a sign says why":            {whole, &Report{Cases: []*Case{walked}, Silent: []Silent{{Why: "a reason"}, {}}}},
		"referred and unresolved at most 12 %":       {Options{Sweep: true, Persons: []Person{{}}}, &Report{Cases: []*Case{walked, {Verdict: Referred, Weight: 1}}}},
	} {
		var broken []string
		for _, g := range c.o.gates(c.r) {
			if !g.Holds {
				broken = append(broken, g.Name)
			}
		}
		if len(broken) == 0 || broken[0] != name {
			t.Errorf("%s: broken are %q", name, broken)
		}
	}
}

func TestReportNamesWhatNothingReached(t *testing.T) {
	t.Parallel()
	r := rehearsed(t, mixed(), Options{})
	has := func(cause string, named bool) bool {
		return slices.Contains(r.Unfound, Unfound{"millrace-small", cause, named})
	}
	if !has("lamp-filament", false) || has("lamp-neutral", false) || has("lamp-live", true) {
		t.Errorf("not reached: %v", r.Unfound)
	}
	at := func(line string) bool {
		return slices.ContainsFunc(r.Untaken, func(p string) bool { return strings.HasPrefix(p, "own/symptoms/lamp-dark.yaml:"+line+":") })
	}
	if !at("11") || at("14") {
		t.Errorf("the answer lit is never given and dark is; never taken are %v", r.Untaken)
	}
}

func TestJSONHasTheFiguresByName(t *testing.T) {
	t.Parallel()
	text, err := json.Marshal(rehearsed(t, mixed(), Options{Symptoms: []string{"lamp-dark"}}).Summary(0.5, nil, func(*Case) bool { return true }))
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]float64{"faults": 3, "walks": 3, "exact": 1, "grouped": 0, "wrong": 1, "referred": 0, "passed_on": 1,
		"unresolved": 0, "unsafe": 0, "seconds": 0.5} {
		if got[key] != want {
			t.Errorf("%s is %v, expected %v", key, got[key], want)
		}
	}
	for _, key := range []string{"plants", "symptoms", "cases"} {
		if list, ok := got[key].([]any); !ok || len(list) == 0 {
			t.Errorf("%s is %v, expected a list", key, got[key])
		}
	}
	for _, key := range []string{"mean_minutes", "worst_minutes"} {
		if v, ok := got[key].(float64); !ok || v <= 0 || math.IsInf(v, 0) {
			t.Errorf("%s is %v", key, got[key])
		}
	}
}

func TestTextFitsANarrowTerminal(t *testing.T) {
	t.Parallel()
	for _, line := range strings.Split(rehearsed(t, mixed(), Options{Plants: []string{"millrace-small", "millrace-spur"}}).Text(Layout{}), "\n") {
		if len(line) > 80 {
			t.Errorf("%d columns: %s", len(line), line)
		}
	}
}

func TestLongNamesKeepTheirParts(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"apprentice, watched, by phone": "apprentice, watched,|by phone",
		"outdoor-unit-never-starts-up":  "outdoor-unit-never-|starts-up",
		"no-heat-demand":                "no-heat-demand",
		strings.Repeat("x", 30):         strings.Repeat("x", 23) + "|" + strings.Repeat("x", 7),
	} {
		if got := strings.Join(folded(name), "|"); got != want {
			t.Errorf("%s is broken as %s, expected %s", name, got, want)
		}
	}
}

func TestNarrowReportFitsFortyColumns(t *testing.T) {
	t.Parallel()
	text := rehearsed(t, mixed(), Options{Plants: []string{"millrace-small", "millrace-spur"}}).Text(Layout{Narrow: true})
	table, _, _ := strings.Cut(text[strings.Index(text, "\n\n")+2:], "\n\n")
	for _, line := range strings.Split(table, "\n") {
		if len(line) > 42 {
			t.Errorf("%d columns: %s", len(line), line)
		}
	}
	for _, v := range Verdicts() {
		if v.Meaning() == "" || !strings.Contains(text, "\n  "+v.Meaning()+"\n") {
			t.Errorf("%s is not explained", v)
		}
	}
}

func TestAWrongWalkSaysWhereItEndedAndShouldHave(t *testing.T) {
	t.Parallel()
	m := mixed()
	for _, f := range m.all {
		f.right = []string{"cause lamp-live", "refer electrician"}
	}
	for _, c := range rehearsed(t, m, Options{Symptoms: []string{"lamp-dark"}}).Cases {
		text := c.Text(true)
		if !strings.Contains(text, "  right end: cause lamp-live, or refer electrician\n") || !strings.Contains(text, "  ended at:  own/symptoms/lamp-dark.yaml:") {
			t.Errorf("a case reads:\n%s", text)
		}
		if strings.Contains(c.Text(false), "ended at") {
			t.Error("the reasons come without the steps")
		}
	}
}

func TestAFaultWithoutAWalkSaysWhy(t *testing.T) {
	t.Parallel()
	r := &Report{Silent: []Silent{{"one", "quiet", "nobody hears it"}}, NoTree: []NoTree{{"two", "odd", "humming"}}}
	if got := strings.Join(append(r.Unwalked("quiet"), r.Unwalked("odd")...), "|"); got != "one: it shows no sign: nobody hears it|two: it shows humming, which has no tree yet" {
		t.Error(got)
	}
	r.FaultIDs, r.Aside = []string{"drawn"}, []Aside{{"three", "cold", "blank"}}
	if got := strings.Join(append(r.Unwalked("cold"), r.Unwalked("drawn")...), "|"); got !=
		"three: it shows blank, and the walks of another sign were asked for|as drawn it never shows a sign that has a tree" {
		t.Error(got)
	}
	if got := r.Unwalked("walked"); got != nil {
		t.Error(got)
	}
}

func TestUnknownPlantAndJurisdictionAreRefused(t *testing.T) {
	t.Parallel()
	set, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []Options{{Plants: []string{"nowhere"}}, {Jurisdiction: "xx"}} {
		if _, err := run(set, o, nil, nil); err == nil || !strings.Contains(err.Error(), "expected one of") {
			t.Errorf("%+v: %v", o, err)
		}
	}
}
