package monitor

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees"
)

// wiring is the plant as the monitor walks it: which enclosures each supply
// reaches with nothing off, and with what is off and locked now.
type wiring struct {
	plant  *trees.Plant
	at     map[string][]*trees.Link              // by either end
	starts map[string]bool                       // where a supply begins, live and neutral
	full   map[string]map[string]bool            // supply → enclosures, nothing off
	now    map[string]map[string]bool            // supply → enclosures, less what is isolated
	points map[string]bool                       // that any supply reaches with nothing off
	fed    map[string]map[string]bool            // supply → points its live is joined to without a load between
	groups map[string]map[string]bool            // point → RCD groups it is joined to without a load between
	walked map[string]map[string]map[string]bool // devices parted → what is reached then
}

func newWiring(p *trees.Plant) *wiring {
	w := &wiring{plant: p, at: map[string][]*trees.Link{}, starts: map[string]bool{}, fed: map[string]map[string]bool{},
		walked: map[string]map[string]map[string]bool{}}
	for _, l := range p.Links {
		w.at[l.From] = append(w.at[l.From], l)
		w.at[l.To] = append(w.at[l.To], l)
	}
	for _, s := range p.Supplies {
		w.starts[s.Live], w.starts[s.Neutral] = true, true
	}
	w.points = map[string]bool{}
	for _, s := range p.Supplies {
		maps.Copy(w.points, w.touched(s, nil))
	}
	w.full = w.reach(nil)
	w.now = w.full
	w.feed()
	return w
}

// flood gives the points joined to a start by the links that pass. Nothing is
// followed beyond the start of a supply: behind it lies the house.
func (w *wiring) flood(start string, passes func(*trees.Link) bool) map[string]bool {
	seen := map[string]bool{start: true}
	todo := []string{start}
	for len(todo) > 0 {
		here := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if here != start && w.starts[here] {
			continue
		}
		for _, l := range w.at[here] {
			next := l.From
			if next == here {
				next = l.To
			}
			if passes(l) && !seen[next] {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
	return seen
}

// touched gives the points a supply can put volts on, through cores, contacts
// and loads, with the poles of the parted devices open.
func (w *wiring) touched(s *trees.Supply, parted map[string]bool) map[string]bool {
	return w.flood(s.Live, func(l *trees.Link) bool {
		return l.Kind != trees.LinkEarth && !(l.Kind == trees.LinkPole && parted[l.Of])
	})
}

// reach says in which enclosures each supply can put volts.
func (w *wiring) reach(parted map[string]bool) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, s := range w.plant.Supplies {
		boxes := map[string]bool{}
		for id := range w.touched(s, parted) {
			if pt := w.plant.Point(id); pt != nil && pt.In != "" {
				boxes[pt.In] = true
			}
		}
		out[s.ID] = boxes
	}
	return out
}

// follow walks the plant with what is off and locked parted, once for each set of
// devices.
func (w *wiring) follow(s *state) {
	parted := map[string]bool{}
	for d := range s.off {
		if s.locked[d] {
			parted[d] = true
		}
	}
	key := strings.Join(slices.Sorted(maps.Keys(parted)), " ")
	now, known := w.walked[key]
	if !known {
		now = w.reach(parted)
		w.walked[key] = now
	}
	w.now = now
}

// clone is the same wiring with what is isolated now; what was walked is shared.
func (w *wiring) clone() *wiring {
	c := *w
	return &c
}

// mains says whether any supply can reach an enclosure.
func (w *wiring) mains(box string) bool { return len(in(w.full, box)) > 0 }

// live lists the supplies that reach an enclosure past what is off and locked.
func (w *wiring) live(box string) []string { return in(w.now, box) }

// reaches says whether the supply of a device reaches an enclosure at all.
func (w *wiring) reaches(device, box string) bool {
	d := w.plant.Device(device)
	return d == nil || w.full[d.Supply][box]
}

func in(reach map[string]map[string]bool, box string) []string {
	var out []string
	for supply, boxes := range reach {
		if boxes[box] {
			out = append(out, supply)
		}
	}
	slices.Sort(out)
	return out
}

// begins says whether a supply starts in an enclosure: the consumer unit.
func (w *wiring) begins(box string) bool {
	for id := range w.starts {
		if pt := w.plant.Point(id); pt != nil && pt.In == box {
			return true
		}
	}
	return false
}
