package rehearse

import (
	"fmt"
	"maps"
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// found is what a proof of dead meets on the simulated plant: the lines of its
// form that read volts, none for a screen that is lit, and the worst that a hand could touch, now or after any
// call.
type found struct {
	lines map[string]float64
	worst float64
	at    string
}

// goes does the acts of a leg, its proofs with what the plant really gives. It
// is false where a proof found volts, and the way is to be planned again.
func (w *walker) goes(step *trees.Bound, l *leg) bool {
	for _, p := range l.proofs {
		f := w.prove(p)
		if len(f.lines) > 0 {
			w.halt(step, l, p, f)
			return false
		}
		if f.worst > caseVolts {
			w.unsafe = append(w.unsafe, fmt.Sprintf("%s was proved dead with %.0f V at %s", p.box, f.worst, f.at))
		}
	}
	if len(l.acts) > 0 {
		w.hop(hop{step: step, way: l.way, branch: -1})
		w.node = w.track.acts(w.node, l, nil)
	}
	w.minutes += l.minutes
	w.at = l.to
	return true
}

// halt is a voltage found while proving: the acts up to it are done, and the
// plant is planned for again.
func (w *walker) halt(step *trees.Bound, l *leg, p proof, f found) {
	w.halts++
	if w.believed == nil {
		w.believed = p.off
	}
	world := w.at.world.Clone()
	for _, body := range l.bodies[:p.after] {
		world.Apply(journal.Event{Kind: journal.KindActed, Body: body})
	}
	event := done(world, l.acts[p.after], f.lines)
	world.Apply(event)
	for _, a := range l.acts[:p.after+1] {
		w.minutes += walk.ActMinutes(a)
	}
	w.hop(hop{step: step, way: l.way, branch: -1, note: fmt.Sprintf("proving %s finds volts: %s", p.box, lines(f.lines))})
	w.node = w.track.acts(w.node, l, &broken{p.after, event.Body.(*journal.Acted)})
	w.at = w.ground.spot(world)
}

// touched is the least, in V through a body, at which a two-pole tester could
// read more than nothing.
const touched = safety.FoundAbove * plant.BodyOhms / measurements.TesterOhms

// made are the calls that are made for a proof; at a dark screen only those that
// need no controller.
func (w *walker) made(p proof, dark bool) map[string]bool {
	if !dark {
		return p.calls
	}
	out := map[string]bool{}
	for _, c := range w.bench.plant.Calls {
		out[c.ID] = c.Stands && p.calls[c.ID]
	}
	return out
}

// prove looks at what a proof meets, once for each fault and way.
func (w *walker) prove(p proof) found {
	off, key := p.off, p.key
	if w.forgotten != "" {
		off = w.really(p.off)
		key = p.box + "|" + plant.Those(off) + "|" + plant.Those(p.calls)
	}
	if f, known := w.proved[key]; known {
		return f
	}
	f := w.meets(p, off)
	w.proved[key] = f
	return f
}

// meets goes through the lines of a proof with so much off. A lit screen ends it
// before anything is read.
func (w *walker) meets(p proof, off map[string]bool) found {
	f, form, dark := found{lines: map[string]float64{}}, w.at.world.Form(p.box), w.sub.dark(off)
	for _, line := range form {
		if line.Dark && !dark {
			f.lines[line.Name] = 0
			return f
		}
	}
	calls := w.made(p, dark)
	if f.worst, f.at = w.sub.touch(p.box, off, calls); f.worst > touched {
		for _, line := range form {
			if line.Kind != safety.Volts {
				continue
			}
			if v := w.sub.volts(line, off, calls); v > safety.FoundAbove {
				f.lines[line.Name] = v
			}
		}
	}
	if len(f.lines) == 0 {
		f.worst, f.at = w.whatever(p.box, off)
	}
	return f
}

// whatever is the worst that a hand could touch in an enclosure whatever is
// called: what proved dead is to stay dead when somebody, or a clock, calls.
func (w *walker) whatever(box string, off map[string]bool) (worst float64, at string) {
	for _, calls := range w.calls {
		if v, where := w.sub.touch(box, off, calls); v > worst {
			worst, at = v, where
			if made := plant.Those(calls); made != "" {
				at += " once called: " + made
			}
		}
	}
	return worst, at
}

func lines(found map[string]float64) string {
	out := ""
	for _, name := range slices.Sorted(maps.Keys(found)) {
		if found[name] == 0 {
			out += ", not " + name
			continue
		}
		out += fmt.Sprintf(", %s %.0f V", name, found[name])
	}
	return out[min(2, len(out)):]
}
