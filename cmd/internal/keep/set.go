package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"

	"faultwalk/engine/journal"
)

// Set is a tree set as it is kept for the jobs that were begun on it: its hash,
// in lower-case hexadecimal as the journal names it, and its content, which
// this package does not look into. The zero Set is none.
type Set struct {
	Hash string
	Pack []byte
}

var setHash = regexp.MustCompile(`^[0-9a-f]{8,128}$`)

func (s Store) setPath(hash string) (string, error) {
	if !setHash.MatchString(hash) {
		return "", fmt.Errorf("%q is no hash of a tree set; expected hexadecimal digits", short(hash))
	}
	return filepath.Join(s.Dir, "sets", hash+".pack"), nil
}

// keepSet stores a set unless it is there. The caller holds the folder's lock.
func (s Store) keepSet(set Set) error {
	if set.Hash == "" && set.Pack == nil {
		return nil
	}
	path, err := s.setPath(set.Hash)
	if err != nil {
		return err
	}
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	switch _, err := os.Stat(path); {
	case err == nil:
		return nil
	case !errors.Is(err, fs.ErrNotExist):
		return trouble("store the trees in", path, err)
	}
	return writeWhole(path, set.Pack)
}

// Set gives the content of a set that was kept. The caller checks that it has
// the hash it is kept under.
func (s Store) Set(hash string) ([]byte, error) {
	path, err := s.setPath(hash)
	if err != nil {
		return nil, err
	}
	pack, err := os.ReadFile(path)
	if err != nil {
		return nil, trouble("read the trees the job was begun on", path, err)
	}
	return pack, nil
}

// Move appends events that name another tree set than the job was begun on, and
// keeps that set: both or neither.
func (j *Job) Move(to Set, events ...journal.Event) error {
	folder, err := j.store.lock()
	if err != nil {
		return err
	}
	defer folder.Close()
	if err := j.store.keepSet(to); err != nil {
		return err
	}
	return j.Append(events...)
}

// setsOf are the hashes of the sets a job was worked on with.
func setsOf(events []journal.Event) map[string]bool {
	used := map[string]bool{}
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Opened:
			used[b.Trees] = true
		case *journal.Resumed:
			used[b.Trees] = true
		}
	}
	return used
}
