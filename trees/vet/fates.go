package vet

import (
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// fateKey tells branches and conditions as written apart; the branches of a
// split stand at one place.
type fateKey struct {
	pos  strict.Pos
	text string
}

// fate is what became of a branch, or of a condition, over all situations,
// plants and uses: it is dead only if it is dead in all of them.
type fate struct {
	holds, fails bool
	kind         Kind   // of the problem if it never holds
	never        string // the problem
	always       string // the problem if it never fails; empty: none
}

// fate gives what is known of a branch or condition so far.
func (v *vetting) fate(pos strict.Pos, text string, kind Kind, never, always string) *fate {
	key := fateKey{pos, text}
	f := v.branches[key]
	if f == nil {
		f = &fate{kind: kind, never: never, always: always}
		v.branches[key] = f
	}
	return f
}

// live notes which branches something leads to, and which else could be
// written as a range.
func (v *vetting) live(b *trees.Bound, r *proof) {
	if len(r.errors) > 0 {
		return
	}
	for i, br := range b.Branches {
		f := v.branches[fateKey{br.Pos, br.If.Value}]
		if f == nil {
			f = v.newFate(br)
		}
		f.holds = f.holds || r.alive&(1<<i) != 0
		if br.Else && len(b.Check.Probes) == 1 && len(b.Branches) > 1 {
			v.needless(br, r)
		}
	}
}

// newFate is the fate of a branch met for the first time.
func (v *vetting) newFate(br *trees.BoundBranch) *fate {
	f := v.fate(br.Pos, br.If.Value, DeadBranch, "no reading leads to "+branchName(br), "")
	switch {
	case br.Else:
		f.kind, f.never = IdleElse, "the else owns nothing: the branches before it own every reading"
	case br.Stop != nil:
		f.never = "no reading of any step meets this stop"
	}
	return f
}

// needless notes an else that the proof could do without: it may never be
// needed in any situation to be reported.
func (v *vetting) needless(br *trees.BoundBranch, r *proof) {
	f := v.fate(br.Pos, "else of a single reading", NeedlessElse, "", "")
	if f.never == "" {
		f.never = "every condition here can be decided, so say instead of \"else\" which readings lead here: " + r.needless
	}
	f.holds = f.holds || r.needless == ""
}

// fates reports what no situation brought to life.
func (v *vetting) fates() {
	for key, f := range v.branches {
		switch {
		case !f.holds && !(f.kind == NeedlessElse && v.idle(key.pos)):
			v.at(key.pos, f.kind, f.never)
		case f.holds && !f.fails && f.always != "":
			v.at(key.pos, AlwaysHolds, f.always)
		}
	}
}

// idle says whether the else at a place owns nothing anyway.
func (v *vetting) idle(pos strict.Pos) bool {
	f := v.branches[fateKey{pos, ""}]
	return f != nil && !f.holds
}
