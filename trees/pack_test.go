package trees

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func overlaid(t *testing.T) *Set {
	t.Helper()
	s, problems := Overlay(baseSet(t), filesOf("checks/own.yaml", ownLook), "own")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	return s
}

func TestAPackGivesTheSameSetBack(t *testing.T) {
	t.Parallel()
	s := overlaid(t)
	again, problems := Unpack(s.Pack())
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	if diff := cmp.Diff(s.Layers, again.Layers); diff != "" {
		t.Error(diff)
	}
	if again.Hash() != s.Hash() || again.SafetyHash() != s.SafetyHash() || !bytes.Equal(again.Pack(), s.Pack()) {
		t.Error("the set that came back is another")
	}
	if again.Checks["warms"].Look.Value != "Is it warm, would you say?" {
		t.Error("what lay over the base is lost")
	}
}

func TestAPackOutOfItsFormIsRefused(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"":                           "the kept trees cannot be read",
		"{":                          "the kept trees cannot be read",
		`{"format":1,"more":2}`:      `unknown field "more"`,
		`{"format":2,"layers":[{}]}`: "format 2 and 1 layers; expected format 1",
		`{"format":1,"layers":[]}`:   "0 layers",
		`{"format":1,"layers":[{"name":"x","files":{"../checks/a.yaml":""}}]}`:    `a file named "../checks/a.yaml"`,
		`{"format":1,"layers":[{"name":"x","files":{"checks/a/b.yaml":""}}]}`:     `a file named "checks/a/b.yaml"`,
		`{"format":1,"layers":[{"name":"x","files":{"checks/a.yaml.exe":""}}]}`:   `a file named "checks/a.yaml.exe"`,
		`{"format":1,"layers":[{"name":"` + strings.Repeat("x", maxPack) + `"}]}`: "expected at most 67108864",
	} {
		s, problems := Unpack([]byte(text))
		if s != nil {
			t.Errorf("%.60q gave a set", text)
		}
		expectProblem(t, problems, want)
	}
}

func TestTheHashFollowsEveryFile(t *testing.T) {
	t.Parallel()
	base := baseSet(t)
	if base.Hash() != baseSet(t).Hash() {
		t.Error("the same files have two hashes")
	}
	seen := map[string]string{base.Hash(): "the base"}
	for file := range base.Layers[0].Files {
		fsys := baseFS(t)
		fsys[file].Data = append(fsys[file].Data, "# a remark\n"...)
		s, _ := Load(fsys, "base")
		if other := seen[s.Hash()]; other != "" {
			t.Errorf("a change of %s has the hash of %s", file, other)
		}
		seen[s.Hash()] = file
		safety := strings.HasPrefix(file, "cautions") || strings.HasPrefix(file, "stops") || strings.HasPrefix(file, "jurisdictions")
		if changed := s.SafetyHash() != base.SafetyHash(); changed != safety {
			t.Errorf("a change of %s changes the safety hash: %t", file, changed)
		}
	}
}

func TestTheSafetyHashFollowsTheBandsOfMains(t *testing.T) {
	t.Parallel()
	fsys := baseFS(t)
	fsys["scales/mains.yaml"].Data = bytes.Replace(fsys["scales/mains.yaml"].Data, []byte(`to: "5"`), []byte(`to: "6"`), 1)
	s, problems := Load(fsys, "base")
	if len(problems) > 0 || s.SafetyHash() == baseSet(t).SafetyHash() {
		t.Errorf("dead to 6 V has the hash of dead to 5 V; problems %v", problems)
	}
}

func TestAKeptSetIsGuardedByTheRunningProgram(t *testing.T) {
	t.Parallel()
	fsys := baseFS(t)
	fsys["cautions/all.yaml"] = fileOf("- {id: other, words: another, at: [hot]}\n")
	fsys["referrals/all.yaml"].Data = append(fsys["referrals/all.yaml"].Data, "- {id: danger, words: stop, stop: true}\n"...)
	fsys["scales/mains.yaml"].Data = bytes.Replace(fsys["scales/mains.yaml"].Data, []byte(`to: "5"`), []byte(`to: "6"`), 1)
	running, problems := Load(fsys, "running")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	kept := overlaid(t)
	before := kept.Cautions[0].ID
	s := kept.WithSafety(running)
	if s.Cautions[0].ID != "other" || s.Referrals["danger"] == nil || s.Referrals["watch"] == nil {
		t.Error("the running program's cautions and referrals are not there")
	}
	if s.Scales["mains"].text() != running.Scales["mains"].text() || s.Scales["contact"] == nil {
		t.Error("the scales are not the kept ones with the running mains")
	}
	if s.Checks["warms"].Pos.File != "own/checks/own.yaml" || kept.Cautions[0].ID != before {
		t.Error("more was replaced than the safety data")
	}
}
