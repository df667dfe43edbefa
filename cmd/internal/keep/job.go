package keep

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"sync"

	"faultwalk/engine/journal"
)

// Job is a journal that is open for writing, by this process alone. Its methods
// may be called from several goroutines, as when an interrupt is recorded.
type Job struct {
	ID string
	// Events are what the journal held when it was opened, as it was written:
	// Append does not add to them.
	Events []journal.Event
	// Mended says in a sentence what Open had to mend; mostly it is empty.
	Mended string

	store  Store
	path   string
	mu     sync.Mutex
	file   disk
	info   fs.FileInfo // to see that the path still leads to the open file
	size   int64
	tail   journal.Tail
	broken error
}

// disk is what a Job needs of its file; tests let it fail.
type disk interface {
	io.WriterAt
	io.Closer
	Sync() error
	Truncate(size int64) error
}

// Append writes the events, a line each, and returns once the disk holds them.
// After an error none of them is stored. When there was no room they can be
// given again; after [ErrBroken] the job must be opened anew.
func (j *Job) Append(events ...journal.Event) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.broken != nil || len(events) == 0 {
		return j.broken
	}
	var text []byte
	tail := j.tail
	for _, e := range events {
		line, next, err := journal.Append(tail, e)
		if err != nil {
			return fmt.Errorf("job %s: %w", j.ID, err)
		}
		text, tail = append(text, line...), next
	}
	if err := j.ready(len(text)); err != nil {
		return err
	}
	if err := j.write(text); err != nil {
		return err
	}
	j.size, j.tail = j.size+int64(len(text)), tail
	return nil
}

// ready sees that the journal is where it was and as it was left: an editor that
// saves the file puts another in its place, and what is written then is lost.
func (j *Job) ready(more int) error {
	if j.size+int64(more) > journal.MaxFile {
		return fmt.Errorf("job %s is full at %d bytes: close it and begin another", j.ID, j.size)
	}
	info, err := os.Stat(j.path)
	switch {
	case err != nil:
		return trouble("store the answer in", j.path, err)
	case !os.SameFile(info, j.info) || info.Size() != j.size:
		return fmt.Errorf("cannot store the answer in %s: something else changed the file while the job was open: resume the job to see what it holds", j.path)
	}
	return nil
}

func (j *Job) write(text []byte) error {
	if _, err := j.file.WriteAt(text, j.size); err != nil {
		j.takeBack()
		return j.failed(err)
	}
	if err := j.file.Sync(); err != nil {
		// What the system holds after this is unknown, and a second sync
		// would succeed without writing what the first one lost.
		j.takeBack()
		j.broken = ErrBroken
		return j.failed(err)
	}
	return nil
}

func (j *Job) failed(err error) error {
	err = trouble("store the answer in", j.path, err)
	if j.broken != nil {
		return fmt.Errorf("%w; %w", err, j.broken)
	}
	return err
}

// takeBack removes what was written of a line that did not fit, so that it can
// be tried again.
func (j *Job) takeBack() {
	if err := j.file.Truncate(j.size); err != nil {
		j.broken = ErrBroken
	}
}

// Close lets other processes have the job.
func (j *Job) Close() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.broken == nil {
		j.broken = fmt.Errorf("job %s is closed: %w", j.ID, ErrBroken)
	}
	return j.file.Close()
}
