package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// proving plays the spur plant to its first proof of the control enclosure,
// which the room controls' own supply reaches by the heat call.
func proving(t *testing.T) *player {
	t.Helper()
	p := play(t, with(engineer("millrace-spur", "no-heat-demand"), map[string]string{"demand-shows": "none"}))
	return p.until("prove")
}

// reads fills the form that stands with nothing found but on lines that name
// all of these words.
func (p *player) reads(volts string, words ...string) walk.Answer {
	p.t.Helper()
	a := p.job.Ask()
	fields := zeros(a)
	n := 0
	for i, f := range a.Fields {
		hit := f.Number && !strings.Contains(f.Text, "load button in")
		for _, w := range words {
			hit = hit && strings.Contains(f.Text, w)
		}
		if hit {
			fields[i], n = volts, n+1
		}
	}
	if n == 0 {
		p.t.Fatalf("no line names %q%s", words, p.story())
	}
	return walk.Answer{Fields: fields}
}

// stopsAt is reads by somebody who reads no line after the find.
func (p *player) stopsAt(volts string, words ...string) walk.Answer {
	p.t.Helper()
	ans := p.reads(volts, words...)
	return walk.Answer{Fields: ans.Fields[:slices.Index(ans.Fields, volts)+1]}
}

func TestVoltsAtAProofHaltTheWork(t *testing.T) {
	t.Parallel()
	p := proving(t)
	p.give(p.reads("231", "heat call", "earth"))
	a := p.job.Ask()
	if a.ID != "voltage found" || !strings.Contains(a.Title, "hands out of the control enclosure") {
		t.Fatalf("after 231 V it asks %s %q", a.ID, a.Title)
	}
	if !strings.Contains(p.body(), "231.0 V. It is not dead, and never only a ghost.") {
		t.Errorf("it says\n%s", p.body())
	}
	for _, c := range a.Commands {
		if c.ID == "skip" || c.ID == "dead way" {
			t.Errorf("%s is offered with a voltage found", c.ID)
		}
	}
}

// To earth nothing may load the circuit (handbook 1.3), so such a find is not
// repeated; live to neutral of one RCD it is, once.
func TestFindIsRepeatedUnderLoadOnceAndOnlyLiveToNeutral(t *testing.T) {
	t.Parallel()
	p := proving(t)
	p.give(p.reads("231", "heat call", "earth"))
	if a := p.job.Ask(); a.Kind == walk.Fill {
		t.Errorf("a find to earth is to be repeated under load: %+v", a.Fields)
	}
	p = play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"demand-shows": "none"})).until("prove")
	p.give(p.stopsAt("80", "permanent live", "neutral"))
	a := p.job.Ask()
	if a.Kind != walk.Fill || len(a.Fields) != 1 || !strings.Contains(a.Fields[0].Text, "load button in") {
		t.Fatalf("it asks %q %+v, expected one repeat under load", a.Title, a.Fields)
	}
	p.give(walk.Answer{Fields: []string{"0.4"}})
	if a = p.job.Ask(); a.Kind == walk.Fill {
		t.Error("it is to be repeated a second time")
	}
	if !strings.Contains(p.body(), "Find that one and isolate it too") {
		t.Errorf("of a ghost it says\n%s", p.body())
	}
}

// A form that was read to its end has the loaded line in it already.
func TestLoadedLineOfTheFormIsTheRepeat(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"demand-shows": "none"})).until("prove")
	p.give(p.reads("80", "permanent live", "neutral"))
	if a := p.job.Ask(); a.Kind == walk.Fill || !strings.Contains(p.body(), "Under load it fell to 0.0 V") {
		t.Errorf("it asks %q: %s", a.Title, p.body())
	}
}

// The forgotten supply is the receiver's spur: it is named, switched off and
// locked, the enclosure proved again, and the work goes on.
func TestForgottenSupplyIsNamedIsolatedAndProvedAgain(t *testing.T) {
	t.Parallel()
	p := proving(t)
	p.give(p.reads("231", "heat call", "earth"))
	if slices.Contains(offered(p.job.Ask().Choices), "prove") {
		t.Error("it may be proved again with nothing more isolated")
	}
	candidate := p.job.Ask().Choices[0]
	if !strings.Contains(candidate.Text, "this may feed it") {
		t.Fatalf("first choice is %+v", candidate)
	}
	before := p.count(journal.ActLock)
	p.choose(candidate.ID)
	if a := p.job.Ask(); a.ID != "acts" || !strings.Contains(p.body(), "Switch off") {
		t.Fatalf("it asks %q: %s", a.Title, p.body())
	}
	if p.count(journal.ActLock) != before {
		t.Error("a lock is recorded before anybody put it on")
	}
	p.choose("done")
	if p.count(journal.ActLock) != before+1 {
		t.Error("the lock is not recorded")
	}
	p.choose("prove")
	p.give(walk.Answer{Fields: zeros(p.job.Ask())})
	if p.job.World().Found != nil || !p.job.World().Proved("control-enclosure") {
		t.Error("the enclosure is not proved")
	}
	if a := p.job.Ask(); a.Check != "call-terminals" {
		t.Errorf("it goes on with %s %q", a.ID, a.Title)
	}
}

