package sheet_test

import (
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/journal"
	"faultwalk/engine/sheet"
	"faultwalk/engine/walk"
)

// readings gives those of a check, in order.
func readings(s sheet.Sheet, check string) []sheet.Reading {
	var out []sheet.Reading
	for _, r := range s.Readings {
		if r.Check == check {
			out = append(out, r)
		}
	}
	return out
}

func TestReadingTakenBackStaysOnTheSheetAndIsNoEvidence(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired"))
	got := readings(s, "settings")
	if len(got) != 2 || got[0].TakenBack == 0 || got[1].TakenBack != 0 {
		t.Fatalf("settings: %+v; expected one taken back, then one that stands", got)
	}
	for _, f := range s.Findings {
		if strings.Contains(f.Deciding, "witched off") {
			t.Errorf("decided by a reading that was taken back: %s", f.Deciding)
		}
	}
	if text := sheet.Text(s, 80); !strings.Contains(text, "TAKEN BACK by #19: Is hot water on") {
		t.Errorf("the text does not say that it was taken back:\n%s", text)
	}
}

func TestProbesOfOneCheckAreOneReading(t *testing.T) {
	t.Parallel()
	got := readings(sheet.Of(library(t), job(t, "repaired")), "driven at valve-live calling hot-water")
	if len(got) == 0 || len(got[0].Values) != 2 {
		t.Fatalf("%+v; expected one reading of two probes first", got)
	}
	v := got[0].Values
	if v[0].Name != "L–N" || v[1].Name != "L–E" || v[1].Typed != "0,6 V" || v[1].Reads != "0.6 V" {
		t.Errorf("%+v; expected L–N, then L–E as typed and as read", v)
	}
	if v[0].Expected == "" || v[1].Expected != "" {
		t.Errorf("expected %q and %q; what was shown at the first probe only", v[0].Expected, v[1].Expected)
	}
}

func TestFindingIsThatOfTheMomentOfTheRepair(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired"))
	if len(s.Findings) != 1 || s.Findings[0].Repair == nil {
		t.Fatalf("%+v; expected one finding with its repair", s.Findings)
	}
	f := s.Findings[0]
	if !strings.Contains(f.Deciding, "OL") || f.Second == "" || len(f.RuledOut) == 0 || len(f.Also) == 0 {
		t.Errorf("%+v; expected the open contact as it was before the repair, a second reading, what is ruled out and what else is possible", f)
	}
	for _, r := range f.Repair.Retests {
		if r.State != "passed" {
			t.Errorf("retest %s: %s", r.Check, r.State)
		}
	}
}

func TestBeforeAndAfterStandBesideEachOther(t *testing.T) {
	t.Parallel()
	for _, p := range sheet.Of(library(t), job(t, "repaired")).Compared {
		if p.Check == "contact-ohms of limit" {
			if p.Before == nil || !strings.HasPrefix(p.Before.Reads, "OL") || p.After.Reads != "0.3 Ω" {
				t.Errorf("before %+v after %+v", p.Before, p.After)
			}
			return
		}
	}
	t.Error("the deciding check is not compared")
}

func TestVoltageFoundAndSkippedCheckAreNamed(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "left"))
	text := sheet.Text(s, 80)
	for _, want := range []string{"VOLTAGE FOUND, proof of dead: the valve head", "(V2): 118 V", "left out: the valve's live (V1), it rains in",
		"- not checked: the valve's live (V1), it rains in", "- not repaired: the call's core is broken",
		"off: the breaker, the unit isolator; locked: the breaker, the unit\n  isolator"} {
		if !strings.Contains(text, want) {
			t.Errorf("missing %q in\n%s", want, text)
		}
	}
}

func TestHowItStandsAfterABreakIsNotSworn(t *testing.T) {
	t.Parallel()
	events := job(t, "repaired")
	for i, e := range events {
		if e.Kind == journal.KindResumed {
			s := sheet.Of(library(t), events[:i+1])
			if len(s.Left.Unseen) == 0 {
				t.Errorf("%+v; expected what was open before the break as not seen since", s.Left)
			}
			return
		}
	}
	t.Fatal("the job has no break")
}

