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
		if meant, ok := j.slip(a, *not.Beyond); ok {
			j.aside = j.slipStage(a, p, measurements.Reading{}, meant)
			return taken{}, nil
		}
	}
	return taken{}, &Refused{err.Error()}
}

func (j *Job) slip(a *aim, r measurements.Reading) (float64, bool) {
	if a.check.Check.Scale != "mains" || a.check.Need.Power != trees.Live {
		return 0, false
	}
	jur := j.mains()
	return measurements.MainsSlip(r, measurements.Interval{Lo: jur.Low, Hi: jur.High})
}

// slipStage asks whether a digit was lost; no is an answer too.
func (j *Job) slipStage(a *aim, p *trees.BoundProbe, typed measurements.Reading, meant float64) *stage {
	value := a.check.Quantity.Format(meant)
	ask := &Ask{ID: "slip", Kind: Choose, Title: "Did you mean " + value + "?", Choices: []Choice{{ID: "yes", Text: "yes, " + value}}}
	if typed.Typed != "" {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, it reads " + typed.Typed})
	} else {
		ask.Choices = append(ask.Choices, Choice{ID: "no", Text: "no, let me type it again"})
	}
	return &stage{"slip", func(*Job) *Ask { return ask }, func(j *Job, x Answer) (taken, error) {
		switch {
		case x.Choice == "yes":
			r, err := measurements.Parse(a.check.Quantity, value)
			if err != nil {
				return taken{}, &Refused{err.Error()}
			}
			r.Typed = value + " (typed " + typed.Typed + ")"
			return j.file(a, p, r)
		case x.Choice == "no" && typed.Typed != "":
			return j.file(a, p, typed)
		case x.Choice == "no":
			j.aside = nil
			return taken{}, nil
		}
		return taken{}, &Refused{"expected yes or no"}
	}}
}
