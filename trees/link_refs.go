package trees

import "faultwalk/trees/spelling"

// declared gives the parameters of a check, a cause or a routine.
func (l *loader) declared(kind, name string) ([]Param, bool) {
	switch kind {
	case "check":
		if c := l.set.Checks[name]; c != nil {
			return c.Of, true
		}
	case "cause":
		if c := l.set.Causes[name]; c != nil {
			return c.Of, true
		}
	case "routine":
		if c := l.set.Routines[name]; c != nil {
			return c.Of, true
		}
	}
	return nil, false
}

// reference checks the name and the parameters of a reference.
func (l *loader) reference(w want) {
	ref, _, err := parseRef(w.text.Value)
	if err != nil {
		return // reported when it was read
	}
	params, there := l.declared(w.kind, ref.Name)
	if !there {
		w.text.Problem("there is no %s %q%s", w.kind, clip(ref.Name), l.suggest(ref.Name, l.known(w.kind)))
		return
	}
	whole := true
	for _, a := range ref.Args {
		whole = l.argument(w, ref, a, params) && whole
	}
	for _, p := range params {
		if _, given := ref.Arg(p.Name); !given {
			whole = false
			w.text.Problem("the %s %q needs the parameter %q, a %s", w.kind, ref.Name, p.Name, p.Kind)
		}
	}
	if whole && inOrder(ref, params).String() != ref.String() {
		w.text.Problem("%q has its parameters in another order than declared; write %q, because that text is its id", ref, inOrder(ref, params))
	}
}

// inOrder gives a reference with its parameters in the declared order.
func inOrder(ref Ref, params []Param) Ref {
	ordered := Ref{Name: ref.Name}
	for _, p := range params {
		if v, given := ref.Arg(p.Name); given {
			ordered.Args = append(ordered.Args, Arg{p.Name, v})
		}
	}
	return ordered
}

func (l *loader) argument(w want, ref Ref, a Arg, params []Param) bool {
	kind := paramKind(params, a.Name)
	if kind == "" {
		var names []string
		for _, p := range params {
			names = append(names, p.Name)
		}
		expected := "; it has none"
		if len(names) > 0 {
			expected = "; expected " + spelling.Quoted(names)
		}
		w.text.Problem("the %s %q has no parameter %q%s%s", w.kind, ref.Name, clip(a.Name), expected, l.suggest(a.Name, these(names)))
		return false
	}
	if given := valueKind(a.Value, w.scope); given != kind && !anyKind(given) && !anyKind(kind) {
		w.text.Problem("the parameter %q of the %s %q is a %s, and %s is a %s", a.Name, w.kind, ref.Name, kind, a.Value, given)
		return false
	}
	return true
}

// anyKind says whether a kind goes with every other.
func anyKind(kind string) bool { return kind == "" || kind == "word" || kind == unknownKind }

// valueKind gives the kind of a value that is one parameter, or "" where only a plant can tell.
func valueKind(value string, scope []Param) string {
	kind, whole := "", ""
	fillParams(value, isParam(scope), func(u paramUse) string {
		kind, whole = paramKind(scope, u.Name), "$"+u.Name
		if u.Attr != "" {
			kind, whole = attrKind(u.Attr), whole+"."+u.Attr
		}
		return ""
	})
	if whole != value {
		return ""
	}
	return kind
}

func attrKind(attr string) string {
	switch attr {
	case "enclosure":
		return "enclosure"
	case "plug":
		return "word"
	}
	return "point"
}
