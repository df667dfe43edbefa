package vet

import (
	"fmt"
	"slices"
	"strings"

	"faultwalk/trees/strict"
)

// Kind sorts what can be wrong with trees.
type Kind string

// The kinds of problem.
const (
	Unreadable   Kind = "unreadable"    // a file, a name or an expression that the reader refuses
	Unbindable   Kind = "unbindable"    // does not fit a plant: a thing it lacks, a loop, a meter mode on the wrong pair
	Gap          Kind = "gap"           // readings or answers that lead nowhere
	Overlap      Kind = "overlap"       // readings or answers that lead two ways
	DeadBranch   Kind = "dead branch"   // a branch that nothing leads to
	IdleElse     Kind = "idle else"     // an else with nothing left to own
	NeedlessElse Kind = "needless else" // an else where the proof can decide every condition
	NoElse       Kind = "no else"       // an undecided condition without an else
	Condition    Kind = "condition"     // a condition, an edge or an expectation that cannot be worked out
	NeverHolds   Kind = "never holds"   // a condition that no reading or plant makes true
	AlwaysHolds  Kind = "always holds"  // a condition that proves nothing
	Overload     Kind = "overload"      // OL of a meter decides nothing
	Unreachable  Kind = "unreachable"   // a step or routine that nothing leads to
	Unused       Kind = "unused"        // a check, cause, scale, referral or stop that nothing uses
	Missing      Kind = "missing"       // something that has to be there
	Unproved     Kind = "unproved"      // a cause without its second reading or its retest on any plant
	Pairing      Kind = "meter pair"    // a meter that loads the circuit on a pair that must not be loaded
	Closed       Kind = "closed"        // reaches into what is never opened here
	NotDead      Kind = "not dead"      // offered as the dead way and is not
	Wording      Kind = "wording"       // words shown to people for what they may not do
	Formula      Kind = "formula"       // a formula of the simulation that cannot be worked out
	Fact         Kind = "fact"          // a plant's fact that its wiring contradicts
	Model        Kind = "model"         // a plant that cannot be simulated
	Disturbing   Kind = "disturbing"    // a reading whose meter changes a healthy plant
	Case         Kind = "case"          // an author's case that comes out otherwise
	TooMuch      Kind = "too much"      // a limit was met
)

// Report is what a vetting looked at and what it found.
type Report struct {
	Graphs    int       `json:"graphs"` // symptoms bound to plants
	Steps     int       `json:"steps"`  // of all graphs
	Checks    int       `json:"checks"`
	Causes    int       `json:"causes"`
	Cases     int       `json:"cases"` // told by authors
	Problems  []Problem `json:"problems"`
	Undecided []Problem `json:"undecided,omitempty"` // conditions the proof cannot decide; their else owns what is left
	LeftOut   []string  `json:"left_out,omitempty"`  // what was not looked at, and why
}

// Problem is one thing wrong at one place, with the plants it was met on.
type Problem struct {
	File    string   `json:"file"`
	Line    int      `json:"line"`
	Col     int      `json:"col"`
	Kind    Kind     `json:"kind"`
	Message string   `json:"message"`
	Witness string   `json:"witness,omitempty"` // a reading or an answer for which it is so
	Plants  []string `json:"plants,omitempty"`
}

// String gives file:line:col: message, and the plants.
func (p Problem) String() string {
	text := fmt.Sprintf("%s:%d:%d: %s", p.File, p.Line, p.Col, p.Message)
	if len(p.Plants) > 0 {
		text += " (on " + strings.Join(p.Plants, ", ") + ")"
	}
	return text
}

// Clean says whether nothing was found.
func (r Report) Clean() bool { return len(r.Problems) == 0 }

// Text gives the report a line each, at most limit problems and as many
// undecided conditions; 0 gives all. The last line sums up.
func (r Report) Text(limit int) string {
	lines := listed(nil, r.Problems, limit, "")
	lines = listed(lines, r.Undecided, limit, "undecided, left to its else: ")
	for _, w := range r.LeftOut {
		lines = append(lines, "not looked at: "+w)
	}
	return strings.Join(append(lines, r.Summary()), "\n")
}

func listed(lines []string, problems []Problem, limit int, before string) []string {
	for i, p := range problems {
		if limit > 0 && i == limit {
			return append(lines, fmt.Sprintf("… and %d more", len(problems)-limit))
		}
		lines = append(lines, before+p.String())
	}
	return lines
}

// Summary says in one line what was looked at and how many problems there are.
func (r Report) Summary() string {
	end := "clean"
	if n := len(r.Problems); n > 0 {
		end = counted(n, "problem")
	}
	return fmt.Sprintf("%s, %s, %s, %s: %s", counted(r.Graphs, "graph"), counted(r.Steps, "step"), counted(r.Checks, "check"),
		counted(r.Causes, "cause"), end)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// And joins two reports, of folders vetted one by one: what both have is there
// once.
func (r Report) And(other Report) Report {
	r.Graphs, r.Steps = r.Graphs+other.Graphs, r.Steps+other.Steps
	r.Checks, r.Causes, r.Cases = max(r.Checks, other.Checks), max(r.Causes, other.Causes), max(r.Cases, other.Cases)
	r.Problems = union(r.Problems, other.Problems)
	r.Undecided = union(r.Undecided, other.Undecided)
	for _, w := range other.LeftOut {
		if !slices.Contains(r.LeftOut, w) {
			r.LeftOut = append(r.LeftOut, w)
		}
	}
	return r
}

func union(a, b []Problem) []Problem {
	f := newFound()
	for _, p := range append(slices.Clone(a), b...) {
		pos := strict.Pos{File: p.File, Line: p.Line, Col: p.Col}
		f.add(pos, p.Kind, p.Message, p.Witness, "")
		for _, plant := range p.Plants {
			f.add(pos, p.Kind, p.Message, p.Witness, plant)
		}
	}
	return f.sorted()
}
