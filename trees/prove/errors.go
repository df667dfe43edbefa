package prove

import (
	"fmt"
	"strings"
)

// Error says what is wrong with one condition.
type Error struct {
	Branch  int // index of the branch; 0 for a condition compiled alone, -1 for the set as a whole
	Line    int // from 1, within the condition
	Column  int // from 0, in characters
	Message string
}

// Error gives line:column: message, the column counted from 1, or the message alone for a set as a whole.
func (e Error) Error() string {
	if e.Branch < 0 {
		return e.Message
	}
	return fmt.Sprintf("%d:%d: %s", e.Line, e.Column+1, e.Message)
}

// Errors is everything that is wrong with a condition or a set.
type Errors []Error

// Error lists the errors a line each.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// Undecided says why the proof cannot tell which readings a condition owns.
type Undecided struct {
	Branch int // index of the branch; 0 for a condition compiled alone
	Line   int // from 1, within the condition
	Column int // from 0, in characters
	Reason string
}

// String gives line:column: reason, the column counted from 1.
func (u Undecided) String() string { return fmt.Sprintf("%d:%d: %s", u.Line, u.Column+1, u.Reason) }

// lineColumn turns an offset in characters into a line from 1 and a column from 0.
func lineColumn(source string, offset int) (line, column int) {
	line = 1
	for _, r := range source {
		if offset == 0 {
			break
		}
		offset--
		column++
		if r == '\n' {
			line, column = line+1, 0
		}
	}
	return line, column
}
