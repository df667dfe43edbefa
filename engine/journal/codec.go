package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strings"
	"time"
)

// The sizes a journal keeps to, in bytes. A callout of a hundred answers is
// about 40 KB, so that whatever is larger is no journal of a job.
const (
	MaxLine = 64 << 10 // one line with its line ending
	MaxFile = 64 << 20 // a whole journal
)

// instant is how a time is written: RFC 3339 in UTC, always with three decimals
// of a second, so that what was read back is written again in the same bytes.
const instant = "2006-01-02T15:04:05.000Z"

// Tail is what appending must know of the lines before: the N the next event
// must have, and the sum of the last line, which the next one's goes on from.
// The zero Tail and Start stand for a journal without lines.
type Tail struct {
	N   int
	Sum string
}

// Start is the Tail of a journal without lines.
func Start() Tail { return Tail{N: 1} }

func (t Tail) next() int { return max(t.N, 1) }

// head is a line without its sum. The order of the fields is their order in the line.
type head struct {
	N    int             `json:"n"`
	At   string          `json:"at"`
	By   string          `json:"by"`
	Kind string          `json:"kind"`
	Body json.RawMessage `json:"body"`
}

// Append writes e as the line that follows prev, line ending included, and gives
// the Tail after it. What it writes, Decode takes, and writes again in the same
// bytes: times are kept to the millisecond and text that is no UTF-8 is mended.
// It refuses an event out of turn, a body that does not fit its kind, a number
// that is not finite, and a line longer than MaxLine.
func Append(prev Tail, e Event) (line []byte, next Tail, err error) {
	if err = fits(prev.next(), e); err == nil {
		e, err = settled(e)
	}
	if err != nil {
		return nil, prev, err
	}
	return write(prev, e)
}

// write gives the line of an event that is settled already.
func write(prev Tail, e Event) (line []byte, next Tail, err error) {
	body, err := compact(e.Body)
	if err != nil {
		return nil, prev, inEvent(e, err)
	}
	text, err := compact(head{e.N, e.At.UTC().Format(instant), e.By, e.Kind, body})
	if err != nil {
		return nil, prev, inEvent(e, err)
	}
	sum := sumOf(prev.Sum, text)
	line = append(text[:len(text)-1], `,"sum":"`+sum+"\"}\n"...)
	if len(line) > MaxLine {
		return nil, prev, inEvent(e, fmt.Errorf("the line takes %d bytes; expected at most %d: shorten its text", len(line), MaxLine))
	}
	return line, Tail{e.N + 1, sum}, nil
}

func inEvent(e Event, err error) error {
	return fmt.Errorf("event %d (%s): %w", e.N, e.Kind, err)
}

// fits checks what an event says of itself before anything is written.
func fits(n int, e Event) error {
	switch year := e.At.UTC().Year(); {
	case e.N != n:
		return fmt.Errorf("event %d out of turn; expected event %d: read the journal again before adding to it", e.N, n)
	case (e.N == 1) != (e.Kind == KindOpened):
		return fmt.Errorf("event %d is %q; expected %q as the first event and nowhere else", e.N, e.Kind, KindOpened)
	case e.Kind == KindOpened && !ofThisFormat(e.Body):
		return fmt.Errorf("event 1 (opened): expected a body with format %d", Format)
	case e.At.IsZero() || year < 0 || year > 9999:
		return fmt.Errorf("event %d (%s) has no time that can be written: %v", e.N, e.Kind, e.At)
	}
	return nil
}

func ofThisFormat(body any) bool {
	o, ok := body.(*Opened)
	return ok && o != nil && o.Format == Format
}

// settled gives the event as it will be read back: an empty list is none, and
// text that is no UTF-8 is mended.
func settled(e Event) (Event, error) {
	if err := ofKind(e.Kind, e.Body); err != nil {
		return e, inEvent(e, err)
	}
	text, err := compact(e.Body)
	if err != nil {
		return e, inEvent(e, err)
	}
	if e.Body, err = bodyOf(e.Kind, text); err != nil {
		return e, inEvent(e, err)
	}
	e.By = strings.ToValidUTF8(e.By, "\uFFFD")
	return e, nil
}

// compact is JSON on one line that keeps <, > and & as they are typed: a
// journal is also read by people.
func compact(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// sumOf chains a line, without its own sum, to the sum of the line before:
// the first 8 bytes of a SHA-256. It finds what was cut, garbled or edited; it
// is no signature, since whoever rewrites every later line can sum them anew.
func sumOf(prev string, text []byte) string {
	h := sha256.New()
	h.Write([]byte(prev))
	h.Write(text)
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// timeOf reads an instant, in no other form than it is written in.
func timeOf(text string) (time.Time, error) {
	at, err := time.Parse(instant, text)
	if err != nil || at.Format(instant) != text {
		return time.Time{}, fmt.Errorf("at is %.40q; expected a time such as %s", text, instant)
	}
	return at, nil
}
