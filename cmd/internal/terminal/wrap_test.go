package terminal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

func TestWrapKeepsBreaksIndentAndHang(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ in, want string }{
		"words":         {"the quick brown fox jumps", "the quick brown fox\njumps"},
		"breaks":        {"one\n\ntwo ", "one\n\ntwo"},
		"indent":        {"   the quick brown fox jumps", "   the quick brown\n   fox jumps"},
		"dash":          {"  - the quick brown fox", "  - the quick brown\n    fox"},
		"number":        {"12) the quick brown fox", "12) the quick brown\n    fox"},
		"minus":         {"-0.3 V between the two ends", "-0.3 V between the\ntwo ends"},
		"drawing":       {"0 |--x----|   230", "0 |--x----|   230"},
		"long word":     {"see abcdefghijklmnopqrstuvwxyz now", "see\nabcdefghijklmnopqrst\nuvwxyz now"},
		"long in item":  {"- abcdefghijklmnopqrstuvwxyz", "- abcdefghijklmnopqr\n  stuvwxyz"},
		"long path":     {"at trees/symptoms/cylinder-stays-cold.yaml:485", "at\ntrees/symptoms/\ncylinder-stays-\ncold.yaml:485"},
		"wide":          {"温水タンクが冷たいままです", "温水タンクが冷たいま\nまです"},
		"tab":           {"\tone", "    one"},
		"escape":        {"a\x1b[31mb\ac\u202Ed", "a[31mbcd"},
		"vast indent":   {strings.Repeat(" ", 30) + "one two three", strings.Repeat(" ", 10) + "one two\n" + strings.Repeat(" ", 10) + "three"},
		"empty":         {"", ""},
		"spaces":        {"     ", ""},
		"carriage back": {"one\rtwo", "onetwo"},
	} {
		if diff := cmp.Diff(c.want, strings.Join(Wrap(c.in, 20), "\n")); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

func TestWrappedLinesFitAndLoseNoWord(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.RuneFrom([]rune("ab -•1).\n\t度é…\u0301"))).Draw(t, "text")
		width := rapid.IntRange(4, 40).Draw(t, "width")
		lines := Wrap(s, width)
		for _, line := range lines {
			if runewidth.StringWidth(line) > width {
				t.Fatalf("%q is wider than %d", line, width)
			}
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := squeeze(strings.Join(lines, "")), squeeze(s); got != want {
			t.Fatalf("got %q, want %q", got, want)
		}
	})
}

func TestWidthOfOneEnds(t *testing.T) {
	t.Parallel()
	for _, width := range []int{-1, 0, 1} {
		if got := strings.Join(Wrap("度 ab", width), ""); got != "度ab" {
			t.Errorf("width %d: got %q", width, got)
		}
	}
}
