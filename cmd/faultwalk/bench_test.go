//go:build unix

package main

import (
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
)

// The time from starting the program until it asks its first question, as a
// process of its own; hold: 60 ms. Beside it the same binary doing nothing but
// starting, which is the floor.
func BenchmarkStartToFirstPrompt(b *testing.B) {
	dir := b.TempDir()
	for b.Loop() {
		finishesWith(b, strings.NewReader(""), "callout", "--jobs", dir)
	}
}

func BenchmarkStartOfTheProgramAlone(b *testing.B) {
	for b.Loop() {
		finishesWith(b, nil, "--version")
	}
}

// A whole scripted callout, and the most memory it took; hold: 60 MB.
func BenchmarkWholeCallout(b *testing.B) {
	dir := b.TempDir()
	most := 0.0
	for b.Loop() {
		state := finishesWith(b, nil, "callout", "--answers", root+"/testdata/callouts/cylinder-stays-cold.answers", "--jobs", dir)
		if u, ok := state.SysUsage().(*syscall.Rusage); ok {
			most = max(most, float64(u.Maxrss)/1024)
		}
	}
	b.ReportMetric(most, "MiB-peak")
}

func finishesWith(b *testing.B, in *strings.Reader, args ...string) *os.ProcessState {
	b.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "XDG_CONFIG_HOME="+b.TempDir())
	if in != nil {
		cmd.Stdin = in
	}
	cmd.Run() // an ended input is exit 1, and so meant
	if cmd.ProcessState == nil {
		b.Fatal("the program did not start")
	}
	return cmd.ProcessState
}
