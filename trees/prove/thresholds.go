package prove

import (
	"math"
	"strconv"
)

// stretch is a closed range of readings on which a term rises or falls throughout.
type stretch struct{ lo, hi float64 }

// thresholds finds the readings at which a comparison of a folded term with a number can change, exact to the last
// bit. It searches rather than solves: rounding included, a term that rises throughout crosses a number once.
// The reason is not empty when that is not so for these values.
func thresholds(f *term, operator string, target float64, domain stretch) (at []float64, reason string) {
	switch {
	case math.IsNaN(target):
		return nil, "the limit is not a number"
	case f.kind == reading:
		return []float64{target}, ""
	case math.IsInf(target, 0):
		return nil, "the limit is not a finite number"
	}
	stretches, reason := f.stretches(domain)
	for i, s := range stretches {
		if i > 0 {
			at = append(at, shorter(stretches[i-1].hi, s.lo))
		}
		if operator != "<=" && operator != ">" {
			at = s.cut(at, func(x float64) bool { return f.eval(x) >= target })
		}
		if operator != "<" && operator != ">=" {
			at = s.cut(at, func(x float64) bool { return f.eval(x) > target })
		}
	}
	return at, reason
}

// stretches splits the domain wherever an abs turns.
func (t *term) stretches(domain stretch) ([]stretch, string) {
	if t.kind == reading {
		return []stretch{domain}, ""
	}
	inner := t.a
	if inner.closed() {
		inner = t.b
	}
	if reason := t.degenerate(); reason != "" {
		return nil, reason
	}
	parts, reason := inner.stretches(domain)
	if t.kind != absolute {
		return parts, reason
	}
	var split []stretch
	for _, s := range parts {
		turn := s.crossing(func(x float64) bool { return inner.eval(x) >= 0 })
		if len(turn) == 0 {
			split = append(split, s)
			continue
		}
		split = append(split, stretch{s.lo, turn[0]}, stretch{turn[1], s.hi})
	}
	return split, reason
}

// degenerate tells why a step with these values hides the reading.
func (t *term) degenerate() string {
	if t.b == nil {
		return ""
	}
	k := t.b
	if t.a.closed() {
		k = t.a
	}
	switch {
	case math.IsNaN(k.value) || math.IsInf(k.value, 0):
		return "a number beside the reading is not finite"
	case k.value == 0 && t.kind == times:
		return "the reading is multiplied by 0"
	case k.value == 0 && t.kind == over:
		return "the reading is divided by 0"
	}
	return ""
}

// crossing gives the two neighbouring readings between which holds changes, or none. It halves the distance in
// steps between representable numbers, so 64 steps are always enough.
func (s stretch) crossing(holds func(float64) bool) []float64 {
	lo, hi := ordinal(s.lo), ordinal(s.hi)
	low := holds(s.lo)
	if lo >= hi || low == holds(s.hi) {
		return nil
	}
	for hi-lo > 1 {
		middle := lo + int64(uint64(hi-lo)/2)
		if holds(number(middle)) == low {
			lo = middle
		} else {
			hi = middle
		}
	}
	return []float64{number(lo), number(hi)}
}

// cut adds the reading at which holds changes. Of the two neighbours one is enough, and the one that is shorter to
// write is the one an author had in mind: 207 rather than 206.99999999999997.
func (s stretch) cut(at []float64, holds func(float64) bool) []float64 {
	if pair := s.crossing(holds); pair != nil {
		at = append(at, shorter(pair[0], pair[1]))
	}
	return at
}

func shorter(a, b float64) float64 {
	if len(strconv.FormatFloat(b, 'g', -1, 64)) < len(strconv.FormatFloat(a, 'g', -1, 64)) {
		return b
	}
	return a
}

// ordinal numbers the finite float64 values in ascending order, both zeros being 0.
func ordinal(x float64) int64 {
	if bits := math.Float64bits(x); bits>>63 == 0 {
		return int64(bits)
	}
	return -int64(math.Float64bits(x) &^ (1 << 63))
}

func number(n int64) float64 {
	if n >= 0 {
		return math.Float64frombits(uint64(n))
	}
	return -math.Float64frombits(uint64(-n))
}
