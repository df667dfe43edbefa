package journal_test

import (
	"bytes"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"faultwalk/engine/journal"
)

// body draws any body, with any text, for events after the first.
func body(t *rapid.T) (kind string, drawn any) {
	texts := rapid.SliceOfN(rapid.String(), 0, 3)
	text := func(name string) string { return rapid.String().Draw(t, name) }
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0:
		return journal.KindRead, &journal.Read{Check: text("check"), Verdict: text("verdict"), Cautions: texts.Draw(t, "cautions"),
			Values: rapid.SliceOfN(rapid.Custom(value), 0, 3).Draw(t, "values")}
	case 1:
		return journal.KindAnswered, &journal.Answered{Ask: text("ask"), Values: rapid.MapOfN(rapid.String(), rapid.String(), 0, 3).Draw(t, "map")}
	case 2:
		return journal.KindHanded, &journal.Handed{Hands: journal.Hands{Kind: text("hands"), Phone: rapid.Bool().Draw(t, "phone"), Kit: texts.Draw(t, "kit")}}
	case 3:
		minutes := rapid.Float64Range(-1e300, 1e300).Draw(t, "minutes")
		return journal.KindActed, &journal.Acted{Act: journal.Act{Do: text("do"), Minutes: minutes}, Form: []journal.Field{}}
	}
	return journal.KindNoted, &journal.Noted{Text: string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))}
}

func value(t *rapid.T) journal.Value {
	end := rapid.OneOf(rapid.Float64Range(-1e300, 1e300), rapid.Just(inf))
	return journal.Value{Typed: rapid.String().Draw(t, "typed"), Low: end.Draw(t, "low"), High: end.Draw(t, "high"),
		Open: rapid.Bool().Draw(t, "open"), Moving: rapid.Bool().Draw(t, "moving")}
}

func event(t *rapid.T, n int) journal.Event {
	e := journal.Event{N: n, By: rapid.String().Draw(t, "by"), Kind: journal.KindOpened, Body: &journal.Opened{Format: 1, Job: rapid.String().Draw(t, "job")}}
	seconds, nanos := rapid.Int64Range(0, 4e9).Draw(t, "seconds"), rapid.Int64Range(0, 1e9).Draw(t, "nanos")
	e.At = time.Unix(seconds, nanos).In(time.FixedZone("", rapid.IntRange(-12, 14).Draw(t, "zone")*3600))
	if n > 1 {
		e.Kind, e.Body = body(t)
	}
	return e
}

func TestReplayGivesTheSameBytes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var data, again []byte
		tail := journal.Start()
		for n := range rapid.IntRange(1, 8).Draw(t, "events") {
			line, next, err := journal.Append(tail, event(t, n+1))
			if err != nil {
				t.Fatal(err)
			}
			data, tail = append(data, line...), next
		}
		events, end, damage := journal.Decode(data)
		if damage != nil || end != tail || len(events) != tail.N-1 {
			t.Fatalf("%s\nreads as %d events to %v, %v", data, len(events), end, damage)
		}
		at := journal.Start()
		for _, e := range events {
			line, next, err := journal.Append(at, e)
			if err != nil {
				t.Fatal(err)
			}
			again, at = append(again, line...), next
		}
		if !bytes.Equal(data, again) {
			t.Fatal(cmp.Diff(string(data), string(again)))
		}
	})
}

// Whatever the bytes, what Decode takes is what Append writes, and a journal it
// gives a Tail for can be gone on with.
func FuzzRead(f *testing.F) {
	data, _ := write(f, everyKind())
	f.Add(data, false)
	f.Add(data[:len(data)-1], false)
	f.Add(data[:len(data)/2], false)
	for _, line := range lines(data) {
		f.Add(line[:bytes.LastIndex(line, []byte(`,"sum"`))], true)
	}
	two, _ := write(f, everyKind()[:2])
	f.Fuzz(func(t *testing.T, data []byte, sealed bool) {
		if sealed { // a third line that fits its sum, or a first
			_, at, _ := journal.Decode(two)
			first := []byte(seal(journal.Start(), string(data)))
			goesOn(t, first)
			data = append(bytes.Clone(two), seal(at, string(data))...)
		}
		goesOn(t, data)
	})
}

func goesOn(t *testing.T, data []byte) {
	events, tail, damage := journal.Decode(data)
	again, end := write(t, events)
	whole := len(data)
	if damage != nil {
		whole = damage.Offset
	}
	if end != tail || !bytes.Equal(bytes.TrimSuffix(again, []byte("\n")), bytes.TrimSuffix(data[:whole], []byte("\n"))) {
		t.Fatalf("%q reads as what is written %q (%v, %v)", data, again, tail, damage)
	}
	if len(events) == 0 {
		return
	}
	line, next, err := journal.Append(tail, note(tail.N, "and on"))
	if err != nil {
		t.Fatal(err)
	}
	if _, end, damage := journal.Decode(append(again, line...)); damage != nil || end != next {
		t.Fatalf("%q cannot be gone on with: %v", again, damage)
	}
}

func BenchmarkAppend(b *testing.B) {
	read := everyKind()[4]
	read.N = 2
	_, tail := write(b, everyKind()[:1])
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := journal.Append(tail, read); err != nil {
			b.Fatal(err)
		}
	}
}

// A callout of 150 events.
func BenchmarkDecode(b *testing.B) {
	events := everyKind()[:1]
	for n := 2; n <= 150; n++ {
		e := everyKind()[1+n%12]
		e.N = n
		events = append(events, e)
	}
	data, _ := write(b, events)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, damage := journal.Decode(data); damage != nil {
			b.Fatal(damage)
		}
	}
}
