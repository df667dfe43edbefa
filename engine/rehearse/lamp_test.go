package rehearse

import (
	"sync"
	"testing"
	"testing/fstest"

	"faultwalk/trees"
)

// lampTree is a tree of its own laid over the embedded ones: a look, a live
// reading of two probes, a dead reading, a group, and a pass.
const lampTree = `
symptom: lamp-dark
sign: The lamp is dark
words: [dark]
start: look
cleared: lamp
steps:
  - id: look
    check: lamp
    branches:
      - answer: lit
        meaning: it burns
        refer: intermittent
      - answer: dark
        meaning: it is dark
        go: fed
      - answer: elsewhere
        meaning: another sign
        pass: controller-blank
      - answer: stolen
        meaning: there is no lamp
        refer: lamp-stolen
      - answer: flickers
        meaning: it sits loose
        cause: [lamp-loose]
  - id: fed
    check: lamp-fed
    otherwise: filament
    branches:
      - if: sound(ln)
        meaning: it is fed
        go: filament
      - if: dead(ln) and sound(le)
        meaning: its neutral is broken
        cause: [lamp-neutral]
      - if: dead(ln)
        meaning: nothing feeds it
        cause: [lamp-live]
      - else: true
        meaning: neither
        refer: intermittent
  - id: filament
    check: lamp-ohms
    branches:
      - if: reading < 100
        meaning: whole
        cause: [lamp-holder of diverter, lamp-switch of diverter]
      - if: reading >= 100
        meaning: broken
        cause: [lamp-filament]
`

// trippedTree is one that puts the plant right for good before it reads it.
const trippedTree = `
symptom: lamp-trips
sign: The lamp goes out
words: [out]
start: reset
cleared: lamp
steps:
  - id: reset
    check: lamp-reset
    branches:
      - answer: holds
        meaning: it holds
        go: fed
      - answer: trips
        meaning: it trips again
        refer: intermittent
  - id: fed
    check: lamp-fed
    branches:
      - if: sound(ln)
        meaning: it is fed
        refer: intermittent
      - else: true
        meaning: nothing feeds it
        cause: [lamp-live]
`

const lampChecks = `
- id: lamp-reset
  look: Does it hold, reset once?
  does: [reset unit-breaker]
  minutes: 1
  answers:
    - id: holds
      say: yes
    - id: trips
      say: no
- id: lamp
  look: Does the lamp burn?
  minutes: 1
  answers:
    - id: lit
      say: yes
    - id: dark
      say: no
    - id: elsewhere
      say: that is not the trouble
    - id: stolen
      say: there is none
    - id: flickers
      say: it flickers
  good: lit
- id: lamp-fed
  read: ac volts
  probes:
    - {as: ln, from: feed-live, to: neutral, modes: [low impedance, two-pole loaded]}
    - {as: le, from: feed-live, to: earth, modes: [high impedance, two-pole unloaded]}
  minutes: 2
  scale: lamp
  good: sound(ln)
  source: common practice, no source
- id: lamp-tight
  look: Does it sit tight?
  minutes: 1
  answers:
    - id: tight
      say: yes
    - id: loose
      say: no
  good: tight
- id: lamp-ohms
  read: ohms
  probes:
    - {from: feed-live, to: neutral}
  minutes: 3
  source: common practice, no source
- id: lamp-glass
  of: {of: part}
  look: Is its glass black?
  minutes: 1
  answers:
    - id: black
      say: yes
    - id: clear
      say: no
- id: lamp-hum
  of: {of: part}
  look: Does it hum?
  sure: 0.7
  minutes: 1
  answers:
    - id: hums
      say: yes
    - id: silent
      say: no
`

const lampCauses = `
- id: lamp-neutral
  words: its neutral is broken
  remedy: {do: mend it}
  weight: 1
  source: common practice, no source
- id: lamp-live
  words: its live is broken
  remedy: {do: mend it}
  weight: 1
  source: common practice, no source
- id: lamp-filament
  words: its filament is broken
  confirm: {check: lamp-ohms, if: reading >= 100}
  remedy: {do: replace it}
  weight: 1
  source: common practice, no source
- id: lamp-loose
  words: it sits loose
  confirm: {check: lamp-fed, if: sound(ln), rival: lamp-live}
  remedy: {do: screw it in}
  retest: lamp-tight
  weight: 1
  source: common practice, no source
- id: lamp-holder
  of: {of: part}
  words: its holder is burnt
  remedy: {do: replace it}
  weight: 1
  source: common practice, no source
- id: lamp-switch
  of: {of: part}
  words: its switch is worn
  remedy: {do: replace it}
  weight: 1
  source: common practice, no source
`

// lampReferral says what is wrong, as intermittent does not.
const lampReferral = `
- id: lamp-stolen
  words: the lamp was stolen
  to: somebody who sells lamps
  names: true
`

// lampScale has its own edges, so that nothing here follows those of mains.
const lampScale = `
- id: lamp
  bands:
    - {band: dead, to: "5"}
    - {band: poor, to: "200"}
    - {band: sound}
`

// lampSigns are the signs of these tests, in their order.
var lampSigns = []*trees.Sign{sign("controller-blank", "no-heat-demand"), sign("lamp-lost", "lamp-dark"), sign("lamp-dark"), sign("no-heat-demand"), sign("lamp-hums"), sign("lamp-trips")}

// lampSet is the embedded trees with the lamp's laid over them, read once.
var lampSet = sync.OnceValues(func() (*trees.Set, error) {
	base, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		return nil, err
	}
	files := fstest.MapFS{}
	for path, text := range map[string]string{"symptoms/lamp-dark.yaml": lampTree, "symptoms/lamp-trips.yaml": trippedTree, "scales/lamp.yaml": lampScale, "referrals/lamp.yaml": lampReferral,
		"checks/lamp.yaml": lampChecks, "causes/lamp.yaml": lampCauses} {
		files[path] = &fstest.MapFile{Data: []byte(text)}
	}
	set, problems := trees.Overlay(base, files, "own")
	return set, problems.Err()
})

// rehearsed walks a fake plant.
func rehearsed(t *testing.T, m model, o Options) *Report {
	t.Helper()
	if len(o.Plants) == 0 {
		o.Plants = []string{"millrace-small"}
	}
	set, err := lampSet()
	if err != nil {
		t.Fatal(err)
	}
	r, err := run(set, o, func(*trees.Set, *trees.Plant) (model, error) { return m, nil }, lampSigns)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// one walks a single fault and gives its only case.
func one(t *testing.T, m model, o Options) *Case {
	t.Helper()
	r := rehearsed(t, m, o)
	if len(r.Cases) != 1 {
		t.Fatalf("%d cases, expected 1", len(r.Cases))
	}
	return r.Cases[0]
}

// lamp is a plant whose lamp is dark by one fault.
func lamp(f *fault, answers map[string]reply) *fake {
	if _, ok := answers["lamp"]; !ok {
		answers["lamp"] = reply{answer: "dark"}
	}
	return &fake{all: []*fault{f}, shown: map[string][]string{f.id: {"lamp-dark"}}, answers: map[string]map[string]reply{f.id: answers}}
}

func volts(ln, le float64) reply { return reply{values: []float64{ln, le}} }
func ohms(v float64) reply       { return reply{values: []float64{v}} }
