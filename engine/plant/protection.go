package plant

import "faultwalk/measurements/expected"

// instant is the multiple of its rating at which a breaker is taken to act at
// once: the least of curve B, 3 to 5 times (IEC 60898-1 Table 7). What is less,
// and the wider bands of curves C and D, is left to seconds and minutes: a
// short circuit here passes all of them.
const instant = 3

// breaker trips the first device of a supply on the current of its live.
func (b *builder) breaker(n supply) {
	rated, err := expected.ParseBreaker(n.of.Breaker)
	if err != nil {
		b.problem(n.of.Pos, "the supply %q: %s", n.of.ID, err)
		return
	}
	b.trips = append(b.trips, trip{"breaker of " + n.of.ID, func(s *Subject) float64 { return s.amps(n.live) / (instant * rated.Amps) },
		[]int{n.device}, b.words.ID("overcurrent")})
}

// rcdAmps is where a 30 mA residual current device acts: between half of its
// rating and all of it (IEC 61008-1); three quarters are taken.
const rcdAmps = 0.75 * 0.030

// residual adds up live and neutral of all supplies on the same RCD.
func (b *builder) residual() {
	groups := map[string][]supply{}
	var order []string
	for _, n := range b.supplies {
		if n.of.RCD == "" {
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
