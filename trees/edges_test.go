package trees

import "testing"

func TestEdgesGiveTheSameRememberedOrNot(t *testing.T) {
	t.Parallel()
	known := Edges{}
	for _, c := range []struct {
		text string
		low  float64
		want float64
	}{
		{"min(300, expected.low)", 1000, 300},
		{"min(300, expected.low)", 200, 200},
		{"max(expected.low, 5) / 4", 2, 1.25},
		{"abs(-expected.low) + 0.5", 2, 2.5},
		{"mains.low", 0, 216.2},
	} {
		constants := map[string]float64{"mains.low": 216.2, "expected.low": c.low}
		for _, edges := range []Edges{nil, known, known} {
			got, err := edges.number(c.text, edgeNames(constants), len(constants))
			if err != nil || got != c.want {
				t.Errorf("%s with expected.low %v gives %v, %v; want %v", c.text, c.low, got, err, c.want)
			}
		}
	}
	if _, err := known.number("min(300, expected.low)", edgeNames(map[string]float64{"mains.low": 1}), 1); err == nil {
		t.Error("an edge over an expectation was worked out without one")
	}
	if len(known) != 4 {
		t.Errorf("%d expressions are remembered; want 4", len(known))
	}
}

func TestExpectationsTakeWhatTheReaderAllows(t *testing.T) {
	t.Parallel()
	p := NewPlant(Plant{})
	c := &BoundCheck{}
	c.Expect.Value = "between(min(1, 2) + abs(-1), max(3, 4))"
	e, err := p.Expect(c, &Jurisdiction{}, nil)
	if err != nil || e.Low != 2 || e.High != 4 {
		t.Errorf("got %+v, %v; want 2 to 4", e, err)
	}
}

// Where an edge is lifted to the one before it, that one keeps what lies on it.
func TestALiftedEdgeLeavesNoReadingToTwoBands(t *testing.T) {
	t.Parallel()
	edge := func(name, to string, including bool) Band {
		b := Band{Name: name, Including: including, Last: to == ""}
		b.To.Value = to
		return b
	}
	s := &Set{Scales: map[string]*Scale{"s": {Modes: []ModeBands{{Bands: []Band{
		edge("right", "expected.high", true), edge("over", "500", false), edge("open", "", false)}}}}}}
	for high, want := range map[float64][2]bool{400: {true, false}, 500: {true, true}, 600: {true, true}} {
		bands, err := s.bands("s", "", map[string]float64{"expected.high": high}, nil)
		if err != nil || bands[0].Including != want[0] || bands[1].Including != want[1] || bands[1].To != max(high, 500) {
			t.Errorf("expected up to %v: %+v, %v", high, bands, err)
		}
	}
}
