package rehearse

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/engine/safety"
)

// worldKey tells worlds apart by everything that judges what may follow.
func worldKey(w *safety.World) string {
	var b strings.Builder
	for _, id := range sorted(w.Devices) {
		fmt.Fprintf(&b, "%s %d%d,", id, w.Devices[id].Off, w.Devices[id].Locked)
	}
	for _, id := range sorted(w.Enclosures) {
		fmt.Fprintf(&b, "%s %d%t,", id, w.Enclosures[id].Open, w.Enclosures[id].Proved)
	}
	for _, id := range sorted(w.Plugs) {
		fmt.Fprintf(&b, "%s %d,", id, w.Plugs[id])
	}
	for _, id := range sorted(w.Calls) {
		fmt.Fprintf(&b, "%s %s %g %t,", id, w.Calls[id].Asked, w.Calls[id].Minutes, w.Calls[id].Stopped)
	}
	for _, id := range sorted(w.Rested) {
		fmt.Fprintf(&b, "%s %g,", id, w.Rested[id])
	}
	fmt.Fprintf(&b, "%v%v%d", sorted(w.Read), sorted(w.Cannot), w.Finds)
	if f := w.Found; f != nil {
		fmt.Fprintf(&b, "%s %s %g %s %t %g", f.Enclosure, f.Line, f.Volts, f.From, f.Repeated, f.Held)
	}
	return b.String()
}

// sorted gives the keys of a map in order.
func sorted[V any](m map[string]V) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// those gives the keys that are true, in order, as one word list.
func those(m map[string]bool) string {
	var out []string
	for k, v := range m {
		if v {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}
