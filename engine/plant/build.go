package plant

import (
	"fmt"
	"regexp"
	"strconv"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/strict"
)

// Ohms of what joins things. Common practice, no source.
const (
	jointOhms    = 0.001 // a terminal, a part on its point
	endOhms      = 0.01  // a core's end under its screw
	poleOhms     = 0.01  // a closed pole of a breaker or an isolator
	airOhms      = 10e9  // anything to earth, through what holds it
	coreOhmMetre = 0.0195
)

// pairFarads is the capacitance of two cores side by side in a flat or a flex,
// F per m: PVC cores come to 60 to 110 pF/m by π·ε0·εr / arcosh(D/d).
const pairFarads = 90e-12

// builder turns the plant into the model: implicit variables first, then parts,
// links, supplies, and at last the formulas, which may name any of them.
type builder struct {
	*Model
	later []func()
}

func (b *builder) build() {
	b.implicit()
	for _, p := range b.Plant.Parts {
		b.part(p)
	}
	for _, f := range b.later {
		f()
	}
	b.cables()
	b.poles()
	b.mains()
	b.air()
	b.dangling()
	b.undriven()
	if len(b.problems) == 0 {
		b.allFaults()
	}
}

// implicit makes the variables of enclosures, settings, devices and calls.
func (b *builder) implicit() {
	none, right := b.words.ID("none"), b.words.ID("right")
	for _, e := range b.Plant.Enclosures {
		b.variable("box "+e.ID+" wet", 0, formula.Numeric)
		b.variable("box "+e.ID+" burnt", none, formula.Wordy)
	}
	for _, s := range b.Plant.Settings {
		b.variable("setting "+s, right, formula.Wordy)
	}
	for _, d := range b.Plant.Devices {
		b.variable("device "+d.ID+" on", 1, formula.Numeric)
		b.variable("device "+d.ID+" tripped", none, formula.Wordy)
	}
	for _, c := range b.Plant.Calls {
		b.variable("call "+c.ID, 0, formula.Numeric)
	}
}

func (b *builder) variable(name string, first float64, typ formula.Type) int {
	i := len(b.vars)
	b.vars = append(b.vars, variable{name: name, first: first, typ: typ, fixed: true})
	b.varAt[name] = i
	return i
}

// part brings the variables, values and nodes of one part; its formulas come later.
func (b *builder) part(p *trees.Part) {
	md := b.set.Models[p.Kind]
	if md == nil {
		b.problem(p.Pos, "the part %q is a %s, and no model says how a %s acts; expected one in the folder models", p.ID, p.Kind, p.Kind)
		return
	}
	for _, v := range md.Values {
		b.value(p, v)
	}
	for _, v := range md.Variables {
		b.own(p, v)
	}
	for t, at := range p.Terminals {
		_ = at
		b.net.Node(p.ID + "." + t)
	}
	for _, t := range sortedKeys(p.Terminals) {
		b.fixed(p.ID+"@"+t, p.ID+"."+t, p.Terminals[t], jointOhms)
	}
	b.later = append(b.later, func() { b.acts(p, md) })
}

// value takes a number of a part from the part, or else from its model.
func (b *builder) value(p *trees.Part, v trees.ModelValue) {
	is, given := v.Is.Value, v.Given
	pos := v.ID.Pos
	for name, x := range p.Values {
		if trees.FormulaName(name) == v.ID.Value {
			is, given, pos = x, true, p.ValuePos[name]
		}
	}
	switch {
	case !given:
		b.problem(p.Pos, "the part %q gives no value %q, and its model %q has none of its own", p.ID, v.ID.Value, p.Kind)
	case is <= 0 && !v.Zero:
		b.problem(pos, "the value %q of the part %q is %g; expected more than 0", v.ID.Value, p.ID, is)
	}
	b.valueAt[p.ID+"."+v.ID.Value] = len(b.values)
	b.values = append(b.values, value{p.ID + "." + v.ID.Value, is, v.Tolerance})
}

func (b *builder) own(p *trees.Part, v trees.ModelVariable) {
	name := p.ID + "." + v.ID.Value
	if _, twice := b.varAt[name]; twice {
		v.ID.Problem("the variable %q of a %s has two first values; expected one", v.ID.Value, p.Kind)
		b.problem(v.ID.Pos, "the variable %q of a %s has two first values; expected one", v.ID.Value, p.Kind)
		return
	}
	first, typ := b.literal(v.First.Value)
	i := b.variable(name, first, typ)
	b.vars[i].fixed, b.vars[i].at = v.Fixed, v.ID
}

// literal is the number of a literal: a number, true, false or a word.
func (m *Model) literal(text string) (float64, formula.Type) {
	number, word := trees.Literal(text)
	if word {
		return m.words.ID(text), formula.Wordy
	}
	return number, formula.Numeric
}

