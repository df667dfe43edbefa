package rehearse

import (
	"slices"
	"sync"
)

// roster gives out the pieces of all plants. A worker stays on a plant as long as
// it has pieces, since what it learns of the ways there serves all of them; then
// it goes to a plant where nobody is, or else helps where most is left.
type roster struct {
	lock  sync.Mutex
	left  [][]*piece // of each plant
	place []int      // of each worker: the plant it is on, -1 for none
}

func newRoster(benches []*bench, workers int) *roster {
	r := &roster{place: slices.Repeat([]int{-1}, workers)}
	for _, b := range benches {
		r.left = append(r.left, b.pieces)
	}
	return r
}

// next gives a worker its next piece; nil where none is left.
func (r *roster) next(worker int) *piece {
	r.lock.Lock()
	defer r.lock.Unlock()
	if at := r.place[worker]; at < 0 || len(r.left[at]) == 0 {
		r.place[worker] = r.most(worker)
	}
	at := r.place[worker]
	if at < 0 {
		return nil
	}
	p := r.left[at][0]
	r.left[at] = r.left[at][1:]
	return p
}

// most is the plant with the most pieces left, of those where nobody is if there
// is one; -1 where nothing is left.
func (r *roster) most(worker int) int {
	best, alone := -1, false
	for i, left := range r.left {
		free := !slices.Contains(r.place, i) || r.place[worker] == i
		better := best < 0 || free && !alone || free == alone && len(left) > len(r.left[best])
		if len(left) > 0 && better {
			best, alone = i, free
		}
	}
	return best
}
