package vet

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"faultwalk/trees"
)

// situation is one way in which the bands of a check can lie: the modes its
// readings are taken in, and what is expected.
type situation struct {
	trees.Situation
	classes  [][]string // of each probe, the modes that share its bands
	words    string     // the modes, where there are others
	supposed bool       // the expectation is one of many that could be met
}

// where says what tells the situation from the others, for messages.
func (s situation) where(c *trees.BoundCheck) string {
	if !s.supposed {
		return s.words
	}
	return s.words + ", where " + c.Quantity.Format(s.Expected.Low) + " to " + c.Quantity.Format(s.Expected.High) + " is expected"
}

// situations gives every situation that a check can be read in, as far as the
// given conditions can tell them apart: each class of modes with bands of its
// own, under each jurisdiction, and where the expectation depends on an earlier
// reading, each way it can lie among the numbers it is compared with. What
// keeps it from being worked out is reported.
func (v *vetting) situations(p *trees.Plant, c *trees.BoundCheck, conditions []string) []situation {
	var all []situation
	for _, id := range slices.Sorted(maps.Keys(v.set.Jurisdictions)) {
		j := v.set.Jurisdictions[id]
		real, err := v.expected(p, c, j)
		if err != nil {
			why := strings.TrimPrefix(err.Error(), c.Expect.Pos.String()+": ")
			v.on(p, c.Expect.Pos, Condition, "the expectation of "+quoted(c.Check.ID)+" cannot be worked out: "+why)
			return nil
		}
		for _, classes := range v.classes(c) {
			s := situation{Situation: trees.Situation{Jurisdiction: j, Expected: real, Edges: v.edges, Modes: map[string]string{}}, classes: classes}
			for i, b := range c.Probes {
				s.Modes[b.As] = classes[i][0]
			}
			s.words = v.modeWords(c, classes)
			all = append(all, v.spread(c, s, conditions)...)
		}
	}
	return all
}

// expected works the expectation out. One that needs earlier readings is tried
// with likely ones, so that what cannot work is found.
func (v *vetting) expected(p *trees.Plant, c *trees.BoundCheck, j *trees.Jurisdiction) (*trees.Expectation, error) {
	used := map[string]float64{}
	for as, need := range c.Uses {
		used[as] = likely(need, j)
	}
	e, err := p.Expect(c, j, used)
	if err != nil || e == nil {
		return nil, err
	}
	for _, x := range []float64{e.Low, e.Nominal, e.High} {
		if math.IsNaN(x) {
			return nil, fmt.Errorf("it gives no number")
		}
	}
	if e.Low > e.Nominal || e.Nominal > e.High {
		return nil, fmt.Errorf("it gives low %g, nominal %g and high %g, which do not rise", e.Low, e.Nominal, e.High)
	}
	return e, nil
}

// likely is an everyday reading of a check: a room's temperature, the mains, or one.
func likely(c *trees.BoundCheck, j *trees.Jurisdiction) float64 {
	switch c.Quantity.Unit() {
	case "°C":
		return 20
	case "V":
		return j.Nominal
	}
	return 1
}

// classes gives, for each combination of bands the readings can be judged by,
// the modes of each probe that share them.
func (v *vetting) classes(c *trees.BoundCheck) [][][]string {
	all := [][][]string{nil}
	for _, b := range c.Probes {
		var more [][][]string
		for _, before := range all {
			for _, modes := range v.sharing(c.Check.Scale, b) {
				more = append(more, append(before[:len(before):len(before)], modes))
			}
		}
		all = more
	}
	return all
}

// bandsKey tells apart what the bands of a mode are worked out from.
type bandsKey struct {
	first   *trees.Band
	off, on float64
}

// levels gives the levels of a probe's pair in a mode, where the scale names any.
func (v *vetting) levels(scale string, p trees.BoundProbe, mode string) (off, on float64) {
	if !v.set.Scales[scale].NamesLevels() {
		return 0, 0
	}
	return p.Level(mode)
}

// sharing groups the modes of a probe by the bands a scale has for them there.
func (v *vetting) sharing(scale string, p trees.BoundProbe) [][]string {
	sc := v.set.Scales[scale]
	if sc == nil {
		return [][]string{p.Modes}
	}
	var groups [][]string
	at := map[bandsKey]int{}
	for _, m := range p.Modes {
		bands := sc.ForMode(m)
		if len(bands) == 0 {
			continue // the reader reports a mode without bands
		}
		off, on := v.levels(scale, p, m)
		key := bandsKey{&bands[0], off, on}
		i, known := at[key]
		if !known {
			i = len(groups)
			at[key] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], m)
	}
	return groups
}

// modeWords says in which modes a situation is read, where there are others.
func (v *vetting) modeWords(c *trees.BoundCheck, classes [][]string) string {
	var words []string
	for i, b := range c.Probes {
		if len(v.sharing(c.Check.Scale, b)) > 1 {
			words = append(words, b.As+" on "+strings.Join(classes[i], " or "))
		}
	}
	if len(words) == 0 {
		return ""
	}
	return ", read with " + joined(words)
}
