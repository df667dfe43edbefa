package monitor_test

import (
	"testing"

	"faultwalk/engine/journal"
)

// The ten minutes are those of handbook 1.3 and C12 (common practice, no source).
func TestADriveThatMayHoldItsChargeIsReported(t *testing.T) {
	t.Parallel()
	off := script{hands("electrical"), do(journal.ActSwitchOff, "unit-breaker"), do(journal.ActLock, "unit-breaker")}
	wait := func(minutes float64) *journal.Acted {
		return &journal.Acted{Act: journal.Act{Do: journal.ActWait, On: "power-enclosure", Minutes: minutes}, Outcome: journal.Done}
	}
	open := do(journal.ActOpen, "power-enclosure")
	run(t, []example{
		{name: "at once", does: off.then(open), words: says("holds a charge")},
		{name: "nine minutes", does: off.then(wait(9), open), words: says("isolated 9 minutes ago")},
		{name: "ten minutes", does: off.then(wait(4), wait(6), open)},
		{name: "waited before the lock", does: script{hands("electrical"), wait(10)}.then(off[1:]...).then(open), words: says("holds a charge")},
		{name: "power between", does: off.then(wait(10), do(journal.ActUnlock, "unit-breaker"), do(journal.ActLock, "unit-breaker"), open), words: says("holds a charge")},
		{name: "a pause between", does: off.then(wait(10), &journal.Resumed{}, do(journal.ActLock, "unit-breaker"), open), words: says("holds a charge")},
		{name: "a box without a drive", does: off.then(do(journal.ActOpen, "diverter-box"))},
	})
}
