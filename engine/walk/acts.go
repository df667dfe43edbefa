package walk

import (
	"fmt"
	"strconv"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/engine/safety"
	"faultwalk/trees"
)

// aim is what the job is working towards: a check to read, or a remedy, or
// putting everything back.
type aim struct {
	check   *trees.BoundCheck
	need    trees.Need
	step    *trees.Bound
	purpose string
	cause   *trees.BoundCause // of a remedy or of the reading that confirms it
	restore bool
	isolate bool
}

// aim finds what comes next; nil where a question comes first or nothing is left.
func (j *Job) aim() *aim {
	m := j.mind
	if m.graph == nil {
		return nil
	}
	switch {
	case m.finish != nil:
		return j.finishAim()
	case j.retesting() != nil:
		r := j.retesting()
		return j.checkAim(r.check, nil, r.purpose)
	case m.place.Go != "":
		step := m.graph.Steps[m.place.Go]
		return j.checkAim(step.Check, step, journal.ForTree)
	case j.repairing() != nil:
		c := j.repairing()
		return &aim{need: c.Remedy.Need, cause: c}
	case j.confirming() != nil:
		c := j.confirming()
		a := j.checkAim(c.Confirm.Check, nil, journal.ForConfirm)
		a.cause = c
		return a
	}
	return nil
}

// checkAim is a check, or first the reading it needs for its expectation.
func (j *Job) checkAim(c *trees.BoundCheck, step *trees.Bound, purpose string) *aim {
	for _, need := range c.Uses {
		if j.mind.now[need.ID] == nil {
			return &aim{check: need, need: need.Need, step: step, purpose: purpose}
		}
	}
	return &aim{check: c, need: c.Need, step: step, purpose: purpose}
}

func (a *aim) thing(j *Job) safety.Thing {
	if a.check != nil {
		return safety.OfCheck(a.check, j.modes(a.check)...)
	}
	return safety.OfNeed(a.need)
}

// plan gives the acts from here to where the aim can be met.
func (j *Job) plan(a *aim) []journal.Act {
	switch {
	case a.restore:
		return safety.PlanRestore(j.context(), j.world)
	case a.isolate:
		return safety.PlanSafe(j.context(), j.world)
	}
	if acts := j.closing(a); len(acts) > 0 {
		return acts
	}
	return safety.Plan(j.context(), j.world, a.thing(j), j.ahead(a))
}

// closing puts the plant back before what clears the sign: nobody watches a
// cylinder warm for a quarter of an hour with live terminals open beside it.
func (j *Job) closing(a *aim) []journal.Act {
	if a.purpose != journal.ForCleared || a.need.Power != trees.Outside || !j.uncovered() {
		return nil
	}
	acts := safety.PlanRestore(j.context(), j.world)
	for _, act := range acts {
		if j.world.Cannot[safety.Key(act)] {
			return nil
		}
	}
	return acts
}

// uncovered says whether a mains enclosure may stand open.
func (j *Job) uncovered() bool {
	for _, e := range j.mind.plant.Enclosures {
		if e.Mains && j.world.Enclosures[e.ID].Open != safety.AsFound {
			return true
		}
	}
	return false
}

// stepsAhead is how far the walk looks for covers it will need.
const stepsAhead = 4

// ahead lists the mains enclosures that the next steps will need, and those of
// the same routine or split: their covers come off in the same dead period.
func (j *Job) ahead(a *aim) []string {
	if a.step == nil {
		return nil
	}
	boxes := map[string]bool{}
	seen := map[string]int{}
	j.look(a.step, stepsAhead, seen, boxes)
	var out []string
	for _, e := range j.mind.plant.Enclosures {
		if boxes[e.ID] {
			out = append(out, e.ID)
		}
	}
	return out
}

// look collects the enclosures of a step and of those up to depth behind it.
func (j *Job) look(s *trees.Bound, depth int, seen map[string]int, boxes map[string]bool) {
	if depth <= seen[s.Path] {
		return
	}
	seen[s.Path] = depth
	for _, e := range s.Check.Need.Enclosures {
		boxes[e] = true
	}
	for _, br := range s.Branches {
		next := j.mind.graph.Steps[br.To.Go]
		if next == nil {
			continue
		}
		left := depth - 1
		if next.Group == s.Group && s.Group != j.mind.graph.Symptom.ID {
			left = depth
		}
		j.look(next, left, seen, boxes)
	}
}

// batch is the next stretch of acts of one kind of work; empty if nothing is
// to be done first.
func (j *Job) batch() ([]journal.Act, *aim) {
	a := j.aim()
	if a == nil || a.check != nil && j.tooFar(a) != nil {
		return nil, nil
	}
	stages := safety.Stage(j.plan(a))
	if len(stages) == 0 {
		return nil, a
	}
	return stages[0], a
}

func askActs(j *Job) *Ask {
	acts, a := j.batch()
	if len(acts) == 0 || a.restore || a.isolate {
		return nil
	}
	return j.actsAsk(acts, a)
}

