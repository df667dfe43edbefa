package keep

import (
	"errors"
	"fmt"
	"io/fs"
)

// trouble words a failure of the disk: what could not be done, where, why, and
// what helps. The system's own error stays inside for errors.Is.
func trouble(doing, path string, err error) error {
	var known *diskError
	if errors.As(err, &known) {
		return err // worded where it happened
	}
	return &diskError{doing, path, err}
}

type diskError struct {
	doing, path string
	err         error
}

func (e *diskError) Unwrap() error { return e.err }

func (e *diskError) Error() string {
	reason := e.err
	var inPath *fs.PathError // its path would be said twice
	if errors.As(reason, &inPath) {
		reason = inPath.Err
	}
	help := helpFor(e.err)
	if help != "" {
		help = ": " + help
	}
	return fmt.Sprintf("cannot %s %s: %v%s", e.doing, e.path, reason, help)
}

// helpFor says what a person can do.
func helpFor(err error) string {
	switch {
	case isFull(err):
		return "free some space, then try again; everything stored before is kept"
	case isReadOnly(err):
		return "the disk is read-only: make it writable, or choose another folder"
	case errors.Is(err, fs.ErrPermission):
		return "this needs permission to write there: see whose folder it is, or choose another"
	case errors.Is(err, fs.ErrNotExist):
		return "it was moved or removed meanwhile: put it back, or begin anew"
	}
	return ""
}
