package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Cautions lists the triggers a thing meets, in the order of trees.Triggers:
// what must be shown before it is done (handbook 5.1).
func Cautions(ctx Context, t Thing) []string {
	met := map[string]bool{}
	if t.Act != nil {
		ofAct(ctx.Plant, *t.Act, met)
	} else {
		ofNeed(ctx.Plant, t.Need, met)
		ofCheck(ctx, t, met)
	}
	var out []string
	for _, w := range trees.Triggers {
		if met[w] {
			out = append(out, w)
		}
	}
	return out
}

// ofAct adds the triggers of an act.
func ofAct(p *trees.Plant, a journal.Act, met map[string]bool) {
	switch a.Do {
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		d := p.Device(a.On)
		met["outdoor"] = d != nil && d.Outdoor
		met["restore"] = a.Do == journal.ActUnlock || a.Do == journal.ActSwitchOn
	case journal.ActOpen:
		met["cover"] = mains(p, a.On)
		met["elv"] = !mains(p, a.On)
		place(p, a.On, met)
	case journal.ActProve:
		met["dead"] = true
		place(p, a.On, met)
		for _, f := range Form(p, a.On) {
			met["low-impedance"] = met["low-impedance"] || f.Mode == twoPoleLoaded
			met["earth-pair"] = met["earth-pair"] || f.To != nil && f.To.Role == "earth"
			for _, c := range f.Calls {
				met["booster"] = met["booster"] || heats(c.ID)
			}
		}
	case journal.ActCall:
		met["call"], met["booster"] = true, heats(a.On)
	case journal.ActBack:
		met["call"], met["settings"] = true, true
	}
}

// heats says whether a call is for an element, which burns through without water
// round it.
func heats(call string) bool {
	return call == "booster" || call == "immersion"
}

// place adds what an enclosure stands beside.
func place(p *trees.Plant, enclosure string, met map[string]bool) {
	if e := p.Enclosure(enclosure); e != nil {
		met["outdoor"] = met["outdoor"] || e.Outdoor
		met["hot"] = met["hot"] || e.Wet
	}
}

// ofNeed adds the triggers of a check's or a remedy's state and capabilities.
func ofNeed(p *trees.Plant, n trees.Need, met map[string]bool) {
	met["dead"] = n.Power == trees.DeadWay
	met["live"] = n.Power == trees.Live
	for _, box := range append(append([]string{}, n.Enclosures...), n.Covers...) {
		place(p, box, met)
	}
	for id, on := range n.Calls {
		met["call"] = met["call"] || on
		met["booster"] = met["booster"] || on && heats(id)
	}
	for _, a := range n.Asks {
		if w, ok := byCapability[a]; ok {
			met[w] = true
		}
	}
}

// byCapability gives the trigger that comes with being asked for something.
var byCapability = map[string]string{
	"controls":       "settings",
	"settings":       "settings",
	"lever":          "lever",
	"fit-mechanical": "lever",
	"pipes":          "hot",
	"water":          "pressure",
	"gauge":          "pressure",
	"limit":          "limit",
	"insulation":     "insulation",
	"part-neutral":   "neutral",
	"elv-volts":      "elv",
	"sensor-plug":    "elv",
}

// ofCheck adds the triggers of a check's probes and of what is done once.
func ofCheck(ctx Context, t Thing, met map[string]bool) {
	if t.Check == nil {
		return
	}
	modes := t.Modes
	if modes == nil {
		modes, _ = Modes(ctx, t.Check)
	}
	for _, m := range modes {
		met["low-impedance"] = met["low-impedance"] || measurements.Mode(m).Loads()
	}
	for _, b := range t.Check.Probes {
		met["earth-pair"] = met["earth-pair"] || b.Earth && volted(t.Check.Quantity)
	}
	met["insulation"] = met["insulation"] || t.Check.Quantity == measurements.Insulation
	met["reset"] = t.Check.Check != nil && t.Check.Check.Once
}

// volted says whether a quantity is read in volts.
func volted(q measurements.Quantity) bool {
	return q == measurements.ACVolts || q == measurements.DCVolts
}
