package terminal

import (
	"errors"
	"strings"
	"text/template"

	"github.com/manifoldco/promptui"
	"github.com/mattn/go-runewidth"
)

// The header of a select is promptui's to write and a variable of its package;
// it says the same as the line reader.
func init() { promptui.SearchPrompt = choosePrompt }

// readKeys takes one line with promptui's prompt. There is never a default: an
// Enter must not record a reading nobody took. What was asked and answered
// stays behind as the line reader would show it.
func (f *Face) readKeys(prompt string) (string, error) {
	k, stop := f.keys(false)
	p := promptui.Prompt{
		Label:   prompt,
		Pointer: pointer,
		Stdin:   k,
		Stdout:  &painter{out: f.out, width: f.Width, prompt: prompt},
		Templates: &promptui.PromptTemplates{
			Prompt: "{{ . }}", Valid: "{{ . }}", Invalid: "{{ . }}", Success: "{{ . }}", ValidationError: "{{ . }}",
			FuncMap: template.FuncMap{},
		},
	}
	_, err := p.Run()
	stop()
	return k.typed(), f.finish(k, err, prompt+k.typed())
}

// pickRow takes one choice with promptui's select, which is searched by typing.
func (f *Face) pickRow(options, commands []Option) (choice Choice, why string, err error) {
	k, stop := f.keys(true)
	m := &menu{face: f, options: options, commands: commands, active: -1}
	s := m.build()
	s.Stdin = k
	s.Stdout = &painter{out: f.out, width: f.Width, prompt: choosePrompt}
	_, _, err = s.Run()
	stop()
	choice, shown, why := m.chosen(k)
	err = f.finish(k, err, choosePrompt+shown)
	return choice, why, err
}

// keys gives what a prompt reads, and what to call when it has ended.
func (f *Face) keys(list bool) (*keys, func()) {
	stop, done := f.stops()
	next := func() (byte, error) {
		if err := f.out.err(); err != nil {
			return 0, err
		}
		return f.in.key(stop)
	}
	return &keys{next: next, list: list}, done
}

// finish puts the answer in the place of the row that promptui leaves empty, and
// tells why the prompt ended: nil if by Enter.
func (f *Face) finish(k *keys, err error, shown string) error {
	if k.end == nil {
		return errors.Join(errors.New("the prompt ended by itself"), err)
	}
	f.write("\x1b[1A\r\x1b[2K")
	f.Print(shown)
	if k.end == errEntered {
		return nil
	}
	return k.end
}

// pointer marks the place and hides nothing, where promptui's own covers the
// character it stands on.
func pointer(under []rune) []rune { return append([]rune{caret}, under...) }

// fits reports whether a select shows every option whole: its text on one row,
// the details in the few rows that may stand below.
func (f *Face) fits(options []Option) bool {
	columns, rows := f.size()
	for i, o := range options {
		if runewidth.StringWidth(numbered(i, len(options))+o.Text)+rowIndent > columns {
			return false
		}
		if o.Detail != "" && (rows < detailHeight || len(detailOf(o, columns)) > detailRows) {
			return false
		}
	}
	return true
}

const (
	rowIndent    = 4  // promptui's scroll mark and ours, each with a space
	detailRows   = 3  // rows for a detail below a select
	detailHeight = 12 // rows a terminal must have for that
	listRows     = 3  // rows a list keeps where commands follow the options
	frameRows    = 3  // the header, the label, and the row of the cursor
)

func detailOf(o Option, columns int) []string {
	return Wrap(strings.Repeat(" ", rowIndent)+o.Detail, columns)
}
