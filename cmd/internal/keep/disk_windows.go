package keep

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// lockNow takes the lock of an open file, or ErrBusy if another process has it.
func lockNow(f *os.File) error {
	err := lockByte(f, windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY)
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) || errors.Is(err, windows.ERROR_IO_PENDING) {
		return ErrBusy
	}
	return err
}

func lockWaiting(f *os.File) error { return lockByte(f, windows.LOCKFILE_EXCLUSIVE_LOCK) }

func unlock(f *os.File) error {
	return windows.UnlockFileEx(windows.Handle(f.Fd()), 0, 1, 0, farByte())
}

// lockByte locks one byte far beyond every journal: a lock on Windows keeps
// others from reading what it covers, and a job in use can still be listed.
func lockByte(f *os.File, flags uint32) error {
	return windows.LockFileEx(windows.Handle(f.Fd()), flags, 0, 1, 0, farByte())
}

func farByte() *windows.Overlapped { return &windows.Overlapped{OffsetHigh: 1 << 30} }

// syncFolder has nothing to do: NTFS journals the names in a folder, and a
// folder cannot be opened for flushing without special rights.
func syncFolder(string) error { return nil }

func isFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}

func isReadOnly(err error) bool { return errors.Is(err, windows.ERROR_WRITE_PROTECT) }

// removeOpen removes a file. Windows wants it closed first; if another process
// opens it in between, the removal fails and says so.
func removeOpen(f locked) error {
	f.Close()
	return os.Remove(f.Name())
}
