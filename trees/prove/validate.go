package prove

import (
	"fmt"
	"math"
	"slices"
	"unicode"
)

// validate reports what is wrong with the set itself, which is the caller's doing rather than an author's wherever
// it is not about branches.
func (s Set) validate() (errs Errors) {
	say := func(branch int, format string, args ...any) {
		errs = append(errs, Error{Branch: branch, Line: 1, Message: fmt.Sprintf(format, args...)})
	}
	if n := len(s.Variables); n < 1 || n > maxVariables {
		say(-1, "%d readings; expected one to %d", n, maxVariables)
	}
	if n := len(s.Branches); n < 1 || n > maxBranches {
		say(-1, "%d branches; expected one to %d", n, maxBranches)
	}
	for i, b := range s.Branches {
		if b.Else && i != len(s.Branches)-1 {
			say(i, "else stands before other branches; expected it last")
		}
	}
	seen := map[string]bool{}
	for _, v := range s.Variables {
		if seen[v.Name] {
			say(-1, "the reading %s is there twice", v.Name)
		}
		seen[v.Name] = true
		if problem := v.problem(); problem != "" {
			say(-1, "the reading %q %s", v.Name, problem)
		}
	}
	for _, name := range s.Vocabulary().Constants {
		if math.IsNaN(s.Constants[name]) {
			say(-1, "the constant %s is not a number", name)
		}
	}
	return errs
}

func (v Variable) problem() string {
	switch {
	case !isName(v.Name):
		return "has no name that a condition could use"
	case math.IsInf(v.Min, 0) || !(v.Min <= v.Max):
		return fmt.Sprintf("goes from %v to %v; expected a finite lower end and an upper end not below it", v.Min, v.Max)
	}
	for i, b := range v.Bands {
		switch {
		case math.IsNaN(b.To):
			return fmt.Sprintf("has the band %s up to no number", b.Name)
		case i > 0 && b.To < v.Bands[i-1].To:
			return fmt.Sprintf("has the band %s up to %v, below the band before it, which ends at %v", b.Name, b.To, v.Bands[i-1].To)
		case slices.ContainsFunc(v.Bands[:i], func(other Band) bool { return other.Name == b.Name }):
			return fmt.Sprintf("has the band %s twice", b.Name)
		}
	}
	return ""
}

func isName(name string) bool {
	for i, r := range name {
		if r != '_' && !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r)) {
			return false
		}
	}
	return name != ""
}
