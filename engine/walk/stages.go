package walk

// stage is one kind of question: ask gives it if it applies now, take turns
// the answer into what happened.
type stage struct {
	id   string
	ask  func(j *Job) *Ask
	take func(j *Job, a Answer) (taken, error)
}

// taken is what an answer gives: events still without number, and words for the person.
type taken struct {
	bodies  []any
	say     []string
	reading *Fallen
}

// stages in their order; the first that applies is asked.
func stages() []stage {
	all := []stage{{"over", askOver, nil}}
	all = append(all, intakeStages()...)
	return append(all,
		stage{"left open", askLeftOpen, takeLeftOpen},
		stage{"voltage found", askFound, takeFound},
		stage{"close up", askCloseUp, takeCloseUp},
		stage{"leave", askLeave, takeLeave},
		stage{"restore", askRestore, takeActs},
		stage{"handover", askHandover, takeHandover},
		stage{"referral", askReferral, takeReferral},
		stage{"pass", askPass, takePass},
		stage{"retest failed", askFailed, takeFailed},
		stage{"repair", askRepair, takeRepair},
		stage{"confirm", askConfirm, takeConfirm},
		stage{"result", askResult, takeResult},
		stage{"beyond", askBeyond, takeBeyond},
		stage{"acts", askActs, takeActs},
		stage{"again", askAgain, takeAgain},
		stage{"reading", askReading, takeReading},
	)
}

func (j *Job) current() (*stage, *Ask) {
	if j.aside != nil {
		return j.aside, j.aside.ask(j)
	}
	for _, s := range stages() {
		if a := s.ask(j); a != nil {
			if a.ID == "" {
				a.ID = s.id
			}
			return &s, a
		}
	}
	panic("walk: no question fits the state of this job")
}
