// Package rehearse walks every tree against every simulated fault and says
// whether it ends at the true cause. Start with [Run]; [Report.Text] writes what
// came out, [Report.Summary] gives the figures. The walk follows the rules of a
// job, past the same guard, and a monitor that knows nothing of either judges
// whether anything was unsafe. It does no I/O and reads no clock.
package rehearse

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/engine/safety"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Options say what is rehearsed. The zero value is every tree on every plant
// against every written fault, by the engineer with a full kit.
type Options struct {
	Plants       []string // ids; empty: all
	Symptoms     []string // of which cases are reported; empty: all
	Fault        string   // of which cases are reported; empty: all
	Kit          measurements.Kit
	Jurisdiction string   // id; empty: gb
	Persons      []Person // empty: the engineer
	Forgotten    bool     // with each supply left on in turn
	Noise        int      // draws of part tolerance, supply and meter error; 0: nominal
	Seed         uint64
	Sweep        bool                  // every core made resistive or open, in place of the written faults
	Trace        func(*Case) bool      // whose steps are kept under noise, beside those of the guilty; nil: nobody's
	Progress     func(done, total int) // one call at a time
}

func (o Options) filled() Options {
	if len(o.Kit.Instruments) == 0 {
		o.Kit = measurements.DefaultKit()
	}
	if o.Jurisdiction == "" {
		o.Jurisdiction = "gb"
	}
	if len(o.Persons) == 0 {
		o.Persons = []Person{Engineer(o.Kit)}
	}
	if o.Progress == nil {
		o.Progress = func(int, int) {}
	}
	return o
}

// simulate makes the model of a plant.
type simulate func(set *trees.Set, p *trees.Plant) (model, error)

// run is Run with any simulation.
func run(set *trees.Set, o Options, with simulate, signs []*trees.Sign) (*Report, error) {
	o = o.filled()
	j := set.Jurisdictions[o.Jurisdiction]
	if j == nil {
		return nil, fmt.Errorf("there is no jurisdiction %q; expected one of %v", o.Jurisdiction, slices.Sorted(maps.Keys(set.Jurisdictions)))
	}
	set = set.Filled(j)
	benches, err := setUp(set, o, with, signs)
	if err != nil {
		return nil, err
	}
	r := &rehearsal{set: set, jurisdiction: j, o: o}
	r.walk(benches)
	return report(o, set, benches), nil
}

// setUp composes, models and binds each plant.
func setUp(set *trees.Set, o Options, with simulate, signs []*trees.Sign) ([]*bench, error) {
	ids := o.Plants
	if len(ids) == 0 {
		ids = slices.Sorted(maps.Keys(set.Plants))
	}
	for _, id := range ids {
		if set.Plants[id] == nil {
			return nil, fmt.Errorf("there is no plant %q; expected one of %v", id, slices.Sorted(maps.Keys(set.Plants)))
		}
	}
	benches, errs := make([]*bench, len(ids)), make([]error, len(ids))
	together(len(ids), func(_, i int) { benches[i], errs[i] = newBench(set, ids[i], o, with, signs) })
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return benches, nil
}

func newBench(set *trees.Set, id string, o Options, with simulate, signs []*trees.Sign) (*bench, error) {
	p, problems := set.Compose(id)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	m, err := with(set, p)
	if err != nil {
		return nil, err
	}
	b := &bench{plant: p, model: m, signs: signs, faults: m.faults()}
	if o.Sweep {
		b.faults = m.sweep(o.Seed)
	}
	b.passes = passesOf(b, o)
	if b.graphs, problems = set.BindAll(p); len(problems) > 0 {
		return nil, problems.Err()
	}
	b.need()
	b.rival()
	return b, nil
}

// pass is one person on one plant, with one supply forgotten or none.
type pass struct {
	bench     *bench
	person    Person
	forgotten string
}

func passesOf(b *bench, o Options) []*pass {
	var out []*pass
	for _, person := range o.Persons {
		if !o.Forgotten {
			out = append(out, &pass{b, person, ""})
			continue
		}
		for _, s := range b.plant.Supplies {
			out = append(out, &pass{b, person, s.ID})
		}
	}
	return out
}

func (p *pass) context(j *trees.Jurisdiction, kit measurements.Kit) safety.Context {
	return safety.Context{Plant: p.bench.plant, Jurisdiction: j, Hands: p.person.Hands, Kit: kit}
}

// held is the part of a kit that hands hold.
func held(kit measurements.Kit, p Person) measurements.Kit {
	out := measurements.Kit{ProvingUnit: p.Hands.ProvingUnit}
	for _, id := range p.Hands.Kit {
		if in, ok := kit.Instrument(id); ok {
			out.Instruments = append(out.Instruments, in)
		}
	}
	return out
}
