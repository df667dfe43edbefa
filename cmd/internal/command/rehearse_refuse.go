package command

import (
	"maps"
	"slices"
	"strings"

	"faultwalk/engine/rehearse"
	"faultwalk/trees"
	"faultwalk/trees/spelling"
)

// verdictNames are the words of --show.
func verdictNames() []string {
	var out []string
	for _, v := range rehearse.Verdicts() {
		out = append(out, string(v))
	}
	return out
}

// check refuses names that the trees do not have, and flags that say nothing
// beside the others. A name given twice counts once, a verdict may be written
// with a hyphen.
func (o *rehearseFlags) check(set *trees.Set) error {
	for i, v := range o.show {
		o.show[i] = strings.ReplaceAll(v, "-", " ")
	}
	for _, l := range []struct {
		flag  string
		of    *[]string
		known []string
	}{
		{"--plant", &o.plants, slices.Sorted(maps.Keys(set.Plants))},
		{"--symptom", &o.symptoms, slices.Sorted(maps.Keys(set.Symptoms))},
		{"--show", &o.show, verdictNames()},
	} {
		for _, name := range *l.of {
			if err := oneOf(l.flag, name, l.known); err != nil {
				return err
			}
		}
		*l.of = once(*l.of)
	}
	return o.ignored()
}

// ignored refuses flags that would be passed over.
func (o *rehearseFlags) ignored() error {
	switch {
	case o.noise < 0:
		return usage("--noise %d: expected how many draws, 20 for instance", o.noise)
	case o.sweep && o.noise > 0:
		return usage("--sweep draws by itself; leave out --noise")
	case o.given("seed") && o.noise == 0 && !o.sweep:
		return usage("--seed is where the draws of --noise and --sweep begin; add one of them, --noise 20 for instance, or leave out --seed")
	case o.given("fault") && o.fault == "":
		return usage("--fault: which fault? faultwalk probe --plant PLANT --faults lists them")
	case o.all && o.given("show"):
		return usage("--all lists every walk; leave out --show, or leave out --all to see those walks with their steps")
	case o.all && o.moved:
		return usage("--all lists every walk; leave out --moved, or leave out --all to see what the meter moved")
	case o.all && o.fault != "" && !o.asJSON:
		return usage("--fault shows every walk of that fault; leave out --all")
	}
	return nil
}

// oneOf refuses a name that is not known, with the nearest that is.
func oneOf(flag, name string, known []string) error {
	switch {
	case slices.Contains(known, name):
		return nil
	case name == "":
		return usage("%s: which one? Expected one of %s", flag, strings.Join(known, ", "))
	}
	return usage("%s %q: expected one of %s%s", flag, name, strings.Join(known, ", "), spelling.DidYouMean(name, known))
}

// once keeps the first of equal names.
func once(names []string) (out []string) {
	for _, n := range names {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// nearFault names the fault whose id is nearest, or those that share words with
// what was asked for.
func nearFault(ids []string, asked string) string {
	const most = 8
	if hint := spelling.DidYouMean(asked, ids); hint != "" {
		return hint
	}
	words := strings.Fields(strings.ReplaceAll(asked, " of ", " "))
	for least := len(words); least > 0; least-- {
		if near := sharing(ids, words, least); len(near) > 0 {
			return "; near it: " + strings.Join(near[:min(most, len(near))], ", ")
		}
	}
	return ""
}

// sharing lists the ids that have at least so many of the words in them.
func sharing(ids, words []string, least int) (out []string) {
	for _, id := range once(ids) {
		n := 0
		for _, w := range words {
			if strings.Contains(id, w) {
				n++
			}
		}
		if n >= least {
			out = append(out, id)
		}
	}
	return out
}
