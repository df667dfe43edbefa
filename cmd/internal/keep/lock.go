package keep

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// locked is an open file whose lock this process has. The lock goes with the
// process, however that ends.
type locked struct{ *os.File }

// Close unlocks before it closes: a process that is just being started may hold
// a copy of the open file for a moment, and with it the lock.
func (f locked) Close() error { return errors.Join(unlock(f.File), f.File.Close()) }

// lock makes this process the only one that begins, moves or forgets jobs in
// the folder, waiting for another to finish; these are short.
func (s Store) lock() (locked, error) {
	path := filepath.Join(s.Dir, ".lock")
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return locked{}, trouble("lock the folder", s.Dir, err)
	}
	if err := lockWaiting(f); err != nil {
		f.Close()
		return locked{}, trouble("lock the folder", s.Dir, err)
	}
	return locked{f}, nil
}

// openLocked opens a journal and keeps others from writing to it.
func openLocked(id, path string) (locked, error) {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return locked{}, missingOr(id, path, err)
	}
	if err := lockNow(f); err != nil {
		f.Close()
		if errors.Is(err, ErrBusy) {
			return locked{}, fmt.Errorf("job %s: %w", id, err)
		}
		return locked{}, trouble("lock", path, err)
	}
	// It may have been forgotten between the two.
	held, err1 := f.Stat()
	there, err2 := os.Stat(path)
	if err := errors.Join(err1, err2); err != nil || !os.SameFile(held, there) {
		locked{f}.Close()
		return locked{}, fmt.Errorf("job %s: %w", id, ErrNoJob)
	}
	return locked{f}, nil
}
