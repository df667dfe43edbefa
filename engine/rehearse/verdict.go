package rehearse

import (
	"slices"

	"faultwalk/trees"
)

// Verdict is how a walk ended, seen against the fault that was there.
type Verdict string

// The verdicts.
const (
	Exact      Verdict = "exact"      // at the fault's cause, or at a referral that names it
	Grouped    Verdict = "grouped"    // at a group with its cause that no check of these hands could divide
	Wrong      Verdict = "wrong"      // at another cause, or at a group that could have been divided
	Referred   Verdict = "referred"   // passed to somebody else, with a reason
	PassedOn   Verdict = "passed on"  // to another sign's tree, and the plant does show that sign
	Unresolved Verdict = "unresolved" // nowhere
	Unsafe     Verdict = "unsafe"     // somebody could have been hurt on the way
)

// Verdicts lists them, the best first.
func Verdicts() []Verdict {
	return []Verdict{Exact, Grouped, Referred, PassedOn, Unresolved, Wrong, Unsafe}
}

// Meaning says what a verdict means, in a few words.
func (v Verdict) Meaning() string {
	return map[Verdict]string{
		Exact:      "at its cause, or a referral naming it",
		Grouped:    "at a group that no check could divide",
		Referred:   "to somebody else, with a reason",
		PassedOn:   "to the tree of another sign it shows",
		Unresolved: "nowhere",
		Wrong:      "at another cause, or a group to divide",
		Unsafe:     "somebody could have been hurt",
	}[v]
}

// verdict judges an end against the fault, groups not yet proved.
func (w *walker) verdict(f *fault, e end) Verdict {
	switch {
	case len(e.to.Causes) > 0:
		return ofCauses(f, e.to.Causes)
	case e.to.Refer != nil && e.to.Refer.Names && f.ends(e.to.Refer.ID):
		return Exact
	case e.to.Refer != nil:
		return Referred
	case e.to.Pass != "" && w.shows(e.to.Pass):
		return PassedOn
	case e.to.Pass != "":
		return Wrong
	}
	return Unresolved
}

func ofCauses(f *fault, causes []*trees.BoundCause) Verdict {
	named := 0
	for _, c := range causes {
		if f.is(c.ID) {
			named++
		}
	}
	switch named {
	case 0:
		return Wrong
	case len(causes):
		return Exact
	}
	return Grouped
}

// shows says whether the plant with the fault in it really shows a sign.
func (w *walker) shows(sign string) bool {
	return slices.ContainsFunc(w.bench.signs, func(s *trees.Sign) bool { return s.ID.Value == sign && w.sub.shows(s) })
}

// endWords writes an end as it is listed.
func endWords(e end) string {
	switch {
	case len(e.to.Causes) > 0:
		return "cause " + group(e.to.Causes)
	case e.to.Refer != nil:
		return "refer " + e.to.Refer.ID
	case e.to.Pass != "":
		return "pass " + e.to.Pass
	}
	return "no end"
}

// group names the causes of an end.
func group(causes []*trees.BoundCause) string {
	out := ""
	for i, c := range causes {
		if i > 0 {
			out += " | "
		}
		out += c.ID
	}
	return out
}
