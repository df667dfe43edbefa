package plant

import (
	"maps"
	"math"
	"math/cmplx"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// joiningOhms is the impedance from which a branch joins nothing that could
// hurt: 230 V drive 2.3 mA through it, half of what lets no one go (IEC
// 60479-1, from memory: 5 mA). Insulation and filter capacitors are above it.
const joiningOhms = 100e3

// joins refuses models that pass current where their kind does not, or not
// where it does: which supplies reach an enclosure is worked out from the kinds
// (trees.PartKinds), so that people's isolation would be of another plant.
func (b *builder) joins() {
	told := map[string]bool{}
	for _, p := range b.Plant.Parts {
		md := b.set.Models[p.Kind]
		if md == nil || told[p.Kind] {
			continue
		}
		before := len(b.problems)
		b.joinsOf(p, md)
		told[p.Kind] = len(b.problems) > before
	}
}

func (b *builder) joinsOf(p *trees.Part, md *trees.Model) {
	kind := kindJoins(p)
	any, strong := b.modelJoins(p, md, 0), b.modelJoins(p, md, 1/joiningOhms)
	terminals := slices.Sorted(maps.Keys(p.Terminals))
	for i, x := range terminals {
		for _, y := range terminals[i+1:] {
			switch {
			case kind.same(x, y) && !any.same(x, y):
				b.problem(md.Pos, "a %s joins %q and %q, for which isolation is worked out, and no branch of its model does; expected one", p.Kind, x, y)
				return
			case strong.same(x, y) && !kind.same(x, y) && (b.mainsAt(p, x) || b.mainsAt(p, y)):
				b.problem(b.joiner(md, x, y), "the model of a %s joins %q and %q, and isolation is worked out as if such a part joined nothing there; expected %g Ω or more, or another kind",
					p.Kind, x, y, joiningOhms)
				return
			}
		}
	}
}

// mainsAt says whether a terminal is on a point that carries mains or its neutral.
func (b *builder) mainsAt(p *trees.Part, terminal string) bool {
	pt := b.Plant.Point(p.Terminals[terminal])
	return pt != nil && slices.Contains([]string{"live", "switched", "neutral"}, pt.Role)
}

// joiner is where the branch stands that joins two terminals, or one of them to
// a node inside.
func (b *builder) joiner(md *trees.Model, x, y string) (pos strict.Pos) {
	pos = md.Pos
	for _, br := range md.Branches {
		ends := []string{br.From.Value, br.To.Value}
		if slices.Contains(ends, x) && slices.Contains(ends, y) {
			return br.ID.Pos
		}
		if slices.Contains(ends, x) {
			pos = br.ID.Pos
		}
	}
	return pos
}

// groups are names that belong together: each with one that stands for all.
type groups map[string]string

func (g groups) of(x string) string {
	for g[x] != "" && g[x] != x {
		x = g[x]
	}
	return x
}

func (g groups) join(x, y string) {
	if x, y = g.of(x), g.of(y); x != y {
		g[x] = y
	}
}

func (g groups) same(x, y string) bool { return g.of(x) == g.of(y) }

func kindJoins(p *trees.Part) groups {
	g, kind := groups{}, trees.PartKinds[p.Kind]
	if kind.Contact {
		g.join("in", "out")
	}
	for _, l := range kind.Loads {
		g.join(l[0], l[1])
	}
	return g
}

// modelJoins are the terminals and nodes that branches of more than so many
// siemens join, whether they are closed just now or not. True earth joins
// nothing: no current comes back from it into another circuit that is off.
func (b *builder) modelJoins(p *trees.Part, md *trees.Model, least float64) groups {
	g := groups{}
	for _, br := range md.Branches {
		i, ok := b.branchAt[p.ID+"/"+br.ID.Value]
		if ok && br.From.Value != "ground" && br.To.Value != "ground" && b.most(i) > least {
			g.join(br.From.Value, br.To.Value)
		}
	}
	return g
}

// most is the admittance of a branch when it is closed, on the first day. What
// cannot be told without the network counts as a wire.
func (b *builder) most(i int) float64 {
	closed := b.branches[i]
	closed.closed = nil
	probe := &Subject{m: b.Model, v: b.firsts(), values: b.nominalValues()}
	probe.words()
	y := cmplx.Abs(closed.admittance(probe, 1).y)
	if math.IsNaN(y) || y == 0 {
		return math.Inf(1)
	}
	return y
}
