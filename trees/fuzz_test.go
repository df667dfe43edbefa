package trees

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// fuzzPlant uses the assembly that the fuzzer writes.
const fuzzPlant = "plant: one\nis: one\nfacts:\n  - {id: f, ask: a, is: x, options: [{id: x, say: x}]}\nassemblies:\n  - {use: fuzz, with: {n: 1}}\n"

// FuzzLoad reads any bytes as a file of each kind, embedded and from outside: nothing may panic, a plant comes out
// exactly where nothing is wrong with it, and a set without problems survives packing.
func FuzzLoad(f *testing.F) {
	names := slices.Sorted(maps.Keys(folders()))
	for path, file := range baseFS(f) {
		folderName, _, _ := strings.Cut(path, "/")
		f.Add(slices.Index(names, folderName), file.Data)
	}
	f.Add(slices.Index(names, "models"), []byte(valveModel))
	f.Add(slices.Index(names, "signs"), []byte(someSigns))
	f.Add(slices.Index(names, "levels"), []byte(someLevels))
	f.Add(slices.Index(names, "checks"), []byte("- id: $a\n  of: {a: part}\n  look: ${a}\n"))
	f.Add(slices.Index(names, "assemblies"), []byte("assembly: fuzz\nis: x\nof: {n: number}\npoints:\n"+
		"  - {id: a, words: a}\n  - {id: b, words: b}\ncores:\n  - {id: c, words: x, from: a, to: b, length: $n}\n"))
	f.Fuzz(func(t *testing.T, kind int, data []byte) {
		file := names[uint(kind)%uint(len(names))] + "/fuzz.yaml"
		fsys := fstest.MapFS{"plants/one.yaml": fileOf(fuzzPlant), file: {Data: data}}
		s, problems := Load(fsys, "")
		if p, wrong := s.Compose("one"); (p == nil) == (len(wrong) == 0) {
			t.Errorf("the plant is %v, with problems %v", p, wrong)
		}
		if len(problems) == 0 {
			if again, wrong := Unpack(s.Pack()); len(wrong) > 0 || again.Hash() != s.Hash() {
				t.Errorf("packing changes the set: %v", wrong)
			}
		}
		Overlay(&Set{}, fsys, "own")
		Overlay(s, fsys, "own")
	})
}

// FuzzFillParams: parts of a text that are no parameter stay as they are, and every place is right.
func FuzzFillParams(f *testing.F) {
	f.Add("$a-b.c $a$b ü$a", "a")
	f.Fuzz(func(t *testing.T, text, name string) {
		got := fillParams(text, func(s string) bool { return s == name }, func(u paramUse) string {
			written := "$" + u.Name
			if u.Attr != "" {
				written += "." + u.Attr
			}
			return written
		})
		if got != text {
			t.Errorf("%q became %q", text, got)
		}
	})
}
