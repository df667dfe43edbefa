package safety

import (
	"math"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// Found is a voltage met while proving dead.
type Found struct {
	Enclosure string
	Line      string  // name of the form's line
	Lit       bool    // it is the controller's screen that is lit: nothing was read
	Volts     float64 // as read, unloaded
	From, To  string  // its points; empty for a line the form does not have
	Repeated  bool    // the one repeat under load was made
	Held      float64 // V, what the repeat gave
	locked    map[string]bool
}

// proving takes in a proof: a find halts, a complete form on an open and
// isolated enclosure proves it. The calls its form asks for and that stand
// without power do so from then on.
func (w *World) proving(b *journal.Acted) {
	form := w.Form(b.Act.On)
	if w.repeats(b.Act.On, b.Form) {
		w.Found.Repeated, w.Found.Held = true, math.Abs(b.Form[0].Value)
		return
	}
	v := Judge(form, b.Form)
	w.standing(b.Form)
	if v.Line != "" || b.Outcome == journal.Found {
		w.find(b, form, v)
		return
	}
	w.withdrawn(form, b.Form)
	e := w.Enclosures[b.Act.On]
	e.Proved = v.Complete && e.Open == Set && w.Isolated(b.Act.On) && w.clears(b.Act.On)
	w.Enclosures[b.Act.On] = e
	if e.Proved {
		w.Found = nil
	}
}

// clears says whether a clean form of this enclosure counts: after a find only
// the same enclosure's does, once, with more isolated than before.
func (w *World) clears(enclosure string) bool {
	return w.Found == nil || w.Found.Enclosure == enclosure && w.Finds < 2 && w.more()
}

// find records a voltage and ends every proof: what was thought isolated is not.
func (w *World) find(b *journal.Acted, form []FormField, v Verdict) {
	w.Finds++
	w.pending(form, b.Form)
	w.Found = &Found{Enclosure: b.Act.On, Line: v.Line, Volts: v.Volts, locked: w.Locked()}
	for _, f := range form {
		if f.Name == v.Line {
			w.Found.Lit = f.Dark
		}
		if f.Name == v.Line && f.From != nil {
			w.Found.From, w.Found.To = f.From.ID, f.To.ID
			w.Found.Repeated = f.Mode == twoPoleLoaded
		}
	}
	for _, f := range b.Form {
		if f.Name == v.Line+loaded {
			w.Found.Repeated, w.Found.Held = true, math.Abs(f.Value)
		}
	}
	for id, e := range w.Enclosures {
		e.Proved = false
		w.Enclosures[id] = e
	}
}

// RepeatForm is the one line that may be repeated under load after a find:
// live to neutral of one RCD group, once. Empty where that is not allowed.
func RepeatForm(p *trees.Plant, w *World) []FormField {
	f := w.Found
	if f == nil || f.Repeated || f.From == "" {
		return nil
	}
	from, to := p.Point(f.From), p.Point(f.To)
	if !mayLoad(p, from, to) {
		return nil
	}
	return []FormField{{Name: f.Line + loaded, Kind: Volts, Mode: twoPoleLoaded, From: from, To: to}}
}

// repeats says whether a form is the allowed repeat under load and nothing else.
func (w *World) repeats(enclosure string, values []journal.Field) bool {
	r := RepeatForm(w.plant, w)
	return len(r) == 1 && len(values) == 1 && w.Found.Enclosure == enclosure &&
		values[0].Name == r[0].Name && !math.IsNaN(values[0].Value)
}

// more says whether a further device was locked off since the find.
func (w *World) more() bool {
	for id := range w.Locked() {
		if !w.Found.locked[id] {
			return true
		}
	}
	return false
}

// Candidates lists the devices to switch off and lock after a find: first what
// is left further up the supplies that reach the enclosure (the wrong switch, or
// a pole that did not part), then the nearest of every supply with none locked
// (a core that is not drawn). Empty: nothing is left to isolate here, and the
// job is referred.
func Candidates(p *trees.Plant, w *World) []*trees.Device {
	if w.Found == nil {
		return nil
	}
	locked, held, last := w.Locked(), map[string]bool{}, map[string]*trees.Device{}
	for _, d := range p.Devices {
		held[d.Supply] = held[d.Supply] || locked[d.ID]
		if w.usable(d) && !locked[d.ID] {
			last[d.Supply] = d
		}
	}
	var other, above []*trees.Device
	for _, d := range p.Devices {
		switch {
		case last[d.Supply] != d:
		case !held[d.Supply]:
			other = append(other, d)
		case contains(p.Reaching(w.Found.Enclosure), d.Supply):
			above = append(above, d)
		}
	}
	return append(above, other...)
}

// usable says whether a device can serve to isolate: lockable, its own cover on
// or proved dead, and nobody found that it could not be switched off or locked.
func (w *World) usable(d *trees.Device) bool {
	return d.Lockable && !w.bare(d.ID) && !w.Cannot[journal.ActSwitchOff+" "+d.ID] && !w.Cannot[journal.ActLock+" "+d.ID]
}
