package plant_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// checks are those that the trees take on a plant, but for those that move it for
// good.
func checks(tb testing.TB, m *plant.Model) []*trees.BoundCheck {
	tb.Helper()
	all, problems := embedded(tb).ChecksOn(m.Plant)
	if err := problems.Err(); err != nil {
		tb.Fatal(err)
	}
	all = slices.DeleteFunc(all, func(c *trees.BoundCheck) bool { return len(c.Does) > 0 })
	if len(all) < 20 {
		tb.Fatalf("%s: %d checks, expected dozens", m.Plant.ID, len(all))
	}
	return all
}

// how a check is taken with the default kit, in each probe's first mode.
func how(c *trees.BoundCheck) (h plant.How) {
	kit := measurements.DefaultKit()
	for _, p := range c.Probes {
		var spec measurements.ModeSpec
		for _, mode := range p.Modes {
			if _, s, ok := kit.Find(measurements.Mode(mode), c.Quantity); ok {
				spec = s
				break
			}
		}
		h.Specs = append(h.Specs, spec)
	}
	return h
}

// answers takes the checks in the order given and returns the results by check.
func answers(tb testing.TB, s *plant.Subject, list []*trees.BoundCheck, order []int) []plant.Result {
	out := make([]plant.Result, len(list))
	for _, i := range order {
		r, err := s.Answer(list[i], how(list[i]))
		if err != nil {
			tb.Fatal(err)
		}
		out[i] = r
	}
	return out
}

func upTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// few are some faults of a plant, other ones for every seed.
func few(m *plant.Model, rng *rand.Rand, n int) (out []*plant.Fault) {
	for range n {
		out = append(out, m.Faults()[rng.IntN(len(m.Faults()))])
	}
	return out
}

func TestSubjectMadeOverIsANewOne(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			list := checks(t, m)
			rng := rand.New(rand.NewPCG(1, 2))
			used := m.New(few(m, rng, 1)[0], m.Draw(3))
			for i, f := range append(few(m, rng, 12), nil) {
				var d *plant.Draw
				if i%2 == 1 {
					d = m.Draw(uint64(i))
				}
				if err := used.Act("reset unit-breaker"); err != nil {
					t.Fatal(err)
				}
				fresh := m.New(f, d)
				used.Be(f, d)
				if !slices.Equal(fresh.Base(), used.Base()) {
					t.Errorf("%s: another history", id(f))
				}
				want, got := answers(t, fresh, list, upTo(len(list))), answers(t, used, list, rng.Perm(len(list)))
				if diff := gocmp.Diff(want, got); diff != "" {
					t.Errorf("%s reads otherwise (-new +made over):\n%s", id(f), diff)
				}
			}
		})
	}
}

func TestChecksLeaveThePlantAsItWas(t *testing.T) {
	t.Parallel()
	for _, m := range models(t) {
		t.Run(m.Plant.ID, func(t *testing.T) {
			t.Parallel()
			list := checks(t, m)
			rng := rand.New(rand.NewPCG(3, 4))
			for _, f := range append(few(m, rng, 12), nil) {
				s := m.New(f, nil)
				s.Stand(plant.Standing{})
				was := s.State()
				first := answers(t, s, list, upTo(len(list)))
				again := answers(t, s, list, rng.Perm(len(list)))
				if diff := gocmp.Diff(first, again); diff != "" {
					t.Errorf("%s reads otherwise in another order (-first +again):\n%s", id(f), diff)
				}
				if s.Stand(plant.Standing{}); !slices.Equal(was, s.State()) {
					t.Errorf("%s does not stand as it did", id(f))
				}
			}
		})
	}
}
