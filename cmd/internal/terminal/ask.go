package terminal

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"
)

// choosePrompt stands before the answer to a choice, on both faces.
const choosePrompt = "Number or word: "

// Choose asks label and takes one of the options, or one of the commands in its
// place. Nothing is chosen beforehand: an Enter alone is refused, so that a
// second press of the key does not answer the next question. What cannot be
// taken gets one line that says what was expected, and the question stays.
//
// Lines: the options are numbered; a number, an ID or an unambiguous beginning
// of the text is taken. Terminal: the arrow keys, or typing, which searches; the
// marked row is taken, or a command with the words typed behind it.
//
// The error is ErrInterrupted, ErrEnd, or that of a lost terminal.
func (f *Face) Choose(label string, options, commands []Option) (Choice, error) {
	if len(options)+len(commands) == 0 {
		return Choice{}, errors.New("a choice was asked for without options")
	}
	options, commands = flatten(options), flatten(commands)
	f.say(label)
	pick := f.pickLine
	if f.prompts {
		pick = f.pickRow
	}
	if !f.prompts || !f.fits(options) {
		f.Print(listed(options)...)
	}
	if !f.prompts {
		f.Print(offered(commands)...)
	}
	for {
		choice, why, err := pick(options, commands)
		if err != nil || why == "" {
			return choice, err
		}
		f.Print(why)
	}
}

// Line asks for one line and returns it without the space around it. check,
// which may be nil, refuses with a reason of one line; then the question is
// asked again. An empty line is an answer only if check takes it. Whether a
// line is a command is the caller's to say (see Command); check sees it first.
//
// The errors are those of Choose.
func (f *Face) Line(label string, check func(string) error) (string, error) {
	return f.read(label, check, f.prompts)
}

// Text asks for words of any length, such as a note, with the terminal's own
// line editing, which shows a long line whole. The errors are those of Choose.
func (f *Face) Text(label string) (string, error) {
	return f.read(label, nil, false)
}

func (f *Face) read(label string, check func(string) error, keys bool) (string, error) {
	prompt, line := f.promptFor(label), f.readLine
	if keys {
		line = f.readKeys
	}
	for {
		typed, err := line(prompt)
		if err == nil && len(typed) > longestLine {
			f.Print(fmt.Sprintf("That line is too long: expected at most %d bytes.", longestLine))
			continue
		}
		if err != nil || check == nil {
			return typed, err
		}
		why := check(typed)
		if why == nil {
			return typed, nil
		}
		f.Print(flat(why.Error()))
	}
}

// promptFor gives what stands before the answer: the label, or, where that
// would leave less than half the width to type in, a mark below it.
func (f *Face) promptFor(label string) string {
	label = flat(label)
	prompt := label + ": "
	if strings.HasSuffix(label, "?") || strings.HasSuffix(label, ":") {
		prompt = label + " "
	}
	if label == "" || runewidth.StringWidth(prompt) > f.Width()/2 {
		f.say(label)
		return "> "
	}
	return prompt
}

// say prints what is asked, in bold where that can be.
func (f *Face) say(label string) {
	label = flat(label)
	if label == "" {
		return
	}
	for _, line := range Wrap(label, f.Width()) {
		if f.colour {
			line = "\x1b[1m" + line + "\x1b[0m"
		}
		f.write(line + "\n")
	}
}

// listed gives the options numbered, details below them.
func listed(options []Option) []string {
	var out []string
	for i, o := range options {
		mark := numbered(i, len(options))
		out = append(out, "  "+mark+o.Text)
		if o.Detail != "" {
			out = append(out, strings.Repeat(" ", 2+len(mark))+o.Detail)
		}
	}
	return out
}

// numbered gives the mark before an option: "3) ", in a list of ten " 3) ".
func numbered(index, of int) string {
	return fmt.Sprintf("%*d) ", len(fmt.Sprint(of)), index+1)
}

// offered names the commands that are not quiet, on one line.
func offered(commands []Option) []string {
	loud := slices.DeleteFunc(slices.Clone(commands), func(o Option) bool { return o.Quiet })
	if len(loud) == 0 {
		return nil
	}
	return []string{"  or: " + said(loud)}
}
