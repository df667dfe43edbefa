package plant

import (
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/formula"
)

// workedIn lists the switches that a hand works while a check is taken: a check
// that asks for a valve's lever and has a switch off its leads reads it with the
// valve pushed over.
func workedIn(c *trees.BoundCheck) []string {
	if !slices.Contains(c.Need.Asks, "lever") {
		return nil
	}
	return c.Lifted
}

// byHand makes a part follow the hand that works it, whatever it follows else.
func byHand(part string, follows numeric) numeric {
	of := follows.Func()
	return formula.Of(follows.Type, func(s *Subject) float64 {
		if len(s.worked) > 0 && slices.Contains(s.worked, part) {
			return 1
		}
		return of(s)
	})
}

// work has a hand work other switches than before.
func (s *Subject) work(switches []string) {
	if !slices.Equal(s.worked, switches) {
		s.worked, s.anew, s.stale = switches, true, true
	}
}
