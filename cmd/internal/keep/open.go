package keep

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"faultwalk/engine/journal"
)

// Refusal says why a job cannot be gone on with, and what of it could be read.
// Nothing in the file was changed.
type Refusal struct {
	ID     string
	Path   string
	Damage *journal.Damage
	Events []journal.Event // before the damage
}

// Error names the file and line, and says how much could be read.
func (r *Refusal) Error() string {
	help := "it is left as it is and cannot be gone on with; the sheet shows what could be read"
	switch {
	case r.Damage.Later:
		help = "it is left as it is; go on with a newer faultwalk"
	case len(r.Events) == 0:
		help = "it is left as it is; `faultwalk forget " + r.ID + "` removes it"
	}
	return fmt.Sprintf("%s:%d: %s (%s read); %s", r.Path, r.Damage.Line, r.Damage.What, counted(len(r.Events)), help)
}

// Unwrap gives the [journal.Damage].
func (r *Refusal) Unwrap() error { return r.Damage }

func counted(events int) string {
	if events == 1 {
		return "1 event could be"
	}
	return fmt.Sprintf("%d events could be", events)
}

// Open takes a job up again. A last line that was never finished is cut off and
// kept in ID.torn. What is damaged or from a later version is a [*Refusal];
// other errors are [ErrNoJob], [ErrBusy] and those of the disk.
func (s Store) Open(id string) (*Job, error) {
	path, err := s.Path(id)
	if err != nil {
		return nil, err
	}
	f, err := openLocked(id, path)
	if err != nil {
		return nil, err
	}
	job, err := s.takeUp(f, id)
	if err != nil {
		f.Close()
		return nil, err
	}
	return job, nil
}

func missingOr(id, path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("job %s: %w; `faultwalk jobs` lists them", id, ErrNoJob)
	}
	return trouble("open", path, err)
}

// takeUp reads a locked journal, mends its end, and makes the Job.
func (s Store) takeUp(f locked, id string) (*Job, error) {
	data, err := contents(f, f.Name())
	if err != nil {
		return nil, err
	}
	events, tail, damage := decode(data)
	if damage != nil && (!damage.Torn || len(events) == 0) {
		return nil, &Refusal{id, f.Name(), damage, events}
	}
	mended := ""
	if damage != nil {
		if mended, err = s.mend(f.File, id, data, damage); err != nil {
			return nil, err
		}
	}
	job, err := s.job(f, id)
	if err != nil {
		return nil, err
	}
	job.Events, job.Mended, job.tail = events, mended, tail
	return job, nil
}

// job is a Job on an open file, as large as it is now and with no line read.
func (s Store) job(f locked, id string) (*Job, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, trouble("open", f.Name(), err)
	}
	return &Job{ID: id, store: s, path: f.Name(), file: f, info: info, size: info.Size(), tail: journal.Start()}, nil
}

// decode reads a journal as Open and List see it: one that holds nothing was
// never begun, for its first event is stored before anybody is told of it.
func decode(data []byte) ([]journal.Event, journal.Tail, *journal.Damage) {
	events, tail, damage := journal.Decode(data)
	if damage == nil && len(events) == 0 {
		damage = &journal.Damage{Line: 1, What: "nothing was recorded: the job was never begun"}
	}
	return events, tail, damage
}

// contents reads a journal, but not one that is too large to be one.
func contents(f io.Reader, path string) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(f, journal.MaxFile+1))
	if err != nil {
		return nil, trouble("read", path, err)
	}
	return data, nil
}

// Read gives the events of a job without opening it for writing, and what is
// wrong with the journal, or nil. A job that is open elsewhere can be read.
func (s Store) Read(id string) ([]journal.Event, *journal.Damage, error) {
	path, err := s.Path(id)
	if err != nil {
		return nil, nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, missingOr(id, path, err)
	}
	defer f.Close()
	data, err := contents(f, path)
	if err != nil {
		return nil, nil, err
	}
	events, _, damage := decode(data)
	return events, damage, nil
}
