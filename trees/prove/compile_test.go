package prove

import (
	"errors"
	"strings"
	"testing"
	"time"
)

func vocabulary() Vocabulary {
	return Vocabulary{
		Readings:  []Reading{{"ln", []string{"dead", "sound"}}, {"le", []string{"dead", "unproved"}}, {"ne", nil}},
		Constants: []string{"expected.high", "expected.low", "mains.high", "mains.low"},
		Facts:     []string{"moving"},
	}
}

func TestWhatAConditionMayNotHoldIsRefusedWhereItStands(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]string{
		"":                            `1:1: the condition is empty; write one, or true`,
		"ln":                          `1:1: found "ln"; expected a condition, such as ln < 5 or between(ln, 5, 10)`,
		"5":                           `1:1: found a number; expected a condition, such as ln < 5 or between(ln, 5, 10)`,
		"ln + 5":                      `1:4: "+" is not allowed where a condition is expected; use and, or, not, comparisons, between and bands`,
		"readin < 5":                  `1:1: unknown name "readin"; expected one of "expected.high", "expected.low", "le", "ln", "mains.high", "mains.low", "ne"`,
		"ln < mains.lwo":              `1:6: unknown name "mains.lwo"; did you mean "mains.low"?`,
		"ln < mains.low.x":            `1:6: unknown name "mains.low.x"; did you mean "mains.low"?`,
		"ln < mains":                  `1:6: unknown name "mains"; expected one of "expected.high", "expected.low", "le", "ln", "mains.high", "mains.low", "ne"`,
		"ln < 5 and\n le < mians.low": `2:7: unknown name "mians.low"; did you mean "mains.low"?`,
		"lm < 5 or ln > expected.hig": `1:1: unknown name "lm"; did you mean "le"?|1:16: unknown name "expected.hig"; did you mean "expected.high"?`,
		"soudn(ln)":                   `1:1: unknown function "soudn"; did you mean "sound"?`,
		"sound(le)":                   `1:1: the reading le has no band "sound"; its bands are "dead", "unproved"`,
		"sound(ne)":                   `1:1: the reading ne has no bands`,
		"sound(ln * 2)":               `1:10: found "*" in sound(…); expected a reading, one of "le", "ln", "ne"`,
		"sound(lm)":                   `1:7: found "lm" in sound(…); expected a reading, one of "le", "ln", "ne"`,
		"sound()":                     `1:1: sound has 0 arguments; expected one reading, such as sound(ln)`,
		"moving(ln, le)":              `1:1: moving has 2 arguments; expected one reading, such as moving(ln)`,
		"between(ln, 5)":              `1:1: between has 2 arguments; expected a reading and two limits, such as between(ln, 5, 10)`,
		"between(ln, 10, 5)":          `1:13: between has its limits the wrong way round; expected the lower one first`,
		"ln in 5..10":                 `1:4: "in" matches whole numbers only; write between(ln, 200, 250) or the name of a band`,
		"ln in [5, 10]":               `1:4: "in" matches whole numbers only; write between(ln, 200, 250) or the name of a band`,
		"5..10":                       `1:2: ".." matches whole numbers only; write between(ln, 200, 250) or the name of a band`,
		"not ln < 5":                  `1:1: not stands before a number; write it before a condition in brackets, such as not (ln < 5)`,
		"(ln < 5) < 6":                `1:5: found "<"; expected a number made with + - * / abs, min or max`,
		"sound(ln) == true":           `1:1: sound(…) is true or false; expected a number|1:14: found true or false; expected a number`,
		"abs(ln)":                     `1:1: abs gives a number; compare it with one`,
		"abs(ln, 5) < 5":              `1:1: abs has 2 arguments; expected 1`,
		"max(ln) < 5":                 `1:1: max has 1 argument; expected 2`,
		"sqrt(ln) < 5":                `1:1: unknown function "sqrt"; expected one of "abs", "max", "min"`,
		"ln ** 2 < 5":                 `1:4: found "**"; expected a number made with + - * / abs, min or max`,
		"ln % 2 == 0":                 `1:4: found "%"; expected a number made with + - * / abs, min or max`,
		"'x' == 'x'":                  `1:1: found a text; expected a number|1:8: found a text; expected a number`,
		"ln < nil":                    `1:6: found something that is not allowed here; expected a number`,
		"ln > 5 ? true : false":       `1:4: found a choice (? :); expected a condition, such as ln < 5 or between(ln, 5, 10)`,
		"let x = 5; ln < x":           `1:5: found several statements; expected a condition, such as ln < 5 or between(ln, 5, 10)`,
		"ln < 5; ln < 6":              `1:4: found several statements; expected a condition, such as ln < 5 or between(ln, 5, 10)`,
		"all([1], # > 0)":             `1:1: unknown function "all"; expected one of "abs", "between", "dead", "max", "min", "moving", "sound", "unproved"`,
		"5 | abs() < 6":               `1:5: found | before a function; write what stands before it in the brackets`,
		"$env.ln < 5":                 `1:1: unknown name "$env.ln"; expected one of "expected.high", "expected.low", "le", "ln", "mains.high", "mains.low", "ne"`,
		"mains[\"low\"] < ln":         "",
		"mains?.low < ln":             `1:8: found something that is not allowed here; expected a number`,
		"\"x\" matches \"x\"":         `1:5: "matches" is not allowed where a condition is expected; use and, or, not, comparisons, between and bands`,
		"ln < 5 and":                  `1:10: the condition cannot be read: unexpected token EOF`,
		"ln < 5)":                     `1:7: the condition cannot be read: unexpected token Bracket(")")`,
		"ln < 9999999999999999999":    `1:24: the condition cannot be read: invalid integer literal`,
		"ln < \xff":                   `1:1: the condition is not text in UTF-8`,
	} {
		_, err := New().Compile(source, vocabulary())
		got := ""
		if err != nil {
			got = strings.ReplaceAll(err.Error(), "\n", "|")
		}
		if got != want {
			t.Errorf("%q:\n%s\nwant:\n%s", source, got, want)
		}
	}
}

