package rehearse

import (
	"slices"
	"testing"
)

// plantsOf are plants of so many pieces.
func plantsOf(pieces ...int) (all []*bench) {
	for _, n := range pieces {
		b := &bench{}
		for range n {
			b.pieces = append(b.pieces, &piece{bench: b})
		}
		all = append(all, b)
	}
	return all
}

func TestWorkerStaysOnAPlantAndThenHelpsWhereMostIsLeft(t *testing.T) {
	t.Parallel()
	all := plantsOf(2, 5, 1)
	r := newRoster(all, 2)
	var got []int
	for _, worker := range []int{0, 1, 0, 0, 0, 0, 1, 0, 1, 0} { // the first is quick, the second slow
		if p := r.next(worker); p != nil {
			got = append(got, slices.Index(all, p.bench))
		}
	}
	// 0 goes where most is, 1 to the next; 0 stays to the end there, takes the one
	// where nobody is, and finds nothing then but what 1 has.
	if want := []int{1, 0, 1, 1, 1, 1, 0, 2}; !slices.Equal(got, want) {
		t.Errorf("the plants were walked in the order %v, want %v", got, want)
	}
}

func TestEveryPieceIsWalkedOnce(t *testing.T) {
	t.Parallel()
	for _, workers := range []int{1, 2, 3, 8} {
		all := plantsOf(3, 0, 4, 1)
		r, seen := newRoster(all, workers), map[*piece]int{}
		for given := 1; given > 0; {
			given = 0
			for w := range workers {
				if p := r.next(w); p != nil {
					seen[p]++
					given++
				}
			}
		}
		for i, b := range all {
			for _, p := range b.pieces {
				if seen[p] != 1 {
					t.Errorf("%d workers: a piece of plant %d was walked %d times", workers, i, seen[p])
				}
			}
		}
	}
}
