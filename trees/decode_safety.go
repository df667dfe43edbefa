package trees

// referral reads a stop or a passing-on, with its reason.
func (r *reader) referral(s *section) {
	id := s.id("id")
	v := &Referral{ID: id.Value, Pos: id.Pos, Words: s.prose("words"), To: s.optProse("to"), Leave: s.optProse("leave"),
		Say: s.optProse("say"), Stop: s.yes("stop"), Isolated: s.yes("isolated"), Names: s.yes("names")}
	if r.claim("referral", id) {
		r.set.Referrals[id.Value] = v
	}
}

// caution reads words that are shown when a trigger is met.
func (r *reader) caution(s *section) {
	id := s.id("id")
	v := &Caution{ID: id.Value, Pos: id.Pos, Words: s.prose("words"), Source: s.optProse("source")}
	for _, t := range s.Words("at") {
		if oneOfWords(t, "trigger", Triggers) {
			v.At = append(v.At, t.Value)
		}
	}
	if r.claim("caution", id) {
		r.set.Cautions = append(r.set.Cautions, v)
	}
}

// stop reads a row that ends the job wherever it is met.
func (r *reader) stop(s *section) {
	id := s.id("id")
	keep := r.claim("stop", id)
	refer := s.text("refer")
	r.want("referral", refer, nil)
	v := &Stop{ID: id.Value, Pos: id.Pos, If: s.text("if"), Refer: refer.Value, Words: s.prose("words")}
	if keep {
		r.set.Stops = append(r.set.Stops, v)
	}
}
