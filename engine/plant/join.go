package plant

import (
	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// branch adds the place of one branch of a part; a terminal the part leaves out
// leaves the branch out. Its formulas come later, when all branches have names.
func (b *builder) branch(sc *scope, br trees.ModelBranch) {
	from, ok1 := b.end(sc, br.From)
	to, ok2 := b.end(sc, br.To)
	if !ok1 || !ok2 {
		return
	}
	i := b.add(branch{name: sc.part.ID + "/" + br.ID.Value, tolerance: br.Tolerance, pos: br.ID.Pos}, from, to)
	b.later = append(b.later, func() { b.made(sc, br, &b.branches[i]) })
}

// made compiles what a branch is made of.
func (b *builder) made(sc *scope, br trees.ModelBranch, n *branch) {
	n.closed, n.ohms, n.reactance = sc.optional(br.Closed, "closed"), sc.optional(br.Ohms, "ohms"), sc.optional(br.Reactance, "reactance")
	n.farads, n.dcOhms = sc.optional(br.Farads, "farads"), sc.optional(br.DCOhms, "dc-ohms")
	n.reads = append(n.reads, sc.reads...)
	n.moves = sc.took()
	n.volts, n.dcVolts = sc.optional(br.Volts, "volts"), sc.optional(br.DCVolts, "dc-volts")
	n.reads = append(n.reads, sc.reads...)
	sc.took()
	if n.volts != nil || n.dcVolts != nil {
		n.moves = true
	}
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
