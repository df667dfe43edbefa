package trees

// deriveChains finds the links of every chain: the shortest way from its
// source to its load through cores, contacts and poles, never through a load
// or an earth core. A chain without a way has no links.
func (p *Plant) deriveChains() {
	for _, c := range p.Chains {
		c.Links = p.way(c.From, c.To)
	}
}

// way searches breadth first; of ways of the same length the one written first wins.
func (p *Plant) way(from, to string) []ChainLink {
	by := map[string]*Link{from: nil}
	for queue := []string{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if at == to {
			break
		}
		for _, l := range p.index.links[at] {
			if l.Kind != LinkCore && l.Kind != LinkContact && l.Kind != LinkPole {
				continue
			}
			if _, seen := by[l.other(at)]; !seen {
				by[l.other(at)] = l
				queue = append(queue, l.other(at))
			}
		}
	}
	if by[to] == nil {
		return nil
	}
	var back []ChainLink
	for at := to; at != from; at = by[at].other(at) {
		back = append(back, ChainLink{Over: by[at], To: at, Cause: p.failing(by[at]), Weight: by[at].Weight})
	}
	return reversed(back)
}

// other gives the far end of a link.
func (l *Link) other(end string) string {
	if l.To == end {
		return l.From
	}
	return l.To
}

func reversed(back []ChainLink) []ChainLink {
	out := make([]ChainLink, len(back))
	for i, l := range back {
		out[len(back)-1-i] = l
	}
	return out
}

// failing says what is wrong when a link of a chain fails: as written, or by its kind.
func (p *Plant) failing(l *Link) string {
	switch {
	case l.Cause != "":
		return l.Cause
	case l.Kind == LinkCore:
		return "open-core of " + l.ID
	case l.Kind == LinkPole:
		return "open-pole of " + l.Of
	}
	if part := p.Part(l.Of); part != nil && PartKinds[part.Kind].Fails != "" {
		return PartKinds[part.Kind].Fails + " of " + l.Of
	}
	return "contact-open of " + l.Of
}
