package safety

import (
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/trees"

	"github.com/google/go-cmp/cmp"
)

func names(form []FormField) []string {
	var out []string
	for _, f := range form {
		out = append(out, f.Name)
	}
	return out
}

// The order and the pairs are the form of handbook 1.3 (common practice after
// GS38): tester, demand, L-N, L-E, N-E, switched and data to N and to E, lives
// of different supplies to each other, load, tester.
func TestFormOfABoardTwoSuppliesComeTo(t *testing.T) {
	t.Parallel()
	want := []string{
		"tester proved before", "heat called", "controller dark",
		"permanent-live to neutral", "permanent-live to earth", "neutral to earth",
		"heat-call to neutral", "heat-call to earth", "hot-water-call to neutral", "hot-water-call to earth",
		"cylinder-a to neutral", "cylinder-a to earth", "data-s to neutral", "data-s to earth",
		"permanent-live to heat-call",
		"permanent-live to neutral loaded", "hot-water-call to neutral loaded",
		"tester proved after",
	}
	if d := cmp.Diff(want, names(Form(house(), "control-enclosure"))); d != "" {
		t.Error(d)
	}
}

// Where the supply of the board comes, the board has to be off and its controller
// dark. Where it does not, the board keeps its power, and what a call can make live
// is called. A plant whose calls all stand without power asks for each by itself.
func TestControllerIsSeenDarkOrCalledByWhatComesToTheEnclosure(t *testing.T) {
	t.Parallel()
	const line = "hot-water and booster called or dark"
	for box, want := range map[string]string{"control-enclosure": controllerDark, "limit-box": controllerDark, "booster-box": controllerDark,
		"unit-isolator-box": controllerDark, "booster-head": line} {
		got := names(Form(house(), box))
		for _, each := range []string{controllerDark, line} {
			if slices.Contains(got, each) != (each == want) || !slices.Contains(got, "heat called") {
				t.Errorf("%s: %q", box, got)
			}
		}
	}
	p := *house()
	p.Calls = p.Calls[:1]
	for _, box := range []string{"limit-box", "booster-head"} {
		if got := names(Form(trees.NewPlant(p), box)); slices.ContainsFunc(got, func(n string) bool { return strings.HasSuffix(n, "dark") }) {
			t.Errorf("with one call that stands: %q", got)
		}
	}
	dull := *house()
	dull.Points = slices.Clone(dull.Points)
	for i, pt := range dull.Points {
		if pt.ID == "element" {
			live := *pt
			live.Role, dull.Points[i] = "live", &live
		}
	}
	if got := names(Form(trees.NewPlant(dull), "booster-head")); slices.Contains(got, line) {
		t.Errorf("beside nothing that is switched: %q", got)
	}
}

func TestFormReadsEachSideOfAnIsolatorToItsOwnNeutral(t *testing.T) {
	t.Parallel()
	got := names(Form(house(), "unit-isolator-box"))
	for _, line := range []string{"in-live to in-neutral", "out-live to out-neutral", "in-neutral to isolator-earth", "out-neutral to isolator-earth"} {
		if !slices.Contains(got, line) {
			t.Errorf("%q is missing in %q", line, got)
		}
	}
	if slices.Contains(got, "out-live to in-neutral") {
		t.Errorf("the two sides are read across the isolator: %q", got)
	}
}

func TestFormTakesNeutralAndEarthOfItsReference(t *testing.T) {
	t.Parallel()
	got := names(Form(house(), "limit-box"))
	for _, line := range []string{"limit-in to valve-neutral", "limit-out to valve-earth", "valve-neutral to valve-earth"} {
		if !slices.Contains(got, line) {
			t.Errorf("%q is missing in %q", line, got)
		}
	}
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "limit-in", "limit-out"))
	if w.Enclosures["valve-box"].Open != Set {
		t.Error("the limit was proved against a neutral behind a cover that is on")
	}
	if Form(house(), "controller-base") != nil || Form(house(), "nowhere") != nil {
		t.Error("a form without a neutral and an earth to prove to")
	}
}

func TestNoLineUnderLoadEverGoesToEarth(t *testing.T) {
	t.Parallel()
	p := house()
	for _, e := range p.Enclosures {
		for _, f := range Form(p, e.ID) {
			if f.Mode == twoPoleLoaded && (f.To.Role != "neutral" || f.From.Role == "earth" || f.From.Role == "elv") {
				t.Errorf("%s: %s", e.ID, f.Name)
			}
		}
	}
}