func TestWhatAConditionMayHold(t *testing.T) {
	t.Parallel()
	for _, source := range []string{"true", "false", "ln < 5", "5 < ln < 10", "ln >= -5.5", "ln == mains.low", "not (ln < 5)", "!(ln < 5) && le > 5 || ne < 3",
		"between(ln, mains.low, mains.high)", "sound(ln) and not dead(le)", "moving(ln)", "ln * 2 < 5", "ln - 3 > 1", "abs(ln - 230) <= 23",
		"max(ln, 5) < min(mains.low, 6)", "-ln < 5", "1 < 2", "ln / 2 != 5 or ln < 2 * (mains.low - 1)", "not not dead(ln)"} {
		c, err := New().Compile(source, vocabulary())
		if err != nil {
			t.Errorf("%q: %v", source, err)
			continue
		}
		if u := c.Undecided(); u != nil {
			t.Errorf("%q: %v", source, u)
		}
	}
}

func TestWhatCannotBeDecidedHasAReasonAndAPlace(t *testing.T) {
	t.Parallel()
	for source, want := range map[string]string{
		"ln < le":             "1:4: two readings are compared with each other; compare each with a number",
		"ln - le < 5":         "1:9: two readings are in one comparison; compare each with a number",
		"ln < ln + 5":         "1:4: the reading ln stands on both sides of the comparison",
		"ln * ln < 5":         "1:4: the reading ln comes twice in one number",
		"dead(ln) or ln+ln<5": "1:15: the reading ln comes twice in one number",
		"100 / ln > 2":        "1:5: a number is divided by the reading ln; multiply the other side instead",
		"between(5, ln, 10)":  "",
		"between(ln, le, 10)": "1:1: two readings are compared with each other; compare each with a number",
	} {
		c, err := New().Compile(source, vocabulary())
		if err != nil {
			t.Fatal(source, err)
		}
		got := ""
		for _, u := range c.Undecided() {
			got += u.String()
		}
		if got != want {
			t.Errorf("%q: %s, want %s", source, got, want)
		}
	}
}

func TestWhatTheValuesHideIsUndecidedToo(t *testing.T) {
	t.Parallel()
	for condition, want := range map[string]string{
		"ln * zero < 5":      "1:11: the reading is multiplied by 0",
		"ln / zero < 5":      "1:11: the reading is divided by 0",
		"ln + 1/zero < 5":    "1:13: a number beside the reading is not finite",
		"ln < 0 / zero":      "1:4: the limit is not a number",
		"ln * 2 < 1 / zero":  "1:8: the limit is not a finite number",
		"ln < 1 / zero":      "",
		"zero < 5":           "",
		"abs(ln*zero) > 230": "1:14: the reading is multiplied by 0",
	} {
		s := single(condition, "else")
		s.Constants["zero"] = 0
		_, undecided := mustTable(t, s)
		got := ""
		for _, u := range undecided {
			got += u.String()
		}
		if got != want {
			t.Errorf("%q: %s, want %s", condition, got, want)
		}
	}
}

