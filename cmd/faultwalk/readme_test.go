package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the program says today into the README; read every line before committing it")

// TestTheReadmeShowsWhatTheProgramSays runs every command that the README shows,
// and looks up what it shows of the scripted callout.
func TestTheReadmeShowsWhatTheProgramSays(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("runs every command of the README; without -short")
	}
	file := filepath.Join(root, "README.md")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	callout := says(t, "callout", "--answers", filepath.Join(root, "testdata/callouts/cylinder-stays-cold.answers"), "--jobs", t.TempDir())
	parts := strings.Split(string(text), "```\n")
	for i := 1; i < len(parts); i += 2 {
		if strings.HasPrefix(parts[i], "$ faultwalk ") {
			parts[i] = shown(t, parts[i])
		} else {
			parts[i] = excerpt(t, callout, parts[i])
		}
	}
	now := strings.Join(parts, "```\n")
	switch {
	case now == string(text):
	case *update:
		if err := os.WriteFile(file, []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
	default:
		t.Errorf("the README shows what the program does not say any more; run go test ./cmd/faultwalk -run Readme -update and read the difference.\n%s", differs(string(text), now))
	}
}

// shown gives the commands of a block with what they write today.
func shown(t *testing.T, block string) string {
	t.Helper()
	var out strings.Builder
	for _, one := range strings.SplitAfter("\n"+block, "\n$ faultwalk ")[1:] {
		line := ""
		for _, l := range strings.SplitAfter(one, "\n") {
			line += l
			if !strings.HasSuffix(l, "\\\n") {
				break
			}
		}
		out.WriteString("$ faultwalk " + line)
		out.WriteString(says(t, words(strings.ReplaceAll(line, "\\\n", " "))...))
	}
	return out.String()
}

// words cuts a command line, quotes heeded.
func words(line string) (all []string) {
	for i, quoted := range strings.Split(line, `"`) {
		if i%2 == 1 {
			all = append(all, quoted)
			continue
		}
		all = append(all, strings.Fields(quoted)...)
	}
	return all
}

// excerpt finds a block in a longer text by its first and its last line, and
// gives what stands there today.
func excerpt(t *testing.T, whole, block string) string {
	t.Helper()
	lines := strings.SplitAfter(strings.TrimSuffix(block, "\n"), "\n")
	first, last := lines[0], lines[len(lines)-1]
	from := strings.Index(whole, "\n"+first)
	if from < 0 {
		t.Fatalf("the scripted callout never says %q, with which the README begins a block", first)
	}
	rest := whole[from+1:]
	to := strings.Index(rest, "\n"+last+"\n")
	if to < 0 {
		t.Fatalf("after %q the scripted callout never says %q, with which the README ends that block", first, last)
	}
	return rest[:to+1] + last + "\n"
}

// says runs the program as somebody with a screen of 80 columns does.
func says(t *testing.T, args ...string) string {
	t.Helper()
	c := exec.Command(os.Args[0], args...)
	c.Env = append(os.Environ(), asProgram+"=1", "COLUMNS=80", "NO_COLOR=1", "XDG_CONFIG_HOME="+t.TempDir(), "XDG_STATE_HOME="+t.TempDir())
	var out, failed bytes.Buffer
	c.Stdout, c.Stderr = &out, &failed
	if err := c.Run(); err != nil {
		t.Fatalf("faultwalk %s: %v\n%s", strings.Join(args, " "), err, failed.String())
	}
	return out.String()
}

// differs shows the first lines in which two texts differ.
func differs(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := 0; i < min(len(x), len(y)); i++ {
		if x[i] != y[i] {
			return "README: " + x[i] + "\nprogram: " + y[i]
		}
	}
	return "one is longer than the other"
}
