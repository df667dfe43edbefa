package safety

import (
	"faultwalk/measurements"
	"faultwalk/trees"
)

// The kinds of line in a proving form.
const (
	Yes   = "yes"   // answered yes, or the form is refused
	Volts = "volts" // V as read, ac or dc whichever shows more
)

const (
	twoPoleLoaded   = string(measurements.TwoPoleLoaded)
	twoPoleUnloaded = string(measurements.TwoPoleUnloaded)
	loaded          = " loaded" // ends the name of a line repeated under load
	testerBefore    = "tester proved before"
	testerAfter     = "tester proved after"
	called          = " called"         // ends the name of a standing call's line
	calledOrDark    = " called or dark" // ends the name of the other calls' line
	controllerDark  = "controller dark" // its no is a voltage found
)

// FormField is one line of a proving form. Name is stable and goes into the
// journal. From and To are set for volts, Call for a demand to be made first,
// Calls for those that are made for the proof alone, Dark where a lit screen says
// that a supply which comes here is on.
type FormField struct {
	Name, Kind, Mode string
	From, To         *trees.Point
	Call             *trees.Call
	Calls            []*trees.Call
	Dark             bool
}

// Form gives the lines that prove an enclosure dead, in the order they are
// taken (handbook 1.3, common practice after GS38): tester proved; every demand
// that stands without power made, the controller's screen seen to be dark where
// its supply comes here, and the other demands made where it does not and a call
// can bring mains, so that a forgotten supply shows; live to neutral, live to earth, neutral to earth for each supply; every switched,
// low-voltage and data point to neutral and to earth, because beside a broken
// earth a strayed core reads nothing to it; lives of different supplies to each
// other; live to neutral again under load; tester proved. An enclosure without a
// neutral or earth of its own takes its reference's. Nil: there is nothing here
// to prove to.
func Form(p *trees.Plant, enclosure string) []FormField {
	f := former{p: p, seen: map[string]bool{}}
	if !f.gather(enclosure) {
		return nil
	}
	f.add(FormField{Name: testerBefore, Kind: Yes})
	f.demands(enclosure)
	for _, pt := range f.live {
		f.volts(pt, f.neutralFor(pt))
		f.volts(pt, f.earth[0])
	}
	for _, n := range f.neutral {
		for _, e := range f.earth {
			f.volts(n, e)
		}
	}
	for _, pt := range f.other {
		f.volts(pt, f.neutralFor(pt))
		f.volts(pt, f.earth[0])
	}
	f.between()
	f.repeat()
	f.add(FormField{Name: testerAfter, Kind: Yes})
	return f.fields
}

// former collects the lines of one form.
type former struct {
	p                          *trees.Plant
	live, neutral, earth, rest []*trees.Point
	other                      []*trees.Point
	fields                     []FormField
	seen                       map[string]bool
}

// gather sorts the enclosure's points by role, false where there is no neutral
// or no earth to take readings to. Several earths are joined: lives are read to
// the first, neutrals to all.
func (f *former) gather(enclosure string) bool {
	for _, pt := range f.p.Points {
		if pt.In != enclosure {
			continue
		}
		switch pt.Role {
		case "live":
			f.live = append(f.live, pt)
		case "neutral":
			f.neutral = append(f.neutral, pt)
		case "earth":
			f.earth = append(f.earth, pt)
		default:
			f.other = append(f.other, pt)
		}
	}
	e := f.p.Enclosure(enclosure)
	if e == nil {
		return false
	}
	for _, pt := range f.p.Points {
		if pt.In != e.Reference || e.Reference == "" {
			continue
		}
		f.refer(pt)
	}
	f.neutral, f.earth = or(f.neutral, f.rest, "neutral"), or(f.earth, f.rest, "earth")
	return len(f.neutral) > 0 && len(f.earth) > 0
}

// refer keeps a neutral or an earth of the reference.
func (f *former) refer(pt *trees.Point) {
	if pt.Role == "neutral" || pt.Role == "earth" {
		f.rest = append(f.rest, pt)
	}
}

// or gives the enclosure's own points of a role, or else the reference's.
func or(own, rest []*trees.Point, role string) []*trees.Point {
	if len(own) > 0 {
		return own
	}
	for _, pt := range rest {
		if pt.Role == role {
			own = append(own, pt)
		}
	}
	return own
}

// add appends a line once.
func (f *former) add(x FormField) {
	if !f.seen[x.Name] {
		f.seen[x.Name] = true
		f.fields = append(f.fields, x)
	}
}

// volts appends an unloaded reading between two points.
func (f *former) volts(from, to *trees.Point) {
	f.add(FormField{Name: from.ID + " to " + to.ID, Kind: Volts, Mode: twoPoleUnloaded, From: from, To: to})
}
