package trees

import (
	"sync"

	"faultwalk/trees/strict"
)

// EmbeddedHeads reads what the first questions of a job need and leaves the
// rest: its set has the jurisdictions, cautions, stops, referrals, scales and
// plants, and of the symptoms all but the steps. Compose and Bind read the
// rest by themselves; who has time while somebody thinks calls [Set.Whole]
// beforehand, from another goroutine if need be.
func EmbeddedHeads() (*Set, strict.Problems) { return heads(gather(FS, "trees")) }

func heads(layer Layer, problems strict.Problems) (*Set, strict.Problems) {
	l := newLoader(problems)
	l.set.Layers = []Layer{layer}
	l.set.whole = sync.OnceValues(func() (*Set, strict.Problems) { return assemble([]Layer{layer}, nil) })
	l.read(layer, headFolders())
	return l.done()
}

// headFolders are the folders that heads are read of. A symptom is read as far as its steps.
func headFolders() map[string]folder {
	f := folders()
	for _, name := range []string{"checks", "causes", "routines", "assemblies", "models", "signs", "levels", "cases"} {
		delete(f, name)
	}
	f["symptoms"] = folder{what: "a symptom", read: (*reader).symptomHead, head: "\nsteps:"}
	return f
}

// symptomHead reads what a symptom is chosen by.
func (r *reader) symptomHead(s *section) {
	id := r.fileID(s, "symptom")
	v := r.symptomWords(s, id)
	s.Entries() // the rest has its reader
	if r.claim("symptom", id) {
		r.set.Symptoms[id.Value] = v
	}
}

// Whole gives the set with everything read. For a set that is whole already it
// is the set itself. It may be called from several goroutines.
func (s *Set) Whole() (*Set, strict.Problems) {
	if s.whole == nil {
		return s, nil
	}
	return s.whole()
}
