package trees_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"faultwalk/trees"
)

func TestWhomToRingFollowsTheJurisdiction(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	text := "Ring {network}. If anybody is hurt ring {emergency}, for gas {gas}; {emergency} first."
	for _, c := range []struct {
		name string
		j    *trees.Jurisdiction
		want string
	}{
		// 999, 105 and the gas line of Great Britain, from memory
		{"Great Britain", set.Jurisdictions["gb"], "Ring 105. If anybody is hurt ring 999, for gas 0800 111 999; 999 first."},
		{"none", nil, "Ring your network operator. If anybody is hurt ring your emergency number, for gas your gas emergency line; your emergency number first."},
		{"one without a gas line", &trees.Jurisdiction{Emergency: "1", Network: "2"}, "Ring 2. If anybody is hurt ring 1, for gas your gas emergency line; 1 first."},
	} {
		if got := c.j.Fill(text); got != c.want {
			t.Errorf("%s: %q\nexpected %q", c.name, got, c.want)
		}
	}
	if got := (*trees.Jurisdiction)(nil).Fill("no {number} here"); got != "no {number} here" {
		t.Errorf("what is no placeholder became %q", got)
	}
}

// A number belongs to the jurisdiction: another country rings another one.
func TestNoReferralOrCautionNamesANumberOfOneCountry(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	texts := map[string]string{}
	for id, r := range set.Referrals {
		texts["referral "+id] = strings.Join([]string{r.Words, r.To, r.Leave, r.Say}, "\n")
	}
	for _, c := range set.Cautions {
		texts["caution "+c.ID] = c.Words
	}
	country, braces := regexp.MustCompile(`\b(999|105|112|0800)\b|Great Britain|Northern Ireland`), regexp.MustCompile(`\{[^}]*\}?`)
	for what, text := range texts {
		if n := country.FindString(text); n != "" {
			t.Errorf("%s says %q; expected a placeholder", what, n)
		}
		for _, b := range braces.FindAllString(text, -1) {
			if !slices.Contains(trees.Placeholders, b) {
				t.Errorf("%s has %q; expected one of %v", what, b, trees.Placeholders)
			}
		}
	}
}

func TestAFilledSetIsTheSameTrees(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	filled := set.Filled(set.Jurisdictions["gb"])
	if filled.Hash() != set.Hash() || filled.SafetyHash() != set.SafetyHash() {
		t.Error("filling in numbers makes other trees of them")
	}
	if r := filled.Referrals["shock-or-tingle"]; !strings.Contains(r.Say, "ring 105 now") || !strings.Contains(r.To, "999") {
		t.Errorf("it says %q, to %q", r.Say, r.To)
	}
	if r := set.Filled(nil).Referrals["shock-or-tingle"]; !strings.Contains(r.Say, "ring your network operator now") {
		t.Errorf("without a jurisdiction it says %q", r.Say)
	}
	if !strings.Contains(set.Referrals["shock-or-tingle"].Say, "{network}") {
		t.Error("the set itself was changed")
	}
}
