//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Somebody who takes a job up must know that a box stands open and live before
// anything else is asked.
func TestResumeSaysWhatStandsOpenWithPowerOn(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	var begun []string
	for _, line := range scripted(t) {
		begun = append(begun, line)
		if line == "239.5" { // a reading with the covers off
			break
		}
	}
	answers := filepath.Join(dir, "answers")
	if err := os.WriteFile(answers, []byte(strings.Join(begun, "\n")+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := start(t, dir, "callout", "--answers", answers)
	for range s.out {
	}
	s.cmd.Wait()
	s = start(t, dir, "resume")
	s.prompted()
	s.in.Close()
	for range s.out {
	}
	s.cmd.Wait()
	if got := strings.Join(strings.Fields(s.seen.String()), " "); !strings.Contains(got, "It was left open with power on: the control enclosure. Nobody reaches in.") {
		t.Errorf("resumed with:\n%s", s.seen.String())
	}
}
