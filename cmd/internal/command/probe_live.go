package command

import (
	"math"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// stands is the most, in V ac or dc, that stands between the probes of a check or
// from one of them to true earth: what a tester warns of before it reads ohms.
func stands(sub *plant.Subject, c *trees.BoundCheck, how plant.How) (most float64) {
	for _, p := range c.Probes {
		for _, pair := range [][2]*trees.Point{{p.From, p.To}, {p.From, nil}, {p.To, nil}} {
			if pair[0] == nil {
				continue
			}
			for _, q := range []measurements.Quantity{measurements.ACVolts, measurements.DCVolts} {
				volts := *c
				volts.Quantity, volts.Probes = q, []trees.BoundProbe{{From: pair[0], To: pair[1]}}
				one := how
				one.Specs = []measurements.ModeSpec{{Quantity: q, InputOhms: warnerOhms}}
				if r, err := sub.Answer(&volts, one); err == nil {
					most = max(most, math.Abs(r.Values[0]))
				}
			}
		}
	}
	return most
}

// warnerOhms is the input of a tester that warns of volts, in ohm, as that of a
// two-pole tester whose button is not pressed. From memory.
const warnerOhms = 300e3
