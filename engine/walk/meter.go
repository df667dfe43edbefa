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

// Option is one way to take a reading: the mode it is taken in, and an
// instrument that has that mode.
type Option struct {
	Mode  string
	Meter measurements.Instrument
	Spec  measurements.ModeSpec
}

// Options lists the ways to take a probe's reading with a kit: the mode the
// author likes best first, and of the instruments that have it the finest.
func Options(kit measurements.Kit, c *trees.BoundCheck, p trees.BoundProbe) []Option {
	var out []Option
	for _, m := range p.Modes {
		first := len(out)
		for _, in := range kit.Instruments {
			if spec, ok := in.Spec(measurements.Mode(m), c.Quantity); ok {
				out = append(out, Option{m, in, spec})
			}
		}
		slices.SortStableFunc(out[first:], func(a, b Option) int {
			return cmp.Compare(a.Spec.Ranges[0].Resolution, b.Spec.Ranges[0].Resolution)
		})
	}
	return out
}

// using is the way chosen for a probe; the person may ask for the next one.
func (j *Job) using(c *trees.BoundCheck, p trees.BoundProbe) (Option, bool) {
	all := Options(j.kit(), c, p)
	if len(all) == 0 {
		return Option{}, false
	}
	return all[j.mind.meters[probeKey(c, p)]%len(all)], true
}

func probeKey(c *trees.BoundCheck, p trees.BoundProbe) string { return c.ID + ":" + p.As }

// otherMeter takes the next way to read the pending probe; nil if there is none.
func (j *Job) otherMeter() *journal.Answered {
	a := j.aim()
	p := j.pending(a)
	all := Options(j.kit(), a.check, *p)
	if len(all) < 2 {
		return nil
	}
	next := all[(j.mind.meters[probeKey(a.check, *p)]+1)%len(all)]
	return &journal.Answered{Ask: "meter", Choice: next.Meter.ID, Values: map[string]string{"probe": probeKey(a.check, *p), "mode": next.Mode}}
}

// modes are the modes a check will be read in; nil if the kit lacks one.
func (j *Job) modes(c *trees.BoundCheck) []string {
	var out []string
	for _, p := range c.Probes {
		o, ok := j.using(c, p)
		if !ok {
			return nil
		}
		out = append(out, o.Mode)
	}
	return out
}

func meterWords(o Option) string {
	w := o.Meter.Name + ", " + o.Mode
	switch measurements.Mode(o.Mode) {
	case measurements.LowImpedance:
		return w + ". Touch it briefly; live to neutral only"
	case measurements.TwoPoleLoaded:
		return w + " (load button in). Live to neutral only"
	}
	return w
}
