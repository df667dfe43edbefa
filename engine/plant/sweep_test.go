package plant_test

import (
	"strings"
	"testing"

	"faultwalk/engine/plant"
	"faultwalk/trees"
)

func TestSweepTakesEveryCoreAtBothEndsAndTheMiddleNineTimes(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		count, ids := map[string]int{}, map[string]bool{}
		for _, f := range m.Sweep(1) {
			count[f.On]++
			if ids[f.ID] {
				t.Errorf("%s: the sweep has %q twice", m.Plant.ID, f.ID)
			}
			ids[f.ID] = true
		}
		for _, l := range m.Plant.Links {
			if core := l.Kind == trees.LinkCore || l.Kind == trees.LinkEarth; core && count[l.ID] != 27 || !core && count[l.ID] != 0 {
				t.Errorf("%s: %d faults of the %s %q", m.Plant.ID, count[l.ID], l.Kind, l.ID)
			}
		}
	}
}

func TestSweepIsThatOfItsSeed(t *testing.T) {
	t.Parallel()
	m := models(t)[0]
	ids := func(seed uint64) string { // of a sweep made anew
		var out []string
		for _, f := range m.Sweep(seed) {
			out = append(out, f.ID)
		}
		return strings.Join(out, "\n")
	}
	if first, again := ids(5), ids(5); first != again {
		t.Error("one seed gives two sweeps")
	}
	if ids(5) == ids(6) {
		t.Error("two seeds give the same sweep: trees would be fitted to it")
	}
}

// TestSweptCoreReadsItsOhms holds the least and the most severe of the middle of
// a core: 0.5 Ω drawn by a factor of 0.55 to 1.82, and open.
func TestSweptCoreReadsItsOhms(t *testing.T) {
	t.Parallel()
	m := models(t)[0]
	var least, open *plant.Fault
	for _, f := range m.Sweep(2) {
		switch {
		case f.On != "valve-core" || !strings.HasSuffix(f.ID, "midway"):
		case least == nil:
			least = f
		default:
			open = f
		}
	}
	link := m.Plant.Links[0]
	for _, l := range m.Plant.Links {
		if l.ID == "valve-core" {
			link = l
		}
	}
	check := &trees.BoundCheck{ID: "core", Quantity: "continuity", Lifted: []string{"valve-core"}, Probes: []trees.BoundProbe{
		{From: m.Plant.Point(link.From), To: m.Plant.Point(link.To), FromSide: "valve-core", ToSide: "valve-core"}}}
	for _, c := range []struct {
		f        *plant.Fault
		low, top float64
	}{{least, 0.27, 0.94}, {open, 1e6, 1e12}} {
		r, err := m.New(c.f, nil).Answer(check, plant.How{})
		if err != nil {
			t.Fatal(err)
		}
		if v := r.Values[0]; v < c.low || v > c.top {
			t.Errorf("%s reads %g Ω end to end, expected %g to %g", c.f.ID, v, c.low, c.top)
		}
	}
}
