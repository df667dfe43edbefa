package prove

import (
	"slices"
	"strconv"
)

// Vocabulary is the names a condition may use, for compiling one before the values are known.
type Vocabulary struct {
	Readings  []Reading
	Constants []string // with dots, such as mains.low
	Facts     []string // such as moving
}

// Reading is the name of one reading and of its bands.
type Reading struct {
	Name  string
	Bands []string
}

// Vocabulary returns the names of a set, constants sorted.
func (s Set) Vocabulary() Vocabulary {
	v := Vocabulary{Facts: s.Facts}
	for _, variable := range s.Variables {
		r := Reading{Name: variable.Name}
		for _, b := range variable.Bands {
			r.Bands = append(r.Bands, b.Name)
		}
		v.Readings = append(v.Readings, r)
	}
	for name := range s.Constants {
		v.Constants = append(v.Constants, name)
	}
	slices.Sort(v.Constants)
	return v
}

// key tells vocabularies apart, whatever a hostile name holds.
func (v Vocabulary) key() string {
	var b []byte
	add := func(names []string) {
		for _, name := range names {
			b = strconv.AppendQuote(b, name)
		}
		b = append(b, '|')
	}
	for _, r := range v.Readings {
		b = strconv.AppendQuote(b, r.Name)
		add(r.Bands)
	}
	b = append(b, '|')
	add(v.Constants)
	add(v.Facts)
	return string(b)
}

func (v Vocabulary) reading(name string) int {
	return slices.IndexFunc(v.Readings, func(r Reading) bool { return r.Name == name })
}

// numbers lists the names that stand for numbers.
func (v Vocabulary) numbers() []string {
	names := slices.Clone(v.Constants)
	for _, r := range v.Readings {
		names = append(names, r.Name)
	}
	return names
}

// calls lists the names that may stand before brackets.
func (v Vocabulary) calls() []string {
	names := append([]string{"between", "abs", "min", "max"}, v.Facts...)
	for _, r := range v.Readings {
		names = append(names, r.Bands...)
	}
	return names
}
