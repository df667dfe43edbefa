package network

import "slices"

// Islands names the nodes of every part of the network that has no way to
// earth, of the ac network and of the dc network; a part that floats in both
// stands there once. Solve must have run since the last change.
func (s *Solver) Islands() [][]string {
	all := s.IslandsAC()
	for _, d := range s.IslandsDC() {
		if !slices.ContainsFunc(all, func(a []string) bool { return slices.Equal(a, d) }) {
			all = append(all, d)
		}
	}
	return all
}

// IslandsAC names the parts that float at mains frequency.
func (s *Solver) IslandsAC() [][]string { return islands(&s.ac.factor, s.n.Names) }

// IslandsDC names the parts that float at dc.
func (s *Solver) IslandsDC() [][]string { return islands(&s.dc.factor, s.n.Names) }

// islands gathers the nodes by their root, each island in the order of names.
func islands[T scalar](f *factor[T], names []string) [][]string {
	if len(f.pinned()) == 0 {
		return nil
	}
	of := map[int32]int{}
	var out [][]string
	for v, name := range names {
		r := f.root(f.p.at[v])
		if r == int32(f.p.n) {
			continue
		}
		i, ok := of[r]
		if !ok {
			i = len(out)
			of[r] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], name)
	}
	return out
}
