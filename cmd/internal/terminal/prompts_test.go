//go:build unix

package terminal

import (
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/mattn/go-runewidth"
)

const (
	up, down, left, right = "\x1b[A", "\x1b[B", "\x1b[D", "\x1b[C"
	deleteKey             = "\x1b[3~"
	ctrlC, ctrlD, ctrlZ   = "\x03", "\x04", "\x1a"
	back                  = "\x7f"
)

// ready is what a scene shows once it listens.
var ready = map[string]string{"choose": "or: why", "long": "or: why", "many": "or: why", "line": "Volts 1: _", "text": "Note:"}

// open starts a scene and waits until it listens: before, the terminal itself
// would show what is typed.
func open(t *testing.T, name string, columns, rows int, env ...string) *screenOf {
	t.Helper()
	s := start(t, name, columns, rows, env...)
	s.await(ready[strings.Fields(name)[0]])
	return s
}

func TestSelectPaintsNoLineTwiceAt80And40Columns(t *testing.T) {
	t.Parallel()
	for columns, rows := range map[int]int{80: 24, 40: 12} {
		s := open(t, "choose", columns, rows)
		s.shows(`
BEFORE
What do you see at the cylinder?
Number or word: _
Arrows and Enter, or type.
    1) The cylinder stays cold
    2) The controller is blank
↓   3) No heat demand is seen

  or: why, back, hand over, note …`)
		s.send(down)
		s.shows(`
BEFORE
What do you see at the cylinder?
Number or word: _
Arrows and Enter, or type.
  > 1) The cylinder stays cold
    2) The controller is blank
↓   3) No heat demand is seen
    no hot water at any tap
  or: why, back, hand over, note …`)
		s.send(strings.Repeat(down, 3) + up + "\x1bOB")
		s.shows(`
BEFORE
What do you see at the cylinder?
Number or word: _
Arrows and Enter, or type.
↑   2) The controller is blank
    3) No heat demand is seen
↓ > why: what this is asked for

  or: why, back, hand over, note …`)
		s.send(up + up + "\r")
		s.shows(`
BEFORE
What do you see at the cylinder?
Number or word: 2) The controller is` + map[int]string{80: " ", 40: "\n"}[columns] + `blank
CHOSE controller-blank false ""`)
		if code := s.exit(); code != 0 {
			t.Errorf("%d columns: exit %d", columns, code)
		}
	}
}

func TestOptionsWiderThanTheScreenAreListedWholeAbove(t *testing.T) {
	t.Parallel()
	s := open(t, "long", 40, 20)
	s.send(down)
	s.shows(`
BEFORE
What do you see at the cylinder?
  1) The cylinder stays cold although
     the controller shows that hot
     water is being made, and has for
     an hour
     measure nothing yet
  2) Another
Number or word: _
Arrows and Enter, or type.
  > 1) The cylinder stays cold althoug…
    2) Another
↓   why: what this is asked for
  or: why, back, hand over, note …`)
	s.send(down + up + down + "\r")
	s.await(`CHOSE second false ""`)
	if strings.Count(s.text(), "Another") != 2 {
		t.Errorf("stale rows\n%s", s.text())
	}
}

func TestTypingSearchesAndTakesNumbers(t *testing.T) {
	t.Parallel()
	s := open(t, "many", 40, 12)
	s.send("BER 2")
	s.shows(`
Number or word: BER 2_
Arrows and Enter, or type.
  >  2) Sign number 2 of thirty
    20) Sign number 20 of thirty
    21) Sign number 21 of thirty
    22) Sign number 22 of thirty
    23) Sign number 23 of thirty
    24) Sign number 24 of thirty
    25) Sign number 25 of thirty
↓   26) Sign number 26 of thirty
  or: why, back, hand over, note …`)
	s.send(strings.Repeat(back, 9) + "17")
	s.await("Number or word: 17_")
	s.await("> 17) Sign number 17")
	s.send("\r")
	s.await("CHOSE sign-q")
	if strings.Contains(s.text(), "Sign number 2 ") {
		t.Errorf("stale rows\n%s", s.text())
	}
}

func TestCommandsAreTypedOrReachedInASelect(t *testing.T) {
	t.Parallel()
	s := open(t, "choose", 40, 12)
	note := "note " + strings.Repeat("the lid is loose, ", 5) + "end of it"
	s.send(note)
	s.await("end of it_")
	for _, line := range strings.Split(s.text(), "\n") {
		if w := runewidth.StringWidth(line); w > 39 {
			t.Errorf("%q is %d wide", line, w)
		}
	}
	if n := strings.Count(s.text(), "Number or word"); n != 1 {
		t.Errorf("%d headers\n%s", n, s.text())
	}
	s.send("\r")
	s.await("CHOSE note true")
	if strings.Join(strings.Fields(s.text()), " ") != "BEFORE What do you see at the cylinder? Number or word: "+note+
		` CHOSE note true "`+strings.TrimPrefix(note, "note ")+`"` {
		t.Errorf("got\n%s", s.text())
	}
	s = open(t, "choose", 80, 24)
	s.send(up + strings.Repeat(down, 9) + up + "\r")
	s.await(`CHOSE hand-over true ""`)
}

