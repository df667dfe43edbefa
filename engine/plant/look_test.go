package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

func text(s string) strict.Text { return strict.Text{Value: s} }

// shows says whether a formula holds on the plant with calls made.
func shows(s *plant.Subject, formula string, calls ...string) bool {
	sign := &trees.Sign{Shows: text(formula)}
	for _, c := range calls {
		sign.Calls = append(sign.Calls, trees.CallState{Call: text(c), On: true})
	}
	return s.Shows(sign)
}

func TestFormulasSeeThePlantAndWhatBecomesOfIt(t *testing.T) {
	t.Parallel()
	m := bench(t, "closed: made", "closed: made and not (part(\"lamp\").worn and part(\"lamp\").pulled_in)",
		"    - {id: mood, ", "    - {id: worn, first: false, fixed: true}\n    - {id: mood, ", "do: [open feed-live@to]", "do: [lock lamp.worn to true]")
	sound, worn := m.New(nil, nil), m.New(m.Fault("no-live"), nil)
	for _, c := range []struct {
		s       *plant.Subject
		formula string
		calls   []string
		want    bool
	}{
		{sound, `part("lamp").pulled_in`, nil, false},
		{sound, `part("lamp").pulled_in`, []string{"heat"}, true},
		{sound, `after("call heat", part("lamp").pulled_in)`, nil, true},
		{sound, `after("call heat", part("lamp").pulled_in) and not part("lamp").pulled_in`, nil, true},
		{sound, `after("call heat", volts("call", "neutral") > 230) and volts("call", "neutral") < 10`, nil, true},
		{sound, `after("release heat", volts("call", "neutral") < 10) and volts("call", "neutral") > 230`, []string{"heat"}, true},
		{sound, `after("release heat", part("lamp").pulled_in)`, []string{"heat"}, false},
		{sound, `after("off breaker", part("lamp").pulled_in) or after("off breaker, on breaker", not part("lamp").pulled_in)`, []string{"heat"}, false},
		{sound, `volts("call", "neutral") > 230 and amps("lamp/winding") > 0.23 and amps("feed-live") > 0.23`, []string{"heat"}, true},
		{sound, `swings(part("lamp").pulled_in) or unsteady`, []string{"heat"}, false},
		{sound, `part("lamp").mood == "calm" and setting("none-such") == "right" and has("lamp") and not has("pump")`, nil, true},
		{worn, `swings(part("lamp").pulled_in) and unsteady`, []string{"heat"}, true},
		{worn, `swings(volts("call", "neutral") > 100) and not swings(volts("in-live", "neutral") > 100)`, []string{"heat"}, true},
		{worn, `swings(part("stat").made)`, []string{"heat"}, false},
		{worn, `after("call heat", unsteady) and not unsteady`, nil, true},
	} {
		if got := shows(c.s, c.formula, c.calls...); got != c.want {
			t.Errorf("%s with %v called: %v, want %v", c.formula, c.calls, got, c.want)
		}
	}
}

// The same acts lead elsewhere from another standing, in any order.
func TestActsAreDoneFromTheStandingTheyAreAskedIn(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	look := &trees.BoundCheck{ID: "look", Look: "lamp", Answers: []trees.Answer{
		{ID: "lit", When: text(`after("call heat, wait", part("lamp").pulled_in)`)}, {ID: "dark"}}}
	for i, how := range []struct {
		off  map[string]bool
		want string
	}{{nil, "lit"}, {map[string]bool{"breaker": true}, "dark"}, {nil, "lit"}, {map[string]bool{"breaker": true}, "dark"}} {
		if r, err := s.Answer(look, plant.How{Off: how.off}); err != nil || r.Answer != how.want {
			t.Errorf("look %d with %v off: %s, %v; expected %s", i, how.off, r.Answer, err, how.want)
		}
	}
}

// TestPlantThatGoesRoundByItselfGoesOnWhateverIsDone: a contact that is stuck made
// before a worn coil needs no call to go on and off.
func TestPlantThatGoesRoundByItselfGoesOnWhateverIsDone(t *testing.T) {
	t.Parallel()
	m := bench(t, "closed: made", "closed: made and not (part(\"lamp\").worn and part(\"lamp\").pulled_in)",
		"    - {id: mood, ", "    - {id: worn, first: false, fixed: true}\n    - {id: mood, ",
		"do: [open feed-live@to]", "do: [lock lamp.worn to true, lock stat.made to true]")
	s := m.New(m.Fault("no-live"), nil)
	for _, formula := range []string{"unsteady", `after("release heat", unsteady)`, `after("call heat", unsteady)`, `not after("off breaker", unsteady)`} {
		for _, calls := range [][]string{nil, {"heat"}} {
			if !shows(s, formula, calls...) {
				t.Errorf("%s does not hold with %v called", formula, calls)
			}
		}
	}
}