func TestASetMustMakeSense(t *testing.T) {
	t.Parallel()
	for want, set := range map[string]Set{
		"0 readings; expected one to 3":                            {Branches: []Branch{{If: "true"}}},
		"0 branches; expected one to 64":                           {Variables: []Variable{volts("ln")}},
		"1:1: else stands before other branches; expected it last": single("else", "ln < 5"),
		"1:6: unknown name \"x\"; expected one of \"expected.low\", \"ln\", \"mains.high\", \"mains.low\"": single("ln < x"),
		"the reading \"l n\" has no name that a condition could use":                                       {Variables: []Variable{volts("l n")}, Branches: []Branch{{Else: true}}},
		"the reading ln is there twice":                                                                    {Variables: []Variable{volts("ln"), volts("ln")}, Branches: []Branch{{Else: true}}},
		"the reading \"r\" goes from 5 to 4; expected a finite lower end and an upper end not below it": {
			Variables: []Variable{{Name: "r", Min: 5, Max: 4}}, Branches: []Branch{{Else: true}}},
		"the reading \"r\" has the band b up to 4, below the band before it, which ends at 5": {
			Variables: []Variable{{Name: "r", Max: 9, Bands: []Band{{"a", 5, false}, {"b", 4, false}}}}, Branches: []Branch{{Else: true}}},
		"the reading \"r\" has the band a twice": {
			Variables: []Variable{{Name: "r", Max: 9, Bands: []Band{{"a", 5, false}, {"a", 6, false}}}}, Branches: []Branch{{Else: true}}},
		"the constant c is not a number": {
			Variables: []Variable{volts("ln")}, Constants: map[string]float64{"c": ol - ol}, Branches: []Branch{{Else: true}}},
	} {
		_, _, err := New().Table(set)
		if err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

func TestAnErrorNamesItsBranch(t *testing.T) {
	t.Parallel()
	_, _, err := New().Table(single("ln < 5", "ln >= 5 and lm < 3"))
	var errs Errors
	if !errors.As(err, &errs) || len(errs) != 1 || errs[0].Branch != 1 || errs[0].Line != 1 || errs[0].Column != 12 {
		t.Errorf("%#v", err)
	}
	_, undecided := mustTable(t, single("ln < 5", "ln * ln < 5", "else"))
	if len(undecided) != 1 || undecided[0].Branch != 1 {
		t.Errorf("%v", undecided)
	}
}

func TestHostileConditionsAreRefusedBeforeTheyCost(t *testing.T) {
	t.Parallel()
	million := strings.Repeat("(", 1_000_000)
	for source, want := range map[string]string{
		million + "ln":                            "1:1: the condition has 1000002 bytes; expected at most 512",
		strings.Repeat("(", 200) + "true":         "1:33: brackets are nested too deeply; expected at most 32 levels",
		"ln < 5" + strings.Repeat(" or ln<5", 60): "1:408: the condition cannot be read: compilation failed: expression exceeds maximum allowed nodes",
	} {
		start := time.Now()
		_, err := New().Compile(source, vocabulary())
		if err == nil || err.Error() != want {
			t.Errorf("%.40q: %v, want %s", source, err, want)
		}
		if time.Since(start) > 5*time.Second {
			t.Errorf("%.40q took %v", source, time.Since(start))
		}
	}
	for _, source := range []string{strings.Repeat("not ", 120) + "true", strings.Repeat("-", 500) + "1 < ln", strings.Repeat("[", 30) + strings.Repeat("]", 30)} {
		_, _ = New().Compile(source, vocabulary()) // must come back
	}
}

func TestTooManyPartsAreRefused(t *testing.T) {
	t.Parallel()
	s := Set{Variables: []Variable{volts("a"), volts("b"), volts("c")}, FirstTrue: true}
	for _, name := range []string{"a", "b", "c"} {
		var parts []string
		for i := range 30 {
			parts = append(parts, name+"=="+strings.Repeat("1", 1+i%9)+"."+strings.Repeat("5", 1+i/9))
		}
		s.Branches = append(s.Branches, Branch{If: strings.Join(parts, " or ")})
	}
	if _, _, err := New().Table(s); err == nil || err.Error() != "the branches cut the readings into more than 30000 parts; use fewer limits or facts" {
		t.Error(err)
	}
}

func TestAProverRemembers(t *testing.T) {
	t.Parallel()
	p := New()
	first, _, _ := p.Table(single("ln < 5", "ln >= 5"))
	again, _, _ := p.Table(single("ln < 5", "ln >= 5"))
	if first != again {
		t.Error("the same set was proved twice")
	}
	other := single("ln < 5", "ln >= 5")
	other.Variables[0].Max = 400
	if third, _, _ := p.Table(other); third == first {
		t.Error("another range has the same proof")
	}
}
