package monitor_test

import (
	"strings"
	"sync"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/monitor"
	"faultwalk/trees"
)

// fixture is an embedded plant with every check and cause its symptoms bind.
type fixture struct {
	plant  *trees.Plant
	checks map[string]*trees.BoundCheck
	graphs []*trees.Graph
}

var embedded = sync.OnceValue(func() map[string]*fixture {
	set, problems := trees.Embedded()
	if len(problems) > 0 {
		panic(problems.Format(20))
	}
	out := map[string]*fixture{}
	for id := range set.Plants {
		p, problems := set.Compose(id)
		if len(problems) > 0 {
			panic(problems.Format(20))
		}
		f := &fixture{plant: p, checks: map[string]*trees.BoundCheck{}}
		for symptom := range set.Symptoms {
			g, problems := set.Bind(symptom, p)
			if len(problems) > 0 {
				panic(problems.Format(20))
			}
			f.graphs = append(f.graphs, g)
		}
		f.forbidden()
		out[id] = f
	}
	return out
})

// forbidden adds checks that no tree may hold, for they are bound by hand.
func (f *fixture) forbidden() {
	pair := func(id, from, to string) {
		f.checks[id] = &trees.BoundCheck{ID: id, Check: &trees.Check{ID: id}, Quantity: "ac volts",
			Probes: []trees.BoundProbe{{From: f.plant.Point(from), To: f.plant.Point(to)}}}
	}
	pair("to earth", "diverter-live", "diverter-earth")
	pair("within a group", "diverter-live", "diverter-neutral")
	if f.plant.Point("heat-call") != nil {
		pair("the heat call", "heat-call", "neutral")
	}
	f.checks["the unit's bar"] = &trees.BoundCheck{ID: "the unit's bar", Check: &trees.Check{ID: "the unit's bar"}, Quantity: "ac volts",
		Probes: []trees.BoundProbe{{From: f.plant.Point("unit-origin-live"), To: f.plant.Point("unit-origin-neutral")}}}
	f.checks["winding"] = &trees.BoundCheck{ID: "winding", Check: &trees.Check{ID: "winding"}, Quantity: "ohms",
		Probes: []trees.BoundProbe{{From: f.plant.Point("diverter-switch-wire"), To: f.plant.Point("diverter-neutral")}}}
}

func (f *fixture) check(id string) *trees.BoundCheck {
	if c := f.checks[id]; c != nil {
		return c
	}
	for _, g := range f.graphs {
		if c := g.Check(id); c != nil {
			return c
		}
	}
	return nil
}

func (f *fixture) cause(id string) *trees.BoundCause {
	for _, g := range f.graphs {
		if c := g.Cause(id); c != nil {
			return c
		}
	}
	return nil
}

// judge numbers the bodies and judges them on a plant.
func judge(plant string, bodies ...any) []monitor.Finding {
	f := embedded()[plant]
	var events []journal.Event
	for i, b := range bodies {
		events = append(events, journal.Event{N: i + 1, Kind: journal.KindOf(b), Body: b})
	}
	return monitor.Judge(f.plant, f.check, f.cause, events)
}

// script is what happens in a job, one body after the other.
type script []any

func (s script) then(more ...any) script { return append(append(script{}, s...), more...) }

func hands(kind string) *journal.Handed { return &journal.Handed{Hands: journal.Hands{Kind: kind}} }

func do(act, on string) *journal.Acted {
	return &journal.Acted{Act: journal.Act{Do: act, On: on}, Outcome: journal.Done}
}

func cannot(act, on string) *journal.Acted {
	return &journal.Acted{Act: journal.Act{Do: act, On: on}, Outcome: journal.Cannot}
}

func wait(minutes float64) *journal.Acted {
	return &journal.Acted{Act: journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: minutes}, Outcome: journal.Done}
}

