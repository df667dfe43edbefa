package rehearse

import (
	"slices"
	"testing"
)

// liveLamp is a lamp whose live is broken, which is the rival of lamp-loose: the
// second reading of that is the feed.
func liveLamp(feed reply) *fake {
	return lamp(broke("f", 1, "lamp-live", ""), map[string]reply{"lamp-fed": feed})
}

func TestSecondReadingHasToSpeakAgainstItsRival(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		what  string
		feed  reply
		reads string // where it does not speak against it
	}{
		{"dead", volts(0, 0), ""},
		{"sound", volts(231, 231), "lamp-fed = ln 231 V"},
		{"at the edge of sound, which decides nothing", volts(200, 231), "lamp-fed = ln 200 V, le 231 V"},
	} {
		r := rehearsed(t, liveLamp(c.feed), Options{})
		var want []Unopposed
		if c.reads != "" {
			want = []Unopposed{{"millrace-small", "lamp-loose", "f", c.reads}}
		}
		if r.Opposed != 1 || !slices.Equal(r.Silenced, want) {
			t.Errorf("%s: %d taken, %v, expected one and %v", c.what, r.Opposed, r.Silenced, want)
		}
		if g := (Options{}).proofGates(r)[2]; g.Holds == (c.reads != "") {
			t.Errorf("%s: the gate %q is %v", c.what, g.Name, g.Holds)
		}
	}
}

// A fault that is the cause as well as its rival tells nothing of the reading, nor
// does one that shows no sign of the tree, nor one of the sweep, which names any.
func TestSecondReadingIsTriedOnlyWithFaultsOfTheRivalAlone(t *testing.T) {
	t.Parallel()
	both := lamp(broke("f", 1, "lamp-live,lamp-loose", ""), map[string]reply{"lamp-fed": volts(231, 231)})
	elsewhere := liveLamp(volts(231, 231))
	elsewhere.shown = map[string][]string{"f": {"lamp-lost"}}
	for what, c := range map[string]struct {
		m *fake
		o Options
	}{"both": {both, Options{}}, "elsewhere": {elsewhere, Options{}}, "swept": {liveLamp(volts(231, 231)), Options{Sweep: true}}} {
		if r := rehearsed(t, c.m, c.o); r.Opposed != 0 || len(r.Silenced) > 0 {
			t.Errorf("%s: %d taken, %v", what, r.Opposed, r.Silenced)
		}
	}
}

func TestReadingThatCannotBeSimulatedIsNoPass(t *testing.T) {
	t.Parallel()
	m := liveLamp(volts(0, 0))
	m.fails = map[string]bool{" lamp-tight": true}
	r := rehearsed(t, m, Options{})
	want := []Failed{{Plant: "millrace-small", Check: "lamp-tight", Why: "the simulation cannot answer lamp-tight: it does not converge"}}
	if !slices.Equal(r.Failed, want) || r.Holds() {
		t.Errorf("%v, %v; expected %v", r.Failed, r.Gates, want)
	}
	all := rehearsed(t, liveLamp(volts(0, 0)), Options{})
	if all.Proofs != r.Proofs+1 || len(all.Failed) > 0 {
		t.Errorf("%d proofs taken with one that fails, %d without; failed are %v", r.Proofs, all.Proofs, all.Failed)
	}
}

func TestSecondReadingThatCannotBeSimulatedWithItsRivalIsNamed(t *testing.T) {
	t.Parallel()
	m := liveLamp(volts(0, 0))
	m.answers["f"]["lamp"] = reply{answer: "stolen"} // so that no walk reads the feed
	m.fails = map[string]bool{"f lamp-fed": true}
	want := []Failed{{"millrace-small", "lamp-fed", "f", "the simulation cannot answer lamp-fed: it does not converge"}}
	if r := rehearsed(t, m, Options{}); !slices.Equal(r.Failed, want) || r.Opposed != 0 {
		t.Errorf("%v, %d taken; expected %v", r.Failed, r.Opposed, want)
	}
}
