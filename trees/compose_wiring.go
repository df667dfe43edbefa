package trees

import (
	"fmt"
	"strings"
)

// wiring checks what only the whole plant shows.
func (c *composer) wiring() {
	for _, s := range c.plant.Supplies {
		c.start(s)
	}
	for _, d := range c.plant.Devices {
		c.inPath(d)
	}
	for _, e := range c.plant.Enclosures {
		if e.Mains && !c.holdsStart(e) {
			c.reference(e)
			c.isolable(e)
		}
	}
	for _, ch := range c.plant.Chains {
		if len(ch.Links) == 0 {
			c.problemOf("chain", ch.ID, "the chain %q has no way from %q to %q through cores, contacts and poles", ch.ID, ch.From, ch.To)
		}
	}
}

// causes reports chains on which a link fails by a cause that nobody wrote.
func (c *composer) causes(s *Set) {
	for _, ch := range c.plant.Chains {
		for _, l := range ch.Links {
			if ref, err := ParseRef(l.Cause); err == nil && s.Causes[ref.Name] == nil {
				c.problemOf("chain", ch.ID, "the chain %q passes %q, whose failing is %q, and there is no cause %q%s", ch.ID,
					l.Over.ID, l.Cause, ref.Name, c.suggest(ref.Name, idsOf(s.Causes)))
			}
		}
	}
}

// start reports a supply whose beginning leads nowhere.
func (c *composer) start(s *Supply) {
	for _, at := range []string{s.Live, s.Neutral} {
		if len(c.plant.index.links[at]) == 0 {
			c.problemOf("supply", s.ID, "the supply %q starts at %q, to which nothing is wired", s.ID, at)
		}
	}
}

// inPath reports a device that parts nothing from its supply: it stands
// elsewhere, or something leads round it. Of its poles one that the supply
// reaches on one side only, with the device off, is enough.
func (c *composer) inPath(d *Device) {
	reached := c.plant.reached(c.plant.Supply(d.Supply), map[string]bool{d.ID: true})
	for _, l := range c.plant.Links {
		if l.Kind == LinkPole && l.Of == d.ID && reached[l.From] != reached[l.To] {
			return
		}
	}
	c.problemOf("device", d.ID, "the device %q does not part its supply %q: it is not in the path, or something leads round it",
		d.ID, d.Supply)
}

// holdsStart says whether a supply starts in an enclosure: nothing on the
// plant makes that dead, so nothing there is offered to be done dead.
func (c *composer) holdsStart(e *Enclosure) bool {
	for _, s := range c.plant.Supplies {
		for _, at := range []string{s.Live, s.Neutral} {
			if c.plant.Point(at).In == e.ID {
				return true
			}
		}
	}
	return false
}

// reference reports a mains enclosure in which nothing can be proved dead for
// want of a neutral and an earth to measure to.
func (c *composer) reference(e *Enclosure) {
	var missing []string
	for _, role := range []string{"neutral", "earth"} {
		if _, there := c.plant.Beside(e.ID, role); !there {
			missing = append(missing, role)
		}
	}
	if len(missing) > 0 {
		where := fmt.Sprintf("or %q to an enclosure that has one", "reference")
		if e.Reference != "" {
			where = fmt.Sprintf("here or in its reference %q", e.Reference)
		}
		c.problemOf("enclosure", e.ID, "mains can reach the enclosure %q, which has no %s point to prove it dead against; "+
			"expected one, %s", e.ID, strings.Join(missing, " and no "), where)
	}
}

// isolable reports a mains enclosure that some supply reaches and no device keeps it out of.
func (c *composer) isolable(e *Enclosure) {
	for _, supply := range c.plant.Reaching(e.ID) {
		if len(c.plant.Isolators(supply, e.ID)) == 0 {
			c.problemOf("enclosure", e.ID, "a dead test that no isolation can reach: the supply %q reaches the enclosure %q "+
				"and no lockable device keeps it out", supply, e.ID)
		}
	}
}
