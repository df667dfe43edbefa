package trees

import "strings"

// LevelNames are what the edge of a band may name beside EdgeNames: the most
// volts that the pair of points shows in this mode while nothing drives it,
// and the least while something does, worked out from the plant's model.
// Where they were not worked out, off.high is 0 and on.low is mains.low.
var LevelNames = []string{"off.high", "on.low"}

// NamesLevels says whether an edge of the scale is worked out from levels.
func (s *Scale) NamesLevels() bool { return s != nil && s.leveled }

// namesLevels looks for the names of levels in the edges.
func (s *Scale) namesLevels() bool {
	for _, group := range s.Modes {
		for _, band := range group.Bands {
			for _, name := range LevelNames {
				if strings.Contains(band.To.Value, name) {
					return true
				}
			}
		}
	}
	return false
}

// Level gives the levels of the probe's pair of points in a mode, in volts:
// none is negative.
func (p BoundProbe) Level(mode string) (off, on float64) {
	for _, l := range p.Levels {
		if l.Mode == mode {
			return l.Off, l.On
		}
	}
	return none, none
}

// between gives the levels of a pair of points, whichever way round it is read.
func (l *Levels) between(a, b *Point) []Level {
	if l == nil || a == nil || b == nil {
		return nil
	}
	var all []Level
	for _, v := range l.Of {
		if v.From == a.ID && v.To == b.ID || v.From == b.ID && v.To == a.ID {
			all = append(all, v)
		}
	}
	return all
}

// constants gives the numbers that the edges of a probe's bands may name.
func (s *Scale) constants(constants map[string]float64, p BoundProbe, mode string) map[string]float64 {
	if !s.NamesLevels() {
		return constants
	}
	all := map[string]float64{"off.high": 0, "on.low": constants["mains.low"]}
	for name, v := range constants {
		all[name] = v
	}
	off, on := p.Level(mode)
	if off >= 0 {
		all["off.high"] = off
	}
	if on >= 0 {
		all["on.low"] = on
	}
	return all
}
