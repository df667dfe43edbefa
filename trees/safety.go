package trees

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"faultwalk/trees/strict"
)

// mainsScale is the scale that judges mains voltages; trees from outside cannot replace it.
const mainsScale = "mains"

// SafetyHash identifies what keeps people safe: SHA-256, in hexadecimal, over the files of jurisdictions, cautions
// and stops, and the bands of the scale of mains with the levels they are worked out from.
func (s *Set) SafetyHash() string {
	h := sha256.New()
	for _, layer := range s.Layers {
		for _, file := range slices.Sorted(maps.Keys(layer.Files)) {
			folderName, _, _ := strings.Cut(file, "/")
			if folders()[folderName].safety || folderName == "levels" && s.Scales[mainsScale].NamesLevels() {
				hashText(h, file)
				hashText(h, layer.Files[file])
			}
		}
	}
	hashText(h, s.Scales[mainsScale].text())
	return hex.EncodeToString(h.Sum(nil))
}

// text writes the bands of a scale without places and prose.
func (s *Scale) text() string {
	if s == nil {
		return ""
	}
	var b strings.Builder
	for _, group := range s.Modes {
		fmt.Fprintf(&b, "%q\n", group.Modes)
		for _, band := range group.Bands {
			fmt.Fprintf(&b, "%q %q %t\n", band.Name, band.To.Value, band.Including)
		}
	}
	return b.String()
}

// WithSafety gives this set with the jurisdictions, cautions, stops, referrals of stops and scale of mains of
// another: a job that finishes on the trees it began with is guarded by the running program all the same.
func (s *Set) WithSafety(running *Set) *Set {
	guarded := *s
	if s.whole != nil {
		guarded.whole = sync.OnceValues(func() (*Set, strict.Problems) {
			all, problems := s.Whole()
			return all.WithSafety(running), problems
		})
	}
	guarded.Jurisdictions, guarded.Cautions, guarded.Stops = running.Jurisdictions, running.Cautions, running.Stops
	guarded.Scales = maps.Clone(s.Scales)
	guarded.Scales[mainsScale] = running.Scales[mainsScale]
	if running.Scales[mainsScale].NamesLevels() {
		guarded.Levels = maps.Clone(s.Levels)
		maps.Copy(guarded.Levels, running.Levels)
	}
	guarded.Referrals = maps.Clone(s.Referrals)
	for id, r := range running.Referrals {
		if r.Stop || guarded.Referrals[id] == nil {
			guarded.Referrals[id] = r
		}
	}
	return &guarded
}