func TestEnterAloneOrWithNonsenseChoosesNothing(t *testing.T) {
	t.Parallel()
	s := open(t, "choose", 80, 24)
	s.send("\r")
	s.await("Nothing was chosen: expected a number from 1 to 3")
	s.await("Number or word: _")
	s.send("banana")
	s.await("No results")
	s.send(right + up + left + down) // these crash a bare promptui
	s.send("\r")
	s.await(`"banana" is none of these`)
	s.await("Number or word: _")
	s.send("3\r")
	s.await("CHOSE no-heat-demand")
	if strings.Contains(s.text(), "No results") || strings.Contains(s.text(), "Arrows and") {
		t.Errorf("stale paint\n%s", s.text())
	}
	if !strings.HasPrefix(s.text(), "BEFORE\nWhat do you see at the cylinder?\nNumber or word:\nNothing was chosen") {
		t.Errorf("lines above were lost\n%s", s.text())
	}
}

func TestReadingIsTypedCheckedAndTypedAgain(t *testing.T) {
	t.Parallel()
	s := open(t, "line", 80, 24)
	s.send("blye" + left + back + "u" + right + "\r")
	s.shows("Volts 1: blue\nexpected volts, such as 231\nVolts 1: _")
	s.send("\r")
	s.shows("Volts 1: blue\nexpected volts, such as 231\nVolts 1:\nexpected volts, such as 231\nVolts 1: _")
	s.send("31" + left + left + "2")
	s.await("Volts 1: 2_31")
	s.send("\r")
	s.await("Volts 2: _")
	s.send("4.7 kΩ 度\r")
	s.shows(`
Volts 1: blue
expected volts, such as 231
Volts 1:
expected volts, such as 231
Volts 1: 231
READ "231"
Volts 2: 4.7 kΩ 度
READ "4.7 kΩ 度"`)
	if code := s.exit(); code != 0 {
		t.Errorf("exit %d", code)
	}
}

func TestKeysPromptuiWouldStumbleOverDoNothing(t *testing.T) {
	t.Parallel()
	s := open(t, "line", 80, 24)
	s.send("2" + deleteKey + ctrlZ + "\x12\x13\x0c\t" + ctrlD + up + down + "\x1b3\x1b[1;5H\xff\xe2\x821" + "\r")
	s.await(`READ "2 31"`)
	s.send("\x1bOL\r")
	s.await(`READ "OL"`)
	if code := s.exit(); code != 0 {
		t.Errorf("exit %d", code)
	}
}

func TestLongTypedTextStaysOnOneRow(t *testing.T) {
	t.Parallel()
	s := open(t, "line", 40, 10)
	long := "note " + strings.Repeat("abc def ", 12)
	s.send(long + "END")
	s.await("END_")
	if rows := strings.Split(s.text(), "\n"); len(rows) != 1 || runewidth.StringWidth(rows[0]) > 39 {
		t.Errorf("got\n%s", s.text())
	}
	s.send(strings.Repeat(left, 95) + "X")
	s.await("X_")
	if rows := strings.Split(s.text(), "\n"); len(rows) != 1 || runewidth.StringWidth(rows[0]) > 39 {
		t.Errorf("got\n%s", s.text())
	}
	s.send("\r")
	s.await("READ")
}

func TestCtrlCInterruptsAndRestoresTheTerminal(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"choose", "line", "text"} {
		s := open(t, name, 80, 24)
		s.send("b" + ctrlC)
		s.await("INTERRUPTED")
		if code := s.exit(); code != 130 {
			t.Errorf("%s: exit %d", name, code)
		}
		if raw := s.bytes(); strings.LastIndex(raw, "\x1b[?25l") > strings.LastIndex(raw, "\x1b[?25h") {
			t.Errorf("%s: the cursor stays hidden", name)
		}
	}
}

func TestSignalToStopInterruptsAPrompt(t *testing.T) {
	t.Parallel()
	s := open(t, "line", 80, 24)
	s.cmd.Process.Signal(syscall.SIGTERM)
	s.await("INTERRUPTED")
	if code := s.exit(); code != 130 {
		t.Errorf("exit %d", code)
	}
}

func TestCtrlDEndsUnlessTextIsHalfTyped(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"choose", "line", "text"} {
		s := open(t, name, 80, 24)
		if name != "text" {
			s.send("23" + ctrlD)
			s.await(": 23_")
			s.send(back + back)
			s.await(": _")
		}
		s.send(ctrlD)
		s.await("END")
		if code := s.exit(); code != 4 {
			t.Errorf("%s: exit %d", name, code)
		}
	}
}

// colourSequence matches what sets a colour, bold, or ends them (SGR, ECMA-48 8.3.117).
var colourSequence = regexp.MustCompile("\x1b\\[[0-9;:]*m")

