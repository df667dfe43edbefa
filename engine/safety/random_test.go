package safety

import (
	"math"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"

	"pgregory.net/rapid"
)

// everything is one check of each sort on the three-supply house.
func everything(ctx Context) []*trees.BoundCheck {
	heat, water := map[string]bool{"heat": true}, map[string]bool{"hot-water": true, "heat": false}
	sensor := measure(ctx, measurements.Ohms, "controller-a", "controller-b")
	sensor.Need = trees.Need{Power: trees.Outside, Covers: []string{"controller-base"}, Unplugged: []string{"controller"}, Asks: []string{"sensor-plug"}}
	return []*trees.BoundCheck{
		look(nil, 0), look(heat, 10, "pipes"), look(water, 3), sensor,
		ohms(ctx, "permanent-live", "neutral"), ohms(ctx, "cylinder-a", "neutral", "cylinder-sensor"), ohms(ctx, "valve-live", "valve-neutral", "valve"),
		ohms(ctx, "limit-in", "limit-out"), ohms(ctx, "booster-in-live", "booster-in-neutral"), ohms(ctx, "in-live", "out-live"), ohms(ctx, "receiver-no", "heat-call"),
		volts(ctx, "permanent-live", "neutral", nil), volts(ctx, "heat-call", "neutral", heat), volts(ctx, "valve-live", "valve-earth", water),
		volts(ctx, "booster-command", "booster-in-neutral", map[string]bool{"booster": true}), volts(ctx, "receiver-no", "receiver-neutral", map[string]bool{"heat": false}),
	}
}

// every act there could be.
func allActs(p *trees.Plant) (out []journal.Act) {
	for _, d := range p.Devices {
		out = append(out, act(journal.ActSwitchOff, d.ID), act(journal.ActLock, d.ID), act(journal.ActUnlock, d.ID), act(journal.ActSwitchOn, d.ID))
	}
	for _, e := range p.Enclosures {
		out = append(out, act(journal.ActOpen, e.ID), act(journal.ActProve, e.ID), act(journal.ActClose, e.ID))
	}
	for _, g := range p.Plugs {
		out = append(out, act(journal.ActUnplug, g.ID), act(journal.ActRefit, g.ID))
	}
	for _, c := range p.Calls {
		out = append(out, act(journal.ActCall, c.ID), act(journal.ActRelease, c.ID), journal.Act{Do: journal.ActWait, On: c.ID, Minutes: 2})
	}
	return out
}

// watch judges by raw acts alone, with the ways of the mains into this house
// written out by hand: hands in an enclosure only while every supply that comes
// there is off and locked.
type watch struct{ off, locked, proved, open map[string]bool }

var waysIn = map[string][][]string{
	"control-enclosure": {{"unit-isolator", "unit-breaker"}, {"controls-spur"}},
	"valve-box":         {{"unit-isolator", "unit-breaker"}, {"controls-spur"}},
	"limit-box":         {{"unit-isolator", "unit-breaker"}, {"controls-spur"}},
	"receiver-box":      {{"unit-isolator", "unit-breaker"}, {"controls-spur"}},
	"unit-isolator-box": {{"unit-breaker"}, {"controls-spur"}},
	"booster-box":       {{"booster-isolator"}, {"unit-isolator", "unit-breaker"}, {"controls-spur"}},
	"consumer-unit":     {{}}, "spur-box": {{}}, "power-enclosure": {{}},
}

func newWatch() *watch {
	return &watch{map[string]bool{}, map[string]bool{}, map[string]bool{}, map[string]bool{}}
}

func (m *watch) dead(box string) bool {
	for _, way := range waysIn[box] {
		held := false
		for _, d := range way {
			held = held || m.off[d] && m.locked[d]
		}
		if !held {
			return false
		}
	}
	return true
}

