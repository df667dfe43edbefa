package trees

import "strings"

// Placeholders are the words in braces that a text may use for whom to ring:
// Jurisdiction.Fill puts the number of the country in their place.
var Placeholders = []string{"{emergency}", "{network}", "{gas}"}

// Fill puts whom to ring into a text: {emergency}, {network} and {gas}. Without
// a jurisdiction, or where it has no such number, it says whose number it is,
// because a number that is wrong in that country is worse than none.
func (j *Jurisdiction) Fill(text string) string {
	if !strings.Contains(text, "{") {
		return text
	}
	var emergency, network, gas string
	if j != nil {
		emergency, network, gas = j.Emergency, j.Network, j.Gas
	}
	return strings.NewReplacer(
		"{emergency}", or(emergency, "your emergency number"),
		"{network}", or(network, "your network operator"),
		"{gas}", or(gas, "your gas emergency line")).Replace(text)
}

func or(number, words string) string {
	if number == "" {
		return words
	}
	return number
}

// Filled gives this set with whom to ring put into its referrals and cautions;
// j may be nil. The set itself, its layers and its hashes stay as they are.
func (s *Set) Filled(j *Jurisdiction) *Set {
	filled := *s
	filled.Referrals, filled.Cautions = make(map[string]*Referral, len(s.Referrals)), make([]*Caution, len(s.Cautions))
	for id, r := range s.Referrals {
		f := *r
		f.Words, f.To, f.Leave, f.Say = j.Fill(r.Words), j.Fill(r.To), j.Fill(r.Leave), j.Fill(r.Say)
		filled.Referrals[id] = &f
	}
	for i, c := range s.Cautions {
		f := *c
		f.Words = j.Fill(c.Words)
		filled.Cautions[i] = &f
	}
	return &filled
}
