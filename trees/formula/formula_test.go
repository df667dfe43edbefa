package formula

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// state is a plant of the tests.
type state struct{ a, b, body float64 }

// resolver knows the names a, b (numbers), body (a word), const_two, parts x and y.
func resolver(words *Words) Resolver[*state] {
	vars := map[string]Value[*state]{
		"a":         Of(Numeric, func(s *state) float64 { return s.a }),
		"b":         Of(Numeric, func(s *state) float64 { return s.b }),
		"body":      Of(Wordy, func(s *state) float64 { return s.body }),
		"const_two": Constant[*state](2),
	}
	known := []string{"a", "b", "body", "const_two"}
	return Resolver[*state]{Words: words,
		Name: func(name string) (Value[*state], error) {
			if v, there := vars[name]; there {
				return v, nil
			}
			return Value[*state]{}, Unknown("a variable", name, known)
		},
		Call: func(c Call[*state]) (Value[*state], error) {
			switch c.Name {
			case "has":
				return Truth[*state](c.Words[0] == "x"), nil
			case "part":
				if c.Words[0] != "x" {
					return Value[*state]{}, AtWord(0, Unknown("a part", c.Words[0], []string{"x"}))
				}
				if v, there := vars[c.Field]; there {
					return v, nil
				}
				return Value[*state]{}, AtField(Unknown("a variable", c.Field, known))
			case "after":
				of := c.Of.Func()
				return Of(c.Of.Type, func(s *state) float64 { return of(&state{a: s.a + float64(len(c.Acts))}) }), nil
			}
			return Of(Numeric, func(s *state) float64 { return 100 }), nil
		}}
}

func evaluated(t *testing.T, source string, s state) float64 {
	t.Helper()
	f, errs := Parse(source)
	if len(errs) > 0 {
		t.Fatalf("%s: %v", source, errs)
	}
	words := &Words{}
	s.body = words.ID("heating")
	v, errs := Compile(f, resolver(words))
	if len(errs) > 0 {
		t.Fatalf("%s: %v", source, errs)
	}
	return v.Func()(&s)
}

func TestFormulasGiveWhatTheySay(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]float64{
		"1 + 2 * 3": 7, "(1 + 2) * 3": 9, "-a": -3, "a - b - 1": -2, "a / const_two": 1.5, "2e-3": 0.002, "-2 - -3": 1,
		"true": 1, "not true": 0, "!false": 1, "not a": 0, "a and b": 1, "a and 0": 0, "0 or b": 1, "a && b || false": 1,
		"a < b": 1, "a <= 3": 1, "a > b": 0, "a >= 3": 1, "a == 3": 1, "a != 3": 0, "not (a == b)": 1,
		"a > 2 or b > 100 and false": 1, "a == 3 ? b : 7": 4, "a == 4 ? b : 7": 7, "a > 5 ? 1 : a > 2 ? 2 : 3": 2,
		"min(a, b)": 3, "max(a, b, 9)": 9, "min(7, a, b)": 3, "abs(a - b)": 1, "round(2.5)": 3, "round(a * 0.9)": 3,
		`body == "heating"`: 1, `body != "heating"`: 0, `body == "water"`: 0, `(a > 5 ? "water" : body) == "heating"`: 1,
		`has("x") and part("x").a == 3`: 1, `has("pump") and part("pump").runs`: 0, `has("pump") ? part("pump").runs : 5`: 5,
		`not has("pump") or part("pump").runs`: 1, `volts("live", "neutral") > 99`: 1, `part("x").body == "heating"`: 1,
		`after("reset unit-breaker, call hot-water", a)`: 5, `after("wait", a > 3.5)`: 1,
	} {
		if got := evaluated(t, source, state{a: 3, b: 4}); got != want {
			t.Errorf("%s gives %v; expected %v", source, got, want)
		}
	}
}

