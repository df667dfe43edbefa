package terminal

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
)

var seen = []Option{
	{ID: "cylinder-stays-cold", Text: "The cylinder stays cold", Detail: "no hot water at any tap"},
	{ID: "controller-blank", Text: "The controller is blank"},
	{ID: "no-heat-demand", Text: "No heat demand is seen"},
}

var commands = []Option{
	{ID: "why", Detail: "what this is asked for"},
	{ID: "back"},
	{ID: "hand-over"},
	{ID: "note", Words: true},
}

// session gives what a file of answers shows of a session, without the frame.
func session(t *testing.T, answers string, run func(*Face)) string {
	t.Helper()
	var shown strings.Builder
	run(NewLines(strings.NewReader(answers), &shown, 60))
	return shown.String()
}

func TestLinesReadLikeASession(t *testing.T) {
	t.Parallel()
	got := session(t, "# second visit\n2\nnote the lid is loose\n", func(f *Face) {
		for range 2 {
			if _, err := f.Choose("What do you see?", seen, commands); err != nil {
				t.Error(err)
			}
		}
	})
	list := `What do you see?
  1) The cylinder stays cold
     no hot water at any tap
  2) The controller is blank
  3) No heat demand is seen
  or: why, back, hand over, note …
`
	want := list + "# second visit\nNumber or word: 2\n" + list + "Number or word: note the lid is loose\n"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestChoiceIsTakenByNumberIDTextOrBeginning(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]Choice{
		"1":                       {ID: "cylinder-stays-cold"},
		"2)":                      {ID: "controller-blank", Index: 1},
		" 3. ":                    {ID: "no-heat-demand", Index: 2},
		"controller-blank":        {ID: "controller-blank", Index: 1},
		"No Heat  Demand":         {ID: "no-heat-demand", Index: 2},
		"the controller is blank": {ID: "controller-blank", Index: 1},
		"the cyl":                 {ID: "cylinder-stays-cold"},
		"WHY":                     {ID: "why", Command: true},
		"hand over":               {ID: "hand-over", Index: 2, Command: true},
		"hand-over":               {ID: "hand-over", Index: 2, Command: true},
		"note":                    {ID: "note", Index: 3, Command: true},
		"note Lid is loose":       {ID: "note", Index: 3, Command: true, Words: "Lid is loose"},
	} {
		got, why := find(typed, seen, commands)
		if got != want || why != "" {
			t.Errorf("%q: got %+v, %q; want %+v", typed, got, why, want)
		}
	}
}

func TestWordsThatNoOtherOptionHasAreTaken(t *testing.T) {
	t.Parallel()
	options := []Option{{ID: "large", Text: "Large: a box of its own"}, {ID: "small", Text: "Small: on the wall"}}
	for typed, want := range map[string]string{"wall": "small", "own box": "large", "WALL small": "small"} {
		if c, why := find(typed, options, nil); c.ID != want {
			t.Errorf("%q chooses %q (%s), not %q", typed, c.ID, why, want)
		}
	}
	for _, typed := range []string{"box wall", "wa ll", "roof"} {
		if c, why := find(typed, options, nil); why == "" {
			t.Errorf("%q chooses %q", typed, c.ID)
		}
	}
}

func TestWrongChoiceGetsOneLineAndIsAskedAgain(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]string{
		"":                     "Nothing was chosen: expected a number from 1 to 3, or",
		"0":                    `"0" is none of these: expected a number from 1 to 3`,
		"4":                    `"4" is none of these`,
		"-1":                   `"-1" is none of these`,
		"the":                  `"the" fits 2 of these (1, 2): type more of it, or the number.`,
		"why though":           `"why though" is none of these`,
		"bac":                  `"bac" is none of these`, // a command is given whole
		"99999999999999999999": `is none of these`,
	} {
		got := session(t, typed+"\n3\n", func(f *Face) {
			c, err := f.Choose("What?", seen, commands)
			if err != nil || c.ID != "no-heat-demand" {
				t.Errorf("%q then 3: got %+v, %v", typed, c, err)
			}
		})
		if !strings.Contains(strings.Join(strings.Fields(got), " "), want) {
			t.Errorf("%q: want %q in\n%s", typed, want, got)
		}
		if n := strings.Count(got, "Number or word:"); n != 2 {
			t.Errorf("%q: asked %d times, want 2\n%s", typed, n, got)
		}
	}
}

