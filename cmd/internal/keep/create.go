package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"faultwalk/engine/journal"
)

// Create begins a job: it finds the next free id of the day, such as
// 2026-11-25-1, keeps the tree set beside it, and stores the events that first
// makes of the id. The day is the caller's; nothing is left behind on an error.
func (s Store) Create(day time.Time, set Set, first func(id string) []journal.Event) (*Job, error) {
	if err := makeFolder(s.Dir); err != nil {
		return nil, err
	}
	folder, err := s.lock()
	if err != nil {
		return nil, err
	}
	defer folder.Close()
	if err := s.keepSet(set); err != nil {
		return nil, err
	}
	f, id, err := s.reserve(day.Format(time.DateOnly))
	if err != nil {
		return nil, err
	}
	job, err := s.begin(f, id, first(id))
	if err != nil {
		removeOpen(locked{f})
		return nil, err
	}
	return job, nil
}

// begin stores the first events and the name of the file.
func (s Store) begin(f *os.File, id string, first []journal.Event) (*Job, error) {
	if len(first) == 0 {
		return nil, fmt.Errorf("job %s: a job begins with an event", id)
	}
	if err := lockNow(f); err != nil {
		return nil, trouble("lock", f.Name(), err)
	}
	job, err := s.job(locked{f}, id)
	if err != nil {
		return nil, err
	}
	if err := job.Append(first...); err != nil {
		return nil, err
	}
	if err := syncFolder(s.Dir); err != nil {
		return nil, err
	}
	job.Events, err = written(f, job.size)
	return job, err
}

// written reads back what was stored.
func written(f *os.File, size int64) ([]journal.Event, error) {
	data := make([]byte, size)
	if _, err := f.ReadAt(data, 0); err != nil {
		return nil, trouble("read", f.Name(), err)
	}
	events, _, damage := journal.Decode(data)
	if damage != nil {
		return nil, fmt.Errorf("%s: %w", f.Name(), damage)
	}
	return events, nil
}

// reserve makes the file of the next id of the day. The system lets only one
// process make a file, whatever became of the lock.
func (s Store) reserve(day string) (*os.File, string, error) {
	n, err := s.lastOf(day)
	if err != nil {
		return nil, "", err
	}
	for {
		n++
		id := day + "-" + strconv.Itoa(n)
		path, err := s.Path(id)
		if err != nil {
			return nil, "", err
		}
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
		if err == nil {
			return f, id, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return nil, "", trouble("begin the job", path, err)
		}
	}
}

// lastOf is the highest number of a day, of jobs and of what is left of them.
func (s Store) lastOf(day string) (int, error) {
	entries, err := os.ReadDir(s.Dir)
	if err != nil {
		return 0, trouble("read the folder", s.Dir, err)
	}
	last := 0
	for _, e := range entries {
		m := jobID.FindStringSubmatch(strings.TrimSuffix(e.Name(), filepath.Ext(e.Name())))
		if m != nil && m[1] == day {
			n, _ := strconv.Atoi(m[2])
			last = max(last, n)
		}
	}
	return last, nil
}
