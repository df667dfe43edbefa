package terminal

import (
	"strings"
	"text/template"

	"github.com/manifoldco/promptui"
)

// unkeyed is the code of a key nobody has.
const unkeyed = -1000

// menu is one choice as a select: the options, then the commands, which are
// reached by going on down or by typing them. It is painted from one goroutine
// and asked for its result when that has ended.
type menu struct {
	face              *Face
	options, commands []Option
	paints            int
	active            int // the marked row, -1 if the search found none
}

// build makes the select. It begins in search mode, because there a number, a
// word or a command is typed as on lines, and because outside it the letters h,
// j, k and l are arrows. No key leaves the mode.
func (m *menu) build() *promptui.Select {
	rows := make([]int, len(m.options)+len(m.commands))
	for i := range rows {
		rows[i] = i
	}
	details, ways := m.belows()
	s := &promptui.Select{
		Label:             "Arrows and Enter, or type.",
		Items:             rows,
		Size:              m.size(details + ways),
		HideHelp:          true,
		HideSelected:      true,
		StartInSearchMode: true,
		Searcher:          m.matches,
		Pointer:           pointer,
		Keys: &promptui.SelectKeys{
			Prev: promptui.Key{Code: keyUp}, Next: promptui.Key{Code: keyDown},
			PageUp: promptui.Key{Code: unkeyed}, PageDown: promptui.Key{Code: unkeyed}, Search: promptui.Key{Code: unkeyed},
		},
		Templates: &promptui.SelectTemplates{
			FuncMap:  template.FuncMap{"label": m.label, "active": m.mark, "row": m.row, "below": m.below},
			Label:    "{{ label . }}",
			Active:   "{{ active . }}",
			Inactive: "  {{ row . }}",
			Selected: "{{ row . }}",
			Help:     "{{ . }}",
		},
	}
	if details+ways > 0 {
		s.Templates.Details = "{{ below . }}"
	}
	return s
}

// size is how many rows of the list show: the options, as far as the terminal's
// height goes with what stands above and below. A paint higher than the terminal
// would leave copies of itself.
func (m *menu) size(below int) int {
	_, height := m.face.size()
	return max(1, min(max(len(m.options), listRows), height-frameRows-below))
}

// label is painted before the rows, so it also begins a paint.
func (m *menu) label(text string) string {
	m.paints++
	m.active = -1
	return text
}

// mark marks the active row, by a sign and by colour. Before the first key
// nothing is marked, and nothing can be entered.
func (m *menu) mark(i int) string {
	if m.paints == 1 {
		return "  " + m.row(i)
	}
	m.active = i
	if m.face.colour {
		return "> \x1b[36m" + m.row(i) + "\x1b[0m"
	}
	return "> " + m.row(i)
}

func (m *menu) row(i int) string {
	if i < len(m.options) {
		return numbered(i, len(m.options)) + m.options[i].Text
	}
	c := m.commands[i-len(m.options)]
	if c.Detail == "" {
		return said([]Option{c})
	}
	return said([]Option{c}) + ": " + c.Detail
}

// belows counts the rows below the list: those of the longest detail, unless all
// was listed above, and those of the commands, unless the terminal is too low.
func (m *menu) belows() (details, commands int) {
	columns, height := m.face.size()
	if m.face.fits(m.options) {
		for _, o := range m.options {
			if o.Detail != "" {
				details = max(details, len(detailOf(o, columns)))
			}
		}
	}
	for _, line := range offered(m.commands) {
		commands = len(Wrap(line, columns))
	}
	if frameRows+listRows+details+commands > height {
		commands = 0
	}
	return details, commands
}

// below gives what stands below the list, always as many rows: the marked
// option's detail and the commands.
func (m *menu) below(i int) string {
	details, commands := m.belows()
	columns, _ := m.face.size()
	rows := make([]string, details+commands)
	if i < len(m.options) && m.options[i].Detail != "" && m.paints != 1 {
		copy(rows[:details], detailOf(m.options[i], columns))
	}
	for _, line := range offered(m.commands) {
		copy(rows[details:], Wrap(line, columns))
	}
	return strings.Join(rows, "\n")
}

// matches is the search: what has one exact meaning leaves only that, anything
// else the rows that have it somewhere.
func (m *menu) matches(typed string, i int) bool {
	if c, ok := exact(typed, m.options, m.commands); ok {
		return i == m.place(c)
	}
	if i < len(m.options) {
		o := m.options[i]
		return strings.Contains(strings.Join(o.names(), "\n"), fold(typed))
	}
	return strings.Contains(fold(said(m.commands[i-len(m.options):][:1])), fold(typed))
}

// place is the row of a choice.
func (m *menu) place(c Choice) int {
	if c.Command {
		return len(m.options) + c.Index
	}
	return c.Index
}

// chosen gives the choice with the words to show for it, or one line that says
// what was expected.
func (m *menu) chosen(k *keys) (choice Choice, shown, why string) {
	switch {
	case k.end != errEntered:
		return Choice{}, k.typed(), ""
	case !k.touched || m.active < 0:
		choice, why = find(k.typed(), m.options, m.commands)
		return choice, k.typed(), why
	case m.active < len(m.options):
		return Choice{ID: m.options[m.active].ID, Index: m.active}, strings.TrimSpace(m.row(m.active)), ""
	}
	if c, ok := Command(k.typed(), m.commands); ok && m.place(c) == m.active {
		return c, k.typed(), ""
	}
	i := m.active - len(m.options)
	return Choice{ID: m.commands[i].ID, Index: i, Command: true}, spoken(m.commands[i]), ""
}
