package keep

import (
	"errors"
	"fmt"
	"os"

	"faultwalk/engine/journal"
)

// mend makes a torn journal end in a whole line and says what it did. What is
// cut off lies in ID.torn before it leaves the journal.
func (s Store) mend(f *os.File, id string, data []byte, damage *journal.Damage) (string, error) {
	said := fmt.Sprintf("line %d of job %s had no line ending; it has one now", damage.Line, id)
	cut := data[damage.Offset:]
	if len(cut) > 0 {
		if err := keepTorn(s.tornPath(id), cut); err != nil {
			return "", err
		}
		if err := syncFolder(s.Dir); err != nil {
			return "", err
		}
		said = fmt.Sprintf("line %d of job %s was never finished: its %d bytes are cut off and kept in %s; the answer must be given again",
			damage.Line, id, len(cut), s.tornPath(id))
	}
	if err := endAt(f, damage.Offset, data); err != nil {
		return "", trouble("mend", f.Name(), err)
	}
	return said, nil
}

// endAt cuts the file after so many bytes, ending its last line if need be.
func endAt(f *os.File, size int, data []byte) error {
	if err := f.Truncate(int64(size)); err != nil {
		return err
	}
	if data[size-1] != '\n' {
		if _, err := f.WriteAt([]byte("\n"), int64(size)); err != nil {
			return err
		}
	}
	return f.Sync()
}

// keepTorn adds to what was cut off earlier, each piece on lines of its own.
func keepTorn(path string, cut []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return trouble("keep what is cut off in", path, err)
	}
	_, err = f.Write(append(cut[:len(cut):len(cut)], '\n'))
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return trouble("keep what is cut off in", path, err)
	}
	return nil
}
