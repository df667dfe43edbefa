package plant_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTheSmallPlantCompiles(t *testing.T) {
	t.Parallel()
	m := bench(t)
	if got := len(m.Faults()); got != 3 {
		t.Errorf("it has %d faults, want those of relay, coil and assembly", got)
	}
}

// refusals are what may be wrong with a plant: what is changed in the small one,
// and the whole of what is said then, whoever of trees and plant says it.
var refusals = []struct {
	name  string
	edits []string
	want  string
}{
	{"a dangling point", []string{"  - {id: earth, in: box,", "  - {id: spare, in: box, role: live, words: a spare way}\n  - {id: earth, in: box,"},
		`own/assemblies/bench.yaml:16:10: the point "spare" dangles: no core, part or supply is joined to it`},
	{"an undriven variable", []string{"{id: mood, first: calm, fixed: true}", "{id: mood, first: calm}"},
		`own/models/all.yaml:34:12: nothing moves the variable "mood"; expected a rule, a slow rule or a trip, or "fixed: true" where only faults do`},
	{"a rule for a variable nobody has", []string{"    - {set: pulled_in", "    - {set: puled_in, to: 1}\n    - {set: pulled_in"},
		`own/models/all.yaml:38:13: "puled_in" is not a variable of this model; did you mean "pulled_in"?`},
	{"two first values", []string{"- {id: mood,", "- {id: pulled_in, first: true}\n    - {id: mood,"},
		`own/models/all.yaml:34:12: "pulled_in" comes twice among the values and variables; each has one first value`},
	{"two rules for one variable", []string{"  rules:\n    - {set: made", "  rules:\n    - {set: made, to: whole}\n    - {set: made"},
		`own/models/all.yaml:21:13: the variable "made" is set by a rule already; expected one for each`},
	{"a value of nought", []string{"values: {rated: 230}", "values: {rated: 230, ohms: 0}"},
		`own/assemblies/bench.yaml:22:127: the value "ohms" of the part "lamp" is 0; expected more than 0`},
	{"a negative value", []string{"values: {rated: 230}", "values: {rated: -230}"},
		`own/assemblies/bench.yaml:22:116: the value "rated" of the part "lamp" is -230; expected more than 0`},
	{"a negative value in the model", []string{"is: 1000, tol", "is: -1000, tol"},
		`own/models/all.yaml:30:22: the value "ohms" is -1000; expected more than 0, or "zero: true" where nought or less makes sense`},
	{"a missing value", []string{", values: {rated: 230}", ""},
		`own/assemblies/bench.yaml:22:10: the part "lamp" gives no value "rated", and its model "coil" has none of its own`},
	{"a core without length", []string{"to: in-live, area: 1.5, length: 10", "to: in-live, area: 1.5"},
		`own/assemblies/bench.yaml:26:10: the core "feed-live" has no length or no area; expected both, in metres and mm²`},
	{"a core of no length", []string{"to: in-live, area: 1.5, length: 10", "to: in-live, area: 1.5, length: 0"},
		`own/assemblies/bench.yaml:26:91: the core "feed-live" has 0 for "length"; expected more than 0`},
	{"a variable fixed and set", []string{"{id: made, first: false}", "{id: made, first: false, fixed: true}"},
		`own/models/all.yaml:20:13: the variable "made" is fixed, so that only a fault moves it, and a rule sets it; expected one or the other`},
	{"a fault of a branch that is not there", []string{"open feed-live@to", "open feed-life@to"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": there is no branch "feed-life@to"; did you mean "feed-live@to"?`},
	{"a fault of a variable that is not there", []string{"open feed-live@to", "lock lamp.pulled to true"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": "lock" locks "lamp.pulled", which the plant has not; did you mean "lamp.pulled_in"?`},
	{"a lock of another type", []string{"open feed-live@to", "lock lamp.mood to 4"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": "lamp.mood" is set to "4"; expected a word`},
	{"a contact that is neither made nor open", []string{"open feed-live@to", "lock stat.whole to 3"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": "stat.whole" is set to "3"; expected true or false`},
	{"the same in a model", []string{"lock whole to false", "lock whole to 3"},
		`own/models/all.yaml:25:26: "whole" is set to "3"; expected true or false`},
	{"a device that is neither on nor off", []string{"open feed-live@to", "lock device breaker on to 2"},
		`own/assemblies/bench.yaml:35:36: "device breaker on" is set to "2"; expected true or false`},
	{"a core landed from an end it has not", []string{"open feed-live@to", "land feed-live at call on neutral"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": the core "feed-live" does not end at "call"; it ends at "way-live" and "in-live"`},
	{"a core landed that is not there", []string{"open feed-live@to", "land feed-life at in-live on neutral"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": there is no core "feed-life" to land elsewhere; did you mean "feed-live"?`},
	{"a lock of another type in a model", []string{"lock whole to false", "lock whole to gone"},
		`own/models/all.yaml:25:26: "whole" is set to "gone"; expected true or false`},
	{"a branch added at no point", []string{"open feed-live@to", "add call eart 100 ohms"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": there is no terminal, node or point "eart"; did you mean "earth"?`},
	{"a core landed nowhere", []string{"open feed-live@to", "land feed-live at in-live on nowhere"},
		`own/assemblies/bench.yaml:35:10: the fault "no-live": there is no point "nowhere" to land on`},
	{"a fault that locks one thing twice", []string{"open feed-live@to", "lock stat.whole to true, lock stat.whole to false"},
		`own/assemblies/bench.yaml:35:35: the fault "no-live": it changes "stat.whole" twice; expected one change of it`},
	{"a fault that opens and burns one joint", []string{"open feed-live@to", "open feed-live@to, ohms feed-live@in-live 50"},
		`own/assemblies/bench.yaml:35:29: the fault "no-live": it changes "feed-live@to" twice; expected one change of it`},
	{"a fault twice", []string{"faults:\n    - id: open\n", "faults:\n    - {id: open, words: again, weight: 1, do: [open winding], causes: [burnt of $part]}\n    - id: open\n"},
		`own/models/all.yaml:41:11: the fault "open" comes twice`},
	{"a part without a model", []string{"kind: coil, words", "kind: pump, words"},
		`own/assemblies/bench.yaml:22:10: the part "lamp" is a pump, and no model says how a pump acts; expected one in the folder models`},
	{"a terminal missing", []string{"{live: call, neutral: neutral}", "{live: call}"},
		`own/assemblies/bench.yaml:22:45: the coil "lamp" needs the terminal "neutral"`},
	{"a branch at a terminal the part has not", []string{"    - {id: winding,", "    - {id: leak, from: live, to: earth, ohms: 1e8}\n    - {id: winding,"},
		`own/assemblies/bench.yaml:22:10: the part "lamp" has no terminal "earth", to which its model joins a branch; expected a point for it`},
	{"a part that follows nothing", []string{`, follows: called("heat")`, ""},
		`own/models/all.yaml:20:33: in a rule: the part "stat" of the plant says nothing under "follows", and its model needs it; expected a formula there`},
	{"a formula with a part nobody has", []string{`called("heat")}`, `part("stad").made}`},
		`own/assemblies/bench.yaml:21:97: in follows: "stad" is not a part of the plant bench; did you mean "stat"?`},
	{"a formula with a device nobody has", []string{`called("heat")}`, `device("braker").on}`},
		`own/assemblies/bench.yaml:21:99: in follows: "braker" is not a device of the plant bench; did you mean "breaker"?`},
	{"a formula with a call nobody has", []string{`called("heat")}`, `called("heats")}`},
		`own/assemblies/bench.yaml:21:99: in follows: "heats" is not a call of the plant bench; did you mean "heat"?`},
	{"a formula with a variable nobody has", []string{`called("heat")}`, `part("lamp").lit}`},
		`own/assemblies/bench.yaml:21:105: in follows: the part "lamp" has no variable or value "lit"`},
	{"a formula with a branch nobody has", []string{`follows: called("heat")`, `follows: 'amps("lamp/windings") > 0'`},
		`own/assemblies/bench.yaml:21:98: in follows: there is no branch "lamp/windings"; did you mean "lamp/winding"?`},
	{"what drives a part that acts on the plant", []string{`follows: called("heat")`, `follows: 'after("call heat", called("heat"))'`},
		`own/assemblies/bench.yaml:21:93: in follows: after belongs to signs and answers; what drives a part may not act on the plant`},
	{"a branch of less than nothing", []string{"ohms: closed_ohms, closed: made", "ohms: closed_ohms - 1, closed: made or true"},
		`own/models/all.yaml:18:12: the branch "stat/contact" has -0.9 Ω; expected more than 0`},
	{"a breaker that nobody makes", []string{"breaker: B6,", "breaker: strong,"},
		`own/assemblies/bench.yaml:4:10: the supply "unit": breaker "strong": expected curve and rating, like B16, C32 or D6`},
	{"a supply without a breaker in its path", []string{"poles: [{from: origin-live, to: way-live}]", "poles: [{from: way-live, to: in-live}]", "from: way-live, to: in-live, area", "from: origin-live, to: way-live, area"},
		`own/assemblies/bench.yaml:4:10: no device stands first in the path of the supply "unit"; expected a pole at "origin-live", so that its breaker can act`},
	{"supplies without a service", []string{"  - {id: service, kind: service, words: the service, terminals: {earth: main-earth}}\n", ""},
		`own/assemblies/bench.yaml:4:10: the plant has supplies and no part of the kind "service" that feeds them; expected one, as in the assembly house`},
	{"a model that joins less than its kind", []string{"from: live, to: neutral, ohms: ohms", "from: live, to: inside, ohms: ohms", "  is: a coil\n", "  is: a coil\n  nodes: [inside]\n"},
		`own/models/all.yaml:27:10: a coil joins "live" and "neutral", for which isolation is worked out, and no branch of its model does; expected one`},
	{"a healthy plant that chatters when it is called", []string{"(pulled_in ? 100 : 180)", "(pulled_in ? 300 : 180)"},
		`own/plants/bench.yaml:1:8: the healthy plant "bench" never comes to rest: lamp.pulled_in go on changing, in ordinary use; expected rules with hysteresis, and loads within the protection`},
	{"a healthy plant that trips when it is called", []string{"is: 1000, tol", "is: 4, tol"},
		`own/plants/bench.yaml:1:8: the healthy plant "bench" trips: breaker of unit, in ordinary use; expected rules with hysteresis, and loads within the protection`},
	{"a model that joins more than its kind", []string{"    - {id: winding,", "    - {id: screen, from: live, to: earth, ohms: 20000}\n    - {id: winding,", "{live: call, neutral: neutral}", "{live: call, neutral: neutral, earth: earth}"},
		`own/models/all.yaml:36:12: the model of a coil joins "earth" and "live", and isolation is worked out as if such a part joined nothing there; expected 100000 Ω or more, or another kind`},
}

func TestAPlantThatCannotBeSimulatedIsRefusedWithItsPlace(t *testing.T) {
	t.Parallel()
	for _, r := range refusals {
		t.Run(r.name, func(t *testing.T) {
			t.Parallel()
			_, problems := compiled(t, r.edits...)
			if diff := cmp.Diff(r.want, problems.Format(0)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// TestInsulationAndFiltersJoinNothing: 100 MΩ and 10 nF are no way for mains.
func TestInsulationAndFiltersJoinNothing(t *testing.T) {
	t.Parallel()
	bench(t, "    - {id: winding,", "    - {id: leak, from: live, to: earth, ohms: 1e8}\n    - {id: filter, from: neutral, to: earth, farads: 1e-8}\n    - {id: winding,",
		"{live: call, neutral: neutral}", "{live: call, neutral: neutral, earth: earth}")
}

// TestAPartMayFollowTheCurrentOfAnother, written before it or behind it.
func TestAPartMayFollowTheCurrentOfAnother(t *testing.T) {
	t.Parallel()
	bench(t, `follows: called("heat")`, `follows: 'called("heat") and amps("lamp/winding") < 5 and amps("feed-live") < 5 and amps("breaker.1") < 5'`)
}
