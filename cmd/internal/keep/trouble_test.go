//go:build unix

package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"
)

func TestTroubleSaysWhatHelps(t *testing.T) {
	t.Parallel()
	for errno, want := range map[syscall.Errno]string{
		syscall.ENOSPC: "cannot open /x: no space left on device: free some space, then try again; everything stored before is kept",
		syscall.EDQUOT: "cannot open /x: disk quota exceeded: free some space, then try again; everything stored before is kept",
		syscall.EROFS:  "cannot open /x: read-only file system: the disk is read-only: make it writable, or choose another folder",
		syscall.EACCES: "cannot open /x: permission denied: this needs permission to write there: see whose folder it is, or choose another",
		syscall.ENOENT: "cannot open /x: no such file or directory: it was moved or removed meanwhile: put it back, or begin anew",
		syscall.EIO:    "cannot open /x: input/output error",
	} {
		err := trouble("open", "/x", &fs.PathError{Op: "open", Path: "/x", Err: errno})
		if err.Error() != want || !errors.Is(err, errno) {
			t.Errorf("got %v, want %s", err, want)
		}
		if again := trouble("do more with", "/y", fmt.Errorf("so: %w", err)); again.Error() != "so: "+want {
			t.Errorf("worded twice: %v", again)
		}
	}
}
