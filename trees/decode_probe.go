package trees

import (
	"regexp"

	"faultwalk/measurements"
	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// bandWord is what may stand in a condition: names of bands, probes and earlier readings.
var bandWord = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

// maxProbes bounds the readings of one check, as the proof of its branches does.
const maxProbes = 3

// probe reads where the probes go and in which modes. A quantity taken at one place has no second probe.
func (r *reader) probe(s *section, c *Check) Probe {
	as := s.opt("as")
	p := Probe{As: as.Value, From: s.text("from"), To: s.opt("to"), Joined: s.oneOrMore("joined")}
	if p.As == "" {
		p.As = "reading"
	} else if !bandWord.MatchString(p.As) {
		as.Problem("found the name %q; expected letters, digits and _, because it stands in conditions", clip(p.As))
	}
	quantity := measurements.Quantity(c.Read)
	switch onePlace := atOnePlace(quantity); {
	case c.Read == "":
	case onePlace && p.To.Value != "":
		p.To.Problem(`%s is read at one place; expected no "to"`, c.Read)
	case !onePlace && !s.Has("to"):
		s.Problem(`%s is read between two points; expected "to"`, c.Read)
	}
	p.Modes = r.probeModes(s, quantity)
	s.Done()
	return p
}

func atOnePlace(q measurements.Quantity) bool {
	return q == measurements.Celsius || q == measurements.Amps || q == measurements.Leakage
}

// probeModes reads the modes, best first. For ac volts they must be written: which of them may be used is a matter
// of safety. For the rest, absent means any that reads the quantity.
func (r *reader) probeModes(s *section, q measurements.Quantity) []string {
	var all []string
	for _, t := range s.OptWords("modes") {
		switch {
		case !knownMode(t):
		case q.Known() && !measurements.Mode(t.Value).Reads(q):
			t.Problem("the mode %q cannot read %s; expected one of %s", t.Value, q, spelling.Quoted(modeNames(q)))
		default:
			all = append(all, t.Value)
		}
	}
	if s.Has("modes") || !q.Known() {
		return all
	}
	if q == measurements.ACVolts {
		s.Problem(`a probe of ac volts needs "modes", best first, of %s`, spelling.Quoted(modeNames(q)))
		return nil
	}
	return modeNames(q)
}

// probeNames reports names that come twice and readings beyond the number that branches can be proved over.
func (r *reader) probeNames(s *section, c *Check) {
	if len(c.Probes) > maxProbes {
		s.KeyProblem("probes", "the check has %d readings; expected at most %d", len(c.Probes), maxProbes)
	}
	seen := map[string]bool{}
	for _, p := range c.Probes {
		if seen[p.As] {
			s.KeyProblem("probes", `two probes are named %q; expected a name of its own for each with "as"`, p.As)
		}
		seen[p.As] = true
	}
}

func modeNames(q measurements.Quantity) []string {
	var names []string
	for _, m := range measurements.ModesFor(q) {
		names = append(names, string(m))
	}
	return names
}

// knownMode reports a word that is no meter mode.
func knownMode(t strict.Text) bool {
	var all []string
	for _, q := range measurements.Quantities() {
		all = append(all, modeNames(q)...)
	}
	return oneOfWords(t, "meter mode", all)
}
