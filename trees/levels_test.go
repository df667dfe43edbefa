package trees

import (
	"strings"
	"testing"
)

const leveledScale = `
- id: coupled
  bands:
    - {band: dead, to: "off.high + 5"}
    - {band: unproved, to: "on.low - 10"}
    - {band: driven}
`

const coupledCheck = `
- id: coupling
  of: {at: point}
  read: ac volts
  probes:
    - {as: ln, from: $at, to: neutral, modes: [high impedance, low impedance]}
    - {as: le, from: earth, to: $at, modes: [high impedance]}
  minutes: 1
  scale: coupled
  good: driven(ln)
`

const pairLevels = `plant: one
levels:
  - {from: neutral, to: hot-water-call, mode: high impedance, off: 60, on: 215}
  - {from: hot-water-call, to: neutral, mode: low impedance, off: 2}
  - {from: hot-water-call, to: earth, mode: high impedance, on: 214}
`

// edgesOf gives the upper edges of the bands of each probe, in those modes.
func edgesOf(t *testing.T, levels string, modes map[string]string) map[string][2]float64 {
	t.Helper()
	fsys := baseFS(t)
	fsys["scales/more.yaml"], fsys["checks/more.yaml"] = fileOf(leveledScale), fileOf(coupledCheck)
	if levels != "" {
		fsys["levels/one.yaml"] = fileOf(levels)
	}
	s, problems := Load(fsys, "base")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	p, _ := s.Compose("one")
	b := newBinder(s, s.Symptoms["cold"], p, newCommon())
	text := s.Symptoms["cold"].Cleared
	text.Value = "coupling at hot-water-call"
	set, err := s.Holding(b.check(text, nil, nil), "true", Situation{Jurisdiction: s.Jurisdictions["xx"], Modes: modes, Edges: Edges{}})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][2]float64{}
	for _, v := range set.Variables {
		out[v.Name] = [2]float64{v.Bands[0].To, v.Bands[1].To}
	}
	return out
}

func TestEdgesFollowTheLevelsOfThePairAndTheMode(t *testing.T) {
	t.Parallel()
	high := edgesOf(t, pairLevels, nil)
	if high["ln"] != [2]float64{65, 205} {
		t.Errorf("live to neutral, high impedance: %v", high["ln"])
	}
	if high["le"] != [2]float64{5, 204} {
		t.Errorf("live to earth, which is never undriven: %v; expected off.high to be 0", high["le"])
	}
	// The jurisdiction of the base says that mains go down to 207 V.
	if low := edgesOf(t, pairLevels, map[string]string{"ln": "low impedance"}); low["ln"] != [2]float64{7, 197} {
		t.Errorf("live to neutral, low impedance: %v", low["ln"])
	}
}

func TestEdgesWithoutLevelsFallBackToTheMains(t *testing.T) {
	t.Parallel()
	for probe, got := range edgesOf(t, "", nil) {
		if got != [2]float64{5, 197} {
			t.Errorf("%s: %v", probe, got)
		}
	}
}

func TestConditionsDoNotNameLevels(t *testing.T) {
	t.Parallel()
	fsys := baseFS(t)
	fsys["scales/more.yaml"], fsys["checks/more.yaml"] = fileOf(strings.Replace(leveledScale, "off.high", "off.hi", 1)),
		fileOf(strings.Replace(coupledCheck, "driven(ln)", "ln > off.high", 1))
	_, problems := Load(fsys, "base")
	expectProblem(t, problems, `scales/more.yaml:4:25: in the edge of a band: unknown name "off.hi"; did you mean "off.high"?`)
	expectProblem(t, problems, `checks/more.yaml:10:14: in a condition on coupling: unknown name "off.high"`)
}

// Where levels move what mains are judged by, they are data that keep people safe.
func TestLevelsOfMainsAreSafetyData(t *testing.T) {
	t.Parallel()
	hash := func(edge, levels string) string {
		fsys := baseFS(t)
		fsys["scales/mains.yaml"].Data = []byte(strings.ReplaceAll(string(fsys["scales/mains.yaml"].Data), `to: "5"`, `to: "`+edge+`"`))
		fsys["levels/one.yaml"] = fileOf(levels)
		s, problems := Load(fsys, "base")
		if len(problems) > 0 {
			t.Fatal(problems.Format(0))
		}
		return s.SafetyHash()
	}
	other := strings.Replace(pairLevels, "60", "61", 1)
	if hash("5", pairLevels) != hash("5", other) || hash("off.high + 5", pairLevels) == hash("off.high + 5", other) {
		t.Error("the hash follows levels where the mains do not, or not where they do")
	}
}

func TestAKeptSetTakesTheLevelsOfARunningScaleOfMains(t *testing.T) {
	t.Parallel()
	set := func(edge, off string) *Set {
		fsys := baseFS(t)
		fsys["scales/mains.yaml"].Data = []byte(strings.ReplaceAll(string(fsys["scales/mains.yaml"].Data), `to: "5"`, `to: "`+edge+`"`))
		fsys["levels/one.yaml"] = fileOf(strings.Replace(pairLevels, "60", off, 1))
		s, problems := Load(fsys, "base")
		if len(problems) > 0 {
			t.Fatal(problems.Format(0))
		}
		return s
	}
	if kept := set("5", "60").WithSafety(set("off.high + 5", "70")); kept.Levels["one"].Of[0].Off != 70 {
		t.Error("the running mains are worked out from the kept levels")
	}
	if kept := set("5", "60").WithSafety(set("6", "70")); kept.Levels["one"].Of[0].Off != 60 {
		t.Error("levels were replaced that no scale of mains needs")
	}
}
