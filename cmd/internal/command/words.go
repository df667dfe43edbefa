package command

import (
	"maps"
	"slices"
	"strings"
)

// list names the keys of a map, sorted, for messages.
func list[T any](m map[string]T) string {
	return strings.Join(slices.Sorted(maps.Keys(m)), ", ")
}