// A 10 kΩ thermistor of β 3977 has 10 kΩ at 25 °C by its name; public component
// tables give it 32 650 Ω at 0 °C (from memory), from which one β strays by 4 %.
func TestThermistorsFollowTheBetaEquation(t *testing.T) {
	t.Parallel()
	if got := evaluated(t, "thermistor(10000, 3977, 25)", state{}); math.Abs(got-10000) > 1e-6 {
		t.Errorf("at 25 °C it has %v Ω", got)
	}
	if got := evaluated(t, "thermistor(10000, 3977, 0)", state{}); math.Abs(got-32650) > 0.05*32650 {
		t.Errorf("at 0 °C it has %v Ω", got)
	}
	for _, celsius := range []float64{-10, 0, 25, 48, 90} {
		if got := Celsius(12000, 3750, Thermistor(12000, 3750, celsius)); math.Abs(got-celsius) > 1e-9 {
			t.Errorf("%v °C reads back as %v", celsius, got)
		}
	}
	if open, short := Celsius(10000, 3977, math.Inf(1)), Celsius(10000, 3977, 0); open != -273.15 || !math.IsInf(short, 1) {
		t.Errorf("open reads %v, short %v", open, short)
	}
}

func TestConstantsAreWorkedOutOnce(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]bool{
		"1 + 2 * const_two": true, `has("x")`: true, `has("pump") and a`: true, "a + 1": false, `has("x") ? 3 : a`: true,
		"true or a": true, "a and false": true, "a or false": false, "min(1, const_two, 3)": true,
	} {
		f, _ := Parse(source)
		v, errs := Compile(f, resolver(&Words{}))
		if len(errs) > 0 || v.Known != want {
			t.Errorf("%s is constant: %v, %v; expected %v", source, v.Known, errs, want)
		}
	}
}

func TestMistakesAreNamedWhereTheyStand(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]string{
		"":                               "1: it is empty; write a formula, or true",
		"a = 1":                          `3: it cannot be read: unexpected token Operator("="); did you mean ==?`,
		"a +":                            "3: it cannot be read: it ends where more was expected",
		"vlts(\"a\", \"b\")":             `1: unknown function "vlts"; did you mean "volts"?`,
		"1 + volts(\"a\")":               `5: volts has 1 argument; expected volts("live", "neutral")`,
		"volts(a, \"b\") > 1":            `7: the names in the brackets of volts stand in quotes, as in volts("live", "neutral")`,
		"part(\"x\")":                    `1: part needs what is asked of it, as in part("diverter").body`,
		"called(\"x\").on":               `13: called gives a value, which has no "on"`,
		"a.b":                            `3: found a . or [ that formulas do not have; expected it after part("…"), box("…") or device("…") only`,
		"body < \"heating\"":             `6: "<" compares words; expected == or !=, for words have no order`,
		"1 + \"heating\"":                `3: "+" takes numbers, true and false; operand 2 is a word, which only == and != compare`,
		"not \"heating\"":                `1: "not" takes numbers, true and false; operand 1 is a word, which only == and != compare`,
		"1 == \"heating\"":               `3: "==" compares a number with a word, which are never the same kind of thing`,
		"setting(\"x\") == 1":            `14: "==" compares a word with a number, which are never the same kind of thing`,
		"setting(\"x\") and a":           `14: "and" takes numbers, true and false; operand 1 is a word, which only == and != compare`,
		"a ? 1 : \"x\"":                  "1: one way of the choice gives a word and the other a number; expected the same of both",
		"not a == b":                     `7: not binds tighter than ==, so this compares with "not …"; write not (a == b), or the opposite comparison`,
		"a in [1]":                       `3: "in" is no operator of formulas; expected and, or, not, comparisons, + - * / or ? :`,
		"a ** 2":                         `3: "**" is no operator of formulas; expected and, or, not, comparisons, + - * / or ? :`,
		"min(1)":                         "1: min has 1 argument; expected min(a, b)",
		"a | abs()":                      "5: found | before a function; write what stands before it in the brackets",
		"a + Bad":                        `5: found the name "Bad"; expected small letters, digits and _`,
		"after(\"call x, resset y\", a)": `16: unknown act "resset"; did you mean "reset"?`,
		"after(\"wait now\", a)":         `8: found "now" behind "wait"; expected nothing`,
		"after(\"call\", a)":             `8: "call" is done to one thing; expected its id, as in "reset unit-breaker"`,
		"len(\"abc\") > 1":               `1: unknown function "len"; expected one of "abs", "after", "amps", "box", "called", "celsius", "dcamps", "dcvolts", "device", "has", "max", "min", "part", "round", "setting", "swings", "thermistor", "volts"`,
		strings.Repeat("(", 33) + "1":    "33: brackets are nested too deeply; expected at most 32 levels",
	} {
		f, errs := Parse(source)
		if diff := cmp.Diff(want, errs.Error()); diff != "" || f != nil {
			t.Errorf("%s: %s", source, diff)
		}
	}
}

