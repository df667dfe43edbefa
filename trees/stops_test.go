package trees_test

import (
	"testing"

	"faultwalk/trees"
	"faultwalk/trees/prove"
)

// triple finds a check of three readings of one supply, as the trees ask for it.
func triple(t *testing.T, set *trees.Set, plants map[string]*trees.Plant) *trees.BoundCheck {
	t.Helper()
	g, _ := set.Bind("controller-blank", plants["millrace-small"])
	for _, path := range g.Order {
		if c := g.Steps[path].Check; len(c.Probes) == 3 {
			return c
		}
	}
	t.Fatal("controller-blank takes no three readings of a supply")
	return nil
}

// rows are the stops as tables over that check's readings.
func rows(t *testing.T) (stops []*trees.Stop, tables []*prove.Partition, as []string) {
	t.Helper()
	set, plants := embedded(t)
	c, pr := triple(t, set, plants), prove.New()
	for _, s := range set.Stops {
		holding, err := set.Holding(c, s.If.Value, trees.Situation{Jurisdiction: set.Jurisdictions["gb"]})
		if err != nil {
			t.Fatal(err)
		}
		table, _, err := pr.Table(holding)
		if err != nil {
			t.Fatal(err)
		}
		stops, tables = append(stops, s), append(tables, table)
	}
	for _, p := range c.Probes {
		as = append(as, p.As)
	}
	return stops, tables, as
}

// firing returns what names the first stop that three readings meet wholly, in
// volts live-neutral, live-earth, neutral-earth, each read give or take width.
func firing(t *testing.T) func(readings [3]float64, width float64) string {
	stops, tables, as := rows(t)
	return func(readings [3]float64, width float64) string {
		var in []prove.Interval
		for _, name := range as {
			v := readings[map[string]int{"ln": 0, "le": 1, "ne": 2}[name]]
			in = append(in, prove.Interval{Lo: max(v-width, 0), Hi: v + width})
		}
		for i, s := range stops {
			if hit := tables[i].Judge(in); len(hit) == 1 && hit[0] == 0 {
				return s.ID
			}
		}
		return ""
	}
}

// Volts live-neutral, live-earth, neutral-earth at 240 V on 10 MΩ unless said:
// a two-conductor 50 Hz estimate, common practice, no source. The limits 216.2
// and 253 V are of the Electricity Safety, Quality and Continuity Regulations
// 2002, regulation 27.
func TestStopsFireOnTheirRowsAndOnNothingElse(t *testing.T) {
	t.Parallel()
	stop := firing(t)
	for _, c := range []struct {
		name     string
		readings [3]float64
		stop     string
	}{
		{"healthy", [3]float64{240, 240, 0.3}, ""},
		{"healthy at the lower limit", [3]float64{216.2, 216.2, 0}, ""},
		{"healthy at the upper limit", [3]float64{253, 253, 0}, ""},
		{"above the upper limit", [3]float64{262, 262, 0}, ""},
		{"below the lower limit", [3]float64{195, 195, 0}, ""},
		{"loaded neutral", [3]float64{230, 240, 10}, ""},
		{"an earth rod", [3]float64{230, 200, 40}, ""},
		{"neutral through 2 kΩ", [3]float64{190, 240, 48}, ""},
		{"open neutral, a load on it", [3]float64{0.4, 240, 240}, ""},
		{"open neutral, electronics on it", [3]float64{20, 240, 230}, ""},
		{"open neutral, nothing on it", [3]float64{112, 240, 112}, ""},
		{"nothing there", [3]float64{0, 0, 0}, ""},
		{"open earth, equal filters", [3]float64{240, 119, 119}, "open-earth"},
		{"open earth on a 300 kΩ tester", [3]float64{240, 106, 106}, "open-earth"},
		{"open earth, uneven filters", [3]float64{240, 80, 158}, "open-earth"},
		{"open earth, 20 kΩ from live to the case", [3]float64{240, 15, 238}, "live-leak-to-case"},
		{"live and neutral crossed", [3]float64{240, 0, 240}, "reversed-polarity"},
		{"two phases", [3]float64{400, 230, 230}, "two-phases"},
	} {
		if got := stop(c.readings, 0); got != c.stop {
			t.Errorf("%s %v stops at %q; expected %q", c.name, c.readings, got, c.stop)
		}
	}
}

// A reading's own width must not fall between two rows that both end the job.
// 1.5 V is 1 % of 120 V and three counts of a tenth.
func TestStopsLeaveNoGapBetweenThem(t *testing.T) {
	t.Parallel()
	stop := firing(t)
	for le := 0.0; le <= 158; le += 0.5 {
		if stop([3]float64{240, le, 240 - le}, 1.5) == "" {
			t.Errorf("240 V live to neutral with %v V live to earth and %v V neutral to earth stops nothing", le, 240-le)
		}
	}
}
