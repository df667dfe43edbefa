package vet

import "faultwalk/trees"

// usage remembers what the bound trees used, and so what nothing uses.
type usage struct {
	seen      map[string]bool // plant and instance, looked at already
	checks    map[string]bool
	causes    map[string]*causeUse
	referrals map[string]bool
	symptoms  map[string]bool // that serve a plant
	visited   map[*trees.Step]bool
	held      map[*trees.Step]bool
}

// causeUse is what was found of a cause on any plant.
type causeUse struct {
	confirmed, retested bool
	rivals              map[string]bool
	contradicted        bool // the rival of its confirming reading was there
}

func newUsage() usage {
	return usage{seen: map[string]bool{}, checks: map[string]bool{}, causes: map[string]*causeUse{}, referrals: map[string]bool{},
		symptoms: map[string]bool{}, visited: map[*trees.Step]bool{}, held: map[*trees.Step]bool{}}
}

func (u usage) graph(g *trees.Graph) {
	u.symptoms[g.Symptom.ID] = true
	for st := range g.Visited {
		u.visited[st] = true
	}
	for st := range g.Held {
		u.held[st] = true
	}
}

// check says whether a check is met on this plant for the first time.
func (u usage) check(p *trees.Plant, c *trees.BoundCheck) bool {
	u.checks[c.Check.ID] = true
	return u.first(p.ID + "\ncheck " + c.ID)
}

// cause says whether a cause is met on this plant for the first time.
func (u usage) cause(p *trees.Plant, c *trees.BoundCause) bool {
	first := u.first(p.ID + "\ncause " + c.ID)
	if !first {
		return false
	}
	use := u.causes[c.Cause.ID]
	if use == nil {
		use = &causeUse{rivals: map[string]bool{}}
		u.causes[c.Cause.ID] = use
	}
	for _, r := range c.Rivals {
		use.rivals[r.Cause.ID] = true
	}
	use.confirmed = use.confirmed || c.Confirm != nil
	use.contradicted = use.contradicted || c.Confirm != nil && c.Confirm.Rival != ""
	use.retested = use.retested || c.Retest != nil
	return true
}

func (u usage) first(key string) bool {
	if u.seen[key] {
		return false
	}
	u.seen[key] = true
	return true
}
