package plant

import (
	"fmt"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// mostCores is how many cores may run side by side: each couples to all others,
// and plants from outside may have thousands.
const mostCores = 60

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
		if cores := beside[key]; len(cores) > mostCores {
			b.problem(cores[mostCores].Pos, "%d cores run side by side with %q; expected at most %d between two enclosures", len(cores), cores[0].ID, mostCores)
			continue
		}
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

// air holds every node to earth, so that nothing floats on a healthy plant.
func (b *builder) air() {
	for _, name := range append([]string(nil), b.net.Names...) {
		b.fixed("air "+name, name, network.EarthName, airOhms)
	}
}
