package safety

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
	"faultwalk/trees/formula"
)

// demands appends what is called while an enclosure is proved: every demand that
// stands without power, and what shows whether the control board has power. A board
// whose supply was forgotten leaves its outputs dead for the proof and makes them
// live with the next call.
//
// Where the board's supply comes to the enclosure it has to be off, so the screen
// has to be dark, and nothing is called at it: a lit one is as good as a voltage.
// Where it does not, the board stays live by right, and its calls are made while
// what they switch is read.
func (f *former) demands(enclosure string) {
	var others []*trees.Call
	for _, c := range f.p.Calls {
		if c.Stands {
			f.add(FormField{Name: c.ID + called, Kind: Yes, Call: c})
		} else {
			others = append(others, c)
		}
	}
	switch {
	case len(others) == 0:
	case shares(boardFeeds(f.p), f.p.Reaching(enclosure)):
		f.add(FormField{Name: controllerDark, Kind: Yes, Dark: true})
	case f.switched():
		f.add(FormField{Name: callIDs(others) + calledOrDark, Kind: Yes, Calls: others})
	}
}

// boards lists where the control boards take their live.
func boards(p *trees.Plant) []*trees.Point {
	var out []*trees.Point
	for _, x := range p.Parts {
		if pt := p.Point(x.Terminals["live"]); x.Kind == "board" && pt != nil {
			out = append(out, pt)
		}
	}
	return out
}

// boardFeeds lists the supplies that feed the control boards, and so the
// controllers on their pairs.
func boardFeeds(p *trees.Plant) []string {
	var out []string
	for _, pt := range boards(p) {
		out = append(out, p.FedBy(pt.ID)...)
	}
	return out
}

// boardOff says whether every control board is kept without power by our locks.
func (w *World) boardOff() bool {
	locked, at := w.Locked(), boards(w.plant)
	for _, pt := range at {
		for _, s := range w.plant.FedBy(pt.ID) {
			if !w.plant.DeadFrom(s, pt.In, locked) {
				return false
			}
		}
	}
	return len(at) > 0
}

// switched says whether the enclosure has a point that a call can make live.
func (f *former) switched() bool {
	for _, pt := range f.other {
		if pt.Role == "switched" {
			return true
		}
	}
	return false
}

func callIDs(calls []*trees.Call) string {
	var ids []string
	for _, c := range calls {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, " and ")
}

// standing notes the calls which stand without power and were made for a form.
func (w *World) standing(values []journal.Field) {
	for _, c := range w.plant.Calls {
		for _, v := range values {
			if c.Stands && v.Name == c.ID+called && yes(v.Typed) && w.Calls[c.ID].Asked != On {
				w.called(c.ID)
			}
		}
	}
}

// tried lists the calls that were made for a proof alone.
func tried(form []FormField, values []journal.Field) []*trees.Call {
	var out []*trees.Call
	for _, f := range form {
		for _, v := range values {
			if v.Name == f.Name && yes(v.Typed) {
				out = append(out, f.Calls...)
			}
		}
	}
	return out
}

// pending: the calls made for a proof alone are withdrawn after its last line. A
// find ends it before that, and whether they stand is not known: they are to be
// withdrawn before anything more is switched off.
func (w *World) pending(form []FormField, values []journal.Field) {
	for _, c := range tried(form, values) {
		w.lapse(c.ID)
	}
}

// withdrawn: after the last line of a proof the calls made for it are withdrawn,
// and what they started needs its time to stop. What stood before still does.
func (w *World) withdrawn(form []FormField, values []journal.Field) {
	if w.boardOff() {
		return // nothing could be called
	}
	for _, c := range tried(form, values) {
		switch w.Calls[c.ID].Asked {
		case On:
		case Lapsed:
			w.lapse(c.ID)
		default:
			w.called(c.ID)
			w.Calls[c.ID] = Call{Asked: Off}
		}
	}
}

// Calling lists the calls that are made in doing a check: a reset puts the plant
// to work. They are to be recorded with what it gave.
func Calling(c *trees.BoundCheck) []string {
	var out []string
	for _, does := range c.Does {
		acts, _ := formula.ParseActs(does) // read without error when the tree was bound
		for _, a := range acts {
			if a.Verb == "call" {
				out = append(out, a.Of)
			}
		}
	}
	return out
}

// lapse notes that a call may have been made and may stand.
func (w *World) lapse(id string) {
	if w.plant.Call(id) != nil {
		w.called(id)
		w.Calls[id] = Call{Asked: Lapsed}
	}
}
