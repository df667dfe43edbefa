package spelling

import "testing"

func TestNearestSuggestsASlipOnly(t *testing.T) {
	t.Parallel()
	known := []string{"check", "choice", "go", "mains.low", "mains.high", "otherwise"}
	for word, want := range map[string]string{
		"chek": "check", "chekc": "check", "og": "go", "mains.lwo": "mains.low", "MAINS.LOW": "mains.low",
		"otherwize": "otherwise", "othrwiese": "otherwise", "x": "", "": "", "branches": "", "check": "",
	} {
		if got, _ := Nearest(word, known); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

func TestTiesGoToTheAlphabeticallyFirst(t *testing.T) {
	t.Parallel()
	if got, _ := Nearest("la", []string{"le", "ln"}); got != "le" {
		t.Errorf("got %q", got)
	}
}

func TestLongWordsAreNotCompared(t *testing.T) {
	t.Parallel()
	long := make([]byte, 1<<20)
	if got, ok := Nearest(string(long), []string{string(long[1:])}); ok {
		t.Errorf("got %d bytes", len(got))
	}
}

func TestQuotedIsSortedAndWithoutRepeats(t *testing.T) {
	t.Parallel()
	if got := Quoted([]string{"b", "a", "b"}); got != `"a", "b"` {
		t.Error(got)
	}
}