func TestEveryPrefixOfAJobHasASheet(t *testing.T) {
	t.Parallel()
	lib := library(t)
	for name := range jobs() {
		events := job(t, name)
		for n := 0; n <= len(events); n += 2 {
			s := sheet.Of(lib, events[:n])
			if _, err := sheet.HTML(s); err != nil {
				t.Fatalf("%s, %d events: %v", name, n, err)
			}
			onSheet(t, s, events[:n])
		}
	}
}

// onSheet checks that nothing done or read is missing.
func onSheet(t *testing.T, s sheet.Sheet, events []journal.Event) {
	t.Helper()
	acts, cautions := 0, map[string]bool{}
	for _, e := range events {
		switch b := e.Body.(type) {
		case *journal.Acted:
			acts++
			note(cautions, b.Cautions)
		case *journal.Read:
			note(cautions, b.Cautions)
			if last := b.Values; len(last) > 0 && !hasTyped(s, b.Check, last[len(last)-1].Typed) {
				t.Errorf("event %d: %s typed %q is not on the sheet", e.N, b.Check, last[len(last)-1].Typed)
			}
		case *journal.Noted:
			if !strings.Contains(sheet.Text(s, 400), "note: tenant:") {
				t.Errorf("event %d: the note is not on the sheet", e.N)
			}
		}
	}
	if acts != len(s.Acts) || len(cautions) != len(s.Cautions) {
		t.Errorf("%d events: %d acts and %d cautions on the sheet; expected %d and %d", len(events), len(s.Acts), len(s.Cautions), acts, len(cautions))
	}
}

func note(seen map[string]bool, ids []string) {
	for _, id := range ids {
		seen[id] = true
	}
}

func hasTyped(s sheet.Sheet, check, typed string) bool {
	for _, r := range readings(s, check) {
		for _, v := range r.Values {
			if v.Typed == typed {
				return true
			}
		}
	}
	return false
}

func TestOtherTreesLeaveTheRecordReadable(t *testing.T) {
	t.Parallel()
	lib := library(t)
	lib.Set = other(t)
	s := sheet.Of(lib, job(t, "repaired"))
	text := sheet.Text(s, 80)
	for _, want := range []string{"contact-ohms of limit", "these trees have no such check", "Not as it was recorded", "= OL"} {
		if !strings.Contains(text, want) {
			t.Errorf("missing %q in\n%s", want, text)
		}
	}
}

// TestEventsOutOfPlaceNeverPanic: whoever rewrites a journal with its sums can
// put anything in any place.
func TestEventsOutOfPlaceNeverPanic(t *testing.T) {
	t.Parallel()
	lib := library(t)
	var all []journal.Event
	for _, name := range []string{"danger", "left", "repaired", "stopped"} {
		all = append(all, job(t, name)...)
	}
	for seed := range int64(12) {
		r := rand.New(rand.NewSource(seed))
		events := slices.Clone(job(t, "repaired")[:10+r.Intn(50)])
		for range 60 {
			events = append(events, all[r.Intn(len(all))])
		}
		for i := range events {
			events[i].N = i + 1
			if r.Intn(10) == 0 {
				events[i].Kind, events[i].Body = journal.KindRetracted, &journal.Retracted{Event: 1 + r.Intn(len(events))}
			}
		}
		sheet.Text(sheet.Of(lib, events), 80)
	}
}

// TestJobGoneThroughAgainAsksWhatTheResumedOneAsks: going through a job event
// by event comes to the same as deriving it at once.
func TestJobGoneThroughAgainAsksWhatTheResumedOneAsks(t *testing.T) {
	t.Parallel()
	lib := library(t)
	for name := range jobs() {
		events := job(t, name)
		for n := 1; n <= len(events); n += 3 {
			again := walk.Replay(lib, slices.Clone(events[:n]), func(*walk.Job, journal.Event) {})
			resumed, _ := walk.Resume(lib, slices.Clone(events[:n]))
			if diff := cmp.Diff(resumed.Ask(), again.Ask()); diff != "" {
				t.Fatalf("%s after %d events (-resumed +replayed):\n%s", name, n, diff)
			}
		}
	}
}
