package plant

import (
	"regexp"
	"strconv"
)

var breakerAmps = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// breaker trips at three times its rating at once: the least of a type B by
// BS EN 60898-1 (3 to 5 times). What is less is left to minutes nobody waits.
func (b *builder) breaker(n supply) {
	amps, err := strconv.ParseFloat(breakerAmps.FindString(n.of.Breaker), 64)
	if n.device < 0 || err != nil || amps <= 0 {
		return
	}
	b.trips = append(b.trips, trip{"breaker of " + n.of.ID, func(s *Subject) float64 { return s.amps(n.live) / (3 * amps) },
		[]int{n.device}, b.words.ID("overcurrent")})
}

// rcdAmps is where a 30 mA residual current device acts: between half of its
// rating and all of it (BS EN 61008-1); three quarters are taken.
const rcdAmps = 0.75 * 0.030

// residual adds up live and neutral of all supplies on the same RCD.
func (b *builder) residual() {
	groups := map[string][]supply{}
	var order []string
	for _, n := range b.supplies {
		if n.of.RCD == "" || n.device < 0 {
			continue
		}
		if groups[n.of.RCD] == nil {
			order = append(order, n.of.RCD)
		}
		groups[n.of.RCD] = append(groups[n.of.RCD], n)
	}
	for _, g := range order {
		of := groups[g]
		t := trip{name: "residual current device " + g, to: b.words.ID("leakage")}
		for _, n := range of {
			t.set = append(t.set, n.device)
		}
		t.overload = func(s *Subject) float64 { return s.residual(of) / rcdAmps }
		b.trips = append(b.trips, t)
	}
}
