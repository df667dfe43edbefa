package rehearse

import (
	"strings"
	"testing"
)

// chain is a walk of one fault from sign to sign, each passed on to the next.
func chain(f *fault, last Verdict, signs ...string) []*Case {
	var out []*Case
	for i, s := range signs {
		c := &Case{Symptom: s, fault: f, Verdict: last, Why: "of itself"}
		if i < len(signs)-1 {
			c.Verdict, c.end.to.Pass = PassedOn, signs[i+1]
		}
		out = append(out, c)
	}
	return out
}

func TestPassIsAsGoodAsTheWalkItLeadsTo(t *testing.T) {
	t.Parallel()
	f := broke("f", 1, "", "")
	for last, want := range map[Verdict]Verdict{Exact: PassedOn, Grouped: PassedOn, Referred: PassedOn,
		Wrong: Wrong, Unresolved: Unresolved, Unsafe: Unsafe} {
		cases := chain(f, last, "cold", "blank", "dark")
		followPasses(cases)
		for _, c := range cases[:2] {
			if c.Verdict != want || want != PassedOn && !strings.HasPrefix(c.Why, "it is passed on to dark, which ends "+string(last)) {
				t.Errorf("%s, passed on to a walk that is %s, is %s: %s; expected %s", c.Symptom, last, c.Verdict, c.Why, want)
			}
		}
	}
}

func TestPassThatNothingTakesUpIsUnresolved(t *testing.T) {
	t.Parallel()
	f := broke("f", 1, "", "")
	lost := chain(f, Exact, "cold", "blank")[:1]
	round := chain(f, PassedOn, "cold", "blank")
	round[1].end.to.Pass = "cold"
	otherDraw := chain(f, Exact, "cold", "blank")
	otherDraw[1].Draw = 1
	otherFault := chain(f, Exact, "cold", "blank")
	otherFault[1].fault = broke("g", 1, "", "")
	for what, cases := range map[string][]*Case{"nowhere": lost, "round": round, "to another draw": otherDraw, "to another fault": otherFault} {
		followPasses(cases)
		if c := cases[0]; c.Verdict != Unresolved || c.Why == "of itself" {
			t.Errorf("passed on %s: %s, %s", what, c.Verdict, c.Why)
		}
	}
}

// Through the whole rehearsal: the tree of the blank controller ends wrong for
// the same fault, and so does the walk that was passed on to it.
func TestWalkPassedOnToAWrongOneIsWrong(t *testing.T) {
	t.Parallel()
	m := lamp(broke("f", 1, "", ""), map[string]reply{"lamp": {answer: "elsewhere"}})
	m.shown["f"] = []string{"controller-blank", "lamp-dark"}
	m.answers["f"]["screen-lives"] = reply{answer: "dark"}
	m.answers["f"]["unit-switches"] = reply{answer: "isolator-off"}
	r := rehearsed(t, m, Options{Symptoms: []string{"lamp-dark", "controller-blank"}})
	for _, c := range r.Cases {
		if len(r.Cases) != 2 || c.Verdict != Wrong {
			t.Errorf("%s of %d ends at %s, %s", c.Symptom, len(r.Cases), c.End, c.Verdict)
		}
	}
}
