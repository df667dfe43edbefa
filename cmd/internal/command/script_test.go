package command

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"faultwalk/engine/journal"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"faultwalk": func() { os.Exit(Main(os.Args[1:], OS())) },
	})
}

// TestScripts runs the command line as a person would. Jobs lie in
// $WORK/state/faultwalk; `job` puts the newest one's id into $JOB and its
// journal into $JOURNAL, and `harm` damages that.
func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_STATE_HOME", filepath.Join(e.WorkDir, "state"))
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "config"))
			e.Setenv("STATE", filepath.Join(e.WorkDir, "state", "faultwalk"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"job": newestJob, "harm": harm},
	})
}

// newestJob finds the journal with the highest number.
func newestJob(ts *testscript.TestScript, neg bool, args []string) {
	all, err := filepath.Glob(filepath.Join(ts.Getenv("STATE"), "*.jsonl"))
	ts.Check(err)
	if len(all) == 0 || neg || len(args) > 0 {
		ts.Fatalf("job: no journal in %s", ts.Getenv("STATE"))
	}
	last := all[len(all)-1]
	ts.Setenv("JOURNAL", last)
	ts.Setenv("JOB", filepath.Base(last[:len(last)-len(".jsonl")]))
}

// harm damages $JOURNAL in one of the ways a file comes to harm.
func harm(ts *testscript.TestScript, neg bool, args []string) {
	path := ts.Getenv("JOURNAL")
	data, err := os.ReadFile(path)
	ts.Check(err)
	lines := bytes.SplitAfter(data, []byte("\n"))
	switch how := args[0]; how {
	case "cut": // power fails while the last line is written
		data = data[:len(data)-30]
	case "garbled": // a bad block
		lines[5] = []byte("\x00\x17 no line at all\n")
		data = bytes.Join(lines, nil)
	case "altered": // somebody edits an answer
		data = bytes.Replace(data, []byte(`"choice":"electrical"`), []byte(`"choice":"householder"`), 1)
	case "later": // a newer program went on with it
		data = append(data, laterLine(lines)...)
	case "safety": // begun before the cautions were changed, by another program
		data = rewritten(ts, data)
	default:
		ts.Fatalf("harm: there is no %q", how)
	}
	ts.Check(os.WriteFile(path, data, 0o600))
}

// laterLine is a line whose sum fits and whose kind this program does not know.
func laterLine(lines [][]byte) []byte {
	sum := regexp.MustCompile(`"sum":"([0-9a-f]+)"`).FindSubmatch(lines[len(lines)-2])[1]
	text := fmt.Sprintf(`{"n":%d,"at":"2030-01-01T00:00:00.000Z","by":"x","kind":"predicted","body":{}}`, len(lines))
	next := sha256.Sum256([]byte(string(sum) + text))
	return fmt.Appendf(nil, "%s,\"sum\":%q}\n", text[:len(text)-1], hex.EncodeToString(next[:8]))
}

// rewritten is the journal as another build would have written it, with another
// hash of the safety data.
func rewritten(ts *testscript.TestScript, data []byte) []byte {
	events, _, _ := journal.Decode(data)
	tail := journal.Start()
	var out []byte
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Opened:
			b.Safety, b.Build = "00", "0.1"
		case *journal.Resumed:
			b.Build = "0.1"
		}
		line, next, err := journal.Append(tail, e)
		ts.Check(err)
		out, tail = append(out, line...), next
	}
	return out
}
