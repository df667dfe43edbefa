// Package keep stores jobs and the person's settings as files: a journal for
// each job, the tree sets they were begun on, and one config file. An answer is
// on the disk before Append returns.
//
// Start with [Places.StateDir] and a [Store] on it: [Store.Create] begins a job,
// [Store.Open] takes one up again, and [Job.Append] records events. [ReadConfig]
// gives the settings. Folders are made 0700 and files 0600: a journal holds what
// was found in somebody's home.
package keep

import (
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
)

var (
	// ErrNoJob says that there is no job of that name.
	ErrNoJob = errors.New("there is no such job")
	// ErrBusy says that the job is open in another window.
	ErrBusy = errors.New("the job is open in another window; stop it there first")
	// ErrBroken says that an answer could not be stored and that this Job takes
	// no more: closing it and opening it again shows what the disk holds.
	ErrBroken = errors.New("nothing more is stored here until the job is resumed")
)

// Store is the folder where journals lie: ID.jsonl, beside it ID.torn if
// something had to be cut off, and sets/HASH.pack. The folder is made when the
// first job is.
type Store struct{ Dir string }

// jobID is a day and the number of the job on that day.
var jobID = regexp.MustCompile(`^([0-9]{4}-[0-9]{2}-[0-9]{2})-([1-9][0-9]{0,5})$`)

// Path is where the journal of a job lies, whether or not there is one. A name
// that could not be a job's is refused.
func (s Store) Path(id string) (string, error) {
	if !jobID.MatchString(id) {
		return "", fmt.Errorf("%q: %w; expected a date and a number, such as 2026-11-25-1", short(id), ErrNoJob)
	}
	return filepath.Join(s.Dir, id+".jsonl"), nil
}

func (s Store) tornPath(id string) string { return filepath.Join(s.Dir, id+".torn") }

func short(text string) string {
	if runes := []rune(text); len(runes) > 40 {
		return string(runes[:40]) + "…"
	}
	return text
}
