package trees

import (
	"fmt"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func composed(t testing.TB) *Plant {
	t.Helper()
	p, problems := baseSet(t).Compose("one")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	return p
}

func TestPartsCoresAndPolesBecomeLinks(t *testing.T) {
	t.Parallel()
	var got []string
	for _, l := range composed(t).Links {
		got = append(got, fmt.Sprintf("%s %s %s→%s of %q %v %q", l.Kind, l.ID, l.From, l.To, l.Of, l.Weight, l.Cause))
	}
	want := []string{
		`contact output.in out-live→hot-water-call of "output" 2 "limit-open of output"`,
		`core way-core way-live→in-live of "" 3 ""`,
		`core way-neutral origin-neutral→in-neutral of "" 3 ""`,
		`core board-neutral in-neutral→neutral of "" 3 ""`,
		`earth board-earth in-earth→earth of "" 3 ""`,
		`pole breaker.1 origin-live→way-live of "breaker" 1 ""`,
		`pole isolator.1 in-live→out-live of "isolator" 1 ""`,
		`contact limit.in limit-in→limit-out of "limit" 12 ""`,
		`load valve.live valve-live→valve-neutral of "valve" 1 ""`,
		`core call-core hot-water-call→limit-in of "" 3 ""`,
		`core valve-core limit-out→valve-live of "" 4 ""`,
		`core valve-neutral-core neutral→valve-neutral of "" 3 ""`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestAChainIsTheShortestWayWithItsCauses(t *testing.T) {
	t.Parallel()
	var got []string
	for _, l := range composed(t).Chain("run").Links {
		got = append(got, fmt.Sprintf("%s → %s: %s, %v", l.Over.ID, l.To, l.Cause, l.Weight))
	}
	want := []string{
		"output.in → hot-water-call: limit-open of output, 2",
		"call-core → limit-in: open-core of call-core, 3",
		"limit.in → limit-out: limit-open of limit, 12",
		"valve-core → valve-live: open-core of valve-core, 4",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// joined gives a plant of links alone, each from-to-kind, and a chain from a to z.
func joined(links ...*Link) *Chain {
	p := &Plant{Links: links, Chains: []*Chain{{ID: "c", From: "a", To: "z"}}}
	for _, l := range links {
		p.Points = append(p.Points, &Point{ID: l.From}, &Point{ID: l.To})
	}
	p.finish()
	return p.Chains[0]
}

func TestAChainPassesNoLoadAndNoEarth(t *testing.T) {
	t.Parallel()
	link := func(id, kind, from, to string) *Link { return &Link{ID: id, Kind: kind, From: from, To: to} }
	c := joined(link("load", LinkLoad, "a", "z"), link("earth", LinkEarth, "a", "z"), link("long-1", LinkCore, "a", "b"),
		link("long-2", LinkContact, "c", "b"), link("long-3", LinkPole, "c", "z"))
	var got []string
	for _, l := range c.Links {
		got = append(got, l.Over.ID)
	}
	if diff := cmp.Diff([]string{"long-1", "long-2", "long-3"}, got); diff != "" {
		t.Error(diff)
	}
	if c := joined(link("load", LinkLoad, "a", "z"), link("loop", LinkCore, "a", "a")); c.Links != nil {
		t.Errorf("a way through a load: %v", c.Links[0].Over)
	}
}

func TestWhatFailsFollowsFromTheKindOfLink(t *testing.T) {
	t.Parallel()
	p := &Plant{}
	for kind := range PartKinds {
		p.Parts = append(p.Parts, &Part{ID: "a-" + kind, Kind: kind})
	}
	p.finish()
	for kind, want := range map[string]string{
		"limit": "limit-open", "output": "output-dead", "fuse": "fuse-dead", "relay": "contact-open", "link": "link-missing",
	} {
		if got := p.failing(&Link{Kind: LinkContact, Of: "a-" + kind}); got != want+" of a-"+kind {
			t.Errorf("a %s fails by %q", kind, got)
		}
	}
	if got := p.failing(&Link{Kind: LinkPole, ID: "x.1", Of: "isolator"}); got != "open-pole of isolator" {
		t.Errorf("a pole fails by %q", got)
	}
	if got := p.failing(&Link{Kind: LinkCore, ID: "w", Cause: "open-neutral of w"}); got != "open-neutral of w" {
		t.Errorf("a core with a cause of its own fails by %q", got)
	}
}

func TestAnUnknownPlantIsReported(t *testing.T) {
	t.Parallel()
	p, problems := baseSet(t).Compose("onne")
	if p != nil {
		t.Error("a plant came out of it")
	}
	expectProblem(t, problems, `there is no plant "onne"; expected one of "one"; did you mean "one"?`)
}

func TestAPlantBeyondTheLimitsIsRefused(t *testing.T) {
	t.Parallel()
	s := baseSet(t)
	for range maxUses + 1 {
		s.Plants["one"].Uses = append(s.Plants["one"].Uses, s.Plants["one"].Uses[0])
	}
	_, problems := s.Compose("one")
	expectProblem(t, problems, "base/plants/one.yaml:1:8: the plant has 103 assemblies; expected at most 100")
}

func TestComposingMayBeDoneAtTheSameTime(t *testing.T) {
	t.Parallel()
	s := baseSet(t)
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if p, problems := s.Compose("one"); p == nil {
				t.Error(problems.Format(0))
			}
		})
	}
	all.Wait()
}
