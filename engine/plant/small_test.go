package plant_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/engine/plant"
	"faultwalk/trees"
	"faultwalk/trees/strict"
)

// smallModels are four kinds of part with round numbers: 240 V behind 1 Ω, a
// contact of 0.1 Ω, a coil of 1 kΩ that pulls in at 180 V and lets go at 100 V.
const smallModels = `- model: service
  is: the mains
  nodes: [live, neutral]
  values:
    - {id: volts, is: 240}
  branches:
    - {id: source, from: live, to: ground, ohms: 1, volts: volts}
    - {id: return, from: neutral, to: ground, ohms: 1}
    - {id: bond, from: earth, to: ground, ohms: 1}
- model: relay
  is: a contact
  values:
    - {id: closed_ohms, is: 0.1, tolerance: 0.5}
  variables:
    - {id: made, first: false}
    - {id: whole, first: true, fixed: true}
  branches:
    - {id: contact, from: in, to: out, ohms: closed_ohms, closed: made}
  rules:
    - {set: made, to: whole and followed}
  faults:
    - id: dead
      words: $part does not make
      weight: 2
      do: [lock whole to false]
      causes: [dead of $part]
- model: coil
  is: a coil
  values:
    - {id: ohms, is: 1000, tolerance: 0.1}
    - {id: rated}
  variables:
    - {id: pulled_in, first: false}
    - {id: mood, first: calm, fixed: true}
  branches:
    - {id: winding, from: live, to: neutral, ohms: ohms}
  rules:
    - {set: pulled_in, to: 'volts("live", "neutral") >= (pulled_in ? 100 : 180)'}
  faults:
    - id: open
      words: $part is burnt open
      weight: 3
      do: [open winding]
      causes: [burnt of $part]
`

// smallAssembly is a supply, a breaker, a cable of three cores, a relay that
// the call "heat" makes and the coil behind it.
const smallAssembly = `assembly: bench
is: a relay and a coil on a breaker
supplies:
  - {id: unit, words: the supply, breaker: B6, live: origin-live, neutral: origin-neutral, rcd: unit}
enclosures:
  - {id: board, words: the board}
  - {id: box, words: the box}
points:
  - {id: origin-live, in: board, role: live, words: the live bar}
  - {id: origin-neutral, in: board, role: neutral, words: the neutral bar}
  - {id: way-live, in: board, role: live, words: the way}
  - {id: main-earth, in: board, role: earth, words: the earth bar}
  - {id: in-live, in: box, role: live, words: the live in}
  - {id: call, in: box, role: switched, words: the call}
  - {id: neutral, in: box, role: neutral, words: the neutral}
  - {id: earth, in: box, role: earth, words: the earth}
devices:
  - {id: breaker, words: the breaker, supply: unit, lockable: true, poles: [{from: origin-live, to: way-live}]}
parts:
  - {id: service, kind: service, words: the service, terminals: {earth: main-earth}}
  - {id: stat, kind: relay, words: the stat, terminals: {in: in-live, out: call}, follows: called("heat")}
  - {id: lamp, kind: coil, words: the lamp, terminals: {live: call, neutral: neutral}, plug: lamp, values: {rated: 230}}
plugs:
  - {id: lamp, words: the lamp's leads, in: box, of: lamp}
cores:
  - {id: feed-live, words: the live core, from: way-live, to: in-live, area: 1.5, length: 10}
  - {id: feed-neutral, words: the neutral core, from: origin-neutral, to: neutral, area: 1.5, length: 10}
  - {id: feed-earth, words: the earth core, from: main-earth, to: earth, area: 1.5, length: 10, earth: true}
calls:
  - {id: heat, words: heat}
faults:
  - id: no-live
    words: the live core is off
    weight: 1
    do: [open feed-live@to]
    causes: [off of feed-live]
`

const smallPlant = `plant: bench
is: a bench
facts:
  - id: unit
    ask: Which?
    is: one
    options: [{id: one, say: this one}]
assemblies:
  - use: bench
`

// small are the files of the small plant; edits come in pairs, what stands in a
// file and what to put there.
func small(tb testing.TB, edits ...string) fstest.MapFS {
	tb.Helper()
	files := map[string]string{"models/all.yaml": smallModels, "assemblies/bench.yaml": smallAssembly, "plants/bench.yaml": smallPlant}
	for i := 0; i < len(edits); i += 2 {
		found := false
		for name, text := range files {
			if strings.Contains(text, edits[i]) {
				files[name], found = strings.Replace(text, edits[i], edits[i+1], 1), true
			}
		}
		if !found {
			tb.Fatalf("%q stands nowhere in the small plant", edits[i])
		}
	}
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

// compiled reads, composes and compiles the small plant as far as it goes.
func compiled(tb testing.TB, edits ...string) (*plant.Model, strict.Problems) {
	tb.Helper()
	set, problems := trees.Load(small(tb, edits...), "own")
	if len(problems) > 0 {
		return nil, problems
	}
	p, problems := set.Compose("bench")
	if len(problems) > 0 {
		return nil, problems
	}
	return plant.Compile(set, p)
}

// bench is the small plant, which must compile.
func bench(tb testing.TB, edits ...string) *plant.Model {
	tb.Helper()
	m, problems := compiled(tb, edits...)
	if len(problems) > 0 {
		tb.Fatal(problems.Format(0))
	}
	return m
}
