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
			p := trees.BoundProbe{From: a, To: b, Joined: []trees.Joined{{At: j}}}
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

// TestManyPlacesClippedTogetherReadAsIfWiresJoinedThem holds the test of all
// loads from a board, live, outputs and neutral joined, against the network with
// a wire of a milliohm from each to the first.
func TestManyPlacesClippedTogetherReadAsIfWiresJoinedThem(t *testing.T) {
	t.Parallel()
	for _, plant := range []string{"millrace-small", "millrace-large"} {
		m := embedded(t, plant)
		off := map[string]bool{}
		for _, d := range m.Plant.Devices {
			off[d.ID] = true
		}
		at, earth := m.Plant.Point("neutral"), m.Plant.Point("earth")
		clips := []string{"permanent-live", "hot-water-call", "diverter-switch", "pump-out", "booster-command"}
		for _, id := range []string{"", "control-enclosure-wet", "diverter-wet", "shorted of primary-pump", "neutral-touches-earth"} {
			f := m.Fault(id)
			if f == nil && id != "" {
				t.Fatalf("there is no fault %q", id)
			}
			s := m.New(f, nil)
			stand := Standing{Off: off, Unplugged: []string{"control-fuse"}, Lifted: []string{"feed-neutral-core"}}
			s.stand(stand)
			p := trees.BoundProbe{From: at, To: earth}
			var wires []network.Branch
			for _, c := range clips {
				p.Joined = append(p.Joined, trees.Joined{At: m.Plant.Point(c)})
				wires = append(wires, network.Branch{Name: "wire " + c, From: node(m, at), To: node(m, m.Plant.Point(c)), Y: 1000, G: 1000})
			}
			var r Result
			if err := s.ohms(&r, &trees.BoundCheck{}, p, node(m, at), node(m, earth)); err != nil {
				t.Fatal(err)
			}
			wired := network.NewSolver(s.Network(stand, wires...))
			wired.Solve()
			if _, want := wired.Seen(node(m, at), node(m, earth)); math.Abs(r.Values[0]-want) > 1e-4*want+0.001 {
				t.Errorf("%s, %q: %g Ω, wires give %g Ω", plant, id, r.Values[0], want)
			}
		}
	}
}
