package trees

import "faultwalk/measurements"

// needOf derives the state, the enclosures and the capabilities of a check
// from what is measured and where. An author can only add.
func (b *binder) needOf(bc *BoundCheck, inside []string) {
	boxes := map[string]bool{}
	for _, e := range inside {
		boxes[e] = true
	}
	for _, p := range bc.Probes {
		for _, pt := range []*Point{p.From, p.To} {
			if pt != nil && pt.In != "" {
				boxes[pt.In] = true
			}
		}
	}
	n := &bc.Need
	b.boxes(n, boxes)
	n.Power = powerOf(bc, len(n.Enclosures) > 0)
	n.Powered = bc.Check.Powered || n.Called() || volts(bc.Quantity) || current(bc.Quantity)
	if n.Power == DeadWay {
		n.Powered = false
	}
	asks := map[string]bool{}
	for _, a := range bc.Check.Asks {
		asks[a] = true
	}
	asksOf(bc, asks)
	b.ofUnit(n, asks)
	n.Asks = Chosen(asks)
}

// boxes sorts the enclosures reached into, those of its plugs included, by what a cover closes there.
func (b *binder) boxes(n *Need, boxes map[string]bool) {
	for _, id := range n.Unplugged {
		if in := b.plant.Plug(id).In; in != "" {
			boxes[in] = true
		}
	}
	for _, id := range Chosen(boxes) {
		if b.plant.Enclosure(id).Mains {
			n.Enclosures = append(n.Enclosures, id)
		} else {
			n.Covers = append(n.Covers, id)
		}
	}
}

// ofUnit adds what opening the outdoor unit takes: its drive stores charge and
// its refrigerant may burn, so that it is never relayed by phone.
func (b *binder) ofUnit(n *Need, asks map[string]bool) {
	for _, id := range append(append([]string{}, n.Enclosures...), n.Covers...) {
		if b.plant.Enclosure(id).Unit {
			asks["outdoor-unit"] = true
		}
	}
}

// powerOf: resistance in a mains enclosure is always dead, so is a look or a
// hand in one; volts and amps there are live work.
func powerOf(bc *BoundCheck, mains bool) string {
	switch {
	case !mains:
		return Outside
	case bc.Check.Dead:
		return DeadWay
	case volts(bc.Quantity) || current(bc.Quantity):
		return Live
	}
	return DeadWay
}

// asksOf adds what the hands must be allowed to do (handbook 5.2).
func asksOf(bc *BoundCheck, asks map[string]bool) {
	switch n := bc.Need; {
	case n.Power == Live:
		asks["covers"], asks["live"] = true, true
	case n.Power == DeadWay:
		asks["covers"] = true
	case volts(bc.Quantity):
		asks["elv-volts"] = true
	case bc.Quantity == measurements.Celsius:
		asks["water"] = true
	case current(bc.Quantity):
		asks["live"] = true
	case bc.Quantity != "":
		asks["sensor-plug"] = true
	default:
		asks["look"] = true
	}
	if bc.Quantity == measurements.Insulation {
		asks["insulation"] = true
	}
}

// SameRCD says whether two points belong to the same residual-current group:
// what feeds each through cores, contacts and poles, loads apart.
func (p *Plant) SameRCD(a, b string) bool {
	ga, gb := p.index.rcds[a], p.index.rcds[b]
	if len(ga) != 1 || len(gb) != 1 {
		return false
	}
	for g := range ga {
		return gb[g]
	}
	return false
}

// deriveRCDs finds the RCD groups whose live or neutral is wired to each point.
func (p *Plant) deriveRCDs() {
	p.index.rcds = map[string]map[string]bool{}
	for _, s := range p.Supplies {
		for _, start := range []string{s.Live, s.Neutral} {
			for point := range p.wired(start) {
				if p.index.rcds[point] == nil {
					p.index.rcds[point] = map[string]bool{}
				}
				p.index.rcds[point][s.RCD] = true
			}
		}
	}
}

// wired are the points joined to one by cores, contacts and poles.
func (p *Plant) wired(point string) map[string]bool {
	seen := map[string]bool{point: true}
	for queue := []string{point}; len(queue) > 0; queue = queue[1:] {
		for _, l := range p.index.links[queue[0]] {
			if l.Kind == LinkEarth || l.Kind == LinkLoad {
				continue
			}
			for _, to := range []string{l.From, l.To} {
				if !seen[to] {
					seen[to] = true
					queue = append(queue, to)
				}
			}
		}
	}
	return seen
}

func volts(q measurements.Quantity) bool {
	return q == measurements.ACVolts || q == measurements.DCVolts
}

func current(q measurements.Quantity) bool {
	return q == measurements.Amps || q == measurements.Leakage
}
