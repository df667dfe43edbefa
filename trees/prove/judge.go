package prove

import (
	"math"
	"math/bits"
)

// Fact is the truth of something about a reading, such as that ln is moving.
type Fact struct {
	Name string // moving
	Of   string // ln
	True bool
}

// Gap is the index that stands for "no branch" in the outcome of [Partition.Judge].
const Gap = -1

// Judge gives the branches, in ascending order, that readings in the box may lead to; [Gap] comes first where some
// of them lead nowhere. There is a verdict if exactly one index comes back and it is not Gap.
//
// The box has one interval for each variable of the set; one that is missing, has NaN for an end, or ends before it
// begins counts as not read and covers the whole range. Readings beyond the range belong to no branch. Facts not
// given may be true or false. Where all conditions are decided the outcome is exact, to the last bit of an edge;
// an undecided one may be named although no reading in the box makes it true, never the other way round.
func (p *Partition) Judge(readings []Interval, facts ...Fact) []int {
	ranges, beyond := p.clip(readings)
	found := uint64(0)
	if ranges != nil {
		sure, maybe := p.judgeUndecided(box{p.Set, ranges, facts})
		var gap bool
		p.visit(ranges, facts, func(cell int) {
			winners, none := p.winners(p.truth[cell], sure, maybe)
			found |= winners
			gap = gap || none
		})
		beyond = beyond || gap
	}
	var branches []int
	if beyond {
		branches = append(branches, Gap)
	}
	for ; found != 0; found &= found - 1 {
		branches = append(branches, bits.TrailingZeros64(found))
	}
	return branches
}

// clip gives the part of the box inside the variables' ranges, nil if there is none, and whether some is outside.
func (p *Partition) clip(readings []Interval) (ranges []Interval, beyond bool) {
	for i, v := range p.Set.Variables {
		r := Interval{v.Min, v.Max}
		if i < len(readings) && readings[i].Lo <= readings[i].Hi {
			r = readings[i]
		}
		if r.Lo > v.Max || r.Hi < v.Min {
			return nil, true
		}
		beyond = beyond || r.Lo < v.Min || r.Hi > v.Max
		ranges = append(ranges, Interval{math.Max(r.Lo, v.Min), math.Min(r.Hi, v.Max)})
	}
	return ranges, beyond
}

// judgeUndecided gives the undecided branches that are true throughout the box, and those that may be.
func (p *Partition) judgeUndecided(b box) (sure, maybe uint64) {
	for left := p.undecided; left != 0; left &= left - 1 {
		i := bits.TrailingZeros64(left)
		switch b.judge(p.formulas[i]) {
		case yes:
			sure |= 1 << i
		case either:
			maybe |= 1 << i
		}
	}
	return sure, maybe
}

// winners gives the branches a cell may lead to, and whether it may lead nowhere.
func (p *Partition) winners(truth, sure, maybe uint64) (found uint64, none bool) {
	truth |= sure
	if !p.Set.FirstTrue {
		if truth != 0 {
			return truth | maybe, false
		}
		found = maybe
	} else {
		first := truth & -truth
		if first != 0 {
			return first | maybe&(first-1), false
		}
		found = maybe
	}
	if last := len(p.Set.Branches) - 1; p.Set.Branches[last].Else {
		return found | 1<<last, false
	}
	return found, true
}

// visit calls back with the place in the truth table of every combination of cells the box touches.
func (p *Partition) visit(ranges []Interval, facts []Fact, each func(cell int)) {
	p.visitFrom(0, 0, ranges, facts, each)
}

func (p *Partition) visitFrom(d, offset int, ranges []Interval, facts []Fact, each func(cell int)) {
	first, last, size := 0, 1, 2
	switch index := d - len(p.facts); {
	case index == len(p.axes):
		each(offset)
		return
	case index < 0:
		switch (box{facts: facts}).fact(p.facts[d].name, p.Set.Variables[p.facts[d].index].Name) {
		case yes:
			first = 1
		case no:
			last = 0
		}
	default:
		size = len(p.axes[index].cells)
		first, last = p.axes[index].touched(ranges[index].Lo, ranges[index].Hi)
	}
	for i := first; i <= last; i++ {
		p.visitFrom(d+1, offset*size+i, ranges, facts, each)
	}
}

// Decided says whether the proof knows exactly which readings a branch owns.
func (p *Partition) Decided(branch int) bool { return p.undecided&(1<<branch) == 0 }

// Owned gives the readings of one variable that may lead to a branch, whatever the other readings and the facts not
// given are, as ranges in ascending order. For an undecided branch it gives nothing.
func (p *Partition) Owned(branch, variable int, facts ...Fact) []Range {
	if !p.Decided(branch) {
		return nil
	}
	cells := p.axes[variable].cells
	var owned []Range
	for i, c := range cells {
		ranges, _ := p.clip(nil)
		lo, hi := c.ends()
		ranges[variable] = Interval{lo, hi}
		mine := false
		p.visit(ranges, facts, func(cell int) {
			winners, _ := p.winners(p.truth[cell], 0, p.undecided)
			mine = mine || winners&(1<<branch) != 0
		})
		switch {
		case !mine:
		case len(owned) > 0 && i > 0 && owned[len(owned)-1].Hi == cells[i-1].Hi && owned[len(owned)-1].HiIn == cells[i-1].HiIn:
			owned[len(owned)-1].Hi, owned[len(owned)-1].HiIn = c.Hi, c.HiIn
		default:
			owned = append(owned, c.Range)
		}
	}
	return owned
}
