package keep

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// makeFolder makes a folder and what it lies in, each on the disk in the folder
// above it before the next, so that a journal never lies in one that a loss of
// power takes away.
func makeFolder(dir string) error {
	switch info, err := os.Stat(dir); {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return trouble("make the folder", dir, errors.New("a file stands where the folder should be: move it, or choose another folder"))
	case !errors.Is(err, fs.ErrNotExist):
		return trouble("make the folder", dir, err)
	}
	above := filepath.Dir(dir)
	if err := makeFolder(above); err != nil {
		return err
	}
	if err := os.Mkdir(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return trouble("make the folder", dir, err)
	}
	return syncFolder(above)
}

// writeWhole stores a file so that after any interruption it is there whole or
// not at all. The caller holds the folder's lock.
func writeWhole(path string, data []byte) error {
	part := path + ".part"
	f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return trouble("store", path, err)
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(part, path)
	}
	if err != nil {
		os.Remove(part)
		return trouble("store", path, err)
	}
	return syncFolder(filepath.Dir(path))
}
