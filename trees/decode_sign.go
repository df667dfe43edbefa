package trees

// sign reads what somebody notices about a plant.
func (r *reader) sign(s *section) {
	id := s.id("sign")
	keep := r.claim("sign", id)
	v := &Sign{ID: id, Words: s.prose("words"), Calls: r.calls(s)}
	v.Shows = s.Scalar("shows")
	formulaOf(v.Shows, "a sign")
	v.Shadows = s.texts("shadows")
	for _, t := range v.Shadows {
		r.want("sign", t, nil)
	}
	if !keep {
		return
	}
	for i, old := range r.set.Signs {
		if old.ID.Value == id.Value {
			r.set.Signs[i] = v
			return
		}
	}
	r.set.Signs = append(r.set.Signs, v)
}
