package plant_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestPlantOfManyCallsCompilesInTime: 2^40 sets of calls would take for ever;
// what any one of them does wrong is still found.
func TestPlantOfManyCallsCompilesInTime(t *testing.T) {
	t.Parallel()
	var calls strings.Builder
	for i := range 40 {
		fmt.Fprintf(&calls, "  - {id: more-%d, words: more}\n", i)
	}
	more := []string{"calls:\n", "calls:\n" + calls.String()}
	bench(t, more...)
	_, problems := compiled(t, append(more, `called("heat")}`, `called("heat") or called("more-7")}`,
		"(pulled_in ? 100 : 180)", "(pulled_in and called(\"more-7\") ? 300 : 180)")...)
	if !strings.Contains(problems.Format(0), "never comes to rest") {
		t.Errorf("a plant that chatters with one of 40 calls made is taken: %s", problems.Format(0))
	}
}

func TestCableOfThousandsOfCoresIsRefused(t *testing.T) {
	t.Parallel()
	var cores strings.Builder
	for i := range 400 {
		fmt.Fprintf(&cores, "  - {id: more-%d, words: more, from: way-live, to: in-live, area: 1, length: 10}\n", i)
	}
	_, problems := compiled(t, "cores:\n", "cores:\n"+cores.String())
	if want := "403 cores run side by side"; !strings.Contains(problems.Format(0), want) {
		t.Errorf("found %q, want %q", problems.Format(0), want)
	}
}
