package safety

import (
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// demands appends what is called while an enclosure is proved: every demand that
// stands without power, and, where something here is switched, all others in one
// line. Without them a board whose supply was forgotten leaves its outputs dead
// for the proof and makes them live with the next call.
//
// The others can only be made at a controller that has power; a dark screen is
// taken for a dead board. That is the risk that is left: a board that is fed while
// its controller or its pair has failed shows only where a permanent live is read.
func (f *former) demands() {
	var others []*trees.Call
	for _, c := range f.p.Calls {
		if c.Stands {
			f.add(FormField{Name: c.ID + called, Kind: Yes, Call: c})
		} else {
			others = append(others, c)
		}
	}
	if len(others) > 0 && f.switched() {
		f.add(FormField{Name: callIDs(others) + calledOrDark, Kind: Yes, Calls: others})
	}
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

// pending: the calls made for a proof alone are put back after its last line. A
// find ends it before that, and whether they stand is not known: they are to be
// withdrawn before anything more is switched off.
func (w *World) pending(form []FormField, values []journal.Field) {
	for _, f := range form {
		for _, v := range values {
			if len(f.Calls) == 0 || v.Name != f.Name || !yes(v.Typed) {
				continue
			}
			for _, c := range f.Calls {
				w.called(c.ID)
				w.Calls[c.ID] = Call{Asked: Lapsed}
			}
		}
	}
}
