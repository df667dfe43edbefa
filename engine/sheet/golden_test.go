package sheet_test

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/engine/sheet"
)

// golden compares bytes with a file that was read line by line when it was made.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		if err := os.WriteFile(path, got, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s differs (-want +got); if that is meant, go test ./engine/sheet -update\n%s", path, diff)
	}
}

func TestSheetsOfRecordedJobsAreTheseBytes(t *testing.T) {
	t.Parallel()
	lib := library(t)
	for name := range jobs() {
		s := sheet.Of(lib, job(t, name))
		golden(t, name+".txt", []byte(sheet.Text(s, 80)))
		data, err := sheet.JSON(s)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name+".json", data)
	}
}

func TestPageAndNarrowTextAreTheseBytes(t *testing.T) {
	t.Parallel()
	s := sheet.Of(library(t), job(t, "repaired"))
	page, err := sheet.HTML(s)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "repaired.html", page)
	golden(t, "repaired-40.txt", []byte(sheet.Text(s, 40)))
}
