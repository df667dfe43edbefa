package journal

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Damage says where a journal stops being readable. The events before it stand.
type Damage struct {
	Line   int    // from 1
	Offset int    // bytes of the journal that are whole, up to that line
	What   string // one line: what was found and what was expected

	// Torn: the last line was never written to its end, as when power fails. It
	// was not acknowledged, and what follows Offset may be cut off.
	Torn bool
	// Later: a later build wrote the line. Read only; nothing may be overwritten.
	Later bool
}

// Error gives the damage with its line.
func (d *Damage) Error() string { return fmt.Sprintf("line %d: %s", d.Line, d.What) }

// isTorn says whether the last line is the beginning of the line that Append
// would have written there, rather than something else put into the file. After
// a loss of power a file may end in zero bytes that stand for what never came.
func isTorn(line []byte, ended bool, n int) bool {
	text, zeros, hole := bytes.Cut(line, []byte{0})
	if ended && !hole || len(line) > MaxLine {
		return false
	}
	if hole && !ended && len(bytes.Trim(zeros, "\x00")) > 0 {
		return false
	}
	begin := fmt.Appendf(nil, `{"n":%d,"at":"`, n)
	some := min(len(begin), len(text))
	return bytes.Equal(begin[:some], text[:some]) && !json.Valid(text[:bytes.LastIndexByte(text, '}')+1])
}
