package walk

import (
	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// Replay goes through a job event by event: see is given the job as it stood
// before each, and the event. It gives the job after the last. A record of a
// job is made this way, since what was concluded then is not stored and may
// have been left behind since. see must not keep what it is given.
func Replay(lib Library, events []journal.Event, see func(before *Job, e journal.Event)) *Job {
	j := open(lib, nil)
	for _, e := range events {
		see(j, e)
		j.Apply(e)
	}
	return j
}

// Plant is the plant that was chosen; nil until then.
func (j *Job) Plant() *trees.Plant { return j.mind.plant }

// World is what stands otherwise than it was found; nil until the plant is
// chosen. It is not to be changed.
func (j *Job) World() *safety.World { return j.world }

// Symptom is the tree that is walked; nil until it is chosen.
func (j *Job) Symptom() *trees.Symptom { return j.lib.Set.Symptoms[j.answer("symptom")] }

// Epoch counts the repairs so far.
func (j *Job) Epoch() int { return j.mind.epoch }

// Mismatches lists readings whose recorded verdict these trees do not give.
func (j *Job) Mismatches() []string { return j.mind.mismatches }

// Check finds a check of the tree that is walked by its instance text; nil if
// there is none.
func (j *Job) Check(id string) *trees.BoundCheck { return j.find(id) }

// Cause finds a cause of the tree that is walked by its instance text; nil if
// there is none.
func (j *Job) Cause(id string) *trees.BoundCause {
	if j.mind.graph == nil {
		return nil
	}
	return j.mind.graph.Cause(id)
}

// Finding is the likely cause where the job stands; ok says whether it has one.
func (j *Job) Finding() (f Finding, ok bool) {
	if j.mind.graph == nil || len(j.mind.place.Causes) == 0 {
		return Finding{}, false
	}
	return j.finding(), true
}

// Reachable lists the words of the causes that are still possible where the
// job stands; none before a tree is walked.
func (j *Job) Reachable() []string {
	if j.mind.graph == nil {
		return nil
	}
	return j.reachable()
}

// Retest is one check that must read as healthy after a repair, and how it
// stands: due, passed, failed or not possible.
type Retest struct {
	Check   *trees.BoundCheck
	Purpose string
	State   string
}

// Retests lists those of the last repair; none before a repair, and none once
// the tree is walked again.
func (j *Job) Retests() []Retest {
	var out []Retest
	for _, r := range j.mind.retests {
		out = append(out, Retest{r.check, r.purpose, j.state(r)})
	}
	return out
}

// Referral is what the job was passed on with; nil if it was not, or without one.
func (j *Job) Referral() *trees.Referral {
	if a := j.mind.answers["danger"]; a != nil && a.Choice != "none" {
		return j.lib.Set.Referrals[a.Choice]
	}
	switch {
	case j.mind.finish != nil:
		return j.mind.finish.referral
	case j.answer("plant") == noPlant:
		return j.unknownPlant()
	case j.world != nil && j.world.Found != nil:
		return j.lib.Set.Referrals[foundReferral]
	}
	return nil
}

// Exposed lists what stands open and is not kept out of power for certain, each
// with what is known of its power: "open with power on: the wiring centre".
func (j *Job) Exposed() []string { return j.exposed() }
