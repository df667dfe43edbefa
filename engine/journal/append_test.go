package journal_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/journal"
)

func TestAppendRefusesWhatCouldNotBeReadBack(t *testing.T) {
	t.Parallel()
	_, second := write(t, everyKind()[:1])
	wrong := func(change func(*journal.Event)) journal.Event {
		e := note(2, "x")
		change(&e)
		return e
	}
	reading := func(v journal.Value) any { return &journal.Read{Values: []journal.Value{v}} }
	for name, c := range map[string]struct {
		prev journal.Tail
		e    journal.Event
		want string
	}{
		"out of turn":      {second, note(3, "x"), "event 3 out of turn; expected event 2"},
		"again":            {second, note(1, "x"), "event 1 out of turn; expected event 2"},
		"not opened":       {journal.Start(), note(1, "x"), `expected "opened" as the first event`},
		"opened twice":     {second, wrong(func(e *journal.Event) { e.Kind, e.Body = journal.KindOpened, &journal.Opened{Format: 1} }), `event 2 is "opened"`},
		"other format":     {journal.Start(), wrong(func(e *journal.Event) { e.N, e.Kind, e.Body = 1, journal.KindOpened, &journal.Opened{Format: 2} }), "expected a body with format 1"},
		"no opened":        {journal.Start(), wrong(func(e *journal.Event) { e.N, e.Kind, e.Body = 1, journal.KindOpened, (*journal.Opened)(nil) }), "expected a body with format 1"},
		"no time":          {second, wrong(func(e *journal.Event) { e.At = time.Time{} }), "no time that can be written"},
		"year of 5 digits": {second, wrong(func(e *journal.Event) { e.At = e.At.AddDate(8000, 0, 0) }), "no time that can be written"},
		"no such kind":     {second, wrong(func(e *journal.Event) { e.Kind = "guessed" }), "event 2 (guessed): there is no such kind"},
		"no body":          {second, wrong(func(e *journal.Event) { e.Body = nil }), "expected *journal.Noted"},
		"nil body":         {second, wrong(func(e *journal.Event) { e.Body = (*journal.Noted)(nil) }), "expected *journal.Noted"},
		"body by value":    {second, wrong(func(e *journal.Event) { e.Body = journal.Noted{} }), "the body is journal.Noted; expected *journal.Noted"},
		"other body":       {second, wrong(func(e *journal.Event) { e.Body = &journal.Stopped{} }), "the body is *journal.Stopped"},
		"low no number":    {second, wrong(func(e *journal.Event) { e.Kind, e.Body = journal.KindRead, reading(journal.Value{Low: math.NaN()}) }), "low is NaN"},
		"high below all":   {second, wrong(func(e *journal.Event) { e.Kind, e.Body = journal.KindRead, reading(journal.Value{High: -inf}) }), "high is -Inf"},
		"endless wait": {second, wrong(func(e *journal.Event) {
			e.Kind, e.Body = journal.KindActed, &journal.Acted{Act: journal.Act{Minutes: inf}}
		}), "+Inf"},
		"too long": {second, note(2, strings.Repeat("x", journal.MaxLine)), "expected at most 65536: shorten its text"},
	} {
		line, next, err := journal.Append(c.prev, c.e)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", name, err, c.want)
		}
		if line != nil || next != c.prev {
			t.Errorf("%s: refused, and yet wrote %q and went on to %v", name, line, next)
		}
	}
}

func TestLongestLineIsReadBack(t *testing.T) {
	t.Parallel()
	opened, tail := write(t, everyKind()[:1])
	short, _, _ := journal.Append(tail, note(2, ""))
	longest, next, err := journal.Append(tail, note(2, strings.Repeat("x", journal.MaxLine-len(short))))
	if err != nil || len(longest) != journal.MaxLine {
		t.Fatalf("wrote %d bytes: %v", len(longest), err)
	}
	if _, end, damage := journal.Decode(append(opened, longest...)); damage != nil || end != next {
		t.Errorf("got %v, %v", end, damage)
	}
}

func TestBrokenTextIsMendedAndReadBackTheSame(t *testing.T) {
	t.Parallel()
	e := note(2, "caf\xe9 \xff")
	e.By = "\xe9ngineer"
	data, _ := write(t, []journal.Event{everyKind()[0], e})
	events, _, damage := journal.Decode(data)
	if damage != nil {
		t.Fatal(damage)
	}
	want := note(2, "caf\uFFFD \uFFFD")
	want.By = "\uFFFDngineer"
	if diff := cmp.Diff(want, events[1]); diff != "" {
		t.Error(diff)
	}
}

func TestTimesAreKeptInUTCToTheMillisecond(t *testing.T) {
	t.Parallel()
	e := note(2, "x")
	e.At = time.Date(2026, 11, 26, 0, 30, 1, 999_999_999, time.FixedZone("", 3600))
	data, _ := write(t, []journal.Event{everyKind()[0], e})
	events, _, damage := journal.Decode(data)
	if want := time.Date(2026, 11, 25, 23, 30, 1, 999_000_000, time.UTC); damage != nil || events[1].At != want {
		t.Errorf("got %v (%v), want %v", events[1].At, damage, want)
	}
}

func TestTypedTextStaysReadable(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind())
	for _, want := range []string{`"typed":"<1"`, `"typed":">20M","low":20000000}`, `"typed":"OL","open":true`, `unit & fixed`, `"core 0.75 mm²"`} {
		if !strings.Contains(string(data), want) {
			t.Errorf("%s is not in the journal", want)
		}
	}
}
