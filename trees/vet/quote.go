package vet

import (
	"strconv"
	"strings"
)

// quoted puts a name or a condition in quotes, one with quotes of its own in
// others; a hostile one is cut short.
func quoted(s string) string {
	const most = 80
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	if strings.ContainsRune(s, '"') && strconv.CanBackquote(s) {
		return "`" + s + "`"
	}
	return strconv.Quote(s)
}

// joined lists things as people do: a, b and c.
func joined(all []string) string {
	n := len(all)
	if n < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:n-1], ", ") + " and " + all[n-1]
}