// TestDrawnPlantIsWorkedOutWithItsOwnValues: a lamp that has more ohms than most is
// hot from its first day, though nothing that changes says so.
func TestDrawnPlantIsWorkedOutWithItsOwnValues(t *testing.T) {
	t.Parallel()
	m := bench(t, "    - {id: mood, ", "    - {id: hot, first: false}\n    - {id: mood, ", "    - {set: pulled_in", "    - {set: hot, to: ohms > 1050}\n    - {set: pulled_in")
	s := m.New(nil, nil)
	for _, end := range []float64{1, 0, -1, 1} {
		draw := m.Extreme(end)
		if s.Be(nil, draw); s.Variable("lamp.hot") != max(0, end) || m.New(nil, draw).Variable("lamp.hot") != max(0, end) {
			t.Errorf("the lamp of %g Ω is hot: %g", 1000+100*end, s.Variable("lamp.hot"))
		}
	}
}

func TestLookGivesItsFirstAnswerThatHolds(t *testing.T) {
	t.Parallel()
	s := bench(t).New(nil, nil)
	look := &trees.BoundCheck{ID: "look", Look: "lamp", Answers: []trees.Answer{
		{ID: "lit", When: text(`part("lamp").pulled_in`)}, {ID: "called", When: text(`called("heat")`)}, {ID: "dark", When: text(`device("breaker").on`)}}}
	for want, how := range map[string]struct {
		calls map[string]bool
		off   map[string]bool
	}{"lit": {calls: map[string]bool{"heat": true}}, "dark": {}, "called": {calls: map[string]bool{"heat": true}, off: breakerOff}, "": {off: breakerOff}} {
		look.Need.Calls = how.calls
		r, err := s.Answer(look, plant.How{Off: how.off})
		if err != nil || r.Answer != want {
			t.Errorf("the look gives %q, %v; want %q", r.Answer, err, want)
		}
	}
	look.Need.Calls, look.Answers = nil, append(look.Answers, trees.Answer{ID: "otherwise"})
	if r, _ := s.Answer(look, plant.How{Off: breakerOff}); r.Answer != "otherwise" {
		t.Errorf("the look gives %q, want what stands without a condition", r.Answer)
	}
}

func TestLookThatCannotBeToldSaysWhy(t *testing.T) {
	t.Parallel()
	m := bench(t)
	look := &trees.BoundCheck{ID: "look", Look: "lamp", Answers: []trees.Answer{{ID: "lit", When: text(`part("lamb").pulled_in`)}}}
	if _, err := m.New(nil, nil).Answer(look, plant.How{}); err == nil {
		t.Error("a formula with a part nobody has gives an answer")
	}
	if p := m.Problems([]*trees.BoundCheck{look}, []*trees.Sign{{Shows: text(`called("heat"`)}}); len(p) != 2 {
		t.Errorf("%d problems, want one of the look and one of the sign:\n%s", len(p), p.Format(0))
	}
}

func TestActMovesThePlantForGood(t *testing.T) {
	t.Parallel()
	m := bench(t, "do: [open feed-live@to]", "do: [start device breaker tripped to overcurrent]")
	s := m.New(m.Fault("no-live"), nil)
	if shows(s, `part("lamp").pulled_in`, "heat") {
		t.Fatal("the lamp is lit with the breaker tripped")
	}
	for _, wrong := range []string{"reset braker", "call cold", "jump", ""} {
		if err := s.Act(wrong); err == nil {
			t.Errorf("the act %q was done", wrong)
		}
	}
	if err := s.Act("reset breaker"); err != nil {
		t.Fatal(err)
	}
	if !shows(s, `part("lamp").pulled_in`, "heat") {
		t.Error("the lamp stays dark with the breaker reset")
	}
}

// TestOrdinaryUseCallsForAllButWhatIsSeldomCalled: the mark that a lamp leaves
// once it was lit is there from weeks of use, unless nobody calls for it.
func TestOrdinaryUseCallsForAllButWhatIsSeldomCalled(t *testing.T) {
	t.Parallel()
	mark := []string{"    - {id: mood, ", "    - {id: used, first: false}\n    - {id: mood, ", "    - {set: pulled_in", "    - {set: used, to: used or pulled_in}\n    - {set: pulled_in"}
	seldom := append([]string{"- {id: heat, words: heat}", "- {id: heat, words: heat, seldom: true}"}, mark...)
	if s := bench(t, mark...).New(nil, nil); s.Variable("lamp.used") != 1 {
		t.Error("ordinary use did not light the lamp")
	}
	s := bench(t, seldom...).New(nil, nil)
	if s.Variable("lamp.used") != 0 || !shows(s, `part("lamp").used`, "heat") {
		t.Error("ordinary use lit a lamp that is seldom called, or a call does not light it")
	}
}
