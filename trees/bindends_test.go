package trees

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const endChecks = `
- id: ends
  of: {of: part, core: core}
  read: insulation
  probes:
    - {as: a, from: $of.live, to: neutral, joined: $of.neutral}
    - {as: b, from: $core.to, to: $core.from}
    - {as: c, from: valve-live, to: $of.neutral}
  lifted: [$of, $core]
  does: ["reset breaker, call hot-water", wait]
  minutes: 1
  scale: contact
  good: made(a)
- id: opens
  of: {of: part}
  look: Does it open?
  minutes: 1
  sure: 0.8
  answers:
    - {id: opens, say: it does, when: part("$of").open}
    - {id: stays, say: it does not}
  good: opens
`

// bound binds a check of the base set with those above.
func bound(t *testing.T, checks, ref string) (*BoundCheck, *binder) {
	t.Helper()
	fsys := baseFS(t)
	fsys["checks/ends.yaml"] = fileOf(checks)
	s, problems := Load(fsys, "base")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	p, problems := s.Compose("one")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	b := newBinder(s, s.Symptoms["cold"], p, newCommon())
	text := s.Symptoms["cold"].Cleared
	text.Value = ref
	return b.check(text, nil, nil), b
}

func TestProbesSayOnWhoseSideOfAPartedEndTheyStand(t *testing.T) {
	t.Parallel()
	c, b := bound(t, endChecks, "ends of valve core valve-core")
	if len(b.problems) > 0 {
		t.Fatal(b.problems.Format(0))
	}
	var got [][]string
	for _, p := range c.Probes {
		row := []string{p.FromSide, p.ToSide}
		for _, j := range p.Joined {
			row = append(row, j.At.ID, j.Side)
		}
		got = append(got, row)
	}
	if diff := cmp.Diff([][]string{{"valve", "", "valve-neutral", "valve"}, {"valve-core", "valve-core"}, {"", "valve"}}, got); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"valve", "valve-core"}, c.Lifted); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"reset breaker", "call hot-water", "wait"}, c.Does); diff != "" {
		t.Error(diff)
	}
}

func TestAnswersAreFilledIn(t *testing.T) {
	t.Parallel()
	c, _ := bound(t, endChecks, "opens of valve")
	if c.Answers[0].When.Value != `part("valve").open` || c.Answers[1].When.Value != "" || c.Check.Answers[0].When.Value != `part("$of").open` {
		t.Errorf("filled in: %q", c.Answers[0].When.Value)
	}
	if warms, _ := bound(t, endChecks, "warms"); c.Check.Sure != 0.8 || warms.Check.Sure != 0.95 {
		t.Errorf("sure: %v and %v", c.Check.Sure, warms.Check.Sure)
	}
}

func TestWhatIsDoneMustBeOnThePlant(t *testing.T) {
	t.Parallel()
	checks := strings.NewReplacer("reset breaker", "reset braker", "lifted: [$of, $core]", "lifted: [board-box]").Replace(endChecks)
	_, b := bound(t, checks, "ends of valve core valve-core")
	expectProblem(t, b.problems, `ends.yaml:10:10: "reset braker": there is no "braker" on this plant`)
	expectProblem(t, b.problems, `board-box: there is no part and no core "board-box" on this plant`)
}

// What changes the reading changes its hash; how sure a look is does not.
func TestMeasuredFollowsLiftedEndsJoinedProbesAndActs(t *testing.T) {
	t.Parallel()
	of := func(old, new string) string {
		c, _ := bound(t, strings.ReplaceAll(endChecks, old, new), "ends of valve core valve-core")
		return c.Measured()
	}
	whole := of("", "")
	for _, change := range [][2]string{{"lifted: [$of, $core]", "lifted: [$of]"}, {", joined: $of.neutral", ""}, {"joined: $of.neutral", "joined: valve-neutral"},
		{", call hot-water", ""}, {"from: valve-live", "from: $of.live"}} {
		if of(change[0], change[1]) == whole {
			t.Errorf("%q in place of %q has the same hash", change[1], change[0])
		}
	}
	if of("minutes: 1", "minutes: 2") != whole {
		t.Error("minutes change the hash")
	}
	plain, _ := bound(t, endChecks, "contact-ohms of limit")
	if plain.ends() != "" {
		t.Errorf("a check without these has %q in its hash", plain.ends())
	}
}
