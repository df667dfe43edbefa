//go:build !race

package walk_test

// underRace says that the race detector slows everything down.
const underRace = false
