package journal_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"math"
	"os"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/journal"
)

var inf = math.Inf(1)

// at is an invented evening, a second and a bit apart.
func at(n int) time.Time {
	return time.Date(2026, 11, 25, 18, 0, 0, 0, time.UTC).Add(time.Duration(n) * 1001 * time.Millisecond)
}

// everyKind is a job that never was, with each kind of event and each key once.
func everyKind() []journal.Event {
	bodies := []struct {
		kind string
		body any
	}{
		{journal.KindOpened, &journal.Opened{Format: 1, Job: "2026-11-25-1", Build: "test", Jurisdiction: "gb", Trees: "0a1b", Safety: "2c3d"}},
		{journal.KindAnswered, &journal.Answered{Ask: "plant", Choice: "millrace-small", Values: map[string]string{"unit": "monobloc", "board-fed": "unit"}}},
		{journal.KindHanded, &journal.Handed{Hands: journal.Hands{Kind: "apprentice", Certificates: []string{"unvented"}, Supervisor: "the senior engineer", Phone: true, Kit: []string{"multimeter"}, ProvingUnit: true, Calibration: "2026-03-01", Name: "apprentice"}}},
		{journal.KindActed, &journal.Acted{Act: journal.Act{Do: journal.ActWait, On: "hot-water", Minutes: 10.5}, Outcome: journal.Cannot, Form: []journal.Field{{Name: "L-N", Typed: "0.1", Value: 0.1}}, Why: "the \"spur\" is <behind> the unit & fixed", Cautions: []string{"several-supplies"}}},
		{journal.KindRead, &journal.Read{Step: "limit-out", Check: "driven at limit-out calling hot-water", Measured: "9f8e", Purpose: journal.ForTree, Values: []journal.Value{
			{As: "ln", Mode: "low impedance", Meter: "multimeter", Typed: "<1", Low: 0, High: 1, Moving: true},
			{As: "r", Mode: "ohms", Meter: "multimeter", Typed: "OL", Low: inf, High: inf, Open: true},
			{As: "i", Mode: "insulation", Meter: "installation-tester", Typed: ">20M", Low: 20e6, High: inf},
			{As: "t", Mode: "thermometer", Meter: "thermometer", Typed: "−0,3", Low: -0.3, High: -0.3},
		}, Answer: "coil-leg", Expected: "207 – 253 V", Verdict: "dead", Leads: "diverter-run", Cautions: []string{"low-impedance"}}},
		{journal.KindSkipped, &journal.Skipped{Step: "legs", Check: "legs", Why: "lagged"}},
		{journal.KindTurned, &journal.Turned{To: "controller-blank", Why: "the screen went off"}},
		{journal.KindRetracted, &journal.Retracted{Event: 5, Why: "wrong terminal"}},
		{journal.KindRepaired, &journal.Repaired{Cause: "open-core of switch-wire", Did: "both ends remade", Parts: []string{"core 0.75 mm²"}}},
		{journal.KindNoted, &journal.Noted{Text: "line one\nline two\ttab \u2028 \b\f \x01 \\ufffd 🔧"}},
		{journal.KindStopped, &journal.Stopped{Why: "interrupted"}},
		{journal.KindResumed, &journal.Resumed{Build: "test", Trees: "0a1b"}},
		{journal.KindClosed, &journal.Closed{As: journal.Referred, Words: "left off", To: "the network operator"}},
	}
	var events []journal.Event
	for i, b := range bodies {
		events = append(events, journal.Event{N: i + 1, At: at(i), By: "the engineer", Kind: b.kind, Body: b.body})
	}
	return events
}

func note(n int, text string) journal.Event {
	return journal.Event{N: n, At: at(n), By: "the engineer", Kind: journal.KindNoted, Body: &journal.Noted{Text: text}}
}

// write appends events to an empty journal.
func write(t testing.TB, events []journal.Event) ([]byte, journal.Tail) {
	t.Helper()
	var data []byte
	tail := journal.Start()
	for _, e := range events {
		line, next, err := journal.Append(tail, e)
		if err != nil {
			t.Fatal(err)
		}
		data, tail = append(data, line...), next
	}
	return data, tail
}

// seal gives a line whose sum fits, whatever stands in it: text lacks only its last brace.
func seal(prev journal.Tail, text string) string {
	sum := sha256.Sum256([]byte(prev.Sum + text + "}"))
	return text + `,"sum":"` + hex.EncodeToString(sum[:8]) + "\"}\n"
}

func lines(data []byte) [][]byte {
	split := bytes.SplitAfter(data, []byte("\n"))
	return split[:len(split)-1]
}

// The file pins the bytes: a journal written by an older build must go on being
// read, whatever a newer compiler's library thinks of JSON.
func TestEveryKindIsWrittenAsItAlwaysWas(t *testing.T) {
	t.Parallel()
	want, err := os.ReadFile("testdata/every-kind.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	got, _ := write(t, everyKind())
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Error(diff)
	}
}

func TestEveryKindIsReadBackAsItWas(t *testing.T) {
	t.Parallel()
	data, tail := write(t, everyKind())
	events, end, damage := journal.Decode(data)
	if damage != nil {
		t.Fatal(damage)
	}
	if diff := cmp.Diff(everyKind(), events); diff != "" {
		t.Error(diff)
	}
	if end != tail || end.N != len(events)+1 {
		t.Errorf("the tail is %v after writing and %v after reading", tail, end)
	}
}

func TestEmptyJournalIsTheStart(t *testing.T) {
	t.Parallel()
	events, tail, damage := journal.Decode(nil)
	if len(events) != 0 || tail != journal.Start() || damage != nil {
		t.Errorf("got %v, %v, %v", events, tail, damage)
	}
	first, _, err := journal.Append(journal.Tail{}, everyKind()[0])
	if again, _, _ := journal.Append(journal.Start(), everyKind()[0]); err != nil || !bytes.Equal(first, again) {
		t.Errorf("the zero Tail writes %s (%v), Start %s", first, err, again)
	}
}
