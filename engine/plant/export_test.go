package plant

import (
	"math/rand/v2"
	"slices"

	"faultwalk/engine/network"
)

// What tests see of a subject: its standing, its variables, its solved network.

func (s *Subject) Stand(st Standing)            { s.stand(st) }
func (s *Subject) Unsteady() bool               { return len(s.visits) > 0 }
func (s *Subject) Unhealthy() string            { return s.unhealthy() }
func (s *Subject) State() []float64             { return slices.Clone(s.v) }
func (s *Subject) Base() []float64              { return slices.Clone(s.base) }
func (s *Subject) Branches() []network.Branch   { return s.net.Branches }
func (s *Subject) Variable(name string) float64 { return s.v[s.m.varAt[name]] }
func (m *Model) VariableName(i int) string      { return m.vars[i].name }

// Solved is the network of the subject as it stands.
func (s *Subject) Solved() *network.Solver {
	s.fresh()
	return s.solver
}

// Corner is a plant whose every part and branch is at one end of its tolerance.
func (m *Model) Corner(seed uint64) *Draw {
	rng := rand.New(rand.NewPCG(seed, 0xc04e))
	return m.drawn(func() float64 { return float64(2*rng.IntN(2) - 1) })
}

// Extreme is a plant with everything at the upper end of its tolerance, or at
// the lower.
func (m *Model) Extreme(end float64) *Draw { return m.drawn(func() float64 { return end }) }

// StandOneAtATime is stand with rules that act one after the other, in an order
// that the seed shuffles anew for each pass: no two parts of a real plant move
// at the same instant. It says whether the plant came to rest, and how it stands.
func (s *Subject) StandOneAtATime(st Standing, seed uint64) (rests bool, v []float64) {
	s.stand(st)
	s.at = nil
	copy(s.v, s.base)
	for c, on := range st.Calls {
		if i, ok := s.m.varAt["call "+c]; ok && on {
			s.v[i] = 1
		}
	}
	rng := rand.New(rand.NewPCG(seed, 0xa57))
	for range 40 * most {
		s.solve()
		if !s.oneChange(rng) {
			return true, slices.Clone(s.v)
		}
	}
	return false, slices.Clone(s.v)
}

// oneChange lets the worst overload act, or else one rule.
func (s *Subject) oneChange(rng *rand.Rand) bool {
	for _, h := range s.locked {
		s.v[h.at] = h.to
	}
	copy(s.next, s.v)
	if s.protect() && !slices.Equal(s.next, s.v) {
		copy(s.v, s.next)
		return true
	}
	for _, i := range rng.Perm(len(s.m.rules)) {
		r := &s.m.rules[i]
		if x := r.to(s); x != s.v[r.set] && !s.isLocked(r.set) {
			s.v[r.set] = x
			return true
		}
	}
	return false
}

func (s *Subject) Model() *Model { return s.m }

// Word is the word that a variable holds.
func (s *Subject) Word(name string) string { return s.m.words.Word(s.Variable(name)) }
