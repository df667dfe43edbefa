package rehearse

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// together does n pieces of work on every processor: each is given to the
// worker that is free next, in order.
func together(n int, do func(worker, i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for worker := range workers() {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(worker, i)
			}
		}()
	}
	all.Wait()
}

func workers() int { return runtime.GOMAXPROCS(0) }
