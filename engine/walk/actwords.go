package walk

import (
	"strconv"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

func (j *Job) stageTitle(a journal.Act) string {
	switch a.Do {
	case journal.ActWait:
		if j.mind.plant.Enclosure(a.On) != nil {
			return "Let the drive lose its charge"
		}
	case journal.ActRelease:
		return "Stop the demand first"
	case journal.ActBack:
		return "Settings back as they were noted"
	case journal.ActSwitchOff, journal.ActLock:
		return "Isolate"
	case journal.ActOpen:
		return "Covers off, everything still locked off"
	case journal.ActClose:
		return "Covers on"
	case journal.ActUnplug, journal.ActRefit:
		return "Leads and plugs"
	case journal.ActUnlock, journal.ActSwitchOn:
		return "Power back: hands out, nobody touches what is open"
	}
	return "Put the plant in the right state"
}

// ActMinutes is how many minutes an act takes a person (common practice, no source).
func ActMinutes(a journal.Act) float64 {
	switch a.Do {
	case journal.ActWait:
		return a.Minutes
	case journal.ActProve:
		return 5
	case journal.ActOpen, journal.ActClose:
		return 2
	}
	return 1
}

// towards says what the acts are for.
func (j *Job) towards(a *aim) string {
	switch {
	case a.check != nil && len(a.check.Probes) > 0:
		return "Then: " + a.check.Where
	case a.cause != nil && a.check == nil:
		return "Then the repair: " + a.cause.Words
	}
	return ""
}

// actWords says an act in the words of this plant.
func (j *Job) actWords(a journal.Act) string {
	p := j.mind.plant
	if w := j.stillWords(a); w != "" {
		return w
	}
	switch a.Do {
	case journal.ActCall, journal.ActRelease, journal.ActBack, journal.ActWait:
		return j.demandWords(a)
	case journal.ActSwitchOff, journal.ActLock, journal.ActUnlock, journal.ActSwitchOn:
		return switchWords(p.Device(a.On), a.Do)
	case journal.ActOpen:
		return "Take the cover off " + enclosureName(p.Enclosure(a.On)) + "."
	case journal.ActClose:
		return "Put the cover back on " + enclosureName(p.Enclosure(a.On)) + ", nothing left bypassed, earths and glands as they were."
	case journal.ActUnplug:
		return "Unplug " + p.Plug(a.On).Words + "; mark what goes where."
	case journal.ActRefit:
		return "Refit " + p.Plug(a.On).Words + "; tug it."
	}
	return a.Do + " " + p.Words(a.On)
}

// demandWords says how something is called, withdrawn, put back or waited for.
func (j *Job) demandWords(a journal.Act) string {
	c := j.mind.plant.Call(a.On)
	switch a.Do {
	case journal.ActCall:
		return callWords(c, j.mind.hands.Phone, true)
	case journal.ActRelease:
		if j.dark(c) {
			return c.Still
		}
		return callWords(c, j.mind.hands.Phone, false)
	case journal.ActBack:
		return c.Back
	}
	e := j.mind.plant.Enclosure(a.On)
	if e == nil {
		return "Wait " + minutes(a.Minutes) + " in this state."
	}
	return "Wait " + minutes(a.Minutes) + " by the clock, everything still locked off, before " + e.Words +
		" comes off or anything is read behind it: the drive holds 300 to 400 V dc after it is off. See that the fan stands " +
		"and is shielded: wind that turns it puts voltage back. Has it turned, wait again and measure again."
}

// switchWords says how a device is worked.
func switchWords(d *trees.Device, do string) string {
	switch do {
	case journal.ActSwitchOff:
		return "Switch off " + d.Words + " (" + d.Where + ")."
	case journal.ActLock:
		return "Lock it off: " + d.How + "."
	case journal.ActUnlock:
		return "Take your lock off " + d.Words + "."
	}
	return "Switch on " + d.Words + "."
}

// stillWords says what was done before the job was resumed or changed hands: it
// is seen again, not done again. Empty for anything else.
func (j *Job) stillWords(a journal.Act) string {
	p, w := j.mind.plant, j.world
	switch {
	case a.Do == journal.ActSwitchOff && w.Devices[a.On].Off == safety.Unsure:
		d := p.Device(a.On)
		return "See that " + d.Words + " (" + d.Where + ") is still off; if not, switch it off."
	case a.Do == journal.ActLock && w.Devices[a.On].Locked == safety.Unsure:
		return "See that your lock is still on " + p.Words(a.On) + "; if not, lock it off: " + p.Device(a.On).How + "."
	case a.Do == journal.ActOpen && w.Enclosures[a.On].Open == safety.Unsure:
		return "See that the cover is still off " + enclosureName(p.Enclosure(a.On)) + "; if not, take it off."
	case a.Do == journal.ActUnplug && w.Plugs[a.On] == safety.Unsure:
		return "See that " + p.Plug(a.On).Words + " is still unplugged; if not, unplug it."
	}
	return ""
}

func enclosureName(e *trees.Enclosure) string {
	if e.Where == "" {
		return e.Words
	}
	return e.Words + " (" + e.Where + ")"
}

func callWords(c *trees.Call, phone, on bool) string {
	switch {
	case !on:
		return c.Off
	case phone && c.Say != "":
		return c.Say
	}
	return c.How
}

func minutes(m float64) string {
	n := strconv.FormatFloat(m, 'f', -1, 64)
	if n == "1" {
		return "1 minute"
	}
	return n + " minutes"
}
