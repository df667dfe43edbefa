package vet

import (
	"fmt"
	"slices"

	"faultwalk/trees"
	"faultwalk/trees/formula"
	"faultwalk/trees/spelling"
)

// misspelt reports comparisons with a word that what it is compared with never is.
func (s *scope) misspelt(f *formula.Formula) formula.Errors {
	var errs formula.Errors
	f.Walk(func(n *formula.Node) {
		if n.Op != formula.Compare {
			return
		}
		for i, word := range n.Args {
			words, closed := s.words(n.Args[1-i])
			if word.Op == formula.Word && closed && !slices.Contains(words, word.Name) {
				errs = append(errs, formula.Error{At: word.At, Message: fmt.Sprintf("it is never %q; it may be %s%s", word.Name,
					spelling.Quoted(words), spelling.DidYouMean(word.Name, words))})
			}
		}
	})
	return errs
}

// words lists what a part of a formula may be; closed says that the list is whole.
func (s *scope) words(n *formula.Node) (words []string, closed bool) {
	switch {
	case n.Op == formula.Name && s.model != nil:
		return s.v.wordsOf(s.model, n.Name)
	case n.Op != formula.Function:
		return nil, false
	case n.Name == "part":
		if part := s.p.Part(n.Words[0]); part != nil {
			return s.v.wordsOf(s.v.set.Models[part.Kind], n.Field)
		}
	case n.Name == "setting":
		return s.v.settingWords(n.Words[0]), true
	case n.Name == "box" && n.Field == "burnt":
		return []string{"none", "live", "switched", "neutral"}, true
	case n.Name == "device" && n.Field == "tripped":
		return []string{"none", "overcurrent", "leakage"}, true
	}
	return nil, false
}

// wordsOf lists what a variable of a model may be: its first value, what its
// rules and trips give, and what faults make of it.
func (v *vetting) wordsOf(m *trees.Model, name string) (words []string, closed bool) {
	if t, there := typeIn(m, name); !there || t != formula.Wordy {
		return nil, false
	}
	for _, variable := range m.Variables {
		if variable.ID.Value == name {
			words = append(words, variable.First.Value)
		}
	}
	closed = true
	for _, r := range append(append([]trees.ModelRule{}, m.Rules...), m.Slow...) {
		if r.Set.Value == name {
			given, all := leaves(r.To.Value, name)
			words, closed = append(words, given...), closed && all
		}
	}
	for _, t := range m.Trips {
		if t.Set.Value == name {
			words = append(words, t.To.Value)
		}
	}
	return append(words, v.locked(m.Faults, name)...), closed
}

// leaves lists the words a formula may give; all says that there is nothing
// else, the variable itself apart.
func leaves(source, itself string) (words []string, all bool) {
	f, errs := formula.Parse(source)
	if len(errs) > 0 {
		return nil, false
	}
	all = true
	var visit func(*formula.Node)
	visit = func(n *formula.Node) {
		switch {
		case n.Op == formula.Choice:
			visit(n.Args[1])
			visit(n.Args[2])
		case n.Op == formula.Word:
			words = append(words, n.Name)
		case n.Op != formula.Name || n.Name != itself:
			all = false
		}
	}
	visit(f.Root)
	return words, all
}

// locked lists what faults make of a variable of a model; those of assemblies
// name it with its part.
func (v *vetting) locked(own []trees.ModelFault, name string) []string {
	words := slices.Clone(v.given["."+name])
	for _, f := range own {
		for _, c := range changesOf(f) {
			if c.Thing == "" && c.Name == name {
				words = append(words, c.To)
			}
		}
	}
	return words
}

// settingWords lists what a setting may be: right, or what a fault makes of it.
func (v *vetting) settingWords(id string) []string {
	return append([]string{"right"}, v.given["setting "+id]...)
}

func changesOf(f trees.ModelFault) []trees.Change {
	var all []trees.Change
	for _, t := range f.Do {
		if c, err := trees.ParseChange(t.Value); err == nil {
			all = append(all, c)
		}
	}
	return all
}
