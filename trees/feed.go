package trees

// feed is what the wiring says about one point: which supplies conduct to it,
// by which pole, which reach it at all, and which devices alone part it.
type feed struct {
	live, neutral []string // supplies that conduct to it, loads apart
	reached       []string // supplies that can put volts on it, loads included
	cut           map[string]bool
}

// FedBy lists the supplies whose live is wired to a point through cores,
// contacts and poles, loads apart, in plant order.
func (p *Plant) FedBy(point string) []string { return p.index.feeds[point].live }

// NeutralOf lists the supplies whose neutral is wired to a point, loads apart,
// in plant order.
func (p *Plant) NeutralOf(point string) []string { return p.index.feeds[point].neutral }

// ReachedBy lists the supplies that can put volts on a point with nothing
// switched off, through loads too, in plant order.
func (p *Plant) ReachedBy(point string) []string { return p.index.feeds[point].reached }

// CutFrom says whether the device, off, parts the point from the start of its
// supply: so a reading knows which neutral stands on the same side as a live.
func (p *Plant) CutFrom(point, device string) bool { return p.index.feeds[point].cut[device] }

// deriveFeeds fills the feed of every point.
func (p *Plant) deriveFeeds() {
	f := map[string]feed{}
	for _, s := range p.Supplies {
		for pt := range p.conducts(s.Live, nil) {
			v := f[pt]
			v.live = append(v.live, s.ID)
			f[pt] = v
		}
		for pt := range p.conducts(s.Neutral, nil) {
			v := f[pt]
			v.neutral = append(v.neutral, s.ID)
			f[pt] = v
		}
		for pt := range p.reached(s, nil) {
			v := f[pt]
			v.reached = append(v.reached, s.ID)
			f[pt] = v
		}
	}
	p.index.feeds = f
	for _, d := range p.Devices {
		p.deriveCuts(d)
	}
}

// deriveCuts finds the points that a device alone parts from its supply.
func (p *Plant) deriveCuts(d *Device) {
	s := p.Supply(d.Supply)
	if s == nil {
		return
	}
	for _, start := range []string{s.Live, s.Neutral} {
		still := p.conducts(start, map[string]bool{d.ID: true})
		for pt := range p.conducts(start, nil) {
			if still[pt] {
				continue
			}
			v := p.index.feeds[pt]
			if v.cut == nil {
				v.cut = map[string]bool{}
			}
			v.cut[d.ID] = true
			p.index.feeds[pt] = v
		}
	}
}

// conducts gives the points joined to the start of a supply without a load in
// between, stopping at every other start.
func (p *Plant) conducts(start string, off map[string]bool) map[string]bool {
	stop := map[string]bool{}
	for _, o := range p.Supplies {
		stop[o.Live], stop[o.Neutral] = true, true
	}
	seen := map[string]bool{start: true}
	for queue := []string{start}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if stop[at] && at != start {
			continue
		}
		for _, l := range p.index.links[at] {
			if l.Kind == LinkEarth || l.Kind == LinkLoad || l.Kind == LinkPole && off[l.Of] {
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