func TestWhatThePlantLacksIsNamedWhereItStands(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]string{
		"1 + bodi":            `5: "bodi" is not a variable; did you mean "body"?`,
		"volts > 1":           `1: volts needs brackets, as in volts("live", "neutral")`,
		`part("z").a`:         `6: "z" is not a part; expected one of "x"`,
		`1 - part("x").aa`:    `15: "aa" is not a variable; did you mean "a"?`,
		`a == "heating"`:      `3: "==" compares a number with a word, which are never the same kind of thing`,
		`body < body`:         `6: "<" compares words; expected == or !=, for words have no order`,
		`body + 1`:            `6: "+" takes numbers, true and false; operand 1 is a word, which only == and != compare`,
		"a / (const_two - 2)": "3: division by nought",
		`"é" == body and zz`:  `17: "zz" is not a variable; expected one of "a", "b", "body", "const_two"`,
	} {
		f, errs := Parse(source)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		_, errs = Compile(f, resolver(&Words{}))
		if diff := cmp.Diff(want, errs.Error()); diff != "" {
			t.Errorf("%s: %s", source, diff)
		}
	}
}

func TestEveryMistakeIsReportedAtOnce(t *testing.T) {
	t.Parallel()
	if _, errs := Parse(`vlts("a") + Bad + 1 ** 2`); len(errs) != 3 {
		t.Errorf("reported: %v", errs)
	}
}

// The library uses the middle of a < b < c and the front of a ?: b twice:
// inside one another they would double with each level.
func TestWhatDoublesIsRefusedInTime(t *testing.T) {
	t.Parallel()
	for _, of := range [][2]string{{"1 < (", ") < 1"}, {"(", ") ?: 1"}, {"1 < (", ") < 1 < 1 < 1"}} {
		if _, errs := Parse(strings.Repeat(of[0], 30) + "1" + strings.Repeat(of[1], 30)); len(errs) == 0 {
			t.Errorf("%s…%s was read", of[0], of[1])
		}
	}
}

func TestWordsComeBack(t *testing.T) {
	t.Parallel()
	w := &Words{}
	a, b := w.ID("heating"), w.ID("water")
	if a == b || a != w.ID("heating") || w.Word(a) != "heating" || w.Word(b) != "water" || w.Word(0) != "" || w.Word(9) != "" || w.Word(1.5) != "" {
		t.Errorf("ids %v and %v, words %q and %q", a, b, w.Word(a), w.Word(b))
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"a and not b", `part("x").body == "heating" ? 1 : 2`, `after("reset x, wait", swings(a < 1))`, "a | b()", "1<2<3", "#", "if a {1} else {2}", "let x = 1; x", "[1][0]", "a?.b", "not not a"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, source string) {
		parsed, errs := Parse(source)
		if (parsed == nil) == (len(errs) == 0) {
			t.Fatalf("%q: neither a formula nor an error", source)
		}
		length := len([]rune(source))
		for _, e := range errs {
			if e.At < 0 || e.At > length {
				t.Fatalf("%q: an error at %d", source, e.At)
			}
		}
		if parsed == nil {
			return
		}
		v, errs := Compile(parsed, resolver(&Words{}))
		for _, e := range errs {
			if e.At < 0 || e.At > length {
				t.Fatalf("%q: an error at %d", source, e.At)
			}
		}
		if len(errs) == 0 {
			v.Func()(&state{})
		}
	})
}

// One operation is a rule of nine parts.
func BenchmarkRule(b *testing.B) {
	f, _ := Parse(`a >= 0.030 or b and a >= 0.015 and body != "water"`)
	words := &Words{}
	v, errs := Compile(f, resolver(words))
	if len(errs) > 0 {
		b.Fatal(errs)
	}
	get, s := v.Func(), &state{a: 0.02, b: 1, body: words.ID("heating")}
	b.ReportAllocs()
	for b.Loop() {
		get(s)
	}
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		Parse(`a >= 0.030 or b and a >= 0.015 and body != "water"`)
	}
}
