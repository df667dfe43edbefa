package rehearse

import (
	"math"
	"slices"
	"strings"
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
)

func TestWalkFollowsTheReadingsAndSaysWhereItWent(t *testing.T) {
	t.Parallel()
	c := one(t, lamp(broke("f", 1, "", ""), map[string]reply{"lamp": {answer: "lit"}}), Options{})
	if c.End != "refer intermittent" || c.Verdict != Referred {
		t.Errorf("a lamp that burns ends at %s, %s", c.End, c.Verdict)
	}
	if steps := strings.Join(c.Steps(), "\n"); !strings.Contains(steps, "lamp = lit → it burns → refer intermittent") {
		t.Errorf("the steps do not tell the reading:\n%s", steps)
	}
}

func TestReferralIsExactWhereItIsTheRightEndAndSaysWhatIsWrong(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		answer, ends string
		want         Verdict
	}{
		{"stolen", "lamp-stolen", Exact},
		{"stolen", "", Referred},
		{"lit", "intermittent", Referred},
	} {
		got := one(t, lamp(broke("f", 1, "", c.ends), map[string]reply{"lamp": {answer: c.answer}}), Options{})
		if got.Verdict != c.want {
			t.Errorf("%s, a fault that ends at %q: %s, expected %s", got.End, c.ends, got.Verdict, c.want)
		}
	}
}

func TestCauseIsExactForItsFaultAndWrongForAnother(t *testing.T) {
	t.Parallel()
	for cause, want := range map[string]Verdict{"lamp-neutral": Exact, "lamp-live": Wrong} {
		c := one(t, lamp(broke("f", 1, cause, ""), map[string]reply{"lamp-fed": volts(0, 231)}), Options{})
		if c.End != "cause lamp-neutral" || c.Verdict != want {
			t.Errorf("a fault that is %s ends at %s, %s; expected %s", cause, c.End, c.Verdict, want)
		}
	}
}

// A reading that the meter's accuracy carries over an edge decides nothing: 5 V
// is where dead ends, and a tester is ±(3 % + 5 counts).
func TestReadingAcrossAnEdgeIsTakenOnceMoreAndThenPassed(t *testing.T) {
	t.Parallel()
	c := one(t, lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(5, 231), "lamp-ohms": ohms(math.Inf(1))}), Options{})
	if c.Verdict != Exact {
		t.Errorf("the tree goes on by its otherwise and ends at %s, %s: %s", c.End, c.Verdict, c.Why)
	}
	if steps := strings.Join(c.Steps(), "\n"); strings.Count(steps, "lamp-fed") != 1 || !strings.Contains(steps, "does not decide") {
		t.Errorf("the steps are\n%s", steps)
	}
}

func TestLookThatCannotBeToldIsPassed(t *testing.T) {
	t.Parallel()
	c := one(t, lamp(broke("f", 1, "", ""), map[string]reply{"lamp": {answer: untold}}), Options{})
	if c.Verdict != Unresolved || !strings.Contains(c.Why, "nobody could tell") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

func TestHandleOfTheDeviceThatIsReadIsOnWhereOthersKeepItDead(t *testing.T) {
	t.Parallel()
	set, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	p, _ := set.Compose("millrace-small")
	c := &trees.BoundCheck{ID: "pole-ohms of unit-isolator", Check: set.Checks["pole-ohms"]}
	c.Need.Enclosures = []string{"unit-isolator-box"}
	off := withHandle(p, c, map[string]bool{"unit-isolator": true, "unit-breaker": true})
	if off["unit-isolator"] || !off["unit-breaker"] {
		t.Errorf("off are %v, expected the breaker alone", off)
	}
	if off := withHandle(p, c, map[string]bool{"unit-isolator": true}); !off["unit-isolator"] {
		t.Error("the only device that keeps it dead is switched on")
	}
}

func TestMainsThatWandersEndsTheWalk(t *testing.T) {
	t.Parallel()
	r := volts(200, 231)
	r.moving = true
	c := one(t, lamp(broke("f", 1, "", ""), map[string]reply{"lamp-fed": r}), Options{})
	if c.End != "refer moving-volts" {
		t.Errorf("it ends at %s", c.End)
	}
}

func TestPassIsRightWhereTheOtherSignShows(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "", ""), map[string]reply{"lamp": {answer: "elsewhere"}})
	if c := one(t, m, Options{}); c.Verdict != Wrong {
		t.Errorf("a pass to a sign that does not show is %s", c.Verdict)
	}
	m.shown["f"] = []string{"controller-blank", "lamp-dark"}
	r := rehearsed(t, m, Options{Symptoms: []string{"lamp-dark"}})
	if len(r.Cases) != 1 || r.Cases[0].Verdict != PassedOn {
		t.Errorf("a pass to a sign that shows is %v", r.Cases[0].Verdict)
	}
}

