package walk_test

import (
	"testing"

	"faultwalk/engine/journal"
)

// lines are the events as a journal holds them.
func lines(t *testing.T, events []journal.Event) []byte {
	t.Helper()
	var out []byte
	tail := journal.Start()
	for _, e := range events {
		line, next, err := journal.Append(tail, e)
		if err != nil {
			t.Fatal(err)
		}
		out, tail = append(out, line...), next
	}
	return out
}

func decoded(t *testing.T, text []byte) []journal.Event {
	t.Helper()
	events, _, damage := journal.Decode(text)
	if damage != nil {
		t.Fatal(damage)
	}
	return events
}
