package trees

import "faultwalk/trees/strict"

// cause binds a reference to a cause; its rivals one level deep.
func (b *binder) cause(t strict.Text, params []Param, args map[string]string, rivals bool) *BoundCause {
	ref, ok := b.ref(t, params, args)
	if !ok {
		return nil
	}
	if bc, known := b.causes[ref.String()]; known && rivals {
		return b.names(bc)
	}
	c := b.set.Causes[ref.Name]
	if c == nil {
		b.problem(t.Pos, "unknown cause %q", ref.Name)
		return nil
	}
	if !rivals && b.missing(ref, c.Of) {
		return nil
	}
	a, ok := b.args(ref, c.Of, t.Pos)
	if !ok {
		return nil
	}
	say := func(s string) string { return b.prose(s, c.Of, a) }
	bc := &BoundCause{ID: ref.String(), Cause: c, Words: say(c.Words), Behind: say(c.Behind), Customer: say(c.Customer), Night: say(c.Night)}
	if !rivals {
		return bc
	}
	b.causes[bc.ID], b.graph.causes[bc.ID] = bc, bc
	bc.Remedy = b.remedy(c, a)
	b.evidence(bc, c, a)
	return bc
}

// evidence binds the rivals, the reading that would contradict the nearest, and the retest.
func (b *binder) evidence(bc *BoundCause, c *Cause, a map[string]string) {
	for _, r := range c.Rivals {
		if rival := b.cause(r, c.Of, a, false); rival != nil {
			bc.Rivals = append(bc.Rivals, rival)
		}
	}
	if c.Confirm != nil && b.here(c.Confirm.Check, c.Of, a) {
		bc.Confirm = &BoundConfirm{Check: b.check(c.Confirm.Check, c.Of, a), If: c.Confirm.If}
		if c.Confirm.Rival.Value != "" {
			if rival := b.cause(c.Confirm.Rival, c.Of, a, false); rival != nil {
				bc.Confirm.Rival, bc.Confirm.RivalID = rival.Words, rival.ID
			}
		}
	}
	if c.Retest.Value != "" && b.here(c.Retest, c.Of, a) {
		bc.Retest = b.check(c.Retest, c.Of, a)
	}
}

// here says whether a check's things are on this plant; a spelling mistake
// counts as here, so that it is reported.
func (b *binder) here(t strict.Text, params []Param, args map[string]string) bool {
	ref, err := ParseRef(fill(t.Value, params, args))
	if err != nil || b.set.Checks[ref.Name] == nil {
		return true
	}
	return !b.missing(ref, b.set.Checks[ref.Name].Of)
}

func (b *binder) remedy(c *Cause, a map[string]string) BoundRemedy {
	r := BoundRemedy{Do: b.prose(c.Remedy.Do, c.Of, a), Say: b.prose(c.Remedy.Say, c.Of, a)}
	for _, p := range c.Remedy.Parts {
		r.Parts = append(r.Parts, b.prose(p, c.Of, a))
	}
	n := &r.Need
	n.Power = Outside
	n.Unplugged = b.ids(c.Remedy.Unplugged, c.Of, a, "plug", c.Pos)
	boxes := map[string]bool{}
	for _, e := range b.ids(c.Remedy.Inside, c.Of, a, "enclosure", c.Pos) {
		boxes[e] = true
	}
	if c.Remedy.Dead && len(boxes) == 0 {
		b.homes(c, a, boxes)
	}
	b.boxes(n, boxes)
	asks := map[string]bool{}
	for _, x := range c.Remedy.Asks {
		asks[x] = true
	}
	if len(n.Enclosures) > 0 {
		n.Power = DeadWay
		asks["covers"] = true
	}
	b.ofUnit(n, asks)
	n.Asks = Chosen(asks)
	return r
}

// homes adds the enclosures where the things a cause names end.
func (b *binder) homes(c *Cause, a map[string]string, boxes map[string]bool) {
	add := func(point string) {
		if pt := b.plant.Point(point); pt != nil && pt.In != "" {
			boxes[pt.In] = true
		}
	}
	for _, p := range c.Of {
		id := a[p.Name]
		switch p.Kind {
		case "point":
			add(id)
		case "part":
			if box := b.plant.home(b.plant.Part(id)); box != "" {
				boxes[box] = true
			}
		case "core":
			add(b.plant.Core(id).From)
			add(b.plant.Core(id).To)
		case "enclosure":
			boxes[id] = true
		case "chain":
			for _, l := range b.plant.Chain(id).Links {
				add(l.To)
			}
		}
	}
}
