package trees

import (
	"fmt"

	"faultwalk/measurements/expected"
)

// expectations are the functions an `expect` may use; the standards behind
// them are named in package expected.
func (p *Plant) expectations(j *Jurisdiction) map[string]any {
	env := edgeNames(nil)
	env["between"] = between
	env["supply"] = func() *Expectation { return supplyOf(j) }
	env["thermistor"] = p.thermistor
	env["element"] = p.element
	env["core"] = p.coreOhms
	return env
}

func between(lo, hi any) *Expectation {
	l, h := toFloat(lo), toFloat(hi)
	return &Expectation{Low: l, Nominal: (l + h) / 2, High: h}
}

func supplyOf(j *Jurisdiction) *Expectation {
	return &Expectation{Low: j.Low, Nominal: j.Nominal, High: j.High, Source: "supply limits, " + j.Name}
}

// thermistor expects a sensor's ohms between two temperatures, by the curve the
// plant names for it: widened by its tolerance (a fraction, 0.05 if not given).
func (p *Plant) thermistor(part string, from, to any) (*Expectation, error) {
	s := p.Part(part)
	if s == nil || s.Values["r25"] == 0 || s.Values["beta"] == 0 {
		return nil, fmt.Errorf("%q has no curve on this plant: give it r25 and beta", part)
	}
	curve, err := expected.NewBeta(s.Values["r25"], s.Values["beta"])
	if err != nil {
		return nil, err
	}
	tolerance := s.Values["tolerance"]
	if tolerance == 0 {
		tolerance = 0.05
	}
	e, err := expected.ThermistorBetween(curve, toFloat(from), toFloat(to), tolerance*100)
	return expectation(e), err
}

// element expects an element's ohms from its plate: watts and rated volts.
func (p *Plant) element(part string) (*Expectation, error) {
	s := p.Part(part)
	if s == nil || s.Values["watts"] == 0 || s.Values["rated"] == 0 {
		return nil, fmt.Errorf("%q has no plate on this plant: give it watts and rated", part)
	}
	e, err := expected.Element(s.Values["watts"], s.Values["rated"])
	return expectation(e), err
}

// coreOhms expects a core's resistance end to end at 20 °C, flexible copper.
func (p *Plant) coreOhms(id string) (*Expectation, error) {
	c := p.Core(id)
	if c == nil {
		return nil, fmt.Errorf("there is no core %q on this plant", id)
	}
	e, err := expected.Core(expected.Conductor{Area: c.Area, Class: expected.UsualClass(c.Area)}, c.Length, 20)
	return expectation(e), err
}

func expectation(e expected.Expected) *Expectation {
	i := e.Interval()
	out := &Expectation{Low: i.Lo, Nominal: (i.Lo + i.Hi) / 2, High: i.Hi, Source: e.Source}
	if e.Nominal != nil {
		out.Nominal = *e.Nominal
	}
	return out
}
