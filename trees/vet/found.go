package vet

import (
	"cmp"
	"slices"

	"faultwalk/trees/strict"
)

// maxFound bounds what is kept: a tree that is wrong everywhere is not made
// clearer by its thousandth problem.
const maxFound = 5_000

// found gathers problems, each place and message once with all its plants.
type found struct {
	all  []*Problem
	by   map[foundKey]*Problem
	over bool
}

type foundKey struct {
	pos     strict.Pos
	kind    Kind
	message string
}

func newFound() *found { return &found{by: map[foundKey]*Problem{}} }

// add records a problem; no plant means that none matters.
func (f *found) add(pos strict.Pos, kind Kind, message, witness, plant string) {
	key := foundKey{pos, kind, message}
	p := f.by[key]
	switch {
	case p == nil && f.full():
		f.over = true
		return
	case p == nil:
		p = &Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Kind: kind, Message: message, Witness: witness}
		f.by[key] = p
		f.all = append(f.all, p)
	}
	if plant != "" && !slices.Contains(p.Plants, plant) {
		p.Plants = append(p.Plants, plant)
	}
}

// full says whether no more is kept.
func (f *found) full() bool { return len(f.all) == maxFound }

// sorted gives the problems by place, then by kind and words.
func (f *found) sorted() []Problem {
	out := make([]Problem, 0, len(f.all))
	for _, p := range f.all {
		slices.Sort(p.Plants)
		out = append(out, *p)
	}
	slices.SortFunc(out, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col),
			cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Message, b.Message))
	})
	if f.over {
		last := out[len(out)-1]
		out = append(out, Problem{File: last.File, Line: last.Line, Col: last.Col, Kind: TooMuch, Message: "more problems than are kept; mend these first"})
	}
	return out
}
