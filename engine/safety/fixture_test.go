package safety

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// house is a plant with three supplies: the unit's feeds the board, the
// booster's the booster, and a spur feeds the room controls, whose heat call
// comes to the board whatever the other two do.
func house() *trees.Plant {
	p := trees.Plant{ID: "three-supplies"}
	for _, id := range []string{"unit", "booster", "controls"} {
		p.Supplies = append(p.Supplies, &trees.Supply{ID: id, Words: "the " + id + " supply", RCD: id + "-rcd", Live: id + "-origin-live", Neutral: id + "-origin-neutral"})
		points(&p, "consumer-unit", "live:"+id+"-origin-live", "neutral:"+id+"-origin-neutral")
	}
	p.Enclosures = []*trees.Enclosure{
		{ID: "consumer-unit"}, {ID: "unit-isolator-box", Outdoor: true}, {ID: "power-enclosure", Outdoor: true, Sealed: true},
		{ID: "control-enclosure"}, {ID: "valve-box", Wet: true}, {ID: "limit-box", Wet: true, Reference: "valve-box"},
		{ID: "booster-box"}, {ID: "booster-head"}, {ID: "spur-box"}, {ID: "receiver-box"}, {ID: "controller-base"},
	}
	for _, e := range p.Enclosures {
		e.Words = "the " + e.ID
	}
	wire(&p)
	devices(&p)
	p.Parts = []*trees.Part{{ID: "board", Kind: "board", Terminals: map[string]string{"live": "permanent-live", "neutral": "neutral"}},
		{ID: "cut-out", Kind: "relay", Terminals: map[string]string{"live": "booster-in-live"}}}
	p.Plugs = []*trees.Plug{
		{ID: "cylinder-sensor", In: "control-enclosure"}, {ID: "valve", In: "valve-box"},
		{ID: "controller", In: "controller-base"}, {ID: "room-sensor"},
	}
	p.Calls = []*trees.Call{
		{ID: "heat", Words: "heat", Settle: 1, Stop: 2, Stands: true},
		{ID: "hot-water", Words: "hot water", Settle: 2, Stop: 3}, {ID: "booster", Words: "the booster"},
	}
	return trees.NewPlant(p)
}

// points adds points written role:id to an enclosure.
func points(p *trees.Plant, in string, list ...string) {
	for _, v := range list {
		role, id, _ := strings.Cut(v, ":")
		p.Points = append(p.Points, &trees.Point{ID: id, Words: id, In: in, Role: role})
	}
}

// link joins points written a>b by links of a kind.
func link(p *trees.Plant, kind, of string, list ...string) {
	for _, v := range list {
		from, to, _ := strings.Cut(v, ">")
		p.Links = append(p.Links, &trees.Link{ID: v, Kind: kind, Of: of, From: from, To: to})
	}
}

func wire(p *trees.Plant) {
	points(p, "unit-isolator-box", "live:in-live", "neutral:in-neutral", "live:out-live", "neutral:out-neutral", "earth:isolator-earth")
	points(p, "power-enclosure", "live:unit-live", "neutral:unit-neutral", "earth:unit-earth")
	points(p, "control-enclosure", "live:permanent-live", "neutral:neutral", "earth:earth", "switched:heat-call", "switched:hot-water-call", "elv:cylinder-a", "elv:data-s")
	points(p, "valve-box", "switched:valve-live", "neutral:valve-neutral", "earth:valve-earth")
	points(p, "limit-box", "switched:limit-in", "switched:limit-out")
	points(p, "booster-box", "live:booster-in-live", "neutral:booster-in-neutral", "earth:booster-earth", "switched:booster-command")
	points(p, "booster-head", "switched:element", "neutral:element-neutral", "earth:element-earth")
	points(p, "spur-box", "live:spur-in-live", "neutral:spur-in-neutral", "live:spur-out-live", "neutral:spur-out-neutral", "earth:spur-earth")
	points(p, "receiver-box", "live:receiver-live", "neutral:receiver-neutral", "earth:receiver-earth", "switched:receiver-no")
	points(p, "controller-base", "elv:controller-a", "elv:controller-b")
	link(p, trees.LinkCore, "", "breaker-out-live>in-live", "unit-origin-neutral>in-neutral", "out-live>unit-live", "out-neutral>unit-neutral",
		"unit-live>permanent-live", "unit-neutral>neutral", "neutral>data-s", "hot-water-call>limit-in", "limit-out>valve-live", "valve-neutral>neutral",
		"booster-origin-live>booster-way-live", "controls-origin-live>spur-in-live", "controls-origin-neutral>spur-in-neutral",
		"spur-out-live>receiver-live", "spur-out-neutral>receiver-neutral", "receiver-no>heat-call", "booster-in-neutral>element-neutral")
	link(p, trees.LinkContact, "", "permanent-live>hot-water-call", "permanent-live>booster-command", "limit-in>limit-out", "receiver-live>receiver-no",
		"booster-in-live>element")
	link(p, trees.LinkLoad, "", "unit-live>unit-neutral", "permanent-live>neutral", "heat-call>neutral", "valve-live>valve-neutral",
		"booster-in-live>booster-in-neutral", "booster-command>neutral", "receiver-live>receiver-neutral")
	link(p, trees.LinkEarth, "", "earth>valve-earth")
}