// comesTo says whether the supply of a device, the first part of its name, comes to a box.
func comesTo(device, box string) bool {
	supply, _, _ := strings.Cut(device, "-")
	for _, way := range waysIn[box] {
		if strings.HasPrefix(way[0], supply) {
			return true
		}
	}
	return false
}

// unsafe says what is wrong with an act about to be done.
func (m *watch) unsafe(p *trees.Plant, a journal.Act) string {
	box := a.On
	if g := p.Plug(a.On); a.Do == journal.ActUnplug || a.Do == journal.ActRefit {
		box = g.In
	}
	_, isMains := waysIn[box]
	switch a.Do {
	case journal.ActOpen, journal.ActProve:
		if isMains && !m.dead(box) {
			return "a cover comes off or is probed behind with mains there"
		}
	case journal.ActUnplug, journal.ActRefit, journal.ActClose:
		if isMains && !(m.dead(box) && m.proved[box] && m.open[box]) {
			return "a hand goes in where nothing is proved"
		}
	}
	return ""
}

func (m *watch) did(a journal.Act) {
	switch a.Do {
	case journal.ActSwitchOff:
		m.off[a.On] = true
	case journal.ActLock:
		m.locked[a.On] = true
	case journal.ActSwitchOn, journal.ActUnlock:
		for box := range m.proved {
			if comesTo(a.On, box) {
				delete(m.proved, box)
			}
		}
		if delete(m.locked, a.On); a.Do == journal.ActSwitchOn {
			delete(m.off, a.On)
		}
	case journal.ActOpen:
		m.open[a.On] = true
		delete(m.proved, a.On)
	case journal.ActClose:
		delete(m.open, a.On)
		delete(m.proved, a.On)
	case journal.ActProve:
		m.proved[a.On] = true
	}
}

func (m *watch) paused() { *m = *newWatch() }

// pick draws one of a list by its place, which prints shorter than the thing.
func pick[T any](t *rapid.T, list []T) T {
	return list[rapid.IntRange(0, len(list)-1).Draw(t, "pick")]
}

// caller does random things, asking the guard before each.
type caller struct {
	t   *rapid.T
	ctx Context
	w   *World
	m   *watch
}

func (c *caller) try(a journal.Act) *Refusal {
	r := Guard(c.ctx, c.w, OfAct(a))
	if r != nil {
		return r
	}
	if why := c.m.unsafe(c.ctx.Plant, a); why != "" {
		c.t.Fatalf("%s: %s", Key(a), why)
	}
	c.w.assume(a)
	c.m.did(a)
	return nil
}

// read lets the guard judge a check and holds it against the raw acts.
func (c *caller) read(check *trees.BoundCheck) bool {
	if Guard(c.ctx, c.w, OfCheck(check)) != nil {
		return false
	}
	for _, box := range check.Need.Enclosures {
		if check.Need.Power == trees.DeadWay && !(c.m.dead(box) && c.m.proved[box]) {
			c.t.Fatalf("%s is allowed and %s is not dead and proved", check.ID, box)
		}
		if check.Need.Power == trees.Live && !c.m.open[box] {
			c.t.Fatalf("%s is allowed behind the cover of %s", check.ID, box)
		}
	}
	return true
}

// wander does some random acts, plans half followed, pauses and finds.
func (c *caller) wander(checks []*trees.BoundCheck) {
	acts := allActs(c.ctx.Plant)
	for range rapid.IntRange(0, 8).Draw(c.t, "steps") {
		switch rapid.IntRange(0, 9).Draw(c.t, "what") {
		case 0:
			c.w.Apply(journal.Event{Body: &journal.Resumed{}})
			c.m.paused()
		case 1:
			c.w.Apply(journal.Event{Body: &journal.Retracted{Event: 1}})
		case 2:
			c.find(pick(c.t, c.ctx.Plant.Enclosures).ID)
		case 3, 4, 5:
			plan := Plan(c.ctx, c.w, OfCheck(pick(c.t, checks)), []string{"valve-box", "booster-box"})
			for _, a := range plan[:rapid.IntRange(0, len(plan)).Draw(c.t, "of it")] {
				if r := c.try(a); r != nil {
					c.t.Fatalf("%s of a plan is refused: %s", Key(a), r.Why)
				}
			}
		default:
			c.try(pick(c.t, acts))
		}
		c.read(pick(c.t, checks))
	}
}

