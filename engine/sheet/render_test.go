package sheet_test

import (
	"encoding/json"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"faultwalk/engine/sheet"
)

func page(t *testing.T, s sheet.Sheet) string {
	t.Helper()
	b, err := sheet.HTML(s)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestWhatPeopleTypeCannotBecomeMarkupOrMoveATerminal(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired"))
	s.Damage = "line 3: <script>alert(1)</script>"
	s.Job = `"; } </style><b>x`
	html := page(t, s)
	for _, bad := range []string{"<Sunday>", "<Lind>", "<script", "</style><b>", "\x1b", "\u202E"} {
		if strings.Contains(html, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	if !strings.Contains(html, "&lt;Sunday&gt;") {
		t.Error("the note is not on the page")
	}
	if text := sheet.Text(s, 80); strings.ContainsAny(text, "\x1b\u202E") {
		t.Error("the text holds what moves a terminal or turns the order of reading")
	}
}

func TestPageNeedsNothingElseAndNumbersItsPages(t *testing.T) {
	t.Parallel()
	html := page(t, sheet.Of(library(t), job(t, "repaired")))
	if found := regexp.MustCompile(`(?i)<script|<link|<img|<iframe|\ssrc=|\shref=|url\(|@import|https?://`).FindString(html); found != "" {
		t.Errorf("the page refers to something else: %s", found)
	}
	for _, want := range []string{"size: A4", "counter(page)", "counter(pages)", "table-footer-group", `name="viewport"`, `lang="en"`, "Signature"} {
		if !strings.Contains(html, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
}

func TestSupervisorSignsOnlyWhereOneWatched(t *testing.T) {
	t.Parallel()
	events := job(t, "repaired")
	lib := library(t)
	if html := page(t, sheet.Of(lib, events[:20])); !strings.Contains(html, `<th scope="row">Supervisor</th>`) {
		t.Error("no line for the supervisor of an apprentice")
	}
	if html := page(t, sheet.Of(lib, events)); strings.Contains(html, `<th scope="row">Supervisor</th>`) {
		t.Error("a line for a supervisor where the hands that ended the job had none")
	}
}

func TestTextKeepsToItsWidth(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired"))
	s.Remarks[0].Words = strings.Repeat("unbroken", 30) + " 冷たい水が出る " + strings.Repeat("e\u0301", 50)
	for width := 20; width <= 120; width++ {
		for line := range strings.Lines(sheet.Text(s, width)) {
			line = strings.TrimSuffix(line, "\n")
			if n := utf8.RuneCountInString(strings.ReplaceAll(line, "\u0301", "")); n > width {
				t.Fatalf("width %d: %d columns in %q", width, n, line)
			}
			if strings.HasSuffix(line, " ") {
				t.Fatalf("width %d: spaces end %q", width, line)
			}
		}
	}
}

func TestDamageAndLikelihoodStandAtTheTop(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired")[:30])
	s.Damage = "line 31: the line does not end with its sum; it was altered"
	head, _, _ := strings.Cut(sheet.Text(s, 200), "How it ended")
	if !strings.Contains(head, "Damaged: line 31") {
		t.Errorf("the text begins with\n%s", head)
	}
	head, _, _ = strings.Cut(page(t, s), "How it ended")
	if !strings.Contains(head, "line 31") || !strings.Contains(head, sheet.LikelyOnly) {
		t.Errorf("the page begins with\n%s", head)
	}
}

// keysOf collects the keys of a JSON value.
func keysOf(v any, keys map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for k, w := range v {
			keys[k] = true
			keysOf(w, keys)
		}
	case []any:
		for _, w := range v {
			keysOf(w, keys)
		}
	}
}

func TestEveryJSONKeyIsSnakeCaseAndDocumented(t *testing.T) {
	t.Parallel()
	file, err := parser.ParseFile(token.NewFileSet(), "doc.go", nil, parser.ParseComments|parser.PackageClauseOnly)
	if err != nil {
		t.Fatal(err)
	}
	keys := map[string]bool{}
	for name := range jobs() {
		data, err := os.ReadFile("testdata/" + name + ".json")
		var v any
		if err == nil {
			err = json.Unmarshal(data, &v)
		}
		if err != nil {
			t.Fatal(err)
		}
		keysOf(v, keys)
	}
	if len(keys) < 60 {
		t.Errorf("only %d keys in the golden sheets; expected nearly all", len(keys))
	}
	for k := range keys {
		if !regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`).MatchString(k) {
			t.Errorf("%q is no snake_case", k)
		}
		if !regexp.MustCompile(`\b` + k + `\b`).MatchString(file.Doc.Text()) {
			t.Errorf("%q is not in the package comment", k)
		}
	}
}

func BenchmarkSheetOfAWholeJob(b *testing.B) {
	lib, events := library(b), job(b, "repaired")
	for b.Loop() {
		if _, err := sheet.HTML(sheet.Of(lib, events)); err != nil {
			b.Fatal(err)
		}
	}
}
