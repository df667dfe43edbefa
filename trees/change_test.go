package trees

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestChangesAreReadInEveryForm(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]Change{
		"lock made to false":                      {Verb: "lock", Name: "made", To: "false"},
		"start high-limit.tripped to true":        {Verb: "start", Name: "high-limit.tripped", To: "true"},
		"lock box valve-box wet to true":          {Verb: "lock", Thing: "box", Of: "valve-box", Name: "wet", To: "true"},
		"lock setting hot-water-on to away":       {Verb: "lock", Thing: "setting", Of: "hot-water-on", To: "away"},
		"start device breaker tripped to none":    {Verb: "start", Thing: "device", Of: "breaker", Name: "tripped", To: "none"},
		"open  valve/winding":                     {Verb: "open", Name: "valve/winding"},
		"ohms core@from 0":                        {Verb: "ohms", Name: "core@from"},
		"add $live earth 4000 ohms":               {Verb: "add", From: "$live", On: "earth", Ohms: 4000},
		"add a b 100 nF":                          {Verb: "add", From: "a", On: "b", Farads: 100e-9},
		"add a b 100 nF 47 ohms":                  {Verb: "add", From: "a", On: "b", Farads: 100e-9, Ohms: 47},
		"land call-core at limit-in on limit-out": {Verb: "land", Name: "call-core", From: "limit-in", On: "limit-out"},
	} {
		got, err := ParseChange(text)
		if diff := cmp.Diff(want, got); diff != "" || err != nil {
			t.Errorf("%s: %v\n%s", text, err, diff)
		}
	}
}

func TestChangesOutOfTheirFormAreRefusedWithTheForm(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"":                          "a change is empty",
		"lok made to false":         `unknown change "lok"; expected one of "add", "land", "lock", "ohms", "open", "start"; did you mean "lock"?`,
		"lock made false":           `expected "lock V to X"`,
		"lock made to":              `expected "lock V to X"`,
		"lock box b wet dry to 1":   `expected "lock V to X"`,
		"lock box b damp to true":   `expected "lock V to X"`,
		"lock device d lit to true": `expected "lock V to X"`,
		"open":                      `expected "open B"`,
		"ohms a -1":                 `expected "ohms B 2000"`,
		"ohms a NaN":                `expected "ohms B 2000"`,
		"add a b 0 ohms":            `expected "add A B 4000 ohms"`,
		"add a b +Inf ohms":         `expected "add A B 4000 ohms"`,
		"add a b 4 F":               `expected "add A B 4000 ohms"`,
		"add a b 4 nF 3":            `expected "add A B 4000 ohms"`,
		"add a b":                   `expected "add A B 4000 ohms"`,
		"land c from a on b":        `expected "land C at P on Q"`,
	} {
		if _, err := ParseChange(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v; expected %s", text, err, want)
		}
	}
}

func TestNamesAreFilledInByTheLongestThatIsKnown(t *testing.T) {
	t.Parallel()
	names := map[string]string{"part": "valve", "part-two": "pump", "live": "valve-live"}
	for text, want := range map[string]string{
		"open-core of $part":      "open-core of valve",
		"$part-two and $part-one": "pump and valve-one",
		"add $live $neutral 1":    "add valve-live $neutral 1",
		"lock $part.open to true": "lock valve.open to true",
		"nothing to fill in here": "nothing to fill in here",
	} {
		if got := FillNames(text, names); got != want {
			t.Errorf("%s gives %s; expected %s", text, got, want)
		}
	}
}
