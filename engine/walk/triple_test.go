package walk_test

import (
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// triples are what three readings of a supply mean, by the handbook's rows (3.0
// and 4.5). Volts from its 50 Hz model at 240 V; common practice, no source.
var triples = []struct {
	name       string
	ln, le, ne string
	ends       string // the referral or the cause it ends in, or the check it goes on with
}{
	{"healthy", "240", "240", "0.4", "driven at diverter-live calling hot-water"},
	{"open neutral, its load driven", "0.5", "240", "240", "open-neutral of diverter-neutral-core"},
	{"open neutral, read pair by pair", "112", "240", "112", "open-neutral of diverter-neutral-core"},
	{"open neutral, nothing on it", "110", "240", "110", "open-neutral of diverter-neutral-core"},
	{"loaded or long neutral", "236", "240", "22", "poor-neutral of diverter-neutral-core"},
	{"broken earth", "240", "119", "119", "open-earth"},
	{"reversed", "240", "0.2", "240", "reversed-polarity"},
	{"live leak to the case", "240", "15", "238", "live-leak-to-case"},
	{"two phases", "400", "231", "231", "two-phases"},
	{"above the limit", "258", "258", "0.4", "supply-out-of-limits"},
	{"207 to 216 V", "210", "210", "0.4", "supply-out-of-limits"},
}

func TestTripleEndsAsTheHandbooksRowSays(t *testing.T) {
	t.Parallel()
	for _, c := range triples {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong))
			p.tell["called-neutral at diverter-neutral calling hot-water"] = "8.5"
			id := "called-triple at diverter-live calling hot-water"
			p.tell[id+":ln"], p.tell[id+":le"], p.tell[id+":ne"] = c.ln, c.le, c.ne
			p.untilAsk("the end of the triple", func(a *walk.Ask) bool {
				return a.ID == "referral" || a.ID == "confirm" || a.ID == "result" || a.ID == "again" || a.Check == c.ends
			})
			last := lastRead(p)
			if !strings.HasSuffix(last.Leads, c.ends) && p.job.Ask().Check != c.ends {
				t.Errorf("%s/%s/%s V leads to %q, then %s; expected %s", c.ln, c.le, c.ne, last.Leads, p.job.Ask().Title, c.ends)
			}
		})
	}
}

// What is dangerous ends the job at once, isolated and locked, with the reason
// and whom to call.
func TestDangerousTripleStopsTheJob(t *testing.T) {
	t.Parallel()
	for _, c := range triples[5:9] {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark", "neutral-earth at neutral": "9",
				"triple-at at permanent-live:ln": c.ln, "triple-at at permanent-live:le": c.le, "triple-at at permanent-live:ne": c.ne, "referral": "refer"}))
			p.until("referral")
			if a := p.job.Ask(); !strings.HasPrefix(a.Title, "Stop: ") || len(a.Cautions) == 0 || strings.Contains(p.body(), "Still possible") {
				t.Errorf("it asks %q with %d cautions\n%s", a.Title, len(a.Cautions), p.body())
			}
			p.run()
			w := p.job.World()
			if as := p.closed(); as.As != journal.Referred || as.To == "" || len(p.job.Exposed()) > 0 || !w.Locked()["unit-breaker"] {
				t.Errorf("closed %+v, locked %v, exposed %v", as, w.Locked(), p.job.Exposed())
			}
		})
	}
}

// Before a lack of drive is believed, live to earth has ruled out a broken neutral.
func TestNothingLiveToNeutralIsHeldAgainstEarthFirst(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.until("supply-at at permanent-live").typed("0.4")
	if r := p.job.Ask().Reading; r == nil || r.As != "le" {
		t.Fatalf("after 0.4 V it asks %q", p.job.Ask().Title)
	}
	if last := lastRead(p); last.Leads != "" {
		t.Errorf("0.4 V live to neutral alone leads to %q", last.Leads)
	}
	p.typed("240")
	if last := lastRead(p); !strings.Contains(last.Verdict, "the neutral is not") {
		t.Errorf("240 V to earth means %q", last.Verdict)
	}
}

// A live that is only weak is measured nearer its origin (handbook 3.0).
func TestWeakMainsIsMeasuredNearerItsOrigin(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark", "supply-at at permanent-live": "209",
		"level-now at feed-live": "210", "kept-now at permanent-live from feed-live": "209"}))
	p.until("supply-between at isolator-out-live to isolator-out-neutral")
	p = play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark", "neutral-earth at neutral": "9",
		"triple-at at permanent-live": "209", "triple-at at permanent-live:ne": "0.4", "supply-at at permanent-live": "209",
		"level-now at feed-live": "210", "kept-now at permanent-live from feed-live": "209"}))
	p.until("supply-between at isolator-out-live to isolator-out-neutral")
}

func TestMainsAboveItsLimitIsReferredToTheNetwork(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark"}))
	p.until("supply-at at permanent-live").typed("262")
	if a := p.job.Ask(); a.ID != "referral" || !strings.Contains(a.Title, "above its upper limit") {
		t.Errorf("262 V leads to %s %q", a.ID, a.Title)
	}
}

// Moving volts stop a job wherever they are met: on the way at a step that does
// not ask for them, given early, in a second reading, and after a repair.
func TestMovingVoltsStopTheJobWhereverTheyAreMet(t *testing.T) {
	t.Parallel()
	at := map[string]func(t *testing.T) *player{
		"on the way": func(t *testing.T) *player {
			return flickers(t).until("lamp-fed").typed("231").until("lamp-outgoing").typed(wandering)
		},
		"given early": func(t *testing.T) *player {
			return flickers(t).until("look").command("reading", "lamp-incoming="+wandering)
		},
		"in a second reading": func(t *testing.T) *player {
			p := play(t, with(engineer("millrace-large", "cylinder-stays-cold"), callouts[1].wrong)).until("confirm").choose("take")
			return p.until("driven at valve-live calling hot-water").typed(wandering)
		},
		"after the repair": func(t *testing.T) *player {
			p := play(t, with(engineer("millrace-small", "cylinder-stays-cold"), callouts[0].wrong)).until("repair").choose("done")
			return p.until("driven at diverter-switch-wire calling hot-water").typed(wandering)
		},
	}
	for name, met := range at {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := met(t)
			if a := p.job.Ask(); a.ID != "referral" || !strings.HasPrefix(a.Title, "Stop: the mains will not stand still") {
				t.Fatalf("it asks %s %q", a.ID, a.Title)
			}
			if last := lastRead(p); last.Leads != "refer moving-volts" {
				t.Errorf("the reading is recorded as leading to %q", last.Leads)
			}
			p.tell["referral"] = "refer"
			if c := p.run().closed(); c.As != journal.Referred || !strings.Contains(c.To, "105") || len(p.job.Exposed()) > 0 {
				t.Errorf("closed %+v, exposed %v", c, p.job.Exposed())
			}
			reread(t, p.lib, p.job.Events())
		})
	}
}
