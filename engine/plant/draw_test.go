package plant_test

import (
	"testing"

	"faultwalk/engine/plant"
)

// A drawn plant strays from nominal, by its supply and by a part of its own, and
// is the same for the same seed.
func TestDrawStraysFromNominalAndIsThatOfItsSeed(t *testing.T) {
	t.Parallel()
	m := models(t)[0]
	motor, p := map[string]bool{"hot-water": true}, m.Plant
	for what, read := range map[string]func(s *plant.Subject) float64{
		"the supply": func(s *plant.Subject) float64 {
			return s.Between(p.Point("permanent-live"), p.Point("neutral"), 300e3, plant.Standing{})
		},
		"a part": func(s *plant.Subject) float64 { // behind a broken neutral, the motor and the tester share the volts
			return s.Between(p.Point("valve-neutral"), p.Point("earth"), 10e3, plant.Standing{Calls: motor})
		},
	} {
		of := func(d *plant.Draw) float64 { return read(m.New(m.Fault("broken-at-to of valve-neutral-core"), d)) }
		nominal, first, again, second := of(nil), of(m.Draw(1)), of(m.Draw(1)), of(m.Draw(2))
		if nominal == first || first == second || first != again || nominal < 1 {
			t.Errorf("%s: nominal %g V, seed 1 %g and %g, seed 2 %g", what, nominal, first, again, second)
		}
	}
}