func TestNoColourLeavesNoneAndColourCarriesNothingAlone(t *testing.T) {
	t.Parallel()
	var screens []string
	for _, env := range []string{"NO_COLOR=1", "NO_COLOR="} {
		s := open(t, "choose", 80, 24, env)
		s.send(down + down)
		s.await("> 2)")
		screens = append(screens, s.text())
		s.send("\r")
		s.await("CHOSE")
		if coloured := colourSequence.MatchString(s.bytes()); coloured != (env == "NO_COLOR=") {
			t.Errorf("%s: colour %v\n%q", env, coloured, s.bytes())
		}
	}
	if screens[0] != screens[1] {
		t.Errorf("the words differ\n%s\n%s", screens[0], screens[1])
	}
}

func TestDumbTerminalReadsLinesWithoutSequences(t *testing.T) {
	t.Parallel()
	for _, term := range []string{"TERM=dumb", "TERM="} {
		s := start(t, "choose", 40, 24, term)
		s.await("Number or word:")
		s.send("2\n")
		s.shows(`
BEFORE
What do you see at the cylinder?
  1) The cylinder stays cold
     no hot water at any tap
  2) The controller is blank
  3) No heat demand is seen
  or: why, back, hand over, note …
Number or word: 2
CHOSE controller-blank false ""`)
		if strings.Contains(s.bytes(), "\x1b") {
			t.Errorf("%s: %q", term, s.bytes())
		}
	}
}

func TestResizeBetweenAndInsidePrompts(t *testing.T) {
	t.Parallel()
	s := open(t, "long", 80, 24)
	s.resize(40, 24)
	s.send("\r")
	s.await("Nothing was chosen: expected a number")
	s.await("Number or word: _")
	s.send(down)
	s.await("  > 1) The cylinder stays cold althoug…")
	s.resize(30, 24)
	s.send(down)
	s.await("    1) The cylinder stays co…")
	s.await("  > 2) Another")
	if n := strings.Count(s.text(), "> "); n != 1 {
		t.Errorf("%d marked rows\n%s", n, s.text())
	}
}

func TestPastedLinesAnswerOneQuestionEach(t *testing.T) {
	t.Parallel()
	for _, end := range []string{"\r", "\n", "\r\n"} {
		s := open(t, "line", 80, 24)
		s.send("231" + end + "12 mV" + end)
		s.await(`READ "231"`)
		s.await(`READ "12 mV"`)
		if code := s.exit(); code != 0 {
			t.Errorf("%q: exit %d", end, code)
		}
	}
	s := open(t, "text then line", 80, 24)
	s.send("lid is loose\r231\r12\r")
	s.await(`TEXT "lid is loose"`)
	s.await(`READ "231"`)
	s.await(`READ "12"`)
}

func TestTextIsLongerThanAnyRow(t *testing.T) {
	t.Parallel()
	s := open(t, "text", 40, 10)
	note := strings.Repeat("loose lid ", 12) + "end"
	s.send(note + "\r")
	s.await("TEXT")
	s.exit()
	if got := strings.Join(strings.Fields(s.text()), " "); !strings.HasSuffix(got, `TEXT "`+note+`"`) {
		t.Errorf("got\n%s", s.text())
	}
}

func TestLostTerminalEndsTheProcess(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"choose", "line", "text"} {
		for _, hup := range []string{"SIGHUP ends it", "SIGHUP ignored"} {
			if hup == "SIGHUP ignored" {
				name += " deaf"
			}
			s := open(t, name, 80, 24)
			io.WriteString(s.pty, "23")
			s.pty.Close()
			code := s.exit()
			if hup == "SIGHUP ignored" && code != 4 && code != 5 {
				t.Errorf("%s: exit %d, want the end of input or a lost terminal", name, code)
			}
		}
	}
}

func TestLowTerminalKeepsThePaintWithinIt(t *testing.T) {
	t.Parallel()
	s := start(t, "choose", 35, 6)
	s.shows(`
Number or word: _
Arrows and Enter, or type.
    1) The cylinder stays cold
    2) The controller is blank
↓   3) No heat demand is seen`)
	s.send(strings.Repeat(down, 5) + strings.Repeat(up, 2))
	s.shows(`
Number or word: _
Arrows and Enter, or type.
↑ > 3) No heat demand is seen
    why: what this is asked for
↓   back`)
}

func TestBrokenPipeIsAnErrorOfTheNextQuestion(t *testing.T) {
	t.Parallel()
	gone, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	gone.Close()
	cmd := exec.Command(os.Args[0])
	cmd.Env = []string{scene + "=choose"}
	cmd.Stdin, cmd.Stdout = strings.NewReader("1\n"), out
	cmd.Run()
	out.Close()
	if code := cmd.ProcessState.ExitCode(); code != 5 {
		t.Errorf("%v, want exit 5", cmd.ProcessState)
	}
}
