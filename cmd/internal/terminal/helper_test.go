package terminal

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"
)

// scene names, in the environment, what this test binary plays as the process
// behind a pseudo-terminal instead of running the tests.
const scene = "TERMINAL_SCENE"

func TestMain(m *testing.M) {
	if name := os.Getenv(scene); name != "" {
		os.Exit(play(name))
	}
	os.Exit(m.Run())
}

// play runs a scene; one called deaf does not hear a terminal hang up. It ends with 0, or with 130 if interrupted, 4 at the end of input, 5 if the
// terminal was lost.
func play(name string) int {
	if deaf, ok := strings.CutSuffix(name, " deaf"); ok {
		signal.Ignore(syscall.SIGHUP)
		name = deaf
	}
	err := scenes[name](New(os.Stdin, os.Stdout, os.Getenv))
	switch {
	case errors.Is(err, ErrInterrupted):
		fmt.Println("INTERRUPTED")
		return 130
	case errors.Is(err, ErrEnd):
		fmt.Println("END")
		return 4
	case err != nil:
		return 5
	}
	return 0
}

var scenes = map[string]func(*Face) error{
	"choose": func(f *Face) error { return choosing(f, seen) },
	"long":   func(f *Face) error { return choosing(f, longOptions) },
	"many":   func(f *Face) error { return choosing(f, manyOptions()) },
	"line":   lines,
	"text": func(f *Face) error {
		s, err := f.Text("Note")
		f.Print(fmt.Sprintf("TEXT %q", s))
		return err
	},
	"text then line": func(f *Face) error {
		s, err := f.Text("Note")
		if err != nil {
			return err
		}
		f.Print(fmt.Sprintf("TEXT %q", s))
		return lines(f)
	},
}

func choosing(f *Face, options []Option) error {
	f.Print("BEFORE")
	c, err := f.Choose("What do you see at the cylinder?", options, commands)
	if err == nil {
		f.Print(fmt.Sprintf("CHOSE %s %v %q", c.ID, c.Command, c.Words))
	}
	return err
}

func lines(f *Face) error {
	for i := range 2 {
		s, err := f.Line(fmt.Sprintf("Volts %d", i+1), volts)
		if err != nil {
			return err
		}
		f.Print(fmt.Sprintf("READ %q", s))
	}
	return nil
}

func volts(s string) error {
	if s == "" || s == "blue" {
		return errors.New("expected volts,\nsuch as 231")
	}
	return nil
}

var longOptions = []Option{
	{ID: "first", Text: "The cylinder stays cold although the controller shows that hot water is being made, and has for an hour", Detail: "measure nothing yet"},
	{ID: "second", Text: "Another"},
}

func manyOptions() []Option {
	var out []Option
	for i := range 30 {
		out = append(out, Option{ID: fmt.Sprintf("sign-%c", 'a'+i%26), Text: fmt.Sprintf("Sign number %d of thirty", i+1)})
	}
	return out
}
