package trees

import (
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

const valveModel = `
- model: two-port
  is: a motor that opens a valve
  optional: [earth]
  nodes: [inside]
  values:
    - {id: winding-ohms, is: 2600, tolerance: 0.1}
    - {id: least, is: 0, zero: true}
    - {id: r25}
  variables:
    - {id: open, first: false}
    - {id: head, first: heating}
    - {id: free, first: true, fixed: true}
    - {id: blown, first: false}
  branches:
    - {id: winding, from: live, to: inside, ohms: winding_ohms, reactance: 4200, closed: not blown}
    - {id: rest, from: inside, to: neutral, ohms: 0.05, dc-ohms: r25, volts: least, dc-volts: "open ? 13 : 0", farads: 1e-8, tolerance: 0.2}
  rules:
    - {set: open, to: amps("winding") >= 0.03 and free and followed}
    - {set: head, to: 'open ? "hot" : head'}
  trips:
    - {id: fuse, overload: 'amps("winding") / 3', set: blown, to: true}
  faults:
    - id: motor
      words: the motor of $part is burnt out
      share: 0.4
      do: [open winding, lock head to hot]
      causes: [valve-stuck of $part]
      refers: [watch]
      except: [some-core]
      source: handbook F43
`

const someSigns = `
- sign: cold
  words: it is cold
  calls: {hot-water: true}
  shows: not part("valve").open
  shadows: [warm]
- sign: warm
  words: it is warm
  shows: true
`

const someLevels = "plant: one\nlevels:\n  - {from: a, to: b, mode: low impedance, off: 3.5, on: 207}\n  - {from: a, to: c, mode: high impedance, on: 230}\n"

func modelled(t testing.TB) (*Set, fstest.MapFS) {
	t.Helper()
	fsys := baseFS(t)
	fsys["models/all.yaml"] = fileOf(valveModel)
	fsys["signs/signs.yaml"] = fileOf(someSigns)
	fsys["levels/one.yaml"] = fileOf(someLevels)
	s, problems := Load(fsys, "base")
	if len(problems) > 0 {
		t.Fatal(problems.Format(0))
	}
	return s, fsys
}

func TestAModelIsReadWhole(t *testing.T) {
	t.Parallel()
	s, _ := modelled(t)
	m := s.Models["two-port"]
	if got := []int{len(m.Optional), len(m.Nodes), len(m.Values), len(m.Variables), len(m.Branches), len(m.Rules), len(m.Slow), len(m.Trips), len(m.Faults)}; !cmp.Equal(got, []int{1, 1, 3, 4, 2, 2, 0, 1, 1}) {
		t.Fatalf("the parts of the model are %v", got)
	}
	w, r := m.Values[0], m.Values[2]
	if w.ID.Value != "winding_ohms" || w.Is.Value != 2600 || !w.Given || w.Tolerance != 0.1 || r.Given || !m.Values[1].Zero {
		t.Errorf("values: %+v, %+v", w, r)
	}
	b := m.Branches[1]
	if b.Ohms.Value != "0.05" || b.DCOhms.Value != "r25" || b.Volts.Value != "least" || b.Farads.Value != "1e-8" || b.Tolerance != 0.2 || b.From.Value != "inside" {
		t.Errorf("branch: %+v", b)
	}
	f := m.Faults[0]
	if f.Weight != 0.4 || !f.Scaled || f.Except[0].Value != "some-core" || f.Words != "the motor of $part is burnt out" || f.Source != "handbook F43" {
		t.Errorf("fault: %+v", f)
	}
	do, causes, refers := f.Names(map[string]string{"part": "valve"})
	if diff := cmp.Diff([][]string{{"open winding", "lock head to hot"}, {"valve-stuck of valve"}, {"watch"}}, [][]string{do, causes, refers}); diff != "" {
		t.Error(diff)
	}
}

func TestSignsKeepTheirOrderAndLevelsTheirPlant(t *testing.T) {
	t.Parallel()
	s, fsys := modelled(t)
	if len(s.Signs) != 2 || s.Signs[0].ID.Value != "cold" || !s.Signs[0].Calls[0].On || s.Sign("warm") != s.Signs[1] || s.Sign("x") != nil {
		t.Errorf("signs: %+v", s.Signs)
	}
	want := []Level{{From: "a", To: "b", Mode: "low impedance", Off: 3.5, On: 207}, {From: "a", To: "c", Mode: "high impedance", Off: -1, On: 230}}
	if diff := cmp.Diff(want, s.Levels["one"].Of); diff != "" {
		t.Error(diff)
	}
	heads, problems := heads(gather(fsys, "base"))
	whole, more := heads.Whole()
	if len(problems)+len(more) > 0 || len(heads.Models)+len(heads.Signs)+len(heads.Levels) != 0 || len(whole.Models) != 1 {
		t.Errorf("heads read %d models, the whole %d; problems %v %v", len(heads.Models), len(whole.Models), problems, more)
	}
	again, problems := Unpack(s.Pack())
	if len(problems) > 0 || len(again.Signs) != 2 || len(again.WithSafety(s).Models) != 1 {
		t.Errorf("unpacked: %v", problems)
	}
}

func TestTreesFromOutsideReplaceModelsAndSignsButNoLevels(t *testing.T) {
	t.Parallel()
	s, _ := modelled(t)
	own := filesOf("models/own.yaml", "- model: two-port\n  is: another\n", "signs/own.yaml", "- {sign: cold, words: colder, shows: false}\n")
	over, problems := Overlay(s, own, "own")
	if len(problems) > 0 || over.Models["two-port"].Is != "another" || over.Signs[0].Words != "colder" || len(over.Signs) != 2 {
		t.Errorf("%v; the model is %q, the first sign %q", problems, over.Models["two-port"].Is, over.Signs[0].Words)
	}
	_, problems = Overlay(s, filesOf("levels/one.yaml", someLevels), "own")
	expectProblem(t, problems, `the levels "one" cannot be replaced by trees from outside`)
}
