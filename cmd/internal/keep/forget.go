package keep

import (
	"errors"
	"io/fs"
	"os"

	"faultwalk/engine/journal"
)

// Forget removes a job and everything that belongs to it alone: its journal,
// what was cut off it, and the tree set that no other job uses. It gives the
// paths it removed, also beside an error. A job that is open anywhere is
// [ErrBusy]; damaged ones can be forgotten.
func (s Store) Forget(id string) (removed []string, err error) {
	path, err := s.Path(id)
	if err != nil {
		return nil, err
	}
	if _, err := os.Lstat(path); err != nil {
		return nil, missingOr(id, path, err)
	}
	folder, err := s.lock()
	if err != nil {
		return nil, err
	}
	defer folder.Close()
	f, err := openLocked(id, path)
	if err != nil {
		return nil, err
	}
	sets, err := s.setsOnlyOf(f, id)
	if err != nil {
		f.Close()
		return nil, err
	}
	return s.forget(f, id, sets)
}

// forget removes what was cut off first: the name of the job must not go while
// anything of it is left.
func (s Store) forget(f locked, id string, sets []string) (removed []string, err error) {
	if removed, err = remove(nil, s.tornPath(id)); err != nil {
		f.Close()
		return removed, err
	}
	if err := removeOpen(f); err != nil {
		return removed, trouble("remove", f.Name(), err)
	}
	removed = append(removed, f.Name())
	for _, set := range sets {
		if removed, err = remove(removed, set); err != nil {
			return removed, err
		}
	}
	return removed, syncFolder(s.Dir)
}

// setsOnlyOf are the paths of the sets that this job uses and no other. A journal
// that cannot be read to its end may use any of them.
func (s Store) setsOnlyOf(f locked, id string) (paths []string, err error) {
	data, err := contents(f, f.Name())
	if err != nil {
		return nil, err
	}
	events, _, _ := journal.Decode(data)
	sets := setsOf(events)
	ids, err := s.ids()
	if err != nil {
		return nil, err
	}
	for _, other := range ids {
		if other == id {
			continue
		}
		events, damage, err := s.Read(other)
		if err != nil || damage != nil && !damage.Torn {
			return nil, nil
		}
		for used := range setsOf(events) {
			delete(sets, used)
		}
	}
	for hash := range sets {
		if path, err := s.setPath(hash); err == nil {
			paths = append(paths, path)
		}
	}
	return paths, nil
}

// remove removes a file that may not be there.
func remove(removed []string, path string) ([]string, error) {
	switch err := os.Remove(path); {
	case errors.Is(err, fs.ErrNotExist):
		return removed, nil
	case err != nil:
		return removed, trouble("remove", path, err)
	}
	return append(removed, path), nil
}
