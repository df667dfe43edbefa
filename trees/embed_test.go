package trees

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTheEmbeddedTreesAreRight(t *testing.T) {
	t.Parallel()
	s, problems := Embedded()
	for id := range s.Plants {
		_, more := s.Compose(id)
		problems = append(problems, more...)
	}
	if len(problems) > 0 {
		t.Error(problems.Format(0))
	}
	if s.Jurisdictions["gb"] == nil || s.Scales[mainsScale] == nil || len(s.Plants) == 0 || len(s.Symptoms) == 0 {
		t.Error("the embedded trees are not whole")
	}
}

func TestHeadsAreWhatTheWholeSetSays(t *testing.T) {
	t.Parallel()
	heads, problems := EmbeddedHeads()
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	whole, _ := heads.Whole()
	if len(whole.Checks) == 0 || len(heads.Checks) != 0 {
		t.Errorf("%d checks in the whole, %d in the heads", len(whole.Checks), len(heads.Checks))
	}
	if diff := cmp.Diff(keys(whole.Symptoms), keys(heads.Symptoms)); diff != "" {
		t.Fatal(diff)
	}
	for id, h := range heads.Symptoms {
		w := whole.Symptoms[id]
		if h.Sign != w.Sign || !cmp.Equal(h.Words, w.Words) || h.Plants.Value != w.Plants.Value {
			t.Errorf("the head of %q says otherwise than the symptom", id)
		}
	}
	if heads.Hash() != whole.Hash() || heads.SafetyHash() != whole.SafetyHash() {
		t.Error("the heads have another hash")
	}
	if diff := cmp.Diff([]int{len(whole.Cautions), len(whole.Stops), len(whole.Referrals), len(whole.Scales), len(whole.Plants)},
		[]int{len(heads.Cautions), len(heads.Stops), len(heads.Referrals), len(heads.Scales), len(heads.Plants)}); diff != "" {
		t.Error(diff)
	}
}

func TestHeadsAreGuardedInTheWholeToo(t *testing.T) {
	t.Parallel()
	heads, problems := heads(gather(baseFS(t), "base"))
	running := baseSet(t)
	running.Cautions = nil
	guarded := heads.WithSafety(running)
	whole, more := guarded.Whole()
	if len(problems)+len(more) > 0 || len(whole.Cautions) != 0 || len(whole.Checks) == 0 {
		t.Errorf("%d cautions, %d checks, problems %v %v", len(whole.Cautions), len(whole.Checks), problems, more)
	}
	if _, problems := guarded.Compose("one"); len(problems) > 0 {
		t.Error(problems.Format(0))
	}
}

func BenchmarkEmbedded(b *testing.B) {
	for b.Loop() {
		Embedded()
	}
}

// Before the first prompt only the heads are read.
func BenchmarkEmbeddedHeads(b *testing.B) {
	for b.Loop() {
		EmbeddedHeads()
	}
}

func BenchmarkCompose(b *testing.B) {
	s := baseSet(b)
	for b.Loop() {
		s.Compose("one")
	}
}
