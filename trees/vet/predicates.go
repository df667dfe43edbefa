package vet

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"faultwalk/trees"
	"faultwalk/trees/strict"
)

var (
	named  = regexp.MustCompile(`\b(has|chain|call|fact)\(\s*["']([^"'$]*)["']\s*\)`)
	option = regexp.MustCompile(`\bfact\(\s*["']([^"'$]*)["']\s*\)\s*(?:==|!=)\s*["']([^"'$]*)["']`)
)

// predicates reports names in the questions about a plant that no plant knows:
// they would only ever be answered in one way.
func (v *vetting) predicates() {
	if len(v.plants) < len(v.set.Plants) {
		return // a plant that could not be composed may know them
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Symptoms)) {
		v.names(v.set.Symptoms[id].Plants)
		v.ifs(v.set.Symptoms[id].Steps)
	}
	for _, id := range slices.Sorted(maps.Keys(v.set.Routines)) {
		v.ifs(v.set.Routines[id].Steps)
	}
}

func (v *vetting) ifs(steps []*trees.Step) {
	for _, st := range steps {
		v.names(st.If)
	}
}

func (v *vetting) names(t strict.Text) {
	for _, m := range named.FindAllStringSubmatchIndex(t.Value, -1) {
		function, name := t.Value[m[2]:m[3]], t.Value[m[4]:m[5]]
		if !v.anyPlant(func(p *trees.Plant) bool { return knows(p, function, name) }) {
			v.at(t.AtOffset(len([]rune(t.Value[:m[4]]))), Unbindable, "no plant has the "+things[function]+" "+quoted(name))
		}
	}
	for _, m := range option.FindAllStringSubmatchIndex(t.Value, -1) {
		fact, is := t.Value[m[2]:m[3]], t.Value[m[4]:m[5]]
		if !v.anyPlant(func(p *trees.Plant) bool { return offers(p, fact, is) }) {
			v.at(t.AtOffset(len([]rune(t.Value[:m[4]]))), Unbindable, "no plant offers "+quoted(is)+" for the fact "+quoted(fact))
		}
	}
}

var things = map[string]string{"has": "part", "chain": "chain", "call": "call", "fact": "fact"}

func (v *vetting) anyPlant(is func(*trees.Plant) bool) bool {
	for _, p := range v.plants {
		if is(p) {
			return true
		}
	}
	return false
}

func knows(p *trees.Plant, function, name string) bool {
	switch function {
	case "has":
		return p.Part(name) != nil
	case "chain":
		return p.Chain(name) != nil
	case "call":
		return p.Call(name) != nil
	}
	for _, f := range p.Facts {
		if f.ID == name {
			return true
		}
	}
	return false
}

// offers says whether an option is among those of a fact; strings with a quote
// in them are compared as they stand.
func offers(p *trees.Plant, fact, is string) bool {
	for _, f := range p.Facts {
		for _, o := range f.Options {
			if f.ID == fact && o.ID == strings.TrimSpace(is) {
				return true
			}
		}
	}
	return false
}
