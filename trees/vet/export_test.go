package vet

import (
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/trees"
)

// Base is a small tree set in which everything is right: the files of
// testdata/vet/base, with a gate for every capability and a caution for every
// moment there is.
func Base(t testing.TB) fstest.MapFS {
	t.Helper()
	fsys, root := fstest.MapFS{}, os.DirFS("../../testdata/vet/base")
	err := fs.WalkDir(root, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, name)
		fsys[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	fsys["jurisdictions/xx.yaml"] = &fstest.MapFile{Data: []byte(nowhere())}
	fsys["cautions/all.yaml"] = &fstest.MapFile{Data: []byte("- id: all\n  words: Look first.\n  at:\n    - " +
		strings.Join(trees.Triggers, "\n    - ") + "\n  source: common practice, no source\n")}
	return fsys
}

// nowhere is a jurisdiction in which anybody may look, work controls and
// switches and read a gauge, an installer the water and low-voltage side, and
// an electrically competent person everything.
func nowhere() string {
	var b strings.Builder
	b.WriteString("jurisdiction: xx\nname: Nowhere\nmains: {low: 207, nominal: 230, high: 253}\nemergency: \"112\"\nnetwork: \"100\"\ngas: \"101\"\ngates:\n")
	for _, may := range trees.Capabilities {
		householder, installer, phone := "never", "never", "never"
		if slices.Contains([]string{"look", "controls", "switches", "gauge"}, may) {
			householder, installer, phone = "yes", "yes", "yes"
		}
		if slices.Contains([]string{"pipes", "water", "sensor-plug", "fit-mechanical"}, may) {
			installer = "yes"
		}
		b.WriteString("  - {may: " + may + ", words: " + may + ", householder: " + householder + ", installer: " + installer +
			", apprentice: supervised, electrical: yes, phone: " + phone + "}\n")
	}
	return b.String()
}