// acts adds the branches, rules and trips of a part.
func (b *builder) acts(p *trees.Part, md *trees.Model) {
	sc := &scope{m: b.Model, part: p, model: md}
	if p.Follows.Value != "" {
		out := &scope{m: b.Model}
		sc.follows = out.compile(p.Follows, "follows")
		sc.dynamicFollows = out.dynamic
		sc.followsReads = out.reads
		b.follows[p.ID] = sc.follows
	}
	for _, br := range md.Branches {
		b.branch(sc, br)
	}
	for _, r := range md.Rules {
		b.rules = b.ruled(sc, b.rules, r, "a rule")
	}
	for _, r := range md.Slow {
		b.slow = b.ruled(sc, b.slow, r, "a slow rule")
	}
	for _, t := range md.Trips {
		to, _ := b.literal(t.To.Value)
		b.trips = append(b.trips, trip{p.ID + " " + t.ID.Value, sc.function(t.Overload, "an overload"), []int{b.varAt[p.ID+"."+t.Set.Value]}, to})
	}
}

func (b *builder) ruled(sc *scope, list []rule, r trees.ModelRule, what string) []rule {
	name := sc.part.ID + "." + r.Set.Value
	i, known := b.varAt[name]
	if !known {
		b.problem(r.Set.Pos, "the rule sets %q, and a %s has no such variable%s", r.Set.Value, sc.part.Kind, hint(r.Set.Value, sc.own()))
		return list
	}
	return append(list, rule{i, sc.function(r.To, what)})
}

// branch adds one branch of a part; a terminal the part leaves out leaves the branch out.
func (b *builder) branch(sc *scope, br trees.ModelBranch) {
	p := sc.part
	from, ok1 := b.end(sc, br.From)
	to, ok2 := b.end(sc, br.To)
	if !ok1 || !ok2 {
		return
	}
	n := branch{name: p.ID + "/" + br.ID.Value, tolerance: br.Tolerance, pos: br.ID.Pos}
	n.closed, n.ohms, n.reactance = sc.optional(br.Closed, "closed"), sc.optional(br.Ohms, "ohms"), sc.optional(br.Reactance, "reactance")
	n.farads, n.dcOhms = sc.optional(br.Farads, "farads"), sc.optional(br.DCOhms, "dc-ohms")
	n.moves = sc.took()
	n.volts, n.dcVolts = sc.optional(br.Volts, "volts"), sc.optional(br.DCVolts, "dc-volts")
	sc.took()
	if n.volts != nil || n.dcVolts != nil {
		n.moves = true
	}
	b.add(n, from, to)
}

// end is the node of a branch's end: a terminal of the part, a node inside or true earth.
func (b *builder) end(sc *scope, t strict.Text) (string, bool) {
	switch name := t.Value; {
	case name == "ground":
		return network.EarthName, true
	case sc.inner(name):
		return sc.part.ID + "/" + name, true
	case sc.part.Terminals[name] != "":
		return sc.part.ID + "." + name, true
	case sc.mayLack(name):
		return "", false
	default:
		b.problem(sc.part.Pos, "the part %q has no terminal %q, to which its model joins a branch; expected a point for it", sc.part.ID, name)
		return "", false
	}
}

func (b *builder) add(n branch, from, to string) int {
	if _, twice := b.branchAt[n.name]; twice {
		b.problem(n.pos, "there are two branches %q; expected one", n.name)
	}
	i := b.net.Add(network.Branch{Name: n.name, From: b.net.Node(from), To: b.net.Node(to)})
	b.branchAt[n.name] = i
	b.branches = append(b.branches, n)
	return i
}

// fixed adds a resistance that nothing but a fault changes.
func (b *builder) fixed(name, from, to string, ohms float64) int {
	return b.add(branch{name: name, ohms: constant(ohms)}, from, to)
}

func (b *builder) capacitor(name, from, to string, farads float64) {
	b.add(branch{name: name, farads: constant(farads), tolerance: 0.4}, from, to)
}

func constant(x float64) func(*Subject) float64 { return func(*Subject) float64 { return x } }

// cables builds the cores: a joint at each end, ohms from length and area, and
// capacitance to the cores that run beside it between the same enclosures.
func (b *builder) cables() {
	beside := map[string][]*trees.Link{}
	var order []string
	for _, l := range b.Plant.Links {
		if l.Kind != trees.LinkCore && l.Kind != trees.LinkEarth {
			continue
		}
		if l.Area <= 0 || l.Length <= 0 {
			b.problem(l.Pos, "the core %q has no length or no area; expected both, in metres and mm²", l.ID)
			continue
		}
		b.fixed(l.ID+"@from", l.ID+":from", l.From, endOhms)
		b.fixed(l.ID+"@to", l.ID+":to", l.To, endOhms)
		b.fixed(l.ID, l.ID+":from", l.ID+":to", coreOhmMetre/l.Area*l.Length)
		key := b.run(l)
		if beside[key] == nil {
			order = append(order, key)
		}
		beside[key] = append(beside[key], l)
	}
	for _, key := range order {
		b.cable(beside[key])
	}
}

