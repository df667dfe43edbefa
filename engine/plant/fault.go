package plant

import (
	"fmt"
	"strings"

	"faultwalk/engine/network"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// Fault is one way in which the plant fails. ID is "burnt-open of
// unit-isolator.1": the fault and the part, core or pole it happens to.
type Fault struct {
	ID, Words  string
	On         string  // the part, core or pole; empty for one of an assembly
	Weight     float64 // prior, on the scale of the fault catalogue
	Electrical bool    // it changes the network, not only what parts do
	Hidden     string  // why it shows no sign, where it shows none
	Source     string
	Causes     []string // beginnings of the causes that name it
	Refers     []string // referrals that are its right end
	Pos        strict.Pos
	changes    []change
	sweep      *sweeping // of the sweep; nil for one that was written
}

// change puts a fault into a subject and its network before they are solved.
type change func(*Subject, *network.Network)

// Is says whether a cause, by its instance text, names this fault.
func (f *Fault) Is(cause string) bool {
	for _, c := range f.Causes {
		if cause == c || strings.HasPrefix(cause, c+" ") {
			return true
		}
	}
	return false
}

// Ends says whether a referral is the right end of this fault.
func (f *Fault) Ends(referral string) bool {
	for _, r := range f.Refers {
		if r == referral {
			return true
		}
	}
	return false
}

// Faults lists every fault written for this plant: of its parts, its links and
// its assemblies, in that order.
func (m *Model) Faults() []*Fault { return m.faults }

// Fault finds a fault by its id; nil if there is none.
func (m *Model) Fault(id string) *Fault { return m.faultAt[id] }

// place is what a fault happens to: how its changes name things.
type place struct {
	id     string
	part   *trees.Part
	link   *trees.Link
	names  map[string]string // of a change
	spoken map[string]string // the same in people's words
	weight float64
	done   map[string]bool // what the fault has changed already
}

// once refuses a fault that contradicts itself: two changes of one thing.
func (at place) once(what string) error {
	if at.done[what] {
		return fmt.Errorf("it changes %q twice; expected one change of it", what)
	}
	at.done[what] = true
	return nil
}

func (b *builder) allFaults() {
	for _, p := range b.Plant.Parts {
		b.faultsOf(b.set.Models[p.Kind], place{id: p.ID, part: p, names: p.Names(), spoken: b.spoken(p.Names()), weight: p.Weight})
	}
	for _, l := range b.Plant.Links {
		switch l.Kind {
		case trees.LinkCore, trees.LinkEarth, trees.LinkPole:
			b.faultsOf(b.set.Models[l.Kind], place{id: l.ID, link: l, names: l.Names(), spoken: b.spoken(l.Names()), weight: l.Weight})
		}
	}
	for i := range b.Plant.Faults {
		b.fault(b.Plant.Faults[i], place{})
	}
}

// spoken are the words for what names stand for.
func (b *builder) spoken(names map[string]string) map[string]string {
	out := map[string]string{}
	for name, id := range names {
		out[name] = b.Plant.Words(id)
	}
	return out
}

func (b *builder) faultsOf(md *trees.Model, at place) {
	if md == nil {
		return
	}
	for _, f := range md.Faults {
		if f.Happens(at.id) {
			b.fault(f, at)
		}
	}
}

func (b *builder) fault(f trees.ModelFault, at place) {
	n := &Fault{ID: f.ID.Value, Words: trees.FillNames(f.Words, at.spoken), On: at.id, Weight: f.Weight, Hidden: f.Hidden, Source: f.Source, Pos: f.ID.Pos}
	if at.id != "" {
		n.ID += " of " + at.id
	}
	if f.Scaled {
		n.Weight *= at.weight
	}
	if n.Weight <= 0 {
		return // a link that never fails
	}
	var do []string
	do, n.Causes, n.Refers = f.Names(at.names)
	at.done = map[string]bool{}
	for i, d := range do {
		b.change(n, f.Do[i].Pos, d, at)
	}
	if b.faultAt[n.ID] != nil {
		b.problem(f.ID.Pos, "the plant has the fault %q twice; expected another id", n.ID)
		return
	}
	b.faultAt[n.ID] = n
	b.faults = append(b.faults, n)
}
