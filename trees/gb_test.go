package trees_test

import (
	"slices"
	"testing"

	"faultwalk/trees"
)

func gate(t *testing.T, may string) trees.Gate {
	t.Helper()
	set, _ := embedded(t)
	for _, g := range set.Jurisdictions["gb"].Gates {
		if g.May == may {
			return g
		}
	}
	t.Fatalf("no gate for %s", may)
	return trees.Gate{}
}

// 230 V +10 % −6 %: Electricity Safety, Quality and Continuity Regulations 2002, regulation 27.
func TestMainsOfGreatBritain(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	gb := set.Jurisdictions["gb"]
	if gb.Low != 216.2 || gb.Nominal != 230 || gb.High != 253 {
		t.Errorf("mains %v, %v, %v; expected 216.2, 230, 253", gb.Low, gb.Nominal, gb.High)
	}
	if gb.Emergency != "999" || gb.Network != "105" {
		t.Errorf("emergency %s, network %s; expected 999, 105", gb.Emergency, gb.Network)
	}
}

// Competence gates: common practice, no source.
func TestHouseholderAndInstallerNeverReachMains(t *testing.T) {
	t.Parallel()
	for _, may := range []string{"covers", "live", "elv-volts", "part-neutral", "insulation", "fit-wiring", "limit", "sealed", "main-earth"} {
		g := gate(t, may)
		for _, hands := range []string{"householder", "installer"} {
			if g.Who[hands] != "never" {
				t.Errorf("%s may %s: %s; expected never", hands, may, g.Who[hands])
			}
		}
		if g.Who["apprentice"] == "yes" {
			t.Errorf("an apprentice may %s alone; expected supervised or never", may)
		}
	}
}

func TestSomeThingsAreNeverRelayedByPhone(t *testing.T) {
	t.Parallel()
	for _, may := range []string{"limit", "part-neutral", "insulation", "refrigerant", "sealed", "main-earth"} {
		if g := gate(t, may); g.ByPhone != "never" {
			t.Errorf("%s by phone: %s; expected never", may, g.ByPhone)
		}
	}
}

func TestHighLimitAndRefrigerantNeedTheirCertificates(t *testing.T) {
	t.Parallel()
	for may, certificate := range map[string]string{"limit": "unvented", "refrigerant": "refrigerant"} {
		if g := gate(t, may); !slices.Contains(g.Needs, certificate) {
			t.Errorf("%s needs %v; expected %s", may, g.Needs, certificate)
		}
	}
}

func TestEveryMomentHasACaution(t *testing.T) {
	t.Parallel()
	set, _ := embedded(t)
	for _, trigger := range trees.Triggers {
		if !slices.ContainsFunc(set.Cautions, func(c *trees.Caution) bool { return slices.Contains(c.At, trigger) }) {
			t.Errorf("no caution is shown at %q", trigger)
		}
	}
}