// form is a proving form of zeros, apart from what the changes say: "LINE=120" or "LINE=no".
func form(box, lines string, changes ...string) *journal.Acted {
	a := &journal.Acted{Act: journal.Act{Do: journal.ActProve, On: box}, Outcome: journal.Done}
	for _, name := range strings.Split(lines, "\n") {
		f := journal.Field{Name: strings.TrimSpace(name), Typed: "0"}
		if strings.HasPrefix(f.Name, "tester proved") || strings.HasSuffix(f.Name, " called") || strings.HasSuffix(f.Name, " dark") {
			f.Typed, f.Value = "yes", 1
		}
		a.Form = append(a.Form, f)
	}
	for _, c := range changes {
		change(a, c)
	}
	return a
}

func change(a *journal.Acted, text string) {
	name, value, _ := strings.Cut(text, "=")
	var kept []journal.Field
	for _, f := range a.Form {
		switch {
		case f.Name != name:
		case value == "gone":
			continue
		case value == "no":
			f.Typed, f.Value = "no", 0
		default:
			f.Typed, f.Value, a.Outcome = value, 120, journal.Found
		}
		kept = append(kept, f)
	}
	a.Form = kept
}

func read(check, mode string) *journal.Read {
	return &journal.Read{Check: check, Purpose: journal.ForTree,
		Values: []journal.Value{{As: "reading", Mode: mode, Typed: "0.4", Low: 0.4, High: 0.4}}}
}

func look(check string) *journal.Read {
	return &journal.Read{Check: check, Purpose: journal.ForTree, Answer: "sound"}
}

// provoked is the line of the calls that nothing makes without power: they move
// what the board switches where its own supply does not come.
const provoked = "hot-water and booster and heat called or dark"

// boxLines are the pairs of the diverter's wiring box: live, switch wire and
// neutral, each to the others that prove it (handbook 1.3, step 6). The supply of
// the board comes there too.
const boxLines = `tester proved before
controller dark
diverter-live to diverter-neutral
diverter-live to diverter-earth
diverter-switch-wire to diverter-neutral
diverter-switch-wire to diverter-earth
diverter-neutral to diverter-earth
tester proved after`

// boxDead has the diverter's box of the small plant open and proved dead: the
// unit's supply is the only one that reaches it.
func boxDead(changes ...string) script {
	return boxOpen().then(form("diverter-box", boxLines, changes...))
}

func boxOpen() script {
	return script{hands("electrical"), do(journal.ActSwitchOff, "unit-isolator"), do(journal.ActLock, "unit-isolator"),
		do(journal.ActOpen, "diverter-box")}
}

// headLines are the pairs of the booster's head on the small plant: the board's
// supply does not come there, and may stay on.
const headLines = `tester proved before
` + provoked + `
booster-neutral to booster-earth
booster-head-live to booster-neutral
booster-head-live to booster-earth
booster-thermostat-out to booster-neutral
booster-thermostat-out to booster-earth
booster-live to booster-neutral
booster-live to booster-earth
tester proved after`

// headOpen has that head open with the booster's supply locked off, and the
// board's on.
func headOpen() script {
	return script{hands("electrical"), do(journal.ActSwitchOff, "booster-isolator"), do(journal.ActLock, "booster-isolator"),
		do(journal.ActOpen, "booster-head")}
}

func headDead(changes ...string) script {
	return headOpen().then(form("booster-head", headLines, changes...))
}

// boxLive is the same box with power back and the cover still off.
func boxLive() script {
	return boxDead().then(do(journal.ActUnlock, "unit-isolator"), do(journal.ActSwitchOn, "unit-isolator"))
}

// want holds a judgement to exactly the findings whose words are given.
func want(t *testing.T, got []monitor.Finding, words ...string) {
	t.Helper()
	if len(got) != len(words) {
		t.Fatalf("%d findings %v; expected %d: %q", len(got), got, len(words), words)
	}
	for i, w := range words {
		if !strings.Contains(got[i].What, w) {
			t.Errorf("finding %d is %q; expected it to say %q", i, got[i].What, w)
		}
	}
}
