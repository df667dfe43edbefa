package safety

import (
	"sync"

	"faultwalk/engine/journal"
	"faultwalk/trees"
)

// forms are the proving forms of one plant as far as they were asked for. They
// follow from its wiring alone, so that a world and all its copies share them.
type forms struct {
	of   *trees.Plant
	lock sync.Mutex
	made map[string]filled
}

// filled is a form and its values with nothing found.
type filled struct {
	fields []FormField
	clean  []journal.Field
}

func newForms(p *trees.Plant) *forms { return &forms{of: p, made: map[string]filled{}} }

func (f *forms) get(enclosure string) filled {
	f.lock.Lock()
	defer f.lock.Unlock()
	known, ok := f.made[enclosure]
	if !ok {
		known.fields = Form(f.of, enclosure)
		known.clean = Clean(known.fields)
		f.made[enclosure] = known
	}
	return known
}

// Form is [Form] for the plant of this world, worked out once for it and all
// its copies: it is not to be changed.
func (w *World) Form(enclosure string) []FormField { return w.forms.get(enclosure).fields }

// assume takes in an act as if it went well, a proof with nothing found.
func (w *World) assume(a journal.Act) {
	b := journal.Acted{Act: a, Outcome: journal.Done}
	if a.Do == journal.ActProve {
		b.Form = w.forms.get(a.On).clean
	}
	w.acted(&b)
}
