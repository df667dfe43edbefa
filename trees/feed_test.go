package trees

import (
	"slices"
	"testing"
)

// A board fed by one supply through an isolator, with the room controls' live
// coming in from another through a contact.
func twoWays() *Plant {
	return NewPlant(Plant{
		Supplies: []*Supply{{ID: "unit", Live: "ul", Neutral: "un"}, {ID: "controls", Live: "cl", Neutral: "cn"}},
		Devices:  []*Device{{ID: "breaker", Supply: "unit"}, {ID: "isolator", Supply: "unit"}},
		Points:   []*Point{{ID: "board"}, {ID: "neutral"}, {ID: "call"}, {ID: "output"}},
		Links: []*Link{
			{Kind: LinkPole, Of: "breaker", From: "ul", To: "way"}, {Kind: LinkPole, Of: "isolator", From: "way", To: "board"},
			{Kind: LinkPole, Of: "isolator", From: "un", To: "neutral"}, {Kind: LinkContact, From: "cl", To: "call"},
			{Kind: LinkLoad, From: "call", To: "neutral"}, {Kind: LinkContact, From: "board", To: "output"}, {Kind: LinkEarth, From: "board", To: "earth"},
		},
	})
}

func TestAPointIsFedThroughContactsAndPolesAndReachedThroughLoads(t *testing.T) {
	t.Parallel()
	p := twoWays()
	for point, want := range map[string][3][]string{
		"board":   {{"unit"}, nil, {"unit"}},
		"output":  {{"unit"}, nil, {"unit"}},
		"call":    {{"controls"}, nil, {"controls"}},
		"neutral": {nil, {"unit"}, {"controls"}},
		"earth":   {},
	} {
		got := [3][]string{p.FedBy(point), p.NeutralOf(point), p.ReachedBy(point)}
		for i := range got {
			if !slices.Equal(got[i], want[i]) {
				t.Errorf("%s: fed, neutral of and reached by %v; expected %v", point, got, want)
				break
			}
		}
	}
}

func TestADeviceCutsWhatLiesBehindItsPoles(t *testing.T) {
	t.Parallel()
	p := twoWays()
	for point, want := range map[string][2]bool{"way": {true, false}, "output": {true, true}, "neutral": {false, true}, "call": {false, false}} {
		if got := [2]bool{p.CutFrom(point, "breaker"), p.CutFrom(point, "isolator")}; got != want {
			t.Errorf("%s is cut by breaker and isolator %v; expected %v", point, got, want)
		}
	}
}
