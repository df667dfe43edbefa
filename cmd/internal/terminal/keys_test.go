package terminal

import (
	"io"
	"strings"
	"testing"

	"github.com/manifoldco/promptui"
	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

// typing gives a filter that reads s and then ends.
func typing(s string, list bool) *keys {
	src := newSource(nil, 1)
	src.keys, src.keySize = strings.NewReader(s), 1
	return &keys{list: list, next: func() (byte, error) { return src.key(nil) }}
}

func TestFilterKnowsTheTextThatPromptuiHolds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		parts := []string{"2", "Ω", "度", " ", "O", "L", "[", "\x7f", "\x08", "\x02", "\x06", "\x1b", "\x1b[D", "\x1b[C",
			"\x1bOD", "\x1b[3~", "\x1b[1;5C", "\x04", "\x1a", "\x12", "\xe2\x82", "\xff", "\t", "\x00"}
		typed := strings.Join(rapid.SliceOf(rapid.SampledFrom(parts)).Draw(t, "keys"), "")
		k := typing(typed, false)
		passed, err := io.ReadAll(k)
		if err != nil {
			t.Fatal(err)
		}
		cursor := promptui.NewCursor("", nil, false)
		for _, r := range string(passed) {
			switch r {
			case keyLeft, keyRight, keyBack:
				cursor.Listen([]rune{}, 0, r)
			default:
				if r < ' ' || r == 127 {
					t.Fatalf("%q passed", r)
				}
				cursor.Listen([]rune{r}, 0, r)
			}
		}
		if cursor.Get() != string(k.text) || cursor.Position != k.place {
			t.Fatalf("promptui has %q at %d, the filter %q at %d", cursor.Get(), cursor.Position, string(k.text), k.place)
		}
	})
}

func TestListTakesNoKeyThatMovesInATextOrByPages(t *testing.T) {
	t.Parallel()
	passed, _ := io.ReadAll(typing("\x1b[C\x1b[D\x02\x06\x1b[B\x1b[A\x1b[B", true))
	if want := "\x08\x10\x0e"; string(passed) != want { // the first arrow marks the first row
		t.Errorf("got %q, want %q", passed, want)
	}
}

func TestEachEndingIsTold(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]error{
		"2\r":      errEntered,
		"2\n":      errEntered,
		"2\x03":    ErrInterrupted,
		"\x04":     ErrEnd,
		"2\x04":    ErrEnd, // the terminal's end, not the key's
		"2":        ErrEnd,
		"\x1b":     ErrEnd,
		"\x1b[":    ErrEnd,
		"\x1b\r":   errEntered,
		"\x1b[1\r": errEntered,
		"\xe2\x82": ErrEnd,
	} {
		k := typing(typed, false)
		if io.ReadAll(k); k.end != want {
			t.Errorf("%q: got %v, want %v", typed, k.end, want)
		}
	}
}

func TestNoRowIsPaintedWiderThanTheTerminal(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		parts := []string{"ab ", "度", "é", "…", "\x1b[36m", "\x1b[0m", "\x1b[1A", "\x1b[2K\r", "\n", "\a", ": ", "x"}
		width := rapid.IntRange(20, 40).Draw(t, "width")
		paint := strings.Join(rapid.SliceOf(rapid.SampledFrom(parts)).Draw(t, "paint"), "")
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"a", "度", " "})).Draw(t, "text"), "")
		prompt := "Volts: "
		at := rapid.IntRange(0, len([]rune(text))).Draw(t, "place")
		row := string([]rune(text)[:at]) + string(caret) + string([]rune(text)[at:])
		var shown strings.Builder
		p := &painter{out: &shown, width: func() int { return width }, prompt: prompt}
		io.WriteString(p, "\x1b[2K\r"+paint)
		io.WriteString(p, "\n\x1b[2K\r"+prompt+row)
		last := ""
		for _, line := range between.Split(shown.String(), -1) {
			last = colouring.ReplaceAllString(line, "")
			if w := runewidth.StringWidth(last); w > width {
				t.Fatalf("%q is %d wide, want at most %d", last, w, width)
			}
		}
		if !strings.HasPrefix(last, prompt) || !strings.Contains(last, "_") {
			t.Fatalf("%q shows no place to type", last)
		}
		io.WriteString(p, "7")
		if strings.HasSuffix(shown.String(), "7") {
			t.Fatal("readline's own line shows")
		}
		if got, want := strings.Count(shown.String(), "\x1b[0m"), strings.Count(paint, "\x1b[0m"); got != want {
			t.Fatalf("%d of %d colours ended", got, want)
		}
	})
}
