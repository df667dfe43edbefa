package walk

import (
	"cmp"
	"slices"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// kit is the instruments in the present hands.
func (j *Job) kit() measurements.Kit {
	k := measurements.Kit{ProvingUnit: j.mind.hands.ProvingUnit}
	for _, id := range j.mind.hands.Kit {
		if in, ok := j.lib.Kit.Instrument(id); ok {
			k.Instruments = append(k.Instruments, in)
		}
	}
	return k
}

// option is one way to take a reading with the present kit.
type option struct {
	mode  string
	meter measurements.Instrument
	spec  measurements.ModeSpec
}

// options lists the ways to take a probe's reading: the mode the author likes
// best first, and of the instruments that have it the finest.
func (j *Job) options(c *trees.BoundCheck, p trees.BoundProbe) []option {
	var out []option
	for _, m := range p.Modes {
		first := len(out)
		for _, in := range j.kit().Instruments {
			if spec, ok := in.Spec(measurements.Mode(m), c.Quantity); ok {
				out = append(out, option{m, in, spec})
			}
		}
		slices.SortStableFunc(out[first:], func(a, b option) int {
			return cmp.Compare(a.spec.Ranges[0].Resolution, b.spec.Ranges[0].Resolution)
		})
	}
	return out
}

// using is the way chosen for a probe; the person may ask for the next one.
func (j *Job) using(c *trees.BoundCheck, p trees.BoundProbe) (option, bool) {
	all := j.options(c, p)
	if len(all) == 0 {
		return option{}, false
	}
	return all[j.mind.meters[probeKey(c, p)]%len(all)], true
}

func probeKey(c *trees.BoundCheck, p trees.BoundProbe) string { return c.ID + ":" + p.As }

// otherMeter takes the next way to read the pending probe; nil if there is none.
func (j *Job) otherMeter() *journal.Answered {
	a := j.aim()
	p := j.pending(a)
	all := j.options(a.check, *p)
	if len(all) < 2 {
		return nil
	}
	next := all[(j.mind.meters[probeKey(a.check, *p)]+1)%len(all)]
	return &journal.Answered{Ask: "meter", Choice: next.meter.ID, Values: map[string]string{"probe": probeKey(a.check, *p), "mode": next.mode}}
}

// modes are the modes a check will be read in; nil if the kit lacks one.
func (j *Job) modes(c *trees.BoundCheck) []string {
	var out []string
	for _, p := range c.Probes {
		o, ok := j.using(c, p)
		if !ok {
			return nil
		}
		out = append(out, o.mode)
	}
	return out
}

func meterWords(o option) string {
	w := o.meter.Name + ", " + o.mode
	switch measurements.Mode(o.mode) {
	case measurements.LowImpedance:
		return w + ". Touch it briefly; live to neutral only"
	case measurements.TwoPoleLoaded:
		return w + " (load button in). Live to neutral only"
	}
	return w
}
