package walk_test

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// commandsAt are what is offered where a job stands.
func commandsAt(p *player) []string { return offered(p.job.Ask().Commands) }

func TestCommandsAreOfferedOnlyWhereTheyMakeSense(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		at         string
		p          func() *player
		want, none []string
	}{
		{"the first question", func() *player { return play(t, nil) },
			[]string{"why", "note", "cautions", "stop"}, []string{"back", "skip", "dead way", "other meter", "reading", "hand over", "give up"}},
		{"the choice of plant", func() *player { return play(t, engineer("millrace-small", "no-heat-demand")).until("plant") },
			[]string{"back", "hand over", "stop"}, []string{"skip", "reading", "give up"}},
		{"a look", func() *player { return play(t, engineer("millrace-small", "no-heat-demand")).until("look") },
			[]string{"back", "skip", "reading", "note", "hand over", "stop", "give up"}, []string{"dead way", "other meter"}},
		{"a live reading with a dead way", func() *player {
			return play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong)).until("driven at diverter-live calling hot-water")
		}, []string{"why", "back", "skip", "dead way", "other meter", "reading", "give up"}, nil},
		{"a question about a digit", func() *player { return board(t).typed("23") },
			[]string{"back", "stop"}, []string{"skip", "reading", "note", "hand over", "other meter", "give up"}},
		{"a retest", func() *player { return repaired(t).until("reading") },
			[]string{"why", "note", "stop", "give up"}, []string{"skip", "dead way"}},
		{"the end", func() *player { return repaired(t).until("handover") },
			[]string{"why", "note", "stop"}, []string{"skip", "reading", "hand over", "give up"}},
	} {
		got := commandsAt(c.p())
		for _, id := range c.want {
			if !slices.Contains(got, id) {
				t.Errorf("at %s %q is not offered: %v", c.at, id, got)
			}
		}
		for _, id := range c.none {
			if slices.Contains(got, id) {
				t.Errorf("at %s %q is offered", c.at, id)
			}
		}
	}
}

func TestCommandThatIsNotOfferedIsRefused(t *testing.T) {
	t.Parallel()
	p := play(t, nil)
	for _, name := range []string{"skip", "fly", "give up", "hand over"} {
		p.refused(walk.Answer{Command: name}, "not possible here")
	}
}

func TestSkipGoesOnByOtherwiseOrIsReferredWithWhatIsStillPossible(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), nil)).until("hot-water-settings")
	p.command("skip", "the screen is locked")
	if a := p.job.Ask(); a.Check != "tap-against-screen" {
		t.Errorf("with another way it goes on with %s %q", a.ID, a.Title)
	}
	p.tell["tap-against-screen"] = "both-cold"
	p.until("legs").command("skip", "")
	if a := p.job.Ask(); a.ID != "referral" || !strings.Contains(a.Title, "left out") || !strings.Contains(p.body(), "Still possible: ") ||
		!slices.Contains(p.job.Reachable(), "the body of the diverter is seized or stiff") {
		t.Errorf("without one: %s %q\n%s", a.ID, a.Title, p.body())
	}
	// what a step left out could have found stays possible to the end
	p = play(t, with(engineer("millrace-small", "controller-blank"), callouts[3].wrong)).until("unit-switches").command("skip", "nobody can reach them")
	p.until("result")
	if also := p.body()[strings.Index(p.body(), "Also possible: "):]; !strings.Contains(also, "is switched off") {
		t.Errorf("the result does not name what was left out:\n%s", p.body())
	}
}

func TestWhySaysWhatItIsForAndHowItCameHere(t *testing.T) {
	t.Parallel()
	p := board(t)
	p.command("why", "")
	got := strings.Join(p.said[len(p.said)-4:], "\n")
	for _, want := range []string{"It says whether the supply gets this far.", "What else could read the same: ", "Where it comes from: ", "It came here because"} {
		if !strings.Contains(got, want) {
			t.Errorf("why does not say %q:\n%s", want, got)
		}
	}
	p = play(t, nil).command("why", "")
	if p.said[len(p.said)-1] == "" {
		t.Error("at the first question why says nothing")
	}
}

func TestNoteIsKeptInItsWords(t *testing.T) {
	t.Parallel()
	p := board(t)
	p.refused(walk.Answer{Command: "note", Rest: "  "}, "note TEXT")
	was := p.job.Ask().Title
	p.command("note", " the cupboard is wet ")
	last := p.job.Events()[len(p.job.Events())-1].Body.(*journal.Noted)
	if last.Text != "the cupboard is wet" || p.job.Ask().Title != was {
		t.Errorf("noted %q, then %q", last.Text, p.job.Ask().Title)
	}
}

func TestStopKeepsTheJobForAnotherDay(t *testing.T) {
	t.Parallel()
	p := board(t).command("stop", "")
	if p.job.Closed() != nil || p.job.Events()[len(p.job.Events())-1].Kind != journal.KindStopped {
		t.Error("stop does not leave the job open and stopped")
	}
	p.resume().until("supply-at at permanent-live")
}

func TestGiveUpAsksHowThePlantIsLeft(t *testing.T) {
	t.Parallel()
	p := board(t).command("give up", "called away")
	if a := p.job.Ask(); a.ID != "leave" {
		t.Fatalf("it asks %s", a.ID)
	}
	p.tell["leave"] = "isolated"
	if c := p.run().closed(); c.As != journal.Abandoned || c.Words != "called away" {
		t.Errorf("closed %+v", c)
	}
}

func TestDeadWayAnswersTheSameQuestionDead(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
	p.until("driven at diverter-live calling hot-water").command("dead way", "")
	p.until("reading")
	if a := p.job.Ask(); a.Check != "core-continuity of diverter-live-core" {
		t.Errorf("it asks for %s", a.Check)
	}
	w := p.job.World()
	if !w.Proved("diverter-box") || !w.Proved("control-enclosure") {
		t.Error("the boxes are not proved dead")
	}
}

func TestOtherMeterTakesTheNextInstrumentAndIsKept(t *testing.T) {
	t.Parallel()
	p := board(t)
	first := p.job.Ask().Reading
	p.command("other meter", "")
	second := p.job.Ask().Reading
	if first.Meter == second.Meter || second.Mode != "two-pole loaded" {
		t.Errorf("first %s, %s; then %s, %s", first.Meter, first.Mode, second.Meter, second.Mode)
	}
	if got := reread(t, p.lib, p.job.Events()).Ask().Reading; got.Meter != second.Meter {
		t.Errorf("from its lines it is read with the %s", got.Meter)
	}
	p.typed("231")
	if v := lastRead(p).Values[0]; v.Meter != "two-pole" || v.Mode != "two-pole loaded" {
		t.Errorf("recorded %+v", v)
	}
}
