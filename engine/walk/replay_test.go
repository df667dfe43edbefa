package walk_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// lines are the events as a journal holds them.
func lines(t testing.TB, events []journal.Event) []byte {
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

func decoded(t testing.TB, text []byte) []journal.Event {
	t.Helper()
	events, _, damage := journal.Decode(text)
	if damage != nil {
		t.Fatal(damage)
	}
	return events
}

// asked says what stands, for comparing two jobs.
func asked(j *walk.Job) string {
	a := j.Ask()
	reading := ""
	if a.Reading != nil {
		reading = fmt.Sprintf("%+v", *a.Reading)
	}
	a.Reading = nil
	return fmt.Sprintf("%+v\n%s", *a, reading)
}

// plantState is the world as it was done by hands.
func plantState(j *walk.Job) string {
	w := j.World()
	return fmt.Sprint(w.Devices, w.Enclosures, w.Plugs, w.Calls, w.Found)
}

// At every point of a job its stored lines alone give the same question, and
// written again they are the same bytes.
func TestStoredLinesGiveTheSameQuestionAndTheSameBytes(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
	p.until("reading")
	p.command("other meter", "").command("note", "the cupboard is wet").typed("0.2").command("back", "")
	p.run()
	events := p.job.Events()
	for n := 2; n < len(events); n += 3 {
		live, _ := walk.Resume(p.lib, events[:n])
		again := reread(t, p.lib, events[:n])
		if a, b := asked(live), asked(again); a != b {
			t.Fatalf("after event %d the question is\n%s\nand from its lines\n%s", n, a, b)
		}
	}
	if first, second := lines(t, events), lines(t, decoded(t, lines(t, events))); string(first) != string(second) {
		t.Error("written again the events are other bytes")
	}
}

// Taking events in one by one, as they are stored, leaves a job where its lines
// put it: nothing is remembered beside the events.
func TestJobRemembersNothingBesideItsEvents(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-spur", "no-heat-demand"), callouts[8].wrong))
	for range 60 {
		if got, want := asked(reread(t, p.lib, p.job.Events())), asked(p.job); got != want {
			t.Fatalf("the question is\n%s\nand from the job's lines\n%s", want, got)
		}
		if p.job.Closed() != nil {
			break
		}
		p.give(p.answer(p.job.Ask()))
	}
}

func TestBackRetractsTheReadingAndLeavesThePlant(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.until("supply-at at permanent-live")
	before := plantState(p.job)
	was := p.job.Ask().Title
	p.typed("190-240 moving") // a slip of the tongue that would end the job
	p.command("back", "")
	if now := plantState(p.job); now != before {
		t.Errorf("the plant was\n%s\nand is\n%s", before, now)
	}
	if now := p.job.Ask().Title; now != was {
		t.Errorf("it asks %q, expected %q again", now, was)
	}
	p.typed("231")
	if now := p.job.Ask(); now.Check != "pair-to-earth at pair-a" {
		t.Errorf("the new reading leads to %q%s", now.Check, p.story())
	}
}

func TestBackCrossesNoRepairAndNoChangeOfHands(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "no-heat-demand"), callouts[6].wrong)).until("repair")
	p.choose("done")
	if slices.Contains(offered(p.job.Ask().Commands), "back") {
		t.Error("back is offered right after a repair")
	}
	p = play(t, engineer("millrace-small", "no-heat-demand")).until("told")
	if err := p.try(walk.Answer{Command: "back"}); err == nil || len(p.job.Ask().Title) == 0 {
		t.Error("back crosses a change of hands")
	}
}

func TestBackAtTheFirstQuestionIsRefused(t *testing.T) {
	t.Parallel()
	p := play(t, nil)
	err := p.try(walk.Answer{Command: "back"})
	if err == nil || !strings.Contains(err.Error(), "nothing here can be taken back") {
		t.Errorf("back at the first question: %v", err)
	}
	if len(p.job.Events()) != 1 {
		t.Error("something was recorded")
	}
}

// Who takes a job up again takes nothing on trust: what is off, locked, open
// and unplugged is seen again, and proved again.
func TestResumingVoidsProofsAndAsksLocksAndPlugsAgain(t *testing.T) {
	t.Parallel()
	for name, leave := range map[string]func(p *player){
		"resumed":     func(p *player) { p.resume() },
		"handed over": func(p *player) { p.command("hand over", "").until("acts") },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := play(t, with(engineer("millrace-large", "cylinder-stays-cold"), callouts[1].wrong))
			p.until("motor-ohms of cylinder-valve")
			leave(p)
			w := p.job.World()
			for _, e := range theHouse().plant["millrace-large"].Enclosures {
				if w.Proved(e.ID) {
					t.Errorf("%s still counts as proved", e.ID)
				}
			}
			if len(w.Locked()) > 0 {
				t.Errorf("%v still count as locked", w.Locked())
			}
			from := len(p.asks)
			p.until("motor-ohms of cylinder-valve")
			var text []string
			for _, a := range p.asks[from:] {
				text = append(text, a.ID+" "+a.Title+" "+strings.Join(a.Body, " "))
			}
			for _, want := range []string{"is still off; if not, switch it off", "See that your lock is still on", "See that the cover is still off",
				"prove Prove dead: the two-port's wiring box", "is still unplugged"} {
				if !strings.Contains(strings.Join(text, "\n"), want) {
					t.Errorf("nothing asks %q:\n%s", want, strings.Join(text, "\n"))
				}
			}
		})
	}
}

// A wait is waited again: who was away does not know what the plant did.
func TestResumingVoidsWaits(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), map[string]string{"tap-against-screen": "both-cold"}))
	p.until("legs").resume()
	if a := p.job.Ask(); a.ID != "acts" || !strings.Contains(p.body(), "Wait 10 minutes") {
		t.Errorf("it goes on with %s %q: %s; expected ten minutes of wait", a.ID, a.Title, p.body())
	}
}
