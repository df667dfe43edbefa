package plant_test

import (
	"bytes"
	"fmt"
	"hash/maphash"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"faultwalk/engine/network"
	"faultwalk/engine/network/oracle"
	"faultwalk/engine/network/oracle/spiceloop"
	"faultwalk/engine/plant"
	"faultwalk/measurements"
)

// meters are put on the networks in turn: none, and the ohms of a low impedance,
// of a two-pole tester and of a multimeter (handbook 4.3).
var meters = []float64{0, 3e3, 300e3, 10e6}

// held is one network as this program solves it and as ngspice is given it.
type held struct {
	what string
	net  *network.Network
	ac   []complex128
	dc   []complex128
}

// places are the pairs of nodes that the checks of a plant put a meter on.
func places(tb testing.TB, m *plant.Model) (out [][2]network.Node) {
	for _, c := range checks(tb, m) {
		if c.Quantity != measurements.ACVolts && c.Quantity != measurements.DCVolts {
			continue
		}
		for _, p := range c.Probes {
			a, ok := m.Node(p.From.ID)
			b, ok2 := m.Node(p.To.ID)
			if ok && ok2 {
				out = append(out, [2]network.Node{a, b})
			}
		}
	}
	return out
}

// batch is how many networks one ngspice process solves.
const batch = 120

// every is how many electrical faults lie between two that are held against
// ngspice: .ci/against-ngspice asks for all of them, which takes a minute.
func every() int {
	switch {
	case os.Getenv("FAULTWALK_NGSPICE") == "all":
		return 1
	case testing.Short():
		return 60
	}
	return 12
}

// TestEveryNetworkIsTheSameToNgspice: every plant with every set of calls and
// every electrical fault, each network once, some without a meter, most with one:
// all nodes within 1e-6, or 1 µV, or 1e-7 of the network's largest voltage.
func TestEveryNetworkIsTheSameToNgspice(t *testing.T) {
	t.Parallel()
	path, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed: the plants are not held against it")
	}
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			g := &against{t: t, path: path, places: places(t, m), seen: map[uint64]bool{}}
			s := m.New(nil, nil)
			for i, f := range append([]*plant.Fault{nil}, electrical(m)...) {
				if i%every() != 0 {
					continue
				}
				s.Be(f, nil)
				for _, calls := range fewCalls(m) {
					g.take(s, id(f), plant.Standing{Calls: calls})
				}
			}
			g.run()
			t.Logf("%d networks, ac and dc; in %d of these the rounding of ngspice had to be decided exactly", g.networks, g.appeals)
		})
	}
}

// electrical are the faults that change the network.
func electrical(m *plant.Model) (out []*plant.Fault) {
	for _, f := range m.Faults() {
		if f.Electrical {
			out = append(out, f)
		}
	}
	return out
}

type against struct {
	t        *testing.T
	path     string
	places   [][2]network.Node
	seen     map[uint64]bool
	list     []held
	networks int
	appeals  int
}

var seed = maphash.MakeSeed()

// take adds a standing of a subject, plain or under a meter, unless the same
// network was there already.
func (g *against) take(s *plant.Subject, what string, st plant.Standing) {
	n := s.Network(st)
	var h maphash.Hash
	h.SetSeed(seed)
	for _, b := range n.Branches {
		maphash.WriteComparable(&h, b)
	}
	if g.seen[h.Sum64()] {
		return
	}
	g.seen[h.Sum64()] = true
	at, ohms := g.places[g.networks%len(g.places)], meters[g.networks%len(meters)]
	what = fmt.Sprintf("%s, calls %v, %g Ω from %s to %s", what, st.Calls, ohms, n.Name(at[0]), n.Name(at[1]))
	if ohms == 0 {
		g.add(what, n, s.Solved().AC, s.Solved().DC)
	} else {
		view := s.Solved().Load(at[0], at[1], complex(1/ohms, 0), 1/ohms)
		n.Add(network.Branch{Name: fmt.Sprint("meter ", at), From: at[0], To: at[1], Y: complex(1/ohms, 0), G: 1 / ohms})
		g.add(what, n, view.AC, view.DC)
	}
	if len(g.list) >= batch {
		g.run()
	}
}

func (g *against) add(what string, n *network.Network, ac func(network.Node) complex128, dc func(network.Node) float64) {
	h := held{what: what, net: n}
	for i := range n.Names {
		h.ac, h.dc = append(h.ac, ac(network.Node(i))), append(h.dc, complex(dc(network.Node(i)), 0))
	}
	g.list = append(g.list, h)
	g.networks++
}

// run hands the networks over to one ngspice process and judges what comes back.
func (g *against) run() {
	var nets []*network.Network
	for _, h := range g.list {
		nets = append(nets, h.net)
	}
	if len(nets) == 0 {
		return
	}
	for i, p := range g.ngspice(nets) {
		h := g.list[i]
		g.judge(h, "ac", p.AC, h.ac, func(b network.Branch) (y, e complex128) { return b.Y, b.E })
		g.judge(h, "dc", p.DC, h.dc, func(b network.Branch) (y, e complex128) { return complex(b.G, 0), complex(b.EDC, 0) })
	}
	g.list = g.list[:0]
}

// judge holds one analysis against ngspice, or where that is off by rounding
// against the exact solution.
func (g *against) judge(h held, what string, printed, ours []complex128, of func(network.Branch) (y, e complex128)) {
	lines := make([]oracle.Line, len(h.net.Branches))
	for i, b := range h.net.Branches {
		y, e := of(b)
		lines[i] = oracle.Line{From: int(b.From), To: int(b.To), Y: y, E: e}
	}
	appealed, err := oracle.Judge(printed, func(n int) complex128 { return ours[n] }, lines)
	if appealed {
		g.appeals++
	}
	if err != nil {
		g.t.Errorf("%s, %s: %v", h.what, what, err)
	}
}

// ngspice runs all networks in one process and reads what it printed.
func (g *against) ngspice(nets []*network.Network) []oracle.Printed {
	var deck bytes.Buffer
	if err := spiceloop.Write(&deck, "plants", nets, plant.Frequency, true); err != nil {
		g.t.Fatal(err)
	}
	file := filepath.Join(g.t.TempDir(), "deck.cir")
	if err := os.WriteFile(file, deck.Bytes(), 0o600); err != nil {
		g.t.Fatal(err)
	}
	out, err := exec.Command(g.path, "-b", file).Output()
	if err != nil {
		g.t.Fatalf("ngspice: %v\n%s", err, out)
	}
	all, err := oracle.Read(string(out), len(nets[0].Names))
	if err != nil || len(all) != len(nets) {
		g.t.Fatalf("%d networks came back, want %d: %v", len(all), len(nets), err)
	}
	return all
}
