package walk_test

import (
	"strings"
	"testing"

	"faultwalk/engine/walk"
)

// Ten minutes by the clock, and the fan kept from turning (common practice, no source).
func TestDriveIsGivenItsTimeWithTheFanStanding(t *testing.T) {
	t.Parallel()
	p := play(t, with(engineer("millrace-small", "controller-blank"), map[string]string{"screen-lives": "dark",
		"neutral-earth at neutral": "0", "supply-at at permanent-live": "0", "supply-at at feed-live": "0", "dry-outside": "dry",
		"triple-between at isolator-out-live to isolator-out-neutral:ne": "0"}))
	p.untilAsk("the drive", func(a *walk.Ask) bool { return a.Title == "Let the drive lose its charge" })
	for _, words := range []string{"Wait 10 minutes by the clock", "See that the fan stands and is shielded", "measure again"} {
		if !strings.Contains(p.body(), words) {
			t.Errorf("it does not say %q:\n%s", words, p.body())
		}
	}
}
