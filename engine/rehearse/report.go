package rehearse

import (
	"math"
	"slices"

	"faultwalk/trees"
)

// Report is what a rehearsal gave.
type Report struct {
	Plants    []string
	Symptoms  []string // that have a tree
	Persons   []string
	Faults    int // on all plants
	FaultIDs  []string
	Cases     []*Case
	Aside     []Aside // walks of the fault that was asked for, in trees that were not
	NoTree    []NoTree
	Silent    []Silent // faults that show no sign
	Untaken   []string // branches that no walk took and that do not say why, by their place in the files
	Unreached []string // causes that no walk ended at on any plant and that do not say why
	Untrue    []string // branches and causes that say why nothing comes to them, and something did
	Unfound   []Unfound
	Signs     []NoTree // signs that a healthy plant shows
	Unproved  []Unproved
	Proofs    int            // readings that prove a repair, taken on the healthy plants
	Second    map[Second]int // what came of it in the exact cases that ended at a single cause
	Opposed   int            // second readings that were taken with a fault of their rival
	Silenced  []Unopposed    // those of them that do not speak against their cause
	Failed    []Failed       // readings that could not be simulated
	Gates     []Gate
}

// Aside is a sign that a fault shows and that nobody asked for.
type Aside struct{ Plant, Fault, Sign string }

// Silent is a fault that shows no sign, and why where that is known.
type Silent struct{ Plant, Fault, Why string }

// Unfound is a cause that the trees name and no walk ended at. Named says
// whether a fault of the plant is that cause at all.
type Unfound struct {
	Plant string `json:"plant"`
	Cause string `json:"cause"`
	Named bool   `json:"named"`
}

// report puts together what the pieces gave, plant by plant.
func report(o Options, set *trees.Set, benches []*bench) *Report {
	r := &Report{}
	for _, b := range benches {
		r.Plants = append(r.Plants, b.plant.ID)
		r.Faults += len(b.faults)
		for _, f := range b.faults {
			r.FaultIDs = append(r.FaultIDs, f.id)
		}
		for s := range b.graphs {
			if !slices.Contains(r.Symptoms, s) && o.wants(s) {
				r.Symptoms = append(r.Symptoms, s)
			}
		}
		for _, t := range b.told(b.model.subject(nil, nil), nil) {
			r.Signs = append(r.Signs, NoTree{Plant: b.plant.ID, Sign: t.sign})
		}
	}
	slices.Sort(r.Symptoms)
	for _, p := range o.Persons {
		r.Persons = append(r.Persons, p.Name)
	}
	for _, b := range benches {
		r.proved(b)
		for i := range b.passes {
			for _, p := range b.pieces {
				r.take(o, p.cases[i])
			}
		}
		for _, p := range b.pieces {
			r.NoTree = append(r.NoTree, p.noTree...)
			for _, f := range p.silent {
				r.Silent = append(r.Silent, Silent{b.plant.ID, f.id, f.hidden})
			}
		}
	}
	r.confirm()
	r.cover(o, set, benches)
	r.Gates = o.gates(r)
	return r
}

// take takes in the cases that are wanted.
func (r *Report) take(o Options, cases []*Case) {
	for _, c := range cases {
		if (o.Noise == 0) != (c.Draw == 0) || o.Fault != "" && o.Fault != c.Fault {
			continue
		}
		if o.wants(c.Symptom) {
			r.Cases = append(r.Cases, c)
		} else if a := (Aside{c.Plant, c.Fault, c.Symptom}); o.Fault != "" && !slices.Contains(r.Aside, a) {
			r.Aside = append(r.Aside, a)
		}
	}
}

func (o Options) wants(symptom string) bool {
	return len(o.Symptoms) == 0 || slices.Contains(o.Symptoms, symptom)
}

// Knows says whether a plant rehearsed has a fault of that id.
func (r *Report) Knows(fault string) bool { return slices.Contains(r.FaultIDs, fault) }

// Count is how many cases came to one verdict, and their share of all cases
// but those passed on, by count and by prior weight (0 to 1).
type Count struct {
	Cases           int
	Share, Weighted float64
}

// Figures are the counts and means of some of a report's cases.
type Figures struct {
	Walks       int
	Of          map[Verdict]Count
	Mean, Worst float64 // minutes, the mean by prior weight; those passed on apart
	Moved       int     // walks in which the meter moved the plant
	Halts       int     // walks in which a proof of dead found volts
}

// Figures sums up the cases that are wanted; nil wants all.
func (r *Report) Figures(want func(*Case) bool) Figures {
	f := Figures{Of: map[Verdict]Count{}}
	weights := map[Verdict]float64{}
	var sum, minutes float64
	for _, c := range r.Cases {
		if want != nil && !want(c) {
			continue
		}
		f.Walks++
		n := f.Of[c.Verdict]
		n.Cases++
		f.Of[c.Verdict] = n
		weights[c.Verdict] += c.Weight
		sum += c.Weight
		if c.Verdict != PassedOn {
			minutes += c.Weight * c.Minutes
			f.Worst = math.Max(f.Worst, c.Minutes)
		}
		if c.Moved > 0 {
			f.Moved++
		}
		if c.Halts > 0 {
			f.Halts++
		}
	}
	judged, weighed := float64(f.Walks-f.Of[PassedOn].Cases), sum-weights[PassedOn]
	if weighed > 0 {
		f.Mean = minutes / weighed
	}
	for v, n := range f.Of {
		if v != PassedOn && judged > 0 && weighed > 0 {
			n.Share, n.Weighted = float64(n.Cases)/judged, weights[v]/weighed
		}
		f.Of[v] = n
	}
	return f
}
