package vet

import (
	"strings"
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// Proofs that would take hours are left out, and that is said once.
func TestProofsEndAtALimitThatIsSaid(t *testing.T) {
	t.Parallel()
	set, problems := trees.Load(Base(t), "base")
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	v := newVetting(set, measurements.DefaultKit())
	v.most = 100
	v.compose()
	v.graphs(func(int, int) {})
	if text := v.report().Text(0); strings.Count(text, errTooMuch.Error()) != 1 {
		t.Errorf("reported:\n%s", text)
	}
	if v.work > 100*compileWork {
		t.Errorf("%d runs were made all the same", v.work)
	}
}

func TestTheSimulationIsLookedAtWithinTheSameLimit(t *testing.T) {
	t.Parallel()
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	v := newVetting(set, measurements.DefaultKit())
	v.compose()
	v.gather()
	v.most = 10_000
	v.simulation()
	r := v.report()
	if len(r.Problems) != 1 || r.Problems[0].Kind != TooMuch || v.work > v.most+compileWork {
		t.Errorf("%d units of work of %d:\n%s", v.work, v.most, r.Text(5))
	}
}
