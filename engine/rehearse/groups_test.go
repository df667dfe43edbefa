package rehearse

import (
	"strings"
	"testing"
)

// two is a plant with two faults that end at the group of holder and switch.
func two(holder, other map[string]reply) *fake {
	a, b := broke("burnt holder", 1, "lamp-holder", ""), broke("worn switch", 1, "lamp-switch", "")
	for _, m := range []map[string]reply{holder, other} {
		m["lamp"], m["lamp-fed"] = reply{answer: "dark"}, volts(231, 231)
	}
	return &fake{all: []*fault{a, b}, shown: map[string][]string{a.id: {"lamp-dark"}, b.id: {"lamp-dark"}},
		answers: map[string]map[string]reply{a.id: holder, b.id: other}}
}

func TestGroupThatNoCheckDividesStands(t *testing.T) {
	t.Parallel()
	r := rehearsed(t, two(map[string]reply{"lamp-ohms": ohms(10)}, map[string]reply{"lamp-ohms": ohms(10.5)}), Options{})
	for _, c := range r.Cases {
		if c.Verdict != Grouped {
			t.Errorf("%s: %s: %s", c.Fault, c.Verdict, c.Why)
		}
	}
}

func TestGroupThatACheckDividesIsWrongAndSaysByWhich(t *testing.T) {
	t.Parallel()
	r := rehearsed(t, two(map[string]reply{"lamp-ohms": ohms(10)}, map[string]reply{"lamp-ohms": ohms(60)}), Options{})
	for _, c := range r.Cases {
		if c.Verdict != Wrong || !strings.Contains(c.Why, "lamp-ohms") {
			t.Errorf("%s: %s: %s", c.Fault, c.Verdict, c.Why)
		}
	}
}

func TestGroupMayBeDividedOnlyByWhatTheseHandsMayDo(t *testing.T) {
	t.Parallel()
	m := two(map[string]reply{"lamp-ohms": ohms(10), "screen-lives": {answer: "lit"}}, map[string]reply{"lamp-ohms": ohms(10), "screen-lives": {answer: "blank"}})
	r := rehearsed(t, m, Options{})
	if r.Cases[0].Verdict != Wrong || !strings.Contains(r.Cases[0].Why, "screen-lives") {
		t.Errorf("a look by which they differ leaves the group %s: %s", r.Cases[0].Verdict, r.Cases[0].Why)
	}
}

// A check of the library that no tree takes divides a group as well, but not a
// look that is as good as a guess.
func TestGroupMayNotOverlookTheLibrary(t *testing.T) {
	t.Parallel()
	for check, want := range map[string]Verdict{"lamp-glass of diverter": Wrong, "lamp-hum of diverter": Grouped} {
		of := func(answer string) map[string]reply {
			return map[string]reply{"lamp-ohms": ohms(10), check: {answer: answer}}
		}
		first, second := of("black"), of("clear")
		if check != "lamp-glass of diverter" {
			first, second = of("hums"), of("silent")
		}
		c := rehearsed(t, two(first, second), Options{}).Cases[0]
		if c.Verdict != want || want == Wrong && !strings.Contains(c.Why, check) {
			t.Errorf("%s: %s: %s", check, c.Verdict, c.Why)
		}
	}
}

func TestFaultThatIsEveryCauseOfAGroupIsExact(t *testing.T) {
	t.Parallel()
	m := lamp(broke("both", 1, "lamp-holder,lamp-switch", ""), map[string]reply{"lamp-fed": volts(231, 231), "lamp-ohms": ohms(10)})
	if c := one(t, m, Options{}); c.Verdict != Exact {
		t.Errorf("%s: %s", c.Verdict, c.End)
	}
}
