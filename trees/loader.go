package trees

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// loader puts layers together: the embedded files, then trees from outside.
type loader struct {
	set        *Set
	layer      int
	owners     map[string]*owner
	wants      []want
	sources    []*strict.Source
	problems   strict.Problems // of no file in particular, or of copies
	conditions int             // looked at
	suggestions
}

// want is a name that must exist once every layer is read.
type want struct {
	owner *owner
	kind  string
	text  strict.Text
	scope []Param
}

// Limits of what is looked at: a hostile tree must not cost hours.
const (
	maxProblems    = 2000
	maxConditions  = 100_000
	maxSuggestions = 200 // each compares a word with every known one
)

func assemble(layers []Layer, problems strict.Problems) (*Set, strict.Problems) {
	l := newLoader(problems)
	l.set.Layers = layers
	for i, layer := range layers {
		l.layer = i
		l.read(layer, folders())
	}
	l.link()
	return l.done()
}

func newLoader(problems strict.Problems) *loader {
	return &loader{set: newSet(), owners: map[string]*owner{}, problems: problems}
}

// done gives the set and everything found wrong, sorted.
func (l *loader) done() (*Set, strict.Problems) {
	for _, s := range l.sources {
		l.problems = append(l.problems, s.Problems()...)
	}
	return l.set, l.problems.Sorted()
}

func newSet() *Set {
	return &Set{
		Scales: map[string]*Scale{}, Checks: map[string]*Check{}, Causes: map[string]*Cause{},
		Routines: map[string]*Routine{}, Symptoms: map[string]*Symptom{}, Assemblies: map[string]*Assembly{},
		Plants: map[string]*PlantFile{}, Referrals: map[string]*Referral{}, Jurisdictions: map[string]*Jurisdiction{},
		Models: map[string]*Model{}, Levels: map[string]*Levels{},
	}
}

// read decodes the files of one layer that lie in the known folders, in the order of their names.
func (l *loader) read(layer Layer, known map[string]folder) {
	found := 0
	for _, file := range slices.Sorted(maps.Keys(layer.Files)) {
		if found > maxProblems {
			l.problem(layer.named(file), "more than %d problems before this file; the rest is not looked at", maxProblems)
			return
		}
		folderName, _, _ := strings.Cut(file, "/")
		f, wanted := known[folderName]
		if !wanted {
			continue
		}
		if f.safety && l.layer > 0 {
			l.problem(layer.named(file), "trees from outside may not bring %s; they come from this program alone", folderName)
			continue
		}
		text := layer.Files[file]
		if f.head != "" {
			text, _, _ = strings.Cut(text, f.head)
		}
		source := strict.Parse(layer.named(file), []byte(text), strict.Limits{})
		r := &reader{loader: l, stem: stemOf(file), owner: &owner{}}
		r.file(f, source)
		source.Root = nil // the texts are kept, what held them together need not be
		l.sources = append(l.sources, source)
		found += len(source.Problems())
	}
}

func (l *loader) problem(file, format string, args ...any) {
	l.problems = append(l.problems, problemAt(strict.Pos{File: file, Line: 1, Col: 1}, format, args...))
}

// suggestions counts how often a wrong name was compared with the known ones.
type suggestions struct{ made int }

// suggest says what a wrong name probably meant, while that does not cost too much.
func (s *suggestions) suggest(name string, known func() []string) string {
	s.made++
	if s.made > maxSuggestions {
		return ""
	}
	return spelling.DidYouMean(name, known())
}

// these gives known words that are at hand.
func these(words []string) func() []string { return func() []string { return words } }

// idsOf gives the ids of things as known words.
func idsOf[T any](m map[string]*T) func() []string { return func() []string { return keys(m) } }
