package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// errLater says that a line holds what only a later build can know.
var errLater = errors.New("written by a later version of faultwalk")

// newBody gives an empty body for a kind, or nil for a kind this build does not know.
func newBody(kind string) any {
	switch kind {
	case KindOpened:
		return new(Opened)
	case KindAnswered:
		return new(Answered)
	case KindHanded:
		return new(Handed)
	case KindActed:
		return new(Acted)
	case KindRead:
		return new(Read)
	case KindSkipped:
		return new(Skipped)
	case KindTurned:
		return new(Turned)
	case KindRetracted:
		return new(Retracted)
	case KindRepaired:
		return new(Repaired)
	case KindNoted:
		return new(Noted)
	case KindStopped:
		return new(Stopped)
	case KindResumed:
		return new(Resumed)
	case KindClosed:
		return new(Closed)
	}
	return nil
}

// ofKind checks that a body is the one its kind names, by pointer and not nil.
func ofKind(kind string, body any) error {
	want := newBody(kind)
	if want == nil {
		return fmt.Errorf("there is no such kind of event")
	}
	got := reflect.ValueOf(body)
	if !got.IsValid() || got.Type() != reflect.TypeOf(want) || got.IsNil() {
		return fmt.Errorf("the body is %T; expected %T, not nil", body, want)
	}
	return nil
}

// bodyOf reads a body strictly: a key this build does not know is errLater.
func bodyOf(kind string, text []byte) (any, error) {
	body := newBody(kind)
	if body == nil {
		return nil, fmt.Errorf("%w: the kind %.40q is not known here", errLater, kind)
	}
	return body, strictly(text, body)
}

// strictly decodes one JSON value that fills the whole text.
func strictly(text []byte, into any) error {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	err := dec.Decode(into)
	if err == nil {
		if _, more := dec.Token(); more != io.EOF {
			return errors.New("more than one value in the line")
		}
		return nil
	}
	// The library has no error type for this, only these words.
	if key, unknown := strings.CutPrefix(err.Error(), "json: unknown field "); unknown {
		return fmt.Errorf("%w: the key %.40s is not known here", errLater, key)
	}
	return err
}
