package walk_test

import (
	"flag"
	"fmt"
	"sync"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// oneSeed runs a single job again: go test -run RandomCaller -seed 123.
var oneSeed = flag.Int64("seed", 0, "run the random caller of this seed only")

// How many random answers are given in all, and by how many callers beside
// each other.
const (
	allAnswers    = 100_000
	someAnswers   = 8_000 // with -short, or under the race detector
	callersAtOnce = 16
)

// Whatever is answered, in whatever order, nothing unsafe is done or asked:
// the monitor, by events and wiring alone, finds nothing in any job.
func TestRandomCallerIsNeverLedIntoDanger(t *testing.T) {
	t.Parallel()
	if *oneSeed != 0 {
		newCaller(*oneSeed, false).randomJob(t, *oneSeed)
		return
	}
	answers := allAnswers
	if testing.Short() || underRace {
		answers = someAnswers
	}
	var met tally
	t.Cleanup(func() { met.complete(t) })
	for n := range int64(callersAtOnce) {
		t.Run(fmt.Sprint("caller ", n), func(t *testing.T) {
			t.Parallel()
			var first *walk.Job // the others use what it has bound; each caller begins at another plant
			for seed, given := n*1_000_001+1, 0; given < answers/callersAtOnce; seed++ {
				c := newCaller(seed, false)
				if first == nil {
					first = c.job
				}
				c.job.Borrow(first)
				c.randomJob(t, seed)
				given += c.given
				met.add(c.job.Events())
				if t.Failed() {
					return
				}
			}
		})
	}
}

// randomJob takes a caller through one job.
func (c *caller) randomJob(t *testing.T, seed int64) {
	t.Helper()
	if wrong := c.call(); wrong != "" {
		t.Errorf("seed %d: %s", seed, wrong)
	}
	for _, u := range c.unsafe {
		t.Errorf("seed %d: unsafe: %s", seed, u)
	}
}

// tally counts what the callers came to do, all of them together.
type tally struct {
	sync.Mutex
	met map[string]int
}

func (y *tally) add(events []journal.Event) {
	y.Lock()
	defer y.Unlock()
	if y.met == nil {
		y.met = map[string]int{}
	}
	for _, e := range events {
		y.met[e.Kind]++
		switch b := e.Body.(type) {
		case *journal.Acted:
			y.met[b.Act.Do+", "+b.Outcome]++
		case *journal.Read:
			for _, v := range b.Values {
				y.met["read on "+v.Mode]++
			}
		case *journal.Closed:
			y.met["closed as "+b.As]++
		case *journal.Answered:
			if b.Ask == "plant" {
				y.met["at "+b.Choice]++
			}
		}
	}
}

// complete holds the callers to have met what there is to meet: a caller that
// never opens a cover is led into no danger either.
func (y *tally) complete(t *testing.T) {
	if t.Failed() {
		return
	}
	t.Log(y.met)
	all := []string{journal.KindHanded, journal.KindResumed, journal.KindRetracted, journal.KindRepaired, journal.KindSkipped, journal.KindTurned,
		"lock, done", "open, done", "open, cannot", "prove, done", "prove, found", "unplug, done", "refit, done", "close, done", "switch on, done", "call, done", "release, cannot",
		"read on low impedance", "read on high impedance", "read on ohms", "read on insulation", "closed as " + journal.LeftSafe}
	if !testing.Short() && !underRace { // by chance, one job in some hundreds comes to that
		all = append(all, "closed as "+journal.Proven)
	}
	for _, plant := range theHouse().plants {
		all = append(all, "at "+plant)
	}
	for _, what := range all {
		if y.met[what] == 0 {
			t.Errorf("no random caller came to %q", what)
		}
	}
}