func TestAFormIsCompleteOnlyWithEveryLine(t *testing.T) {
	t.Parallel()
	form := Form(house(), "control-enclosure")
	all := Clean(form)
	if v := Judge(form, all); v != (Verdict{Complete: true}) {
		t.Fatalf("a clean form gives %+v", v)
	}
	for i, f := range form {
		without := slices.Delete(slices.Clone(all), i, i+1)
		if v := Judge(form, without); v.Complete || v.Missing != f.Name {
			t.Errorf("without %q: %+v", f.Name, v)
		}
		blank := slices.Clone(all)
		blank[i].Typed = "no"
		if f.Kind == Volts || f.Dark {
			blank[i].Typed = " "
		}
		if v := Judge(form, blank); v.Complete || v.Missing != f.Name {
			t.Errorf("with %q answered %q: %+v", f.Name, blank[i].Typed, v)
		}
	}
	if v := Judge(nil, nil); v.Complete {
		t.Error("a form without lines is complete")
	}
}

// 5 V is the upper edge of the dead band: common practice, no source (handbook 3.0).
func TestAnyLineAboveFiveVoltsIsAVoltageFound(t *testing.T) {
	t.Parallel()
	form := Form(house(), "control-enclosure")
	for i, f := range form {
		if f.Kind != Volts {
			continue
		}
		for v, found := range map[float64]bool{5: false, -5: false, 5.1: true, -5.1: true, 230: true} {
			values := Clean(form)
			values[i].Value = v
			got := Judge(form, values)
			if found != (got.Line == f.Name) || got.Complete == found {
				t.Errorf("%s at %g V: %+v", f.Name, v, got)
			}
		}
	}
	if got := Judge(form, []journal.Field{{Name: "heat-call to earth", Value: 60}}); got.Line == "" {
		t.Error("a voltage met before the form was complete was passed over")
	}
}

// A lit screen says that a supply which comes here is on, whatever is read or left out.
func TestAScreenThatIsLitIsAVoltageFound(t *testing.T) {
	t.Parallel()
	form := Form(house(), "control-enclosure")
	for _, typed := range []string{"no", " N "} {
		if got := Judge(form, []journal.Field{{Name: testerBefore, Typed: "yes"}, {Name: controllerDark, Typed: typed}}); got != (Verdict{Line: controllerDark}) {
			t.Errorf("%q gives %+v", typed, got)
		}
	}
	if got := Judge(form, []journal.Field{{Name: testerBefore, Typed: "no"}}); got.Line != "" {
		t.Errorf("a tester that was not proved is taken for a voltage: %+v", got)
	}
}

func TestATesterNotProvedMakesTheFormCountForNothing(t *testing.T) {
	t.Parallel()
	ctx, w := engineer(), New(house())
	reach(t, ctx, w, ohms(ctx, "permanent-live", "neutral"))
	for i, f := range Form(ctx.Plant, "control-enclosure") {
		if f.Name != testerBefore && f.Name != testerAfter {
			continue
		}
		values := Clean(Form(ctx.Plant, "control-enclosure"))
		values[i].Typed = "no"
		r := Guard(ctx, w, OfForm("control-enclosure", values))
		refused(t, r, Order, "tester")
		if r != nil && r.Referral != testerFailed {
			t.Errorf("referral %q", r.Referral)
		}
	}
	refused(t, Guard(ctx, w, OfForm("control-enclosure", nil)), Order, "tester")
}

// A world and its copies work a form out once, and it is that of the plant.
func TestWorldKnowsTheFormsOfItsPlant(t *testing.T) {
	t.Parallel()
	p := house()
	w := New(p)
	for _, e := range p.Enclosures {
		form := w.Form(e.ID)
		if d := cmp.Diff(names(Form(p, e.ID)), names(form)); d != "" {
			t.Errorf("%s: %s", e.ID, d)
		}
		if again := w.Clone().Form(e.ID); len(form) > 0 && &again[0] != &form[0] {
			t.Errorf("%s: the form was worked out again for a copy", e.ID)
		}
	}
}

// Of two values for one line the last counts, whatever else is there.
func TestLastValueOfALineCounts(t *testing.T) {
	t.Parallel()
	form := Form(house(), "unit-isolator-box")
	clean := Clean(form)
	if v := Judge(form, clean); !v.Complete {
		t.Fatalf("a clean form lacks %q", v.Missing)
	}
	no := journal.Field{Name: clean[0].Name, Typed: "no"}
	if v := Judge(form, append(slices.Clone(clean), no)); v.Complete || v.Missing != no.Name {
		t.Errorf("the tester is taken for proved though the last answer is no: %+v", v)
	}
	if v := Judge(form, append([]journal.Field{no}, clean...)); !v.Complete {
		t.Errorf("an answer that was given again is not taken: %+v", v)
	}
	swapped := slices.Clone(clean)
	swapped[1], swapped[2] = swapped[2], swapped[1]
	if v := Judge(form, swapped); !v.Complete {
		t.Errorf("in another order %q is missing", v.Missing)
	}
}
