package walk

import (
	"errors"

	"faultwalk/measurements"
	"faultwalk/trees"
)

// refusedReading asks back where a doubled digit explains an impossible value.
func (j *Job) refusedReading(a *aim, p *trees.BoundProbe, typed string, err error) (taken, error) {
	var not *measurements.NotAReading
	if errors.As(err, &not) && not.Beyond != nil {
		if meant, ok := j.slip(a.check, *p, *not.Beyond); ok {
			j.aside = j.slipStage(a.check, measurements.Reading{}, meant, func(j *Job, r measurements.Reading) (taken, error) { return j.file(a, p, r) })
			return taken{}, nil
		}
	}
	return taken{}, &Refused{err.Error()}
}

// slip guesses a digit lost where a healthy plant gives mains. Where it gives
// next to nothing, as from neutral to earth, 23 V is a finding and no slip.
func (j *Job) slip(c *trees.BoundCheck, p trees.BoundProbe, r measurements.Reading) (float64, bool) {
	jur := j.mains()
	if c.Quantity != measurements.ACVolts || c.Need.Power != trees.Live || !j.expects(c, p, jur.Nominal) {
		return 0, false
	}
	return measurements.MainsSlip(r, measurements.Interval{Lo: jur.Low, Hi: jur.High})
}

// slipStage asks whether a digit was lost; no is an answer too.
func (j *Job) slipStage(c *trees.BoundCheck, typed measurements.Reading, meant float64, then func(*Job, measurements.Reading) (taken, error)) *stage {
	value := c.Quantity.Format(meant)
	ask := &Ask{ID: "slip", Kind: Choose, Title: "Did you mean " + value + "?", Choices: []Choice{{ID: "yes", Text: "yes, " + value}}}
	if typed.Typed != "" {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, it reads " + typed.Typed})
	} else {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, let me type it again"})
	}
	return &stage{"slip", func(*Job) *Ask { return ask }, func(j *Job, x Answer) (taken, error) {
		switch {
		case x.Choice == "yes":
			r, err := measurements.Parse(c.Quantity, value)
			if err != nil {
				return taken{}, &Refused{err.Error()}
			}
			if typed.Typed != "" {
				r.Typed = value + " (typed " + typed.Typed + ")"
			}
			return then(j, r)
		case x.Choice == "no" && typed.Typed != "":
			return then(j, typed)
		case x.Choice == "no":
			j.aside = nil
			return taken{}, nil
		}
		return taken{}, &Refused{"expected yes or no"}
	}}
}
