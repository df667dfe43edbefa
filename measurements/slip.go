package measurements

// mainsFloor is the lowest expectation, in volts, that counts as mains being
// expected. Below it a factor of ten is never suggested: 23 V found where 0 V
// belongs is a finding, not a slip.
const mainsFloor = 100

// MainsSlip guesses a lost or doubled digit where mains is expected: 23 for 230,
// 2310 for 231. It gives the value that was probably meant, in volts, so that the
// caller can ask; the person's no is final, because 23 V may be true. For a
// number beyond every meter use [NotAReading.Beyond].
func MainsSlip(r Reading, expected Interval) (suggest float64, ok bool) {
	if r.Quantity != ACVolts || !r.Value.IsPoint() || expected.Lo < mainsFloor || expected.Contains(r.Value.Lo) {
		return 0, false
	}
	for _, factor := range []float64{10, 0.1} {
		if v := Significant(r.Value.Lo*factor, 6); expected.Contains(v) {
			return v, true
		}
	}
	return 0, false
}