func devices(p *trees.Plant) {
	p.Devices = []*trees.Device{
		{ID: "unit-breaker", Words: "the unit breaker", Supply: "unit", Poles: 1, Lockable: true},
		{ID: "unit-isolator", Words: "the unit isolator", Supply: "unit", Poles: 2, Lockable: true, Outdoor: true},
		{ID: "booster-breaker", Words: "the booster breaker", Supply: "booster", Poles: 1},
		{ID: "booster-isolator", Words: "the booster isolator", Supply: "booster", Poles: 2, Lockable: true},
		{ID: "controls-spur", Words: "the controls spur", Supply: "controls", Poles: 2, Lockable: true},
	}
	link(p, trees.LinkPole, "unit-breaker", "unit-origin-live>breaker-out-live")
	link(p, trees.LinkPole, "unit-isolator", "in-live>out-live", "in-neutral>out-neutral")
	link(p, trees.LinkPole, "booster-breaker", "booster-way-live>booster-way-out")
	link(p, trees.LinkPole, "booster-isolator", "booster-way-out>booster-in-live", "booster-origin-neutral>booster-in-neutral")
	link(p, trees.LinkPole, "controls-spur", "spur-in-live>spur-out-live", "spur-in-neutral>spur-out-neutral")
}

// rules of a country where everybody may look, work controls and switches, and
// only the electrically competent and supervised apprentices the rest.
func rulesOfTheCountry() *trees.Jurisdiction {
	j := &trees.Jurisdiction{ID: "testland", Name: "Testland"}
	for _, c := range trees.Capabilities {
		g := trees.Gate{May: c, Words: c, ByPhone: "yes", Who: map[string]string{"apprentice": "supervised", "electrical": "yes"}}
		switch c {
		case "look", "controls", "switches":
			g.Who = map[string]string{"householder": "yes", "installer": "yes", "apprentice": "yes", "electrical": "yes"}
		case "sensor-plug", "pipes":
			g.Who["installer"] = "yes"
		case "limit":
			g.Needs, g.ByPhone = []string{"unvented"}, "never"
		}
		j.Gates = append(j.Gates, g)
	}
	return j
}

// engineer is an electrically competent person with the whole kit.
func engineer() Context {
	h := journal.Hands{Kind: "electrical", ProvingUnit: true}
	for _, i := range measurements.DefaultKit().Instruments {
		h.Kit = append(h.Kit, i.ID)
	}
	return Context{Plant: house(), Jurisdiction: rulesOfTheCountry(), Hands: h}
}

// volts is a live check of one pair, in the first mode that serves.
func volts(ctx Context, from, to string, calls map[string]bool, modes ...string) *trees.BoundCheck {
	c := measure(ctx, measurements.ACVolts, from, to, modes...)
	c.Need.Power, c.Need.Asks, c.Need.Calls = trees.Live, []string{"covers", "live"}, calls
	return c
}

// ohms is a dead check of one pair with plugs off.
func ohms(ctx Context, from, to string, plugs ...string) *trees.BoundCheck {
	c := measure(ctx, measurements.Ohms, from, to)
	c.Need.Power, c.Need.Asks, c.Need.Unplugged = trees.DeadWay, []string{"covers"}, plugs
	return c
}

func measure(ctx Context, q measurements.Quantity, from, to string, modes ...string) *trees.BoundCheck {
	a, b := ctx.Plant.Point(from), ctx.Plant.Point(to)
	boxes := []string{a.In}
	if b.In != a.In {
		boxes = append(boxes, b.In)
	}
	probe := trees.BoundProbe{As: "reading", From: a, To: b, Modes: modes, Earth: b.Role == "earth"}
	return &trees.BoundCheck{ID: string(q) + " " + from + " " + to, Check: &trees.Check{}, Quantity: q, Probes: []trees.BoundProbe{probe}, Need: trees.Need{Enclosures: boxes}}
}

// look is a check with nothing opened.
func look(calls map[string]bool, minutes float64, asks ...string) *trees.BoundCheck {
	return &trees.BoundCheck{ID: "look", Check: &trees.Check{}, Look: "What is there?", Need: trees.Need{Power: trees.Outside, Calls: calls, For: minutes, Powered: len(calls) > 0, Asks: append(asks, "look")}}
}

// act makes an act.
func act(do, on string) journal.Act { return journal.Act{Do: do, On: on} }

// apply puts an act into a world as done, proofs clean.
func apply(w *World, acts ...journal.Act) {
	for _, a := range acts {
		w.assume(a)
	}
}

// reach plans and does what a check needs and fails the test if it cannot.
func reach(t *testing.T, ctx Context, w *World, c *trees.BoundCheck, ahead ...string) []journal.Act {
	t.Helper()
	acts := Plan(ctx, w, OfCheck(c), ahead)
	for _, a := range acts {
		if r := Guard(ctx, w, OfAct(a)); r != nil {
			t.Fatalf("%s: act %q of %v refused: %s", c.ID, Key(a), keys(acts), r.Why)
		}
		apply(w, a)
	}
	if r := Guard(ctx, w, OfCheck(c)); r != nil {
		t.Fatalf("%s: refused after %v: %s", c.ID, keys(acts), r.Why)
	}
	return acts
}

func keys(acts []journal.Act) []string {
	var out []string
	for _, a := range acts {
		out = append(out, Key(a))
	}
	return out
}
