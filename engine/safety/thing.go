package safety

import (
	"faultwalk/engine/journal"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// Context is where something is done, by whose hands and under which rules.
// Without a jurisdiction only looking and listening is left. Kit describes the
// instruments that Hands.Kit names; a kit without instruments stands for the
// default one.
type Context struct {
	Plant        *trees.Plant
	Jurisdiction *trees.Jurisdiction
	Hands        journal.Hands
	Kit          measurements.Kit
}

// Thing is what is judged: an act, a check, or a remedy, which is a need
// without a check. Make one with OfAct, OfForm, OfCheck or OfNeed.
type Thing struct {
	Act   *journal.Act
	Form  []journal.Field // values of a proving form; nil while it is still to be filled in
	Need  trees.Need
	Check *trees.BoundCheck
	Modes []string // as set on the meter, one for each probe; nil: the best the kit has
}

// OfAct is an act. Proving is judged here as something to begin; OfForm judges
// it with its values.
func OfAct(a journal.Act) Thing { return Thing{Act: &a} }

// OfForm is the proof of an enclosure with what was read.
func OfForm(enclosure string, values []journal.Field) Thing {
	if values == nil {
		values = []journal.Field{}
	}
	return Thing{Act: &journal.Act{Do: journal.ActProve, On: enclosure}, Form: values}
}

// OfCheck is a check, with the meter modes in use if they are settled.
func OfCheck(c *trees.BoundCheck, modes ...string) Thing {
	return Thing{Need: c.Need, Check: c, Modes: modes}
}

// OfNeed is a remedy.
func OfNeed(n trees.Need) Thing { return Thing{Need: n} }

// The kinds of refusal. Only Order can be mended by a plan.
const (
	Order      = "order"      // something else comes first
	Hands      = "hands"      // not for these hands
	Instrument = "instrument" // the kit lacks what it takes
	Never      = "never"      // not here, by anybody
	Halt       = "halt"       // a voltage was found where none may be
	Again      = "again"      // once a job, and it was done
	Unknown    = "unknown"    // there is no such thing on this plant
)

// Refusal says why something may not be done now and what to do instead, in
// words for the person there. Referral is the id of the referral it leads to;
// empty where doing something first is enough.
type Refusal struct {
	Why      string
	Referral string
	Kind     string
}

// Error gives the words.
func (r *Refusal) Error() string { return r.Why }
