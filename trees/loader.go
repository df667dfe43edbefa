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
	set         *Set
	layer       int
	owners      map[string]*owner
	wants       []want
	sources     []*strict.Source
	problems    strict.Problems // of no file in particular, or of copies
	suggestions int
}

// want is a name that must exist once every layer is read.
type want struct {
	owner *owner
	kind  string
	text  strict.Text
	scope []Param
}

// Limits of what is looked at: a hostile tree must not cost hours. Each
// suggestion compares a word with every known one.
const (
	maxProblems    = 2000
	maxSuggestions = 200
)

func assemble(layers []Layer, problems strict.Problems) (*Set, strict.Problems) {
	l := &loader{set: newSet(), owners: map[string]*owner{}, problems: problems}
	l.set.Layers = layers
	for i, layer := range layers {
		l.layer = i
		l.read(layer)
	}
	l.link()
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
	}
}

// read decodes the files of one layer, in the order of their names.
func (l *loader) read(layer Layer) {
	known, found := folders(), 0
	for _, file := range slices.Sorted(maps.Keys(layer.Files)) {
		if found > maxProblems {
			l.problem(layer.named(file), "more than %d problems before this file; the rest is not looked at", maxProblems)
			return
		}
		folderName, _, _ := strings.Cut(file, "/")
		f := known[folderName]
		if f.safety && l.layer > 0 {
			l.problem(layer.named(file), "trees from outside may not bring %s; they come from this program alone", folderName)
			continue
		}
		source := strict.Parse(layer.named(file), []byte(layer.Files[file]), strict.Limits{})
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

// suggest says what a wrong name probably meant, while that does not cost too much.
func (l *loader) suggest(name string, known []string) string {
	l.suggestions++
	if l.suggestions > maxSuggestions {
		return ""
	}
	return spelling.DidYouMean(name, known)
}
