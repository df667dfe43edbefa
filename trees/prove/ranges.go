package prove

import (
	"math"
	"strconv"
)

// Range is a range of readings in SI units and whether its ends belong to it. An upper end of +Inf that belongs to
// it stands for OL.
type Range struct {
	Lo, Hi     float64
	LoIn, HiIn bool
}

// Contains says whether a reading is in the range.
func (r Range) Contains(x float64) bool {
	return (x > r.Lo || r.LoIn && x == r.Lo) && (x < r.Hi || r.HiIn && x == r.Hi)
}

// Describe says in words which readings a range holds, exactly: "ln from 207 V up to but not including 216.2 V".
func (v Variable) Describe(r Range) string {
	toTop, fromBottom := v.reaches(r), r.Lo == v.Min && r.LoIn
	switch {
	case fromBottom && toTop:
		return "any " + v.Name
	case r.Lo == r.Hi && math.IsInf(r.Hi, 1):
		return v.Name + " OL"
	case r.Lo == r.Hi:
		return v.Name + " exactly " + v.number(r.Lo)
	case fromBottom:
		return v.Name + v.upTo(r, " below ", " up to ")
	case toTop:
		return v.Name + v.from(r) + v.overload(r)
	case r.LoIn:
		return v.Name + v.from(r) + v.upTo(r, " up to but not including ", " to ")
	}
	return v.Name + v.from(r) + v.upTo(r, " and below ", " up to ")
}

// reaches says whether nothing but OL can lie above the range.
func (v Variable) reaches(r Range) bool {
	return r.Hi == v.Max && (r.HiIn || math.IsInf(r.Hi, 1) && !(r.Lo == v.Min && r.LoIn))
}

func (v Variable) from(r Range) string {
	if r.LoIn {
		return " from " + v.number(r.Lo)
	}
	return " above " + v.number(r.Lo)
}

func (v Variable) upTo(r Range, without, with string) string {
	if math.IsInf(r.Hi, 1) && !r.HiIn {
		return ", any but OL"
	}
	if r.HiIn {
		return with + v.number(r.Hi)
	}
	return without + v.number(r.Hi)
}

func (v Variable) overload(r Range) string {
	switch {
	case !math.IsInf(v.Max, 1):
		return ""
	case r.HiIn:
		return ", OL included"
	}
	return ", OL not included"
}

// number writes a reading with its unit, in as many digits as it needs.
func (v Variable) number(x float64) string {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if size := math.Abs(x); size != 0 && (size < 1e-4 || size >= 1e9) {
		text = strconv.FormatFloat(x, 'g', -1, 64)
	}
	if v.Unit == "" {
		return text
	}
	return text + " " + v.Unit
}

// example gives a reading in the range that is short to say; OL only when nothing else is there.
func (r Range) example() float64 {
	lo, hi := r.Lo, r.Hi
	switch {
	case lo == hi:
		return lo
	case math.IsInf(hi, 1):
		hi = 2*math.Abs(lo) + 2
		if math.IsInf(hi, 1) {
			hi = math.MaxFloat64
		}
	}
	middle := lo + (hi-lo)/2
	for exponent := math.Floor(math.Log10(hi-lo)) + 1; exponent > -16; exponent-- {
		step := math.Pow(10, exponent)
		if x := math.Round(middle/step) * step; x > lo && x < hi {
			short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64) // 0.1*3 is not the nearest to 0.3
			if err == nil && short > lo && short < hi {
				return short + 0 // never a minus zero
			}
		}
	}
	return r.inside(middle)
}

// inside falls back on any reading of a range too narrow for a short one.
func (r Range) inside(middle float64) float64 {
	switch {
	case r.Contains(middle):
		return middle
	case r.LoIn:
		return r.Lo
	case r.HiIn:
		return r.Hi
	}
	return math.Nextafter(r.Lo, r.Hi)
}
