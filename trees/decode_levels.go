package trees

import "faultwalk/measurements"

// levels reads what one plant shows while it is healthy.
func (r *reader) levels(s *section) {
	id := r.fileID(s, "plant")
	keep := r.claim("levels", id)
	r.want("plant", id, nil)
	v := &Levels{Plant: id.Value}
	for _, n := range s.List("levels") {
		v.Of = append(v.Of, r.level(s.sub(n, "a level")))
	}
	if keep {
		r.set.Levels[id.Value] = v
	}
}

// level reads one pair in one mode. A pair that is never driven has no "on",
// one that always is no "off".
func (r *reader) level(s *section) Level {
	mode := s.Text("mode")
	v := Level{From: s.Text("from").Value, To: s.Text("to").Value, Mode: mode.Value, Off: none, On: none}
	oneOfWords(mode, "mode of ac volts", modeNames(measurements.ACVolts))
	if s.Has("off") {
		v.Off = s.number("off")
	}
	if s.Has("on") {
		v.On = s.number("on")
	}
	s.Done()
	return v
}

// none stands for a level that a pair does not have.
const none = -1
