package monitor

import (
	"math"
	"strings"

	"faultwalk/engine/journal"
)

// deadVolts is the most that a proved-dead conductor may still read, in volts
// (handbook 3.0: common practice, no source).
const deadVolts = 5

// screenDark is the line that says whether the controller has power.
const screenDark = "controller dark"

// line is one pair of a proving form: "FROM to TO", or "FROM to TO loaded".
type line struct {
	name, from, to string
	loaded         bool
	volts          float64
}

// form is a proving form as the monitor reads it.
type form struct {
	before, after bool
	called        map[string]bool // standing calls
	tried         map[string]bool // calls made for the proof alone, or their controller's screen dark
	dark, lit     bool            // the controller's screen, where its supply has to be off
	lines         []line
}

func (m *Monitor) formOf(fields []journal.Field) form {
	f := form{called: map[string]bool{}, tried: map[string]bool{}}
	for _, v := range fields {
		call, isCall := strings.CutSuffix(v.Name, " called")
		calls, areTried := strings.CutSuffix(v.Name, " called or dark")
		switch yes := v.Value == 1; {
		case v.Name == "tester proved before":
			f.before = yes
		case v.Name == "tester proved after":
			f.after = yes
		case v.Name == screenDark:
			f.dark, f.lit = yes, !yes
		case isCall:
			f.called[call] = yes
		case areTried:
			for _, id := range strings.Split(calls, " and ") {
				f.tried[id] = yes
			}
		default:
			f.lines = append(f.lines, lineOf(v))
		}
	}
	return f
}

func lineOf(v journal.Field) line {
	name, loaded := strings.CutSuffix(v.Name, " loaded")
	from, to, _ := strings.Cut(name, " to ")
	volts := math.Abs(v.Value)
	if math.IsNaN(volts) {
		volts = math.Inf(1)
	}
	return line{name: name, from: from, to: to, loaded: loaded, volts: volts}
}

// found lists the pairs that read more than dead, and the screen that is lit:
// what feeds it should be off.
func (f form) found() map[string]bool {
	out := map[string]bool{}
	if f.lit {
		out[screenDark] = true
	}
	for _, l := range f.lines {
		if l.volts > deadVolts {
			out[l.name] = true
		}
	}
	return out
}

// reads says whether the form has an unloaded reading between two kinds of point.
func (f form) reads(one, other func(id string) bool) bool {
	for _, l := range f.lines {
		if !l.loaded && (one(l.from) && other(l.to) || one(l.to) && other(l.from)) {
			return true
		}
	}
	return false
}
