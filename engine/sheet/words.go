package sheet

import (
	"maps"
	"slices"
	"strings"
	"time"
	"unicode"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

func keys(m map[string]string) []string { return slices.Sorted(maps.Keys(m)) }

// joined joins the words that are not empty.
func joined(sep string, words ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "" }), sep)
}

// flat is a text on one line.
func flat(s string) string { return strings.Join(strings.Fields(s), " ") }

func named(c *trees.BoundCheck) string { return walk.CheckWords(c) }

func upper(s string) string {
	for i, r := range s {
		return s[:i] + string(unicode.ToUpper(r)) + s[i+len(string(r)):]
	}
	return s
}

// stop ends a sentence that has no end yet.
func stop(s string) string {
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// clean leaves out what would move a cursor, colour a screen or turn the order
// of reading: people's words end up in terminals and pages. Line ends stay.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\u2028', r == '\u2029':
			return ' '
		case unicode.IsControl(r), r >= '\u202A' && r <= '\u202E', r >= '\u2066' && r <= '\u2069', r == '\u200E', r == '\u200F', r == '\uFEFF':
			return -1
		}
		return r
	}, s)
}

// instant writes a time for people; the sheet says once that all are UTC.
func instant(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}

// clock writes the time of day, with the day where it is not the first of the job.
func (s Sheet) clock(t time.Time) string {
	if s.Opened.Format(time.DateOnly) == t.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("2 Jan 15:04")
}

// purposeWords says what a reading was for; nothing for one in the tree's order.
func purposeWords(purpose string) string {
	switch purpose {
	case journal.ForTree:
		return ""
	case journal.ForEarly:
		return "taken before it was asked for"
	case journal.ForAgain:
		return "measured again"
	case journal.ForConfirm:
		return "second reading, against the nearest rival"
	case journal.ForRetest:
		return "retest"
	case journal.ForCleared:
		return "is the sign gone"
	}
	return purpose
}
