package prove

import "fmt"

// undecidable tells why the form of a comparison hides where it changes: only one reading, on one side, in steps
// that each rise or fall throughout, can be searched.
func (g *grammar) undecidable(left, right *term, at int) (int, string) {
	if left.reads != 0 && right.reads != 0 {
		if i, ok := (left.reads | right.reads).single(); ok {
			return at, fmt.Sprintf("the reading %s stands on both sides of the comparison", g.readingName(i))
		}
		return at, "two readings are compared with each other; compare each with a number"
	}
	side := left
	if right.reads != 0 {
		side = right
	}
	if _, ok := side.reads.single(); !ok && side.reads != 0 {
		return at, "two readings are in one comparison; compare each with a number"
	}
	return g.tangled(side)
}

// tangled looks for a step that need not rise or fall throughout.
func (g *grammar) tangled(t *term) (int, string) {
	if t.closed() || t.kind == reading {
		return 0, ""
	}
	if t.b != nil && t.a.reads != 0 && t.b.reads != 0 {
		i, _ := t.reads.single()
		return t.at, fmt.Sprintf("the reading %s comes twice in one number", g.readingName(i))
	}
	if t.kind == over && t.b.reads != 0 {
		i, _ := t.reads.single()
		return t.at, fmt.Sprintf("a number is divided by the reading %s; multiply the other side instead", g.readingName(i))
	}
	if t.a.reads != 0 {
		return g.tangled(t.a)
	}
	return g.tangled(t.b)
}

func (g *grammar) readingName(i int) string { return g.vocabulary.Readings[i].Name }
