package trees

// index finds the things of a plant by id and holds what follows from its wiring.
type index struct {
	supplies   map[string]*Supply
	devices    map[string]*Device
	enclosures map[string]*Enclosure
	points     map[string]*Point
	parts      map[string]*Part
	plugs      map[string]*Plug
	calls      map[string]*Call
	chains     map[string]*Chain
	cores      map[string]*Link
	links      map[string][]*Link // by either end
	reaching   map[string][]string
	isolators  map[string][]*Device
	live       map[string]bool            // points mains can reach
	feeds      map[string]feed            // by point
	rcds       map[string]map[string]bool // by point: the residual-current groups it belongs to
}

// Supply finds a supply by id; nil if there is none. So do the others here.
func (p *Plant) Supply(id string) *Supply { return p.index.supplies[id] }

// Device finds a device by id.
func (p *Plant) Device(id string) *Device { return p.index.devices[id] }

// Enclosure finds an enclosure by id.
func (p *Plant) Enclosure(id string) *Enclosure { return p.index.enclosures[id] }

// Point finds a point by id.
func (p *Plant) Point(id string) *Point { return p.index.points[id] }

// Part finds a part by id.
func (p *Plant) Part(id string) *Part { return p.index.parts[id] }

// Plug finds a plug by id.
func (p *Plant) Plug(id string) *Plug { return p.index.plugs[id] }

// Call finds a call by id.
func (p *Plant) Call(id string) *Call { return p.index.calls[id] }

// Chain finds a chain by id.
func (p *Plant) Chain(id string) *Chain { return p.index.chains[id] }

// Core finds a core by id.
func (p *Plant) Core(id string) *Link { return p.index.cores[id] }

// IsLive says whether mains can reach a point with nothing switched off.
func (p *Plant) IsLive(point string) bool { return p.index.live[point] }

// byID indexes a slice; a later thing of the same id is the caller's to report.
func byID[T any](all []*T, id func(*T) string) map[string]*T {
	m := make(map[string]*T, len(all))
	for _, v := range all {
		if _, dup := m[id(v)]; !dup {
			m[id(v)] = v
		}
	}
	return m
}

// finish indexes the plant and derives what follows from its wiring.
func (p *Plant) finish() {
	p.index = index{
		supplies:   byID(p.Supplies, func(v *Supply) string { return v.ID }),
		devices:    byID(p.Devices, func(v *Device) string { return v.ID }),
		enclosures: byID(p.Enclosures, func(v *Enclosure) string { return v.ID }),
		points:     byID(p.Points, func(v *Point) string { return v.ID }),
		parts:      byID(p.Parts, func(v *Part) string { return v.ID }),
		plugs:      byID(p.Plugs, func(v *Plug) string { return v.ID }),
		calls:      byID(p.Calls, func(v *Call) string { return v.ID }),
		chains:     byID(p.Chains, func(v *Chain) string { return v.ID }),
		cores:      map[string]*Link{},
		links:      map[string][]*Link{},
	}
	for _, l := range p.Links {
		p.index.links[l.From] = append(p.index.links[l.From], l)
		p.index.links[l.To] = append(p.index.links[l.To], l)
		if l.Kind == LinkCore || l.Kind == LinkEarth {
			p.index.cores[l.ID] = l
		}
	}
	p.derive()
	p.deriveFeeds()
	p.deriveChains()
	p.deriveRCDs()
}

// NewPlant indexes a plant put together in code and derives what follows from
// its wiring. The trees' own plants come from a Set.
func NewPlant(p Plant) *Plant {
	p.finish()
	return &p
}