// find reads 230 V at a proof, where one may be made.
func (c *caller) find(box string) {
	if Guard(c.ctx, c.w, OfAct(act(journal.ActProve, box))) != nil {
		return
	}
	form := Clean(Form(c.ctx.Plant, box))
	form[len(form)-2].Value = 230
	c.w.Apply(journal.Event{Body: &journal.Acted{Act: act(journal.ActProve, box), Outcome: journal.Found, Form: form}})
	clear(c.m.proved)
}

func TestFromAnywhereAPlanPassesTheGuardAndReachesItsCheck(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	checks := everything(ctx)
	rapid.Check(t, func(t *rapid.T) {
		c := &caller{t, ctx, New(ctx.Plant), newWatch()}
		c.wander(checks)
		check := pick(t, checks)
		refusal := Available(ctx, c.w, OfCheck(check))
		if refusal != nil && refusal.Kind != Halt {
			t.Fatalf("%s: these hands could not do it: %s", check.ID, refusal.Why)
		}
		plan := Plan(ctx, c.w, OfCheck(check), nil)
		for _, a := range plan {
			if r := c.try(a); r != nil {
				t.Fatalf("%s: %s of %v is refused: %s", check.ID, Key(a), keys(plan), r.Why)
			}
		}
		if refusal != nil {
			return
		}
		if r := Guard(ctx, c.w, OfCheck(check)); r != nil {
			t.Fatalf("%s is refused after %v: %s", check.ID, keys(plan), r.Why)
		}
		c.read(check)
		if again := Plan(ctx, c.w, OfCheck(check), nil); len(again) > 0 {
			t.Fatalf("%s: and then still %v", check.ID, keys(again))
		}
	})
}

func TestFromAnywhereThePlantIsPutBackWhole(t *testing.T) {
	t.Parallel()
	ctx := engineer()
	checks := everything(ctx)
	rapid.Check(t, func(t *rapid.T) {
		c := &caller{t, ctx, New(ctx.Plant), newWatch()}
		c.wander(checks)
		plan := PlanRestore
		if rapid.Bool().Draw(t, "left safe") {
			plan = PlanSafe
		}
		back := plan(ctx, c.w)
		for _, a := range back {
			if r := c.try(a); r != nil {
				t.Fatalf("%s of %v is refused: %s", Key(a), keys(back), r.Why)
			}
		}
		if c.w.Found != nil {
			return
		}
		if len(c.w.Enclosures) > 0 || len(plan(ctx, c.w)) > 0 {
			t.Fatalf("after %v covers %v, and then still %v", keys(back), c.w.Enclosures, keys(plan(ctx, c.w)))
		}
		if left := PlanRestore(ctx, c.w); len(left) == 0 && len(c.w.Devices)+len(c.w.Plugs) > 0 {
			t.Fatalf("nothing left to restore with %v and %v", c.w.Devices, c.w.Plugs)
		}
	})
}

func TestFormsOfNonsenseNeverProveAnything(t *testing.T) {
	t.Parallel()
	form := Form(house(), "control-enclosure")
	rapid.Check(t, func(t *rapid.T) {
		values := Clean(form)
		i := rapid.IntRange(0, len(values)-1).Draw(t, "line")
		values[i].Value = rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 5.0001, -1e308}).Draw(t, "value")
		v := Judge(form, values)
		if v.Complete && !(math.IsNaN(values[i].Value) && form[i].Kind == Yes) {
			t.Fatalf("%q with %g is complete", form[i].Name, values[i].Value)
		}
	})
}
