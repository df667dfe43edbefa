package safety

import "faultwalk/engine/journal"

// Stage groups the acts of a plan that a person does in one go, so that a face
// can ask for them together: demand, isolating, covers off, plugs, covers on,
// power back. Every proof stands alone: it is a form.
func Stage(acts []journal.Act) [][]journal.Act {
	var out [][]journal.Act
	last := ""
	for _, a := range acts {
		k := work(a.Do)
		if k != last || k == journal.ActProve {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], a)
		last = k
	}
	return out
}

// work is the kind of work an act belongs to.
func work(do string) string {
	switch do {
	case journal.ActRelease, journal.ActCall, journal.ActWait:
		return "demand"
	case journal.ActBack:
		return "settings"
	case journal.ActSwitchOff, journal.ActLock:
		return "isolate"
	case journal.ActUnplug, journal.ActRefit:
		return "plugs"
	case journal.ActUnlock, journal.ActSwitchOn:
		return "power"
	}
	return do
}
