package vet

import (
	"maps"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// programReferrals are the referrals that the program itself leads to,
// wherever in a tree it is: danger met at the start, hands, instruments,
// isolation and proof. Trees must have them all.
var programReferrals = []string{
	"burning", "shock-or-tingle", "water-on-electrics", "hot-relief-discharge", "refrigerant-leak",
	"beyond-hands", "supervisor-needed", "unvented", "refrigerant", "sealed-power",
	"no-instrument", "cannot-isolate", "voltage-found", "tester-failed", "trips-again", "moving-volts",
}

// safetyData reports what the program needs and the trees lack: referrals it
// leads to, cautions for its moments, gates for its capabilities.
func (v *vetting) safetyData() {
	at := strict.Pos{File: "referrals", Line: 1, Col: 1}
	for _, id := range programReferrals {
		if v.set.Referrals[id] == nil {
			v.at(at, Missing, "the program leads to the referral "+quoted(id)+", and there is none")
		}
	}
	v.triggers()
	for _, id := range slices.Sorted(maps.Keys(v.set.Jurisdictions)) {
		v.gates(v.set.Jurisdictions[id])
	}
}

func (v *vetting) triggers() {
	at, shown := strict.Pos{File: "cautions", Line: 1, Col: 1}, map[string]bool{}
	for _, c := range v.set.Cautions {
		at.File = c.Pos.File
		for _, t := range c.At {
			shown[t] = true
		}
	}
	for _, t := range trees.Triggers {
		if !shown[t] {
			v.at(at, Missing, "no caution is shown at the moment "+quoted(t))
		}
	}
}

func (v *vetting) gates(j *trees.Jurisdiction) {
	for _, may := range trees.Capabilities {
		if gate(j, may) == nil {
			v.at(j.Pos, Missing, "no gate says who may do "+quoted(may)+", so nobody is asked to")
		}
	}
}

func gate(j *trees.Jurisdiction, may string) *trees.Gate {
	for i := range j.Gates {
		if j.Gates[i].May == may {
			return &j.Gates[i]
		}
	}
	return nil
}
