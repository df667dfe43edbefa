package rehearse

import (
	"fmt"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/plant"
	"faultwalk/engine/safety"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// caseVolts is the touch voltage, in volts ac, above which a case or an
// enclosure taken for dead is dangerous (IEC 60364-4-41, 411.3.2: 50 V).
const caseVolts = 50

// ways lists how each probe of a check can be read with the kit, best first.
func (w *walker) ways(c *trees.BoundCheck) [][]walk.Option {
	known, ok := w.options[c.ID]
	if !ok {
		for _, p := range c.Probes {
			known = append(known, walk.Options(w.kit, c, p))
		}
		w.options[c.ID] = known
	}
	return known
}

// modes are those a reading is to be taken in; nil where the kit lacks one.
func (w *walker) modes(r *reading) []string {
	var out []string
	for i, all := range w.ways(r.check) {
		if len(all) == 0 {
			return nil
		}
		out = append(out, all[r.using[i]%len(all)].Mode)
	}
	return out
}

// another says whether a reading that decides nothing may be taken once more
// with another instrument or mode, and chooses that.
func (w *walker) another(r *reading) bool {
	if r.tried > 0 || len(r.values) == 0 {
		return false
	}
	if all := w.ways(r.check)[0]; len(all) < 2 {
		return false
	}
	next := &reading{check: r.check, values: make([]value, len(r.values)), using: append([]int{}, r.using...), tried: 1}
	next.using[0]++
	w.now[r.check.ID] = next
	return true
}

// read takes a reading, a probe at a time until it is enough.
func (w *walker) read(r *reading, enough func() bool) error {
	a, err := w.answer(r)
	if err == nil && len(a.values) != len(r.values) {
		err = fmt.Errorf("%d values for %d probes", len(a.values), len(r.values))
	}
	if err != nil {
		return fmt.Errorf("the simulation cannot answer %s: %w", r.check.ID, err)
	}
	w.now[r.check.ID] = r
	r.answer, r.moving = a.answer, a.moving
	for i := range r.values {
		if r.values[i].read {
			continue
		}
		o := w.ways(r.check)[i][r.using[i]%len(w.ways(r.check)[i])]
		shown := shows(o.Spec, a.values[i], a.moving, w.noise)
		r.values[i] = value{true, shown, o.Spec.Widen(shown), o.Mode, o.Meter.ID}
		if !r.whole() && enough() {
			break
		}
	}
	w.minutes += r.check.Check.Minutes
	w.seen(r, a)
	return w.does(r.check)
}

// does moves the plant for good where a check does that: a reset. What is known
// of the plant is void from then on.
func (w *walker) does(c *trees.BoundCheck) error {
	for _, act := range c.Does {
		w.changed = true
		clear(w.known)
		clear(w.proved)
		if err := w.sub.act(act); err != nil {
			return fmt.Errorf("the simulation cannot %s, which %s does: %w", act, c.ID, err)
		}
	}
	return nil
}

// seen notes what else a reading did: for the monitor, and to the plant.
func (w *walker) seen(r *reading, a answered) {
	w.node = w.track.read(w.node, r)
	if len(a.moved) > 0 {
		w.moved++
		w.hop(hop{read: r, branch: -1, note: "the meter itself changes the plant: " + strings.Join(a.moved, ", ")})
	}
	if a.lifted > caseVolts {
		w.unsafe = append(w.unsafe, fmt.Sprintf("%s: the meter lifts a case to %.0f V", r.check.ID, a.lifted))
	}
	if len(a.tripped) > 0 { // a live meter to earth, or one across two supplies
		w.unsafe = append(w.unsafe, fmt.Sprintf("%s: the meter trips the %s", r.check.ID, strings.Join(a.tripped, ", ")))
	}
	if a.live {
		w.unsafe = append(w.unsafe, r.check.ID+": ohms read where volts stand")
	}
	if called := safety.Calling(r.check); r.check.Check.Once || len(called) > 0 {
		world := w.at.world.Clone()
		world.Apply(journal.Event{Kind: journal.KindRead, Body: &journal.Read{Check: r.check.ID, Called: called}})
		w.at = w.ground.spot(world)
	}
}

// answer asks the simulated plant, once for each state and set of modes.
func (w *walker) answer(r *reading) (answered, error) {
	st, state := w.stands(r.check)
	key := asked{state, r.check.ID, w.instruments(r)}
	if a, ok := w.known[key]; ok {
		return a, nil
	}
	specs := make([]measurements.ModeSpec, 0, len(r.check.Probes))
	for i, all := range w.ways(r.check) {
		specs = append(specs, all[r.using[i]%len(all)].Spec)
	}
	a, err := w.sub.answer(r.check, specs, st)
	if err == nil {
		w.known[key] = a
	}
	return a, err
}

// instruments names what each probe of a reading is read with.
func (w *walker) instruments(r *reading) string {
	if len(r.check.Probes) == 0 {
		return ""
	}
	var b strings.Builder
	for i, all := range w.ways(r.check) {
		o := &all[r.using[i]%len(all)]
		b.WriteString(o.Meter.ID)
		b.WriteByte(' ')
		b.WriteString(o.Mode)
		b.WriteByte('|')
	}
	return b.String()
}

// stands is how the plant really stands for a check now, the forgotten supply
// left on.
func (w *walker) stands(c *trees.BoundCheck) (standing, string) {
	off := w.really(withHandle(w.bench.plant, c, w.at.off))
	if w.forgotten == "" && len(off) == len(w.at.off) {
		return standing{off, w.at.plugs}, w.at.key
	}
	return standing{off, w.at.plugs}, plant.Those(off) + "|" + strings.Join(w.at.plugs, " ")
}

// really takes away what the person forgot to switch off and thinks is off.
func (w *walker) really(off map[string]bool) map[string]bool {
	if w.forgotten == "" {
		return off
	}
	out := map[string]bool{}
	for id := range off {
		d := w.bench.plant.Device(id)
		if d != nil && d.Supply == w.forgotten && (w.believed == nil || w.believed[id]) {
			continue
		}
		out[id] = true
	}
	return out
}