func TestSecondFindRefersAndNothingElse(t *testing.T) {
	t.Parallel()
	p := proving(t)
	p.give(p.reads("231", "heat call", "earth"))
	p.choose(p.job.Ask().Choices[0].ID).choose("done").choose("prove")
	p.give(p.reads("231", "heat call", "earth"))
	if got := offered(p.job.Ask().Choices); !slices.Equal(got, []string{"refer"}) {
		t.Fatalf("after a second find it offers %v", got)
	}
	p.choose("refer")
	if a := p.job.Ask(); a.ID != "handover" {
		t.Errorf("it goes on with %s %q", a.ID, a.Title)
	}
	c := p.choose("close").closed()
	if c.As != journal.Referred || c.To == "" || !strings.Contains(c.Words, "the control enclosure") {
		t.Errorf("closed %+v; expected referred, to somebody, with the enclosure left open", c)
	}
	if p.count(journal.ActSwitchOn) > 0 {
		t.Error("power is put back on a box with volts in it")
	}
}

// Whatever is answered after a find, no question tells anybody to go on.
func TestNobodyIsToldToCarryOnWithAGhost(t *testing.T) {
	t.Parallel()
	for _, volts := range []string{"5.1", "23", "76", "118", "231"} {
		p := play(t, with(engineer("millrace-small", "no-heat-demand"), map[string]string{"demand-shows": "none"})).until("prove")
		p.give(p.reads(volts, "permanent live", "earth"))
		if a := p.job.Ask(); a.ID != "voltage found" {
			t.Fatalf("%s V: it asks %s", volts, a.ID)
		}
		for _, c := range p.job.Ask().Choices {
			if c.ID != "refer" && !strings.Contains(c.Text, "switch it off and lock it") {
				t.Errorf("%s V: %q is offered", volts, c.Text)
			}
		}
		if err := p.try(walk.Answer{Choice: "done"}); err == nil {
			t.Errorf("%s V: done is taken", volts)
		}
	}
}

// A tester that did not answer on the proving unit proves nothing: the form
// ends there, with the ways on, and is not recorded.
func TestUnprovedTesterProvesNothing(t *testing.T) {
	t.Parallel()
	p := proving(t)
	before := len(p.job.Events())
	for _, n := range []int{1, len(p.job.Ask().Fields)} {
		fields := zeros(p.job.Ask())[:n]
		fields[n-1] = "no"
		p.give(walk.Answer{Fields: fields})
		a := p.job.Ask()
		if a.ID != "tester failed" || !strings.HasPrefix(a.Title, "Stop: the tester did not answer") || !slices.Equal(offered(a.Choices), []string{"again", "refer"}) {
			t.Fatalf("line %d no: it asks %s %q %v", n, a.ID, a.Title, offered(a.Choices))
		}
		p.choose("again").until("prove")
	}
	field := p.job.Ask().Fields[0]
	if !field.Ends("no") || field.Ends("yes") || !p.job.Ask().Fields[3].Ends("118") || p.job.Ask().Fields[3].Ends("4.9") {
		t.Error("a face is not told where the form ends")
	}
	if err := p.try(walk.Answer{Fields: zeros(p.job.Ask())[1:]}); err == nil {
		t.Error("a form with a line missing is taken")
	}
	if len(p.job.Events()) != before {
		t.Error("something was recorded")
	}
}

// Passed on after the tester failed, the locks stay and nobody proves anything again.
func TestFailedTesterPassesTheJobOnWithoutAnotherProof(t *testing.T) {
	t.Parallel()
	p := proving(t)
	p.give(walk.Answer{Fields: []string{"no"}})
	from := len(p.asks)
	p.choose("refer").run()
	for _, a := range p.asks[from:] {
		if a.ID == "prove" || strings.HasPrefix(a.Title, "Covers on") || strings.HasPrefix(a.Title, "Power back") {
			t.Errorf("it asks %q", a.Title)
		}
	}
	if c := p.closed(); c.As != journal.Referred || !strings.Contains(c.Words, "tester") {
		t.Errorf("closed %+v", c)
	}
}
