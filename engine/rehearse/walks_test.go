package rehearse

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/trees"
)

// blank is the tree that these tests walk, on the smallest plant.
var blank = []*trees.Sign{sign("controller-blank", "no-heat-demand"), sign("no-heat-demand"), sign("runs-uncalled")}

// rehearsed walks a fake plant.
func rehearsed(t *testing.T, m *fake, o Options) *Report {
	t.Helper()
	if len(o.Plants) == 0 {
		o.Plants = []string{"millrace-small"}
	}
	r, err := run(embedded(t), o, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, blank)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// one walks a single fault and gives its only case.
func one(t *testing.T, m *fake, o Options) *Case {
	t.Helper()
	r := rehearsed(t, m, o)
	if len(r.Cases) != 1 {
		t.Fatalf("%d cases, expected 1", len(r.Cases))
	}
	return r.Cases[0]
}

// dark is a plant whose controller is blank and whose checks answer as given.
func dark(f *fault, answers map[string]reply) *fake {
	return &fake{all: []*fault{f}, shown: map[string][]string{f.id: {"controller-blank"}}, answers: map[string]map[string]reply{f.id: answers}}
}

func TestWalkFollowsTheReadingsAndSaysWhereItWent(t *testing.T) {
	t.Parallel()
	c := one(t, dark(broke("f", 1, "", ""), map[string]reply{"screen-lives": {answer: "lit"}}), Options{})
	if c.End != "refer intermittent" || c.Verdict != Referred {
		t.Errorf("a screen that lives ends at %s, %s", c.End, c.Verdict)
	}
	if steps := strings.Join(c.Steps(), "\n"); !strings.Contains(steps, "screen-lives = lit") {
		t.Errorf("the steps do not tell the reading:\n%s", steps)
	}
}

func TestReferralThatIsTheRightEndIsExact(t *testing.T) {
	t.Parallel()
	c := one(t, dark(broke("f", 1, "", "intermittent"), map[string]reply{"screen-lives": {answer: "lit"}}), Options{})
	if c.Verdict != Exact {
		t.Errorf("the fault's own referral is %s", c.Verdict)
	}
}

func TestShadowedSignIsNoCaseAndSignWithoutTreeStandsApart(t *testing.T) {
	t.Parallel()
	m := dark(broke("f", 1, "", ""), nil)
	m.shown["f"] = []string{"no-heat-demand", "controller-blank", "runs-uncalled"}
	r := rehearsed(t, m, Options{})
	if len(r.Cases) != 1 || r.Cases[0].Symptom != "controller-blank" {
		t.Errorf("%d cases, expected the overshadowing sign alone", len(r.Cases))
	}
	if want := (NoTree{"millrace-small", "f", "runs-uncalled"}); !slices.Equal(r.NoTree, []NoTree{want}) {
		t.Errorf("%v without a tree, expected %v", r.NoTree, want)
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
