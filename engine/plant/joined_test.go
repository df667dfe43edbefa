package plant

import (
	"math"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// TestJoinedPlacesReadAsIfAWireJoinedThem holds an insulation test with live and
// neutral joined against the network with a wire of a milliohm between them.
func TestJoinedPlacesReadAsIfAWireJoinedThem(t *testing.T) {
	t.Parallel()
	m := embedded(t, "millrace-small")
	off := map[string]bool{}
	for _, d := range m.Plant.Devices {
		off[d.ID] = true
	}
	for _, id := range []string{"", "leaks of booster", "valve-box-wet", "shorted of cylinder-valve"} {
		f := m.Fault(id)
		if f == nil && id != "" {
			t.Fatalf("there is no fault %q", id)
		}
		s := m.New(f, nil)
		s.stand(Standing{Off: off})
		for _, box := range m.Plant.Enclosures {
			a, j, b := inBox(m, box.ID, "live", "switched"), inBox(m, box.ID, "neutral"), inBox(m, box.ID, "earth")
			if a == nil || j == nil || b == nil {
				continue
			}
			var r Result
			p := trees.BoundProbe{From: a, To: b, Joined: j}
			if err := s.ohms(&r, &trees.BoundCheck{}, p, node(m, a), node(m, b)); err != nil {
				t.Fatal(err)
			}
			wired := network.NewSolver(s.Network(Standing{Off: off}, network.Branch{Name: "wire", From: node(m, a), To: node(m, j), Y: 1000, G: 1000}))
			wired.Solve()
			if _, want := wired.Seen(node(m, a), node(m, b)); math.Abs(r.Values[0]-want) > 1e-4*want+0.001 {
				t.Errorf("%q in %s: %g Ω, a wire gives %g Ω", id, box.ID, r.Values[0], want)
			}
		}
	}
}

func inBox(m *Model, box string, roles ...string) *trees.Point {
	for _, pt := range m.Plant.Points {
		for _, role := range roles {
			if pt.In == box && pt.Role == role {
				return pt
			}
		}
	}
	return nil
}

func node(m *Model, p *trees.Point) network.Node {
	n, _ := m.nodeOf(p.ID)
	return n
}
