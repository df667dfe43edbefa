package trees

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/trees/strict"
)

func (c *composer) enclosure(s *section) {
	id := c.id("enclosure", s)
	c.plant.Enclosures = append(c.plant.Enclosures, &Enclosure{Pos: c.pos("enclosure", id), ID: id, Words: s.prose("words"), Where: s.optProse("where"),
		Outdoor: s.yes("outdoor"), Unit: s.yes("unit"), Sealed: s.yes("sealed"), Wet: s.yes("wet"),
		Reference: c.optRef("enclosure", "reference", fmt.Sprintf("the enclosure %q", id), s)})
}

// point reads a place for a probe. Only a place outside every enclosure, such as a pocket, may have no role.
func (c *composer) point(s *section) {
	id := c.id("point", s)
	marking, _ := s.OptScalar("marking")
	role, _ := s.OptOneOf("role", PointRoles...)
	in := c.optRef("enclosure", "in", fmt.Sprintf("the point %q", id), s)
	if in != "" && !s.Has("role") {
		s.Problem("the point %q in an enclosure needs %q, one of live, switched, neutral, earth, elv", id, "role")
	}
	c.plant.Points = append(c.plant.Points, &Point{Pos: c.pos("point", id), ID: id, Words: s.prose("words"), Marking: marking.Value, In: in, Role: role.Value})
}

func (c *composer) plug(s *section) {
	id := c.id("plug", s)
	by := fmt.Sprintf("the plug %q", id)
	p := &Plug{Pos: c.pos("plug", id), ID: id, Words: s.prose("words"), In: c.optRef("enclosure", "in", by, s), Of: c.ref("part", "of", by, s)}
	for _, t := range s.texts("terminals") {
		p.Terminals = append(p.Terminals, t.Value)
		c.parts = append(c.parts, plugTerminal{p, t})
	}
	c.plant.Plugs = append(c.plant.Plugs, p)
}

// core reads one core of a cable. An earth core is no way for mains.
func (c *composer) core(s *section) {
	id := c.id("core", s)
	l := &Link{Pos: c.pos("core", id), ID: id, Kind: LinkCore, Words: s.prose("words"), Weight: coreWeight}
	l.Area, l.AreaPos = c.more("core", id, "area", s)
	l.Length, l.LengthPos = c.more("core", id, "length", s)
	if s.yes("earth") {
		l.Kind = LinkEarth
	}
	if s.Has("weight") {
		l.Weight = s.number("weight")
	}
	l.Cause = c.cause(s)
	by := fmt.Sprintf("the core %q", id)
	l.From, l.To = c.ref("point", "from", by, s), c.ref("point", "to", by, s)
	c.plant.Links = append(c.plant.Links, l)
}

// more reads a number that is more than nought where it is written.
func (c *composer) more(kind, id, key string, s *section) (float64, strict.Pos) {
	n, there := s.OptNumber(key)
	if there && n.Pos.Line > 0 && n.Value <= 0 {
		n.Problem("the %s %q has %v for %q; expected more than 0", kind, id, n.Value, key)
	}
	return n.Value, n.Pos
}

// fault reads one way in which more than one part of an assembly is wrong: crossed cores.
func (c *composer) fault(s *section) {
	v := modelFault(s)
	c.name("fault", v.ID)
	c.plant.Faults = append(c.plant.Faults, v)
}

// cause reads what is wrong when this link fails, where that is not what its kind says.
func (c *composer) cause(s *section) string {
	t, _ := s.OptText("cause")
	if t.Value == "" {
		return ""
	}
	if _, at, err := parseRef(t.Value); err != nil {
		t.ProblemAt(t.AtOffset(at), "%s", err)
	}
	return t.Value
}

func (c *composer) supply(s *section) {
	id := c.id("supply", s)
	by := fmt.Sprintf("the supply %q", id)
	rcd, _ := s.OptText("rcd")
	c.plant.Supplies = append(c.plant.Supplies, &Supply{Pos: c.pos("supply", id), ID: id, Words: s.prose("words"), Breaker: s.Scalar("breaker").Value,
		RCD: rcd.Value, Live: c.ref("point", "live", by, s), Neutral: c.ref("point", "neutral", by, s)})
}

// device reads something that can be switched off; each of its poles is a link.
func (c *composer) device(s *section) {
	id := c.id("device", s)
	by := fmt.Sprintf("the device %q", id)
	d := &Device{Pos: c.pos("device", id), ID: id, Words: s.prose("words"), Supply: c.ref("supply", "supply", by, s), Where: s.optProse("where"),
		Lockable: s.yes("lockable"), How: s.optProse("how"), Outdoor: s.yes("outdoor")}
	for i, n := range s.List("poles") {
		p := &section{Map: n.Map("a pole"), node: n}
		d.Poles++
		c.plant.Links = append(c.plant.Links, &Link{Pos: p.Pos, ID: fmt.Sprintf("%s.%d", id, i+1), Kind: LinkPole, Words: d.Words, Of: id,
			Weight: poleWeight, From: c.ref("point", "from", by, p), To: c.ref("point", "to", by, p)})
		p.Done()
	}
	c.plant.Devices = append(c.plant.Devices, d)
}

func (c *composer) call(s *section) {
	id := c.id("call", s)
	c.plant.Calls = append(c.plant.Calls, &Call{ID: id, Words: s.prose("words"), How: s.optProse("how"), Off: s.optProse("off"),
		Back: s.optProse("back"), Say: s.optProse("say"), Unless: c.unless(s), Still: s.optProse("still"), Settle: s.number("settle"),
		Stop: s.number("stop"), Stands: s.yes("stands"), Seldom: s.yes("seldom")})
}

// unless reads the answer by which a call cannot be withdrawn, for there is
// nothing to withdraw it at. An assembly that is read by itself knows no checks.
func (c *composer) unless(s *section) Shown {
	t := s.opt("unless")
	if t.Value == "" {
		return Shown{}
	}
	check, answer, _ := strings.Cut(t.Value, " is ")
	if k := c.checks[check]; c.checks != nil && (k == nil || !slices.ContainsFunc(k.Answers, func(a Answer) bool { return a.ID == answer })) {
		t.Problem("found %q for \"unless\"; expected a look and one of its answers, such as screen-lives is dark", clip(t.Value))
	}
	return Shown{check, answer}
}

// chain reads where a chain begins and ends; its links are derived.
func (c *composer) chain(s *section) {
	id := c.id("chain", s)
	by := fmt.Sprintf("the chain %q", id)
	ch := &Chain{ID: id, Words: s.prose("words"), From: c.ref("point", "from", by, s), To: c.ref("point", "to", by, s)}
	if m, there := s.OptSub("calls"); there {
		for _, e := range m.Entries() {
			ch.Calls = append(ch.Calls, CallState{Call: c.callName(by, e), On: e.Value.Bool("the call " + e.Key.Value)})
		}
	}
	c.plant.Chains = append(c.plant.Chains, ch)
}

func (c *composer) callName(by string, e strict.Entry) strict.Text {
	c.named("call", by, e.Key)
	return e.Key
}
