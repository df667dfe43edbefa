package vet

import (
	"maps"
	"slices"
)

// sortedKeys gives the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
