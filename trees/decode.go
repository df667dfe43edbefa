package trees

import (
	"path"
	"strings"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// folder is one kind of file. A list file holds a list of things, any other
// one thing, whose id is the name of the file. Safety data cannot come from
// trees outside.
type folder struct {
	list, safety bool
	what         string // "a check"
	head         string // where reading stops, for the head alone
	read         func(*reader, *section)
}

// folders gives every folder of a tree set by name.
func folders() map[string]folder {
	return map[string]folder{
		"scales":        {list: true, what: "a scale", read: (*reader).scale},
		"checks":        {list: true, what: "a check", read: (*reader).check},
		"causes":        {list: true, what: "a cause", read: (*reader).cause},
		"routines":      {list: true, what: "a routine", read: (*reader).routine},
		"symptoms":      {what: "a symptom", read: (*reader).symptom},
		"assemblies":    {what: "an assembly", read: (*reader).assembly},
		"plants":        {what: "a plant", read: (*reader).plant},
		"referrals":     {list: true, what: "a referral", read: (*reader).referral},
		"cautions":      {list: true, safety: true, what: "a caution", read: (*reader).caution},
		"stops":         {list: true, safety: true, what: "a stop", read: (*reader).stop},
		"models":        {list: true, what: "a model", read: (*reader).model},
		"signs":         {list: true, what: "a sign", read: (*reader).sign},
		"levels":        {what: "levels", read: (*reader).levels},
		"words":         {list: true, what: "a word", read: (*reader).word},
		"cases":         {list: true, what: "a case", read: (*reader).callout},
		"jurisdictions": {safety: true, what: "a jurisdiction", read: (*reader).jurisdiction},
	}
}

// reader decodes the files of one layer into the set of a loader.
type reader struct {
	*loader
	stem  string // file name without its ending
	owner *owner // of what is being read
}

// file decodes one file that was parsed already.
func (r *reader) file(f folder, source *strict.Source) {
	if source.Root == nil {
		return
	}
	if !f.list {
		r.one(f, source.Root)
		return
	}
	for _, item := range source.Root.List("the file") {
		r.one(f, item)
	}
}

func (r *reader) one(f folder, n *strict.Node) {
	m := n.Map(f.what)
	if !m.Valid() {
		return
	}
	s := &section{Map: m, node: n}
	f.read(r, s)
	m.Done()
}

// owner is one thing with an id, as one layer defines it. Names that a
// replaced thing uses are nobody's any more.
type owner struct {
	pos      strict.Pos
	layer    int
	replaced bool
}

// claim takes an id for a kind of thing: within a layer it may come once, a
// later layer replaces. It says whether the thing is to be kept.
func (r *reader) claim(kind string, id strict.Text) bool {
	r.owner = &owner{pos: id.Pos, layer: r.layer}
	if id.Value == "" {
		return false
	}
	key := kind + " " + id.Value
	before := r.owners[key]
	switch {
	case before == nil:
	case before.layer == r.layer:
		id.Problem("the %s %q is at %s already; give one of them another id", kind, id.Value, before.pos)
		return false
	case kind == "referral" || kind == "levels" || kind == "scale" && id.Value == mainsScale:
		id.Problem("the %s %q cannot be replaced by trees from outside; give yours another id", kind, id.Value)
		return false
	default:
		before.replaced = true
	}
	r.owners[key] = r.owner
	return true
}

// notLess reports what takes the place of another and asks less of the hands:
// trees from outside may only demand more.
func notLess(id strict.Text, old, asks []string, live bool) {
	for _, a := range old {
		if !contains(asks, a) {
			id.Problem("%q takes the place of one that asks %q; expected it to ask for that too", id.Value, a)
		}
	}
	if live {
		id.Problem("%q takes the place of one that is done dead; expected \"dead: true\"", id.Value)
	}
}

// fileID reads the id of a thing that has a file of its own.
func (r *reader) fileID(s *section, kind string) strict.Text {
	id := s.id(kind)
	if id.Value != "" && id.Value != r.stem {
		id.Problem("the %s %q is in the file %q; expected the file name to be its id: %q", kind, id.Value,
			r.stem+".yaml", id.Value+".yaml")
	}
	return id
}

// want records a name that must exist once everything is read.
func (r *reader) want(kind string, name strict.Text, scope []Param) {
	if name.Value != "" {
		r.wants = append(r.wants, want{r.owner, kind, name, scope})
	}
}

// wantRef does so for a reference with parameters, of which the form is checked now.
func (r *reader) wantRef(kind string, ref strict.Text, scope []Param) {
	if ref.Value == "" {
		return
	}
	if _, at, err := parseRef(ref.Value); err != nil {
		ref.ProblemAt(ref.AtOffset(at), "%s", err)
		return
	}
	r.want(kind, ref, scope)
}

// stemOf gives the name of a file without folder and ending.
func stemOf(file string) string { return strings.TrimSuffix(path.Base(file), ".yaml") }

// oneOfWords reports a word that is not on a list.
func oneOfWords(t strict.Text, what string, known []string) bool {
	if t.Value == "" || len(known) == 0 {
		return false
	}
	for _, k := range known {
		if k == t.Value {
			return true
		}
	}
	t.Problem("%q is no %s; expected one of %s%s", clip(t.Value), what, spelling.Quoted(known), spelling.DidYouMean(t.Value, known))
	return false
}
