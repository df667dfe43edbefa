package trees

import "sort"

// Link kinds. A pole belongs to a device and parts when it is off; an earth
// core is no way for mains; all others are taken to conduct: a contact may be
// welded, a load passes current to what lies behind it.
const (
	LinkCore    = "core"
	LinkContact = "contact"
	LinkLoad    = "load"
	LinkPole    = "pole"
	LinkEarth   = "earth"
)

// reached gives the points that supply s can put volts on with the given
// devices off. The starting points of the supplies are the house's own wiring:
// nothing is followed past another supply's start, nor past the neutral's.
func (p *Plant) reached(s *Supply, off map[string]bool) map[string]bool {
	stop := map[string]bool{}
	for _, o := range p.Supplies {
		stop[o.Live], stop[o.Neutral] = true, true
	}
	seen := map[string]bool{s.Live: true}
	for queue := []string{s.Live}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if stop[at] && at != s.Live {
			continue
		}
		for _, l := range p.index.links[at] {
			if l.Kind == LinkEarth || l.Kind == LinkPole && off[l.Of] {
				continue
			}
			to := l.To
			if to == at {
				to = l.From
			}
			if !seen[to] {
				seen[to] = true
				queue = append(queue, to)
			}
		}
	}
	return seen
}

// ReachedWith says which enclosures the supply reaches with the given devices
// off. Handbook section 1: every supply that could put volts there counts,
// through loads too.
func (p *Plant) ReachedWith(supply string, off map[string]bool) map[string]bool {
	boxes := map[string]bool{}
	for pt := range p.reached(p.Supply(supply), off) {
		if q := p.Point(pt); q != nil && q.In != "" {
			boxes[q.In] = true
		}
	}
	return boxes
}

// Reaching lists the supplies that reach an enclosure with nothing off, sorted.
func (p *Plant) Reaching(enclosure string) []string { return p.index.reaching[enclosure] }

// Isolators lists, for a supply that reaches an enclosure, the devices of
// which one alone, off and locked, keeps it out: the nearest first. An
// enclosure that holds the incoming side of an isolator is not made dead by
// it. Empty: nothing isolates it.
func (p *Plant) Isolators(supply, enclosure string) []*Device {
	return p.index.isolators[supply+"\n"+enclosure]
}

// DeadFrom says whether the supply is kept out of the enclosure by the devices
// that are off and locked.
func (p *Plant) DeadFrom(supply, enclosure string, locked map[string]bool) bool {
	for _, d := range p.Isolators(supply, enclosure) {
		if locked[d.ID] {
			return true
		}
	}
	return false
}

// derive fills everything that follows from the wiring.
func (p *Plant) derive() {
	p.index.reaching = map[string][]string{}
	p.index.isolators = map[string][]*Device{}
	live := map[string]bool{}
	for _, s := range p.Supplies {
		for pt := range p.reached(s, nil) {
			live[pt] = true
		}
		for box := range p.ReachedWith(s.ID, nil) {
			p.index.reaching[box] = append(p.index.reaching[box], s.ID)
		}
		p.deriveIsolators(s)
	}
	for _, e := range p.Enclosures {
		sort.Strings(p.index.reaching[e.ID])
		e.Mains = len(p.index.reaching[e.ID]) > 0
	}
	p.index.live = live
}

// deriveIsolators tries each lockable device of the supply alone. Devices are
// written from the origin on, so the last that serves is the nearest.
func (p *Plant) deriveIsolators(s *Supply) {
	for i := len(p.Devices) - 1; i >= 0; i-- {
		d := p.Devices[i]
		if d.Supply != s.ID || !d.Lockable {
			continue
		}
		still := p.ReachedWith(s.ID, map[string]bool{d.ID: true})
		for box := range p.ReachedWith(s.ID, nil) {
			if !still[box] {
				k := s.ID + "\n" + box
				p.index.isolators[k] = append(p.index.isolators[k], d)
			}
		}
	}
}
