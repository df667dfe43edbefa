package terminal

import (
	"strings"
	"unicode"
)

// caret marks, inside what promptui paints, where the next character goes. It
// is of the private use area: nobody's text has it.
const caret = '\uE000'

// plain leaves out what would move the cursor, colour the screen or turn the
// order of reading, since words come from files and pipes too. A tab becomes
// four spaces.
func plain(s string) string {
	s = strings.ReplaceAll(s, "\t", "    ")
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || turnsOrder(r) || r == caret || r == '\u2028' || r == '\u2029' {
			return -1
		}
		return r
	}, s)
}

// turnsOrder reports the bidirectional controls of UAX #9, 2.1 to 2.6.
func turnsOrder(r rune) bool {
	return r >= '\u202A' && r <= '\u202E' || r >= '\u2066' && r <= '\u2069' || r == '\u200E' || r == '\u200F'
}

// flat is s on one line, runs of white space being one space.
func flat(s string) string {
	return plain(strings.Join(strings.Fields(s), " "))
}
