//go:build unix

package keep

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// lockNow takes the lock of an open file, or ErrBusy if another process has it.
func lockNow(f *os.File) error {
	err := flock(f, unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return ErrBusy
	}
	return err
}

func lockWaiting(f *os.File) error { return flock(f, unix.LOCK_EX) }

func unlock(f *os.File) error { return flock(f, unix.LOCK_UN) }

func flock(f *os.File, how int) error {
	for {
		if err := unix.Flock(int(f.Fd()), how); err != unix.EINTR {
			return err
		}
	}
}

// syncFolder puts the names in a folder on the disk. File systems that cannot
// do that for folders say EINVAL; they write names through by themselves.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return trouble("store in the folder", dir, err)
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, unix.EINVAL) && !errors.Is(err, unix.ENOTSUP) {
		return trouble("store in the folder", dir, err)
	}
	return nil
}

func isFull(err error) bool {
	return errors.Is(err, unix.ENOSPC) || errors.Is(err, unix.EDQUOT)
}

func isReadOnly(err error) bool { return errors.Is(err, unix.EROFS) }

// removeOpen removes a file while its lock is still held, so that no other
// process can begin to write to it in between.
func removeOpen(f locked) error {
	defer f.Close()
	return os.Remove(f.Name())
}
