package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"faultwalk/cmd/internal/command"
)

// asProgram makes this test binary run as the program itself, so that tests
// can start, watch and kill it without building it first.
const asProgram = "FAULTWALK_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(command.Main(os.Args[1:], command.OS()))
	}
	os.Exit(m.Run())
}

// scripted is what a person types in a whole callout, remarks left out.
func scripted(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "testdata/callouts/cylinder-stays-cold.answers"))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if !strings.HasPrefix(line, "#") {
			out = append(out, line)
		}
	}
	return out
}
