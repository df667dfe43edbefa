package rehearse

import (
	"math"
	"math/rand/v2"

	"faultwalk/measurements"
)

// shows is what an instrument shows for a true value: with an error within its
// accuracy where rng is given, rounded to the counts of its range, OL above the
// top. The error is taken to be anywhere within the limits with equal chance,
// as JCGM 100:2008, 4.3.7 has it for a stated accuracy.
func shows(s measurements.ModeSpec, v float64, moving bool, rng *rand.Rand) measurements.Reading {
	r := measurements.Reading{Quantity: s.Quantity, Moving: moving}
	if !math.IsInf(v, 0) && rng != nil {
		v += (2*rng.Float64() - 1) * s.Error(v)
	}
	domain := s.Quantity.Domain()
	v = min(max(v, domain.Lo), domain.Hi)
	if math.Abs(v) > s.Top() || math.IsNaN(v) {
		if math.IsInf(domain.Hi, 1) {
			r.Open, r.Value = true, measurements.Point(math.Inf(1))
			return r
		}
		v = math.Copysign(s.Top(), v)
	}
	r.Value = measurements.Point(s.Rounded(v))
	return r
}
