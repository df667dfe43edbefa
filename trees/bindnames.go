package trees

import (
	"strings"

	"faultwalk/trees/strict"
)

// fill replaces parameters by their values, attributes kept for later: "$at.neutral" → "limit-out.neutral".
func fill(text string, params []Param, args map[string]string) string {
	return fillParams(text, isParam(params), func(u paramUse) string {
		v := args[u.Name]
		if u.Attr != "" {
			v += "." + u.Attr
		}
		return v
	})
}

// ref fills and parses a reference.
func (b *binder) ref(t strict.Text, params []Param, args map[string]string) (Ref, bool) {
	r, err := ParseRef(fill(t.Value, params, args))
	if err != nil {
		b.problem(t.Pos, "%v", err)
		return r, false
	}
	return r, true
}

// args checks a reference's values against the declared parameters and this plant.
func (b *binder) args(r Ref, params []Param, pos strict.Pos) (map[string]string, bool) {
	args := map[string]string{}
	ok := true
	for _, p := range params {
		v, given := r.Arg(p.Name)
		if !given {
			b.problem(pos, "%s needs %q, a %s", r.Name, p.Name, p.Kind)
			ok = false
			continue
		}
		if !b.plant.Has(p.Kind, v) {
			b.problem(pos, "%s: there is no %s %q on this plant", r.Name, p.Kind, v)
			ok = false
		}
		args[p.Name] = v
	}
	for _, a := range r.Args {
		if _, known := args[a.Name]; !known && paramKind(params, a.Name) == "" {
			b.problem(pos, "%s has no parameter %q", r.Name, a.Name)
			ok = false
		}
	}
	return args, ok
}

// missing says whether a reference names a thing this plant lacks: a rival
// that cannot be here is no rival.
func (b *binder) missing(r Ref, params []Param) bool {
	for _, p := range params {
		if v, given := r.Arg(p.Name); given && !b.plant.Has(p.Kind, v) {
			return true
		}
	}
	return false
}

// attribute follows one attribute of a thing: a terminal of a part, the
// neutral, earth or enclosure of a point, the ends of a core.
func (p *Plant) attribute(id, attr string) (string, bool) {
	if part := p.Part(id); part != nil {
		if to, ok := part.Terminals[attr]; ok {
			return to, true
		}
		if attr == "plug" && part.Plug != "" {
			return part.Plug, true
		}
		if box := p.home(part); attr == "enclosure" && box != "" {
			return box, true
		}
	}
	if pt := p.Point(id); pt != nil {
		return p.pointAttribute(pt, attr)
	}
	if c := p.Core(id); c != nil {
		switch attr {
		case "from":
			return c.From, true
		case "to":
			return c.To, true
		}
	}
	if c := p.Chain(id); c != nil {
		switch attr {
		case "from":
			return c.From, true
		case "to":
			return c.To, true
		}
	}
	return "", false
}

// home is the enclosure a part's terminals lie in.
func (p *Plant) home(part *Part) string {
	for _, t := range []string{"live", "in", "a", "out", "neutral"} {
		if pt := p.Point(part.Terminals[t]); pt != nil && pt.In != "" {
			return pt.In
		}
	}
	return ""
}

func (p *Plant) pointAttribute(pt *Point, attr string) (string, bool) {
	box := p.Enclosure(pt.In)
	if box == nil {
		return "", false
	}
	switch attr {
	case "enclosure":
		return box.ID, true
	case "neutral":
		return p.neutralFor(pt)
	case "earth":
		return p.Beside(box.ID, attr)
	}
	return "", false
}

// neutralFor finds the neutral a point is read to: of those beside it, the one
// of the same supply and on the same side of every device.
func (p *Plant) neutralFor(pt *Point) (string, bool) {
	best, most := "", -1
	for _, n := range p.beside(pt.In, "neutral") {
		if s := p.sameSide(pt.ID, n); s > most {
			best, most = n, s
		}
	}
	return best, best != ""
}

// sameSide counts what two points have in common: their supply, then the
// devices that part both or neither from it.
func (p *Plant) sameSide(point, neutral string) int {
	score := 0
	for _, s := range p.FedBy(point) {
		for _, n := range p.NeutralOf(neutral) {
			if s == n {
				score += len(p.Devices) + 1
			}
		}
	}
	for _, d := range p.Devices {
		if p.CutFrom(point, d.ID) == p.CutFrom(neutral, d.ID) {
			score++
		}
	}
	return score
}

// Beside finds the neutral or earth point that readings in an enclosure are
// taken to: its own, or that of the enclosure it refers to.
func (p *Plant) Beside(enclosure, role string) (string, bool) {
	if all := p.beside(enclosure, role); len(all) > 0 {
		return all[0], true
	}
	return "", false
}

// beside lists the points of a role in an enclosure; if it has none, those of
// the enclosure it refers to.
func (p *Plant) beside(enclosure, role string) []string {
	for _, box := range []string{enclosure, p.reference(enclosure)} {
		var out []string
		for _, pt := range p.Points {
			if box != "" && pt.In == box && pt.Role == role {
				out = append(out, pt.ID)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

func (p *Plant) reference(enclosure string) string {
	if e := p.Enclosure(enclosure); e != nil {
		return e.Reference
	}
	return ""
}

// words says how people call a thing, with its marking; the id if it has no words.
func (p *Plant) words(id string) string {
	if pt := p.Point(id); pt != nil {
		return pt.Name()
	}
	var w string
	switch {
	case p.Part(id) != nil:
		w = p.Part(id).Words
	case p.Core(id) != nil:
		w = p.Core(id).Words
	case p.Chain(id) != nil:
		w = p.Chain(id).Words
	case p.Device(id) != nil:
		w = p.Device(id).Words
	case p.Enclosure(id) != nil:
		w = p.Enclosure(id).Words
	case p.Call(id) != nil:
		w = p.Call(id).Words
	}
	if w == "" {
		return strings.ReplaceAll(id, "-", " ")
	}
	return w
}

// Words says how people call the thing of that id.
func (p *Plant) Words(id string) string { return p.words(id) }

// Name gives a point's words and its marking on this plant.
func (pt *Point) Name() string {
	if pt.Marking == "" {
		return pt.Words
	}
	return pt.Words + " (" + pt.Marking + ")"
}

// prose fills parameters in words for people: things by their words.
func (b *binder) prose(text string, params []Param, args map[string]string) string {
	return fillParams(text, isParam(params), func(u paramUse) string {
		id := args[u.Name]
		if u.Attr != "" {
			if to, ok := b.plant.attribute(id, u.Attr); ok {
				id = to
			}
		}
		return b.plant.words(id)
	})
}

func (sc *scope) prose(b *binder, text string) string {
	if sc == nil {
		return text
	}
	return b.prose(text, sc.params, sc.args)
}