func TestShadowedSignIsToldBesideOneThatHasATreeAndNotOtherwise(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "", ""), map[string]reply{})
	m.shown["f"] = []string{"no-heat-demand", "controller-blank", "lamp-hums"}
	r := rehearsed(t, m, Options{})
	if len(r.Cases) != 2 || r.Cases[0].Shadowed || !r.Cases[1].Shadowed || r.Cases[1].Symptom != "no-heat-demand" {
		t.Errorf("%d cases, expected the blank controller and beside it no heat", len(r.Cases))
	}
	if want := (NoTree{"millrace-small", "f", "lamp-hums"}); !slices.Equal(r.NoTree, []NoTree{want}) {
		t.Errorf("%v without a tree, expected %v", r.NoTree, want)
	}
	m.shown["f"] = []string{"lamp-lost", "lamp-dark"}
	if r := rehearsed(t, m, Options{}); len(r.Cases) != 0 || len(r.NoTree) != 1 {
		t.Errorf("%d cases beside a sign without a tree, expected none", len(r.Cases))
	}
}

func TestFaultWithoutSignIsListed(t *testing.T) {
	t.Parallel()
	f := broke("f", 1, "", "")
	f.hidden = "it waits"
	r := rehearsed(t, &fake{all: []*fault{f}}, Options{})
	if len(r.Cases) != 0 || !slices.Equal(r.Silent, []Silent{{"millrace-small", "f", "it waits"}}) {
		t.Errorf("silent %v, %d cases", r.Silent, len(r.Cases))
	}
}

func TestMinutesAreThoseOfActsAndChecks(t *testing.T) {
	t.Parallel()
	c := one(t, lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": volts(0, 0)}), Options{})
	// one look of 1 min; the control enclosure is reached by two supplies: two
	// switched off, locked, unlocked and on again (8), a cover (2), a proof of
	// 5 where hands go in, and the reading of 2.
	if c.Minutes < 1+8+2+2 || c.Minutes > 1+8+2+2+3*5 {
		t.Errorf("%g minutes:\n%s", c.Minutes, strings.Join(c.Steps(), "\n"))
	}
}

func TestStepBeyondTheHandsIsPassedOrReferred(t *testing.T) {
	t.Parallel()
	kit := measurements.DefaultKit()
	m := lamp(broke("f", 1, "lamp-filament", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(1e4)})
	for _, p := range Everyone(kit) {
		c := one(t, m, Options{Persons: []Person{p}})
		inside := p.Hands.Kind == "electrical" || p.Hands.Supervisor != ""
		if c.Verdict == Unsafe || c.Verdict == Wrong || inside != (c.Verdict == Exact) && !p.Hands.Phone {
			t.Errorf("%s: %s, %s: %s", p.Name, c.Verdict, c.End, c.Why)
		}
	}
}

func TestReportIsTheSameWhateverTheSchedule(t *testing.T) {
	t.Parallel()
	text := func() string {
		r := rehearsed(t, scatter(60), Options{Plants: []string{"millrace-small", "millrace-large"}, Noise: 2, Seed: 7})
		out := r.Text(Layout{Lists: true})
		for _, c := range r.Cases {
			out += c.Text(true)
		}
		return out
	}
	if a, b := text(), text(); a != b {
		t.Error("two rehearsals with one seed differ")
	}
}
