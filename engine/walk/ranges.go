package walk

import (
	"math"
	"slices"
	"strings"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// expectedWords says what a healthy plant gives at a probe, with the source.
func (j *Job) expectedWords(c *trees.BoundCheck, p trees.BoundProbe) string {
	owned, sit := j.good(c, p)
	var parts []string
	for _, r := range owned {
		w := rangeWords(c, r)
		if w == "anything" {
			return ""
		}
		parts = append(parts, w)
	}
	w := strings.Join(parts, " or ")
	if sit.Expected != nil && sit.Expected.Source != "" && w != "" {
		w += " (" + sit.Expected.Source + ")"
	} else if c.Check.Source != "" && w != "" {
		w += " (" + c.Check.Source + ")"
	}
	return w
}

// good is what a probe reads on a healthy plant; nil if that is not known.
func (j *Job) good(c *trees.BoundCheck, p trees.BoundProbe) ([]prove.Range, trees.Situation) {
	sit, err := j.situation(&reading{check: c})
	if err != nil || c.Good.Value == "" {
		return nil, sit
	}
	set, err := j.lib.Set.Holding(c, c.Good.Value, sit)
	if err != nil {
		return nil, sit
	}
	part, _, err := j.prover.Table(set)
	if err != nil {
		return nil, sit
	}
	return part.Owned(0, probeIndex(c, p.As)), sit
}

// expects says whether a healthy plant may give a value at a probe.
func (j *Job) expects(c *trees.BoundCheck, p trees.BoundProbe, v float64) bool {
	owned, _ := j.good(c, p)
	return slices.ContainsFunc(owned, func(r prove.Range) bool { return r.Lo <= v && v <= r.Hi })
}

func probeIndex(c *trees.BoundCheck, as string) int {
	for i, p := range c.Probes {
		if p.As == as {
			return i
		}
	}
	return 0
}

// rangeWords writes a range in the trade's way, to four figures: "below 5 V",
// "216.2 to 253 V", "4.5 kΩ or more".
func rangeWords(c *trees.BoundCheck, r prove.Range) string {
	d := c.Quantity.Domain()
	lo, hi := c.Quantity.Format(measurements.Significant(r.Lo, 4)), c.Quantity.Format(measurements.Significant(r.Hi, 4))
	switch {
	case r.Lo <= d.Lo && r.Hi >= d.Hi:
		return "anything"
	case r.Lo <= d.Lo && r.HiIn:
		return "up to " + hi
	case r.Lo <= d.Lo:
		return "below " + hi
	case r.Hi >= d.Hi && r.LoIn:
		return lo + " or more"
	case r.Hi >= d.Hi:
		return "above " + lo
	}
	return lo + " to " + hi
}

// drawRanges divides one probe's readings by what they would lead to, in
// ascending order, as far as the other probes read so far let it be told.
func (j *Job) drawRanges(a *aim, p *trees.BoundProbe, out *ReadingAsk) {
	if a.step == nil || a.step.Check != a.check {
		return
	}
	r := j.mind.now[a.check.ID]
	if r == nil || len(r.values) == len(a.check.Probes) {
		r = &reading{check: a.check}
	}
	part, err := j.partition(a.step, r)
	if err != nil {
		return
	}
	i, box := probeIndex(a.check, p.As), j.box(r)
	var steady []prove.Fact // what is drawn is where a reading that stands still leads
	for _, q := range a.check.Probes {
		steady = append(steady, trees.Moves(q, false))
	}
	for _, cell := range cells(part, len(a.step.Branches), i) {
		box[i] = prove.Interval{Lo: inside(cell), Hi: inside(cell)}
		touches := part.Judge(box, steady...)
		meaning := rangeMeaning(a.step, touches)
		if n := len(out.Ranges); n > 0 && out.Ranges[n-1].Meaning == meaning {
			out.Ranges[n-1].Owned.Hi, out.Ranges[n-1].Owned.HiIn = cell.Hi, cell.HiIn
			continue
		}
		out.Ranges = append(out.Ranges, Range{Meaning: meaning, Owned: cell})
	}
	if len(out.Ranges) == 1 && out.Ranges[0].Meaning == readOn {
		out.Ranges = nil // it tells nothing
	}
	for n := range out.Ranges {
		out.Ranges[n].Words = rangeWords(a.check, out.Ranges[n].Owned)
	}
}

// readOn is the meaning of readings that lead nowhere without those that follow.
const readOn = "not decided by this alone; read on"

func rangeMeaning(step *trees.Bound, branches []int) string {
	if len(branches) == 1 && branches[0] >= 0 {
		return step.Branches[branches[0]].Meaning
	}
	return readOn
}

// cells cuts a probe's domain at every edge of any branch: each edge by itself
// and each stretch between two.
func cells(part *prove.Partition, branches, variable int) []prove.Range {
	v := part.Set.Variables[variable]
	edges := []float64{v.Min, v.Max}
	for b := range branches {
		for _, o := range part.Owned(b, variable) {
			edges = append(edges, o.Lo, o.Hi)
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var out []prove.Range
	for i, e := range edges {
		out = append(out, prove.Range{Lo: e, Hi: e, LoIn: true, HiIn: true})
		if i+1 < len(edges) {
			out = append(out, prove.Range{Lo: e, Hi: edges[i+1]})
		}
	}
	return out
}

// inside is a value in a cell that is one point or an open stretch.
func inside(r prove.Range) float64 {
	if r.Lo == r.Hi {
		return r.Lo
	}
	if math.IsInf(r.Hi, 1) {
		return 2*math.Abs(r.Lo) + 1
	}
	return r.Lo + (r.Hi-r.Lo)/2
}
