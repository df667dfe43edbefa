package walk

import (
	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
)

// The referrals that the walk itself leads to; their words are in trees/referrals.
const (
	testerReferral = "tester-failed"
	foundReferral  = "voltage-found"
	beyondReferral = "beyond-hands"
)

// testerFailed says whether a proof was ended because the tester did not answer
// on its proving unit. A voltage found goes first.
func testerFailed(form []safety.FormField, values []journal.Field) bool {
	if len(values) == 0 || safety.Judge(form, values).Line != "" {
		return false
	}
	for i, v := range values {
		if no, _ := yesNo(v.Typed); formField(form[i]).Halts && no == "no" {
			return true
		}
	}
	return false
}

// testerStage stands after a tester failed: nothing it said counts, and
// nothing of the form is recorded.
var testerStage = &stage{"tester failed", askTesterFailed, takeTesterFailed}

func askTesterFailed(j *Job) *Ask {
	r := j.lib.Set.Referrals[testerReferral]
	return &Ask{ID: "tester failed", Kind: Choose, Title: "Stop: " + r.Words, Urgent: true, Body: j.stopWords(r), Choices: []Choice{
		{ID: "again", Text: "another tester, or prove this one again: the form begins anew"},
		{ID: "refer", Text: "pass the job on"}}}
}

func takeTesterFailed(j *Job, x Answer) (taken, error) {
	c, err := pick(askTesterFailed(j).Choices, x)
	if err != nil {
		return taken{}, err
	}
	if c == "again" {
		j.aside = nil
		return taken{}, nil
	}
	return j.passOn(testerReferral, j.lib.Set.Referrals[testerReferral].Words), nil
}

// passOn ends the job with a referral; why is the reason in words.
func (j *Job) passOn(referral, why string) taken {
	return taken{bodies: []any{&journal.Answered{Ask: "referral", Choice: "beyond", Values: map[string]string{"why": why, "referral": referral}}}}
}
