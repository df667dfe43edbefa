package plant_test

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"faultwalk/engine/network"
	"faultwalk/engine/network/oracle/spiceloop"
	"faultwalk/engine/plant"
)

// metered are the networks of a plant with one electrical fault each, hot water
// called, and where a multimeter is put on each: on the same pair of points for
// a run of them, as a person does.
func metered(b *testing.B, m *plant.Model) (list []*network.Network, at [][2]network.Node) {
	s, pairs := m.New(nil, nil), places(b, m)
	for i, f := range electrical(m) {
		s.Be(f, nil)
		list = append(list, s.Network(plant.Standing{Calls: map[string]bool{"hot-water": true}}))
		at = append(at, pairs[i%len(pairs)])
	}
	return list, at
}

// end tells a branch from all others of a list of networks.
type end struct {
	name     string
	from, to network.Node
}

// together is one network with every branch of all of them, open where a network
// has it not, and for each what to set to come to it from the one before: what
// ngspice does with alter.
func together(list []*network.Network) (all *network.Network, steps [][]network.Branch, at map[end]int) {
	all, at = &network.Network{Names: list[0].Names}, map[end]int{}
	for _, n := range list {
		for _, b := range n.Branches {
			k := end{b.Name, b.From, b.To}
			if _, known := at[k]; !known {
				at[k] = all.Add(network.Branch{Name: b.Name, From: b.From, To: b.To})
			}
		}
	}
	was := statesOf(list[len(list)-1], all, at)
	for _, n := range list {
		now, step := statesOf(n, all, at), []network.Branch(nil)
		for i := range now {
			if now[i] != was[i] {
				step = append(step, now[i])
			}
		}
		steps, was = append(steps, step), now
	}
	return all, steps, at
}

// statesOf are the branches of all as they are in one of the networks.
func statesOf(n, all *network.Network, at map[end]int) []network.Branch {
	now := slices.Clone(all.Branches)
	for _, b := range n.Branches {
		now[at[end{b.Name, b.From, b.To}]] = b
	}
	return now
}

// BenchmarkAgainstNgspice solves the faulty networks of each plant, ac and dc
// with a meter of 10 MΩ on and the volts of every node asked for, here and in
// one ngspice process that loops over them with alter and prints nothing. Its
// start and the reading of the first network are not counted; of ours it is the
// quickest pass, of ngspice the processor time, for other programs run beside. .ci/against-ngspice
// judges the ratio.
func BenchmarkAgainstNgspice(b *testing.B) {
	if _, err := exec.LookPath("ngspice"); err != nil {
		b.Skip("ngspice is not installed")
	}
	for _, m := range models(b) {
		list, at := metered(b, m)
		theirs, kept := theirs(b, list, at), theirs(b, list, at, keeping...)
		all, steps, branches := together(list)
		b.Run(m.Plant.ID, func(b *testing.B) {
			s, best, sum := network.NewSolver(all), time.Duration(math.MaxInt64), 0.0
			for b.Loop() {
				start := time.Now()
				for i, step := range steps {
					for _, br := range step {
						n := branches[end{br.Name, br.From, br.To}]
						s.Set(n, br.Y, br.G)
						s.Source(n, br.E, br.EDC)
					}
					s.Solve()
					sum += volts(s.Load(at[i][0], at[i][1], 1e-7, 1e-7), len(all.Names))
				}
				best = min(best, time.Since(start))
			}
			runtime.KeepAlive(sum)
			ours := float64(best.Nanoseconds()) / float64(len(list))
			b.ReportMetric(ours/1e3, "µs/network")
			b.ReportMetric(theirs/1e3, "ngspice-µs/network")
			b.ReportMetric(kept/1e3, "ngspice-keeping-memory-µs/network")
			b.ReportMetric(theirs/ours, "times-faster")
		})
	}
}

// volts asks for every node, ac and dc.
func volts(v network.View, nodes int) (sum float64) {
	for n := range network.Node(nodes) {
		sum += real(v.AC(n)) + v.DC(n)
	}
	return sum
}

// keeping is what tells the C library to give no memory back: more than half of
// ngspice's time goes into that after every analysis. Nobody runs it so; it is
// reported beside.
var keeping = []string{"MALLOC_TOP_PAD_=268435456", "MALLOC_TRIM_THRESHOLD_=1073741824", "MALLOC_MMAP_THRESHOLD_=1073741824"}

// theirs is what ngspice takes for one network, in nanoseconds.
func theirs(b *testing.B, list []*network.Network, at [][2]network.Node, env ...string) float64 {
	with := make([]*network.Network, len(list))
	for i, n := range list {
		with[i] = n.Clone()
		with[i].Add(network.Branch{Name: "meter", From: at[i][0], To: at[i][1], Y: 1e-7, G: 1e-7})
	}
	return float64((looped(b, with, env) - looped(b, with[:1], env)).Nanoseconds()) / float64(len(list)-1)
}

// looped is the processor time that one ngspice process takes over networks:
// the lesser of two runs, as it does not count what other programs take.
func looped(b *testing.B, list []*network.Network, env []string) time.Duration {
	var deck bytes.Buffer
	if err := spiceloop.Write(&deck, "faults", list, plant.Frequency, false); err != nil {
		b.Fatal(err)
	}
	file := filepath.Join(b.TempDir(), "deck.cir")
	if err := os.WriteFile(file, deck.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	best := time.Duration(math.MaxInt64)
	for range 2 {
		c := exec.Command("ngspice", "-b", file)
		c.Env = append(os.Environ(), env...)
		if out, err := c.CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		best = min(best, c.ProcessState.UserTime()+c.ProcessState.SystemTime())
	}
	return best
}