func TestNumberOutOfTheListMayBeginAText(t *testing.T) {
	t.Parallel()
	breakers := []Option{{ID: "small", Text: "16 A"}, {ID: "large", Text: "40 A"}}
	if c, why := find("40", breakers, nil); c.ID != "large" {
		t.Errorf("got %+v, %q", c, why)
	}
}

func TestChoiceWithoutOptionsIsAnError(t *testing.T) {
	t.Parallel()
	if _, err := NewLines(strings.NewReader("1\n"), io.Discard, 80).Choose("What?", nil, nil); err == nil {
		t.Error("no error")
	}
}

func TestLineIsAskedUntilTheCheckTakesIt(t *testing.T) {
	t.Parallel()
	check := func(s string) error {
		if s != "231" {
			return errors.New("expected volts,\nfor example 231")
		}
		return nil
	}
	got := session(t, "\nblue\n231\n", func(f *Face) {
		if s, err := f.Line("Volts", check); s != "231" || err != nil {
			t.Errorf("got %q, %v", s, err)
		}
	})
	why := "expected volts, for example 231\n"
	want := "Volts: \n" + why + "Volts: blue\n" + why + "Volts: 231\n"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestEmptyLineIsAnAnswerWhereTheCheckTakesIt(t *testing.T) {
	t.Parallel()
	session(t, "\n", func(f *Face) {
		if s, err := f.Line("Press Enter when done", nil); s != "" || err != nil {
			t.Errorf("got %q, %v", s, err)
		}
	})
}

func TestLongLabelStandsAboveItsMark(t *testing.T) {
	t.Parallel()
	got := session(t, "231\n", func(f *Face) {
		f.Line("Live to neutral at the booster terminals,\nheat call on, high impedance, in volts", nil)
	})
	want := "Live to neutral at the booster terminals, heat call on, high\nimpedance, in volts\n> 231\n"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestEndOfInputIsErrEndAndTheQuestionShows(t *testing.T) {
	t.Parallel()
	got := session(t, "", func(f *Face) {
		if _, err := f.Line("Volts", nil); err != ErrEnd {
			t.Errorf("line: got %v", err)
		}
		if _, err := f.Choose("What?", seen, nil); err != ErrEnd {
			t.Errorf("choice: got %v", err)
		}
		if _, err := f.Text("Note"); err != ErrEnd {
			t.Errorf("text: got %v", err)
		}
	})
	if !strings.HasPrefix(got, "Volts: \n") || !strings.HasSuffix(got, "Note: \n") {
		t.Errorf("got %q", got)
	}
}

func TestEveryKindOfLineEndAndAMissingOneAreRead(t *testing.T) {
	t.Parallel()
	session(t, "\uFEFFone\r\ntwo\rthree\nfour", func(f *Face) {
		for _, want := range []string{"one", "two", "three", "four"} {
			if s, err := f.Line("?", nil); s != want || err != nil {
				t.Errorf("got %q, %v, want %q", s, err, want)
			}
		}
	})
}

func TestTypedControlCharactersDoNotReachTheScreen(t *testing.T) {
	t.Parallel()
	got := session(t, "2\x1b[2J3\x00\u202E1\xff\n", func(f *Face) {
		if s, err := f.Line("Volts", nil); s != "2[2J31\uFFFD" || err != nil {
			t.Errorf("got %q, %v", s, err)
		}
	})
	if strings.ContainsAny(got, "\x1b\x00\u202E") {
		t.Errorf("got %q", got)
	}
}

func TestTooLongALineIsRefused(t *testing.T) {
	t.Parallel()
	got := session(t, strings.Repeat("9", 100_000)+"\n12\n", func(f *Face) {
		if s, err := f.Line("Volts", nil); s != "12" || err != nil {
			t.Errorf("got %.20q, %v", s, err)
		}
	})
	if !strings.Contains(got, "expected at most 4096 bytes") {
		t.Errorf("got %.200q", got)
	}
}

func TestErrorsOfTheTwoEndsAreReturned(t *testing.T) {
	t.Parallel()
	broken := errors.New("wire cut")
	f := NewLines(iotest.ErrReader(broken), io.Discard, 80)
	if _, err := f.Line("Volts", nil); !errors.Is(err, broken) {
		t.Errorf("reading: got %v", err)
	}
	f = NewLines(iotest.DataErrReader(strings.NewReader("1\n2\n")), io.Discard, 80)
	f.Line("Volts", nil)
	if s, err := f.Line("Volts", nil); s != "2" || err != nil {
		t.Errorf("data with its end: got %q, %v", s, err)
	}
	tried := 0
	f = NewLines(strings.NewReader("1\n"), brokenWriter{&tried, broken}, 80)
	f.Print("hello")
	if _, err := f.Choose("What?", seen, nil); !errors.Is(err, broken) || !errors.Is(f.Err(), broken) {
		t.Errorf("writing: got %v, %v", err, f.Err())
	}
	if tried != 1 {
		t.Errorf("wrote %d times to what was lost at the first", tried)
	}
	f = NewLines(stuck{}, io.Discard, 80)
	if _, err := f.Text("Note"); !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("a reader that gives nothing: got %v", err)
	}
}

type brokenWriter struct {
	tried *int
	err   error
}

func (w brokenWriter) Write([]byte) (int, error) {
	*w.tried++
	return 0, w.err
}

type stuck struct{}

func (stuck) Read([]byte) (int, error) { return 0, nil }

func TestAnInterruptedWaitLosesNothingTyped(t *testing.T) {
	t.Parallel()
	r, w := io.Pipe()
	reads := &counted{Reader: r}
	f := NewLines(reads, io.Discard, 80)
	stop := make(chan os.Signal, 1)
	for range 2 {
		stop <- os.Interrupt
		if _, err := f.in.line(stop); err != ErrInterrupted {
			t.Fatalf("got %v", err)
		}
	}
	go io.WriteString(w, "231\n")
	if s, err := f.Line("Volts", nil); s != "231" || err != nil {
		t.Errorf("got %q, %v", s, err)
	}
	if n := reads.begun.Load(); n != 1 {
		t.Errorf("%d reads at once; the one given up goes on", n)
	}
}

// counted counts the reads begun.
type counted struct {
	io.Reader
	begun atomic.Int32
}

func (c *counted) Read(p []byte) (int, error) {
	c.begun.Add(1)
	return c.Reader.Read(p)
}

func TestPipeShowsThePromptBeforeItWaits(t *testing.T) {
	t.Parallel()
	in, answers, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	shown, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	f := New(in, out, func(string) string { return "" })
	go func() {
		defer out.Close()
		f.Line("Volts", nil)
	}()
	prompt := make([]byte, len("Volts: "))
	if _, err := io.ReadFull(shown, prompt); err != nil || string(prompt) != "Volts: " {
		t.Fatalf("got %q, %v", prompt, err)
	}
	io.WriteString(answers, "# remark\n231\n")
	rest, _ := io.ReadAll(shown)
	if string(rest) != "# remark\nVolts: 231\n" {
		t.Errorf("got %q", rest)
	}
	if f.Colour() || f.Width() != 80 {
		t.Errorf("colour %v, width %d", f.Colour(), f.Width())
	}
}

func TestWidthIsThatOfCOLUMNSWhereItIsSensible(t *testing.T) {
	t.Parallel()
	in, out := os.Stdin, tempFile(t)
	for columns, want := range map[string]int{"40": 40, "": 80, "0": 80, "-3": 80, "wide": 80, "99999": 80} {
		f := New(in, out, func(name string) string { return map[string]string{"COLUMNS": columns}[name] })
		if f.Width() != want {
			t.Errorf("COLUMNS=%s: got %d, want %d", columns, f.Width(), want)
		}
	}
	if got := NewLines(in, out, 3).Width(); got != 20 {
		t.Errorf("got %d, want the narrowest", got)
	}
}

func tempFile(t *testing.T) *os.File {
	t.Helper()
	f, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}
