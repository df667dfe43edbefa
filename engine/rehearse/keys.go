package rehearse

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"faultwalk/engine/safety"
)

// worldKey tells worlds apart by everything that judges what may follow.
func worldKey(w *safety.World) string {
	var b strings.Builder
	for _, id := range slices.Sorted(maps.Keys(w.Devices)) {
		fmt.Fprintf(&b, "%s %d%d,", id, w.Devices[id].Off, w.Devices[id].Locked)
	}
	for _, id := range slices.Sorted(maps.Keys(w.Enclosures)) {
		fmt.Fprintf(&b, "%s %d%t,", id, w.Enclosures[id].Open, w.Enclosures[id].Proved)
	}
	for _, id := range slices.Sorted(maps.Keys(w.Plugs)) {
		fmt.Fprintf(&b, "%s %d,", id, w.Plugs[id])
	}
	for _, id := range slices.Sorted(maps.Keys(w.Calls)) {
		fmt.Fprintf(&b, "%s %s %g %t,", id, w.Calls[id].Asked, w.Calls[id].Minutes, w.Calls[id].Stopped)
	}
	for _, id := range slices.Sorted(maps.Keys(w.Rested)) {
		fmt.Fprintf(&b, "%s %g,", id, w.Rested[id])
	}
	fmt.Fprintf(&b, "%v%v%d", slices.Sorted(maps.Keys(w.Read)), slices.Sorted(maps.Keys(w.Cannot)), w.Finds)
	if f := w.Found; f != nil {
		fmt.Fprintf(&b, "%s %s %g %s %t %g", f.Enclosure, f.Line, f.Volts, f.From, f.Repeated, f.Held)
	}
	return b.String()
}
