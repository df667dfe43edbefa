package trees

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestAReferenceIsANameAndPairs(t *testing.T) {
	t.Parallel()
	got, err := ParseRef("driven at limit-out  calling hot-water")
	want := Ref{Name: "driven", Args: []Arg{{"at", "limit-out"}, {"calling", "hot-water"}}}
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	if s := got.String(); s != "driven at limit-out calling hot-water" {
		t.Errorf("String() = %q", s)
	}
	if v, ok := got.Arg("calling"); v != "hot-water" || !ok {
		t.Errorf("calling is %q, %t", v, ok)
	}
	if v, ok := got.Arg("of"); v != "" || ok {
		t.Errorf("of is %q, %t; expected none", v, ok)
	}
}

func TestAReferenceKeepsParametersToBeFilledIn(t *testing.T) {
	t.Parallel()
	for _, text := range []string{"winding of $of", "driven at $at.neutral calling $zone-call", "rated at B16", "legs"} {
		if r, err := ParseRef(text); err != nil || r.String() != text {
			t.Errorf("%q: %q, %v", text, r, err)
		}
	}
}

func TestWhatIsNoReferenceSaysWhatWasExpected(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"":                      "the reference is empty",
		"Driven at x":           `"Driven" is no name`,
		"driven at":             `"at" has no value`,
		"driven at x at y":      `the parameter "at" comes twice`,
		"driven At x":           `"At" is no name of a parameter`,
		"driven at x,":          `"x," is no value of the parameter "at"`,
		"driven at $":           `"$" is no value`,
		"driven at a.b.c":       `"a.b.c" is no value`,
		strings.Repeat("-", 99): strings.Repeat("-", 40) + "…",
	} {
		_, err := ParseRef(text)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; expected %q", text, err, want)
		}
	}
}

func TestAReferenceReadsBackAsItIsWritten(t *testing.T) {
	t.Parallel()
	word := rapid.StringMatching(`[a-z][a-z0-9]{0,5}(-[a-z0-9]{1,4}){0,2}`)
	rapid.Check(t, func(t *rapid.T) {
		ref := Ref{Name: word.Draw(t, "name")}
		for _, p := range rapid.SliceOfNDistinct(word, 0, 4, rapid.ID).Draw(t, "params") {
			ref.Args = append(ref.Args, Arg{p, word.Draw(t, "value")})
		}
		got, err := ParseRef(ref.String())
		if diff := cmp.Diff(ref, got); err != nil || diff != "" {
			t.Fatalf("%q: %v\n%s", ref, err, diff)
		}
	})
}

func TestParametersAreFilledIn(t *testing.T) {
	t.Parallel()
	params := []Param{{Name: "at", Kind: "point"}, {Name: "zone", Kind: "word"}, {Name: "zone-two", Kind: "word"}}
	for text, want := range map[string]string{
		"from $at to $at.neutral":    "from <at> to <at.neutral>",
		"$zone-valve and $zone-two.": "<zone>-valve and <zone-two>.",
		"$at. Then":                  "<at>. Then",
		"costs $5 or £ $":            "costs $5 or £ $",
		"$zonal":                     "<?zonal>",
		"$no-where.x":                "<?no-where.x>",
		"ü $at":                      "ü <at>",
	} {
		got := fillParams(text, isParam(params), func(u paramUse) string {
			name := u.Name
			if u.Attr != "" {
				name += "." + u.Attr
			}
			if !u.Known {
				name = "?" + name
			}
			if !strings.HasPrefix(string([]rune(text)[u.Start:]), "$"+u.Name) {
				t.Errorf("%q: $%s is not at character %d", text, u.Name, u.Start)
			}
			return "<" + name + ">"
		})
		if got != want {
			t.Errorf("%q gives %q; expected %q", text, got, want)
		}
	}
}