func (j *Job) actsAsk(acts []journal.Act, a *aim) *Ask {
	if acts[0].Do == journal.ActProve {
		return j.proveAsk(acts[0])
	}
	ask := &Ask{ID: "acts", Kind: Choose, Title: stageTitle(acts[0].Do), Cautions: j.cautionsFor(acts...)}
	for i, act := range acts {
		ask.Minutes += actMinutes(act)
		ask.Body = append(ask.Body, fmt.Sprintf("  %d. %s", i+1, upper(j.actWords(act))))
	}
	if w := j.towards(a); w != "" {
		ask.Body = append(ask.Body, w)
	}
	done := "done, in this order"
	if len(acts) == 1 {
		done = "done"
	}
	ask.Choices = []Choice{{ID: "done", Text: done}, {ID: "cannot", Text: "cannot be done"}}
	return ask
}

func stageTitle(do string) string {
	switch do {
	case journal.ActRelease:
		return "Stop the demand first"
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

// actMinutes is how long an act takes a person (common practice, no source).
func actMinutes(a journal.Act) float64 {
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

// takeActs records the acts of a batch, a proof, or which of them could not be done.
func takeActs(j *Job, a Answer) (taken, error) {
	acts, _ := j.batch()
	if len(acts) == 0 {
		return taken{}, &Refused{"nothing is to be done here"}
	}
	if acts[0].Do == journal.ActProve {
		return j.takeProof(acts[0], a)
	}
	switch a.Choice {
	case "done":
		return j.did(acts)
	case "cannot":
		if len(acts) == 1 {
			return j.cannot(acts, 0)
		}
		j.aside = &stage{"which", askWhich, takeWhich}
		return taken{}, nil
	}
	return taken{}, &Refused{`expected done or cannot`}
}

func (j *Job) did(acts []journal.Act) (taken, error) {
	var t taken
	w := j.world.Clone()
	for _, act := range acts {
		if r := safety.Guard(j.context(), w, safety.OfAct(act)); r != nil {
			return taken{}, &Refused{r.Why}
		}
		b := &journal.Acted{Act: act, Outcome: journal.Done, Cautions: ids(j.cautionsFor(act))}
		w.Apply(journal.Event{Kind: journal.KindActed, Body: b})
		t.bodies = append(t.bodies, b)
	}
	return t, nil
}

// cannot records the acts before the i-th as done and that one as impossible.
func (j *Job) cannot(acts []journal.Act, i int) (taken, error) {
	t, err := j.did(acts[:i])
	if err != nil {
		return t, err
	}
	t.bodies = append(t.bodies, &journal.Acted{Act: acts[i], Outcome: journal.Cannot, Why: "could not be done"})
	t.say = append(t.say, "Noted. What needed it is left out.")
	return t, nil
}

func askWhich(j *Job) *Ask {
	acts, _ := j.batch()
	a := &Ask{ID: "which", Kind: Choose, Title: "Which could not be done? What stands before it counts as done."}
	for i, act := range acts {
		a.Choices = append(a.Choices, Choice{ID: strconv.Itoa(i + 1), Text: j.actWords(act)})
	}
	return a
}

func takeWhich(j *Job, a Answer) (taken, error) {
	acts, _ := j.batch()
	n, err := strconv.Atoi(a.Choice)
	if err != nil || n < 1 || n > len(acts) {
		return taken{}, &Refused{fmt.Sprintf("expected a number from 1 to %d", len(acts))}
	}
	return j.cannot(acts, n-1)
}

// actWords says an act in the words of this plant.
func (j *Job) actWords(a journal.Act) string {
	p := j.mind.plant
	name := p.Words(a.On)
	switch a.Do {
	case journal.ActCall:
		return callWords(p.Call(a.On), j.mind.hands.Phone, true)
	case journal.ActRelease:
		return callWords(p.Call(a.On), j.mind.hands.Phone, false)
	case journal.ActWait:
		return "Wait " + minutes(a.Minutes) + " in this state."
	case journal.ActSwitchOff:
		d := p.Device(a.On)
		return "Switch off " + d.Words + " (" + d.Where + ")."
	case journal.ActLock:
		return "Lock it off: " + p.Device(a.On).How + "."
	case journal.ActUnlock:
		return "Take your lock off " + name + "."
	case journal.ActSwitchOn:
		return "Switch on " + name + "."
	case journal.ActOpen:
		return "Take the cover off " + enclosureName(p.Enclosure(a.On)) + "."
	case journal.ActClose:
		return "Put the cover back on " + enclosureName(p.Enclosure(a.On)) + ", nothing left bypassed, earths and glands as they were."
	case journal.ActUnplug:
		return "Unplug " + p.Plug(a.On).Words + "; mark what goes where."
	case journal.ActRefit:
		return "Refit " + p.Plug(a.On).Words + "; tug it."
	}
	return a.Do + " " + name
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

func ids(cs []Caution) []string {
	var out []string
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return out
}

// cautionsFor collects the cautions of acts, each once.
func (j *Job) cautionsFor(acts ...journal.Act) []Caution {
	var triggers []string
	for _, a := range acts {
		triggers = append(triggers, safety.Cautions(j.context(), safety.OfAct(a))...)
	}
	return j.cautions(triggers...)
}

// cautions gives those of the triggers, in the order of the safety data.
func (j *Job) cautions(triggers ...string) []Caution {
	var out []Caution
	for _, c := range j.lib.Set.Cautions {
		if meets(c.At, triggers) {
			out = append(out, Caution{ID: c.ID, Words: strings.TrimSpace(c.Words), Again: j.mind.shown[c.ID]})
		}
	}
	return out
}

func meets(at, triggers []string) bool {
	for _, a := range at {
		for _, t := range triggers {
			if a == t {
				return true
			}
		}
	}
	return false
}
