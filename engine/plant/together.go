package plant

import (
	"math"
	"slices"

	"faultwalk/engine/network"
	"faultwalk/trees"
)

// together is the resistance, in Ω, to a node from another with all that is
// clipped to it.
func (s *Subject) together(r *Result, joined []trees.Joined, a, b network.Node) (float64, error) {
	all := []network.Node{a}
	for _, j := range joined {
		n, err := s.m.side(j.At, j.Side)
		if err != nil {
			return 0, err
		}
		r.Live = r.Live || s.alive(n, b)
		if !slices.Contains(all, n) {
			all = append(all, n)
		}
	}
	return s.clipped(all, b), nil
}

// clipped is the resistance, in Ω, from nodes clipped together to another one.
// With that one held, an ampere into a node lifts each by its own or a mutual
// resistance, and those follow from what is seen between the nodes; the amperes
// that lift all of them to one volt are the conductance.
func (s *Subject) clipped(all []network.Node, b network.Node) float64 {
	var led []network.Node
	var own []float64
	for _, n := range all {
		switch _, ohms := s.solver.Seen(n, b); {
		case ohms == 0:
			return 0
		case !math.IsInf(ohms, 1):
			led, own = append(led, n), append(own, ohms)
		}
	}
	rows := make([][]float64, len(led))
	for i := range led {
		for j := range led {
			between := 0.0
			if i != j {
				_, between = s.solver.Seen(led[i], led[j])
			}
			rows[i] = append(rows[i], (own[i]+own[j]-between)/2)
		}
	}
	return 1 / conductance(rows)
}

// sameNode is the part of its own resistance below which a node is taken to
// hang on the others by a wire: what is left is rounding.
const sameNode = 1e-12

// conductance is the sum, in S, of the inverse of a symmetric matrix of Ω, by
// elimination of its rows against a column of ones.
func conductance(rows [][]float64) (sum float64) {
	n := len(rows)
	least := make([]float64, n)
	for k := range rows {
		least[k] = sameNode * rows[k][k]
		rows[k] = append(rows[k], 1)
	}
	for k, row := range rows {
		pivot := row[k]
		if pivot <= least[k] {
			continue
		}
		sum += row[n] * row[n] / pivot
		for _, below := range rows[k+1:] {
			share := below[k] / pivot
			for c := k; c <= n; c++ {
				below[c] -= share * row[c]
			}
		}
	}
	return sum
}