// run names the way that a core takes: what lies in one cable goes the same way
// and is all mains or all low voltage.
func (b *builder) run(l *trees.Link) string {
	from, to := b.Plant.Point(l.From), b.Plant.Point(l.To)
	low := from.Role == "elv" || to.Role == "elv"
	a, z := from.In, to.In
	if a > z {
		a, z = z, a
	}
	return fmt.Sprint(a, ">", z, low)
}

func (b *builder) cable(cores []*trees.Link) {
	earth := false
	for _, l := range cores {
		earth = earth || l.Kind == trees.LinkEarth
	}
	for _, end := range []string{":from", ":to"} {
		for i, l := range cores {
			half := pairFarads * l.Length / 2
			if !earth {
				b.capacitor("beside "+l.ID+end, l.ID+end, network.EarthName, half)
			}
			for _, o := range cores[i+1:] {
				b.capacitor("between "+l.ID+" "+o.ID+end, l.ID+end, o.ID+end, min(half, pairFarads*o.Length/2))
			}
		}
	}
}

// poles are the contacts of breakers and isolators.
func (b *builder) poles() {
	none := b.words.ID("none")
	for _, l := range b.Plant.Links {
		if l.Kind != trees.LinkPole {
			continue
		}
		on, tripped := b.varAt["device "+l.Of+" on"], b.varAt["device "+l.Of+" tripped"]
		b.electric[on], b.electric[tripped] = true, true
		closed := func(s *Subject) float64 { return truth(s.v[on] != 0 && s.v[tripped] == none) }
		b.add(branch{name: l.ID, ohms: constant(poleOhms), closed: closed, moves: true, pos: l.Pos}, l.From, l.To)
	}
}

var breakerAmps = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// mains hangs every supply on the service and adds its protection.
func (b *builder) mains() {
	service := ""
	for _, p := range b.Plant.Parts {
		if p.Kind == "service" {
			service = p.ID
		}
	}
	if service == "" {
		if len(b.Plant.Supplies) > 0 {
			b.problem(b.Plant.Supplies[0].Pos, "the plant has supplies and no part of the kind %q that feeds them; expected one, as in the assembly house", "service")
		}
		return
	}
	for _, s := range b.Plant.Supplies {
		n := supply{of: s, device: -1}
		n.live = b.fixed("supply "+s.ID+" live", service+"/live", s.Live, jointOhms)
		n.neutral = b.fixed("supply "+s.ID+" neutral", service+"/neutral", s.Neutral, jointOhms)
		if d := b.first(s); d != "" {
			n.device = b.varAt["device "+d+" tripped"]
		}
		b.supplies = append(b.supplies, n)
		b.breaker(n)
	}
	b.residual()
}

// first is the device that a supply meets first: its breaker.
func (b *builder) first(s *trees.Supply) string {
	for _, l := range b.Plant.Links {
		if l.Kind == trees.LinkPole && (l.From == s.Live || l.To == s.Live) {
			return l.Of
		}
	}
	return ""
}

// breaker trips at three times its rating at once: the least of a type B by
// BS EN 60898-1 (3 to 5 times). What is less is left to minutes nobody waits.
func (b *builder) breaker(n supply) {
	amps, err := strconv.ParseFloat(breakerAmps.FindString(n.of.Breaker), 64)
	if n.device < 0 || err != nil || amps <= 0 {
		return
	}
	b.trips = append(b.trips, trip{"breaker of " + n.of.ID, func(s *Subject) float64 { return s.amps(n.live) / (3 * amps) },
		[]int{n.device}, b.words.ID("overcurrent")})
}

// rcdAmps is where a 30 mA residual current device acts: between half of its
// rating and all of it (BS EN 61008-1); three quarters are taken.
const rcdAmps = 0.75 * 0.030

// residual adds up live and neutral of all supplies on the same RCD.
func (b *builder) residual() {
	groups := map[string][]supply{}
	var order []string
	for _, n := range b.supplies {
		if n.of.RCD == "" || n.device < 0 {
			continue
		}
		if groups[n.of.RCD] == nil {
			order = append(order, n.of.RCD)
		}
		groups[n.of.RCD] = append(groups[n.of.RCD], n)
	}
	for _, g := range order {
		of := groups[g]
		t := trip{name: "residual current device " + g, to: b.words.ID("leakage")}
		for _, n := range of {
			t.set = append(t.set, n.device)
		}
		t.overload = func(s *Subject) float64 { return s.residual(of) / rcdAmps }
		b.trips = append(b.trips, t)
	}
}

// air holds every node to earth, so that nothing floats on a healthy plant.
func (b *builder) air() {
	for _, name := range append([]string(nil), b.net.Names...) {
		b.fixed("air "+name, name, network.EarthName, airOhms)
	}
}
