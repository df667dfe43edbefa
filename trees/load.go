package trees

import (
	"io/fs"

	"faultwalk/trees/strict"
)

// Load reads a tree set that stands alone. Name is put before the paths in
// messages. The set is never nil; use it only where there are no problems.
func Load(fsys fs.FS, name string) (*Set, strict.Problems) {
	layer, problems := gather(fsys, name)
	return assemble([]Layer{layer}, problems)
}

// Embedded reads the trees this program was built with.
func Embedded() (*Set, strict.Problems) { return Load(FS, "trees") }

// Overlay lays trees from outside over a set. They may add to it and replace
// checks, causes, routines, symptoms, scales, assemblies, plants, models and
// signs by id. They may not bring jurisdictions, cautions or stops, nor replace
// a referral, the levels of a plant or the scale of mains; each attempt is a
// problem. The base is not changed.
func Overlay(base *Set, fsys fs.FS, name string) (*Set, strict.Problems) {
	layer, problems := gather(fsys, name)
	layers := append(append([]Layer{}, base.Layers...), layer)
	return assemble(layers, problems)
}
