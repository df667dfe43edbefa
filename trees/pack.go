package trees

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"hash"
	"maps"
	"path"
	"slices"
	"strings"

	"faultwalk/trees/strict"
)

// packFormat is raised when a pack of this program cannot be read by an older one.
const packFormat = 1

// maxPack bounds a pack, in bytes: a few layers at their limit, escaped.
const maxPack = 4 * maxTotal

type pack struct {
	Format int     `json:"format"`
	Layers []Layer `json:"layers"`
}

// Pack gives the files of the set as one text, the same for the same files, to
// be kept beside the journals of the jobs that were begun on it.
func (s *Set) Pack() []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(pack{packFormat, s.Layers}); err != nil {
		return nil // texts in maps always encode
	}
	return b.Bytes()
}

// Unpack reads a set that Pack wrote. Its safety data is what it was then: see
// [Set.WithSafety]. The set is nil if the pack itself cannot be read.
func Unpack(data []byte) (*Set, strict.Problems) {
	var p pack
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	fault := func(format string, args ...any) (*Set, strict.Problems) {
		return nil, strict.Problems{problemAt(strict.Pos{File: "kept trees", Line: 1, Col: 1}, format, args...)}
	}
	if len(data) > maxPack {
		return fault("the kept trees have %d bytes; expected at most %d", len(data), maxPack)
	}
	if err := d.Decode(&p); err != nil {
		return fault("the kept trees cannot be read: %v", err)
	}
	if p.Format != packFormat || len(p.Layers) == 0 {
		return fault("the kept trees have format %d and %d layers; expected format %d and at least one layer", p.Format,
			len(p.Layers), packFormat)
	}
	for _, layer := range p.Layers {
		if err := layer.check(); err != nil {
			return fault("the kept trees cannot be used: %v", err)
		}
	}
	return assemble(p.Layers, nil)
}

// check holds the files of a layer to what gathering them allows.
func (l Layer) check() error {
	total := 0
	if len(l.Files) > maxFiles {
		return fmt.Errorf("%d files; expected at most %d", len(l.Files), maxFiles)
	}
	for file, text := range l.Files {
		folderName, base := path.Split(file)
		if _, known := folders()[strings.TrimSuffix(folderName, "/")]; !known || !strings.HasSuffix(base, ".yaml") {
			return fmt.Errorf("a file named %q; expected .yaml files in the folders of a tree set", clip(file))
		}
		total += len(text)
	}
	if total > maxTotal {
		return fmt.Errorf("%d bytes; expected at most %d", total, maxTotal)
	}
	return nil
}

// Hash identifies the set: SHA-256, in hexadecimal, over the paths and contents of its files, layer by layer.
func (s *Set) Hash() string {
	h := sha256.New()
	for _, layer := range s.Layers {
		hashText(h, "layer")
		for _, file := range slices.Sorted(maps.Keys(layer.Files)) {
			hashText(h, file)
			hashText(h, layer.Files[file])
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// hashText adds a text with its length, so that two texts cannot run together.
func hashText(h hash.Hash, text string) {
	var length [8]byte
	binary.BigEndian.PutUint64(length[:], uint64(len(text)))
	h.Write(length[:])
	h.Write([]byte(text))
}
