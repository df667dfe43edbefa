package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
)

// Decode reads a journal: its events, the Tail to append at, and what is wrong
// with it, or nil. Reading stops at the first damage, so that events and tail
// are those of the lines before it. Whole lines taken off the end leave no mark
// and cannot be noticed.
func Decode(data []byte) (events []Event, tail Tail, damage *Damage) {
	tail = Start()
	for offset := 0; offset < len(data); {
		line, rest, ended := bytes.Cut(data[offset:], []byte("\n"))
		after := len(data) - len(rest)
		if after > MaxFile {
			return events, tail, &Damage{Line: tail.N, Offset: offset, What: fmt.Sprintf("the journal goes on beyond %d bytes; expected at most that", MaxFile)}
		}
		e, next, damage := readLine(tail, line)
		if damage != nil {
			damage.Offset = offset
			damage.Torn = !damage.Later && len(rest) == 0 && isTorn(line, ended, tail.N)
			return events, tail, damage
		}
		events, tail, offset = append(events, e), next, after
		if !ended {
			return events, tail, &Damage{Line: e.N, Offset: offset, Torn: true, What: "the line is whole but for its line ending"}
		}
	}
	return events, tail, nil
}

// readLine reads one line, without its ending, that should follow prev.
func readLine(prev Tail, line []byte) (Event, Tail, *Damage) {
	bad := func(format string, args ...any) (Event, Tail, *Damage) {
		return Event{}, prev, &Damage{Line: prev.N, What: fmt.Sprintf(format, args...)}
	}
	if len(line) >= MaxLine {
		return bad("the line has %d bytes; expected at most %d", len(line), MaxLine-1)
	}
	text, sum, ok := unsummed(line)
	if !ok || sum != sumOf(prev.Sum, text) {
		if later := laterFormat(prev, line); later != nil {
			return Event{}, prev, later
		}
		return bad("%s", unfit(prev, line, ok))
	}
	e, err := eventOf(text)
	if errors.Is(err, errLater) {
		return Event{}, prev, &Damage{Line: prev.N, What: err.Error(), Later: true}
	}
	if err == nil {
		err = fits(prev.N, e)
	}
	if err != nil {
		return bad("the sum fits and the line cannot be read: %v", err)
	}
	again, next, err := write(prev, e)
	if err != nil || !bytes.Equal(bytes.TrimSuffix(again, []byte("\n")), line) {
		return bad("the sum fits and the line is not as faultwalk writes it; expected %.80q", again)
	}
	return e, next, nil
}

// unsummed parts a line into what its sum is over and the sum.
func unsummed(line []byte) (text []byte, sum string, ok bool) {
	const key, digits, end = `,"sum":"`, 16, `"}`
	at := len(line) - len(key) - digits - len(end)
	if at < 0 || !bytes.HasPrefix(line[at:], []byte(key)) || !bytes.HasSuffix(line, []byte(end)) {
		return nil, "", false
	}
	sum = string(line[at+len(key) : at+len(key)+digits])
	return append(bytes.Clone(line[:at]), '}'), sum, true
}

// unfit says why a line does not follow the one before it.
func unfit(prev Tail, line []byte, summed bool) string {
	var found struct{ N int }
	switch err := json.Unmarshal(line, &found); {
	case err != nil:
		return "this is no line of a journal; expected a JSON object with n, at, by, kind, body and sum"
	case !summed:
		return "the line does not end with its sum; it was altered"
	case found.N != prev.N:
		return fmt.Sprintf("found event %d; expected event %d: lines were taken out, put in or moved", found.N, prev.N)
	}
	return "the sum does not fit; this line was altered, or lines before it were taken out, put in or moved"
}

// laterFormat recognises a journal whose lines a later format may shape otherwise.
func laterFormat(prev Tail, line []byte) *Damage {
	var first struct {
		Kind string
		Body struct{ Format int }
	}
	if prev.N != 1 || json.Unmarshal(line, &first) != nil || first.Kind != KindOpened || first.Body.Format <= Format {
		return nil
	}
	return &Damage{Line: 1, Later: true, What: ofFormat(first.Body.Format).Error()}
}

func ofFormat(format int) error {
	return fmt.Errorf("%w: the journal has format %d, this build knows format %d", errLater, format, Format)
}

// eventOf reads a line without its sum.
func eventOf(text []byte) (Event, error) {
	var h head
	if err := strictly(text, &h); err != nil {
		return Event{}, err
	}
	at, err := timeOf(h.At)
	if err != nil {
		return Event{}, err
	}
	body, err := bodyOf(h.Kind, h.Body)
	if o, ok := body.(*Opened); ok && o.Format > Format {
		err = ofFormat(o.Format)
	}
	if err != nil {
		return Event{}, err
	}
	return Event{h.N, at, h.By, h.Kind, body}, nil
}
