package walk_test

import (
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// flicker is a tree of its own: its first step says what a voltage that wanders
// means there, the next ones do not.
var flicker = map[string]string{
	"symptoms/lamp-flickers.yaml": `
symptom: lamp-flickers
sign: The lamp flickers
words: [flickers]
start: lamp
cleared: lamp
steps:
  - id: lamp
    check: lamp
    branches:
      - answer: steady
        meaning: it burns
        refer: intermittent
      - answer: flickers
        meaning: it goes up and down
        go: fed
  - id: fed
    check: lamp-fed
    branches:
      - if: moving(reading)
        meaning: a joint before here
        go: incoming
      - if: sound(reading) and not moving(reading)
        meaning: it is fed well
        go: fed-again
      - if: not sound(reading) and not moving(reading)
        meaning: nothing feeds it
        cause: [lamp-fuse]
  - id: incoming
    check: lamp-incoming
    branches:
      - if: sound(reading)
        meaning: it stands still where it comes in
        cause: [lamp-joint]
      - if: not sound(reading)
        meaning: it comes in low
        refer: low-volts
  - id: fed-again
    check: lamp-outgoing
    branches:
      - if: sound(reading)
        meaning: sound on both sides
        cause: [lamp-old]
      - if: not sound(reading)
        meaning: lost on the way
        cause: [lamp-joint]
`,
	"scales/lamp.yaml": `
- id: lamp
  bands:
    - {band: dead, to: "200"}
    - {band: sound}
`,
	"checks/lamp.yaml": `
- id: lamp
  look: Does the lamp burn steadily?
  minutes: 1
  answers:
    - {id: steady, say: steadily}
    - {id: flickers, say: it flickers}
` + voltsAt("lamp-fed", "permanent-live") + voltsAt("lamp-incoming", "feed-live") + voltsAt("lamp-outgoing", "hot-water-call"),
	"causes/lamp.yaml": causeOf("lamp-fuse") + causeOf("lamp-joint") + causeOf("lamp-old"),
}

func voltsAt(id, point string) string {
	return `
- id: ` + id + `
  read: ac volts
  probes:
    - {from: ` + point + `, to: neutral, modes: [low impedance, two-pole loaded]}
  minutes: 2
  scale: lamp
  good: sound(reading)
  source: common practice, no source
`
}

func causeOf(id string) string {
	return `
- id: ` + id + `
  words: ` + id + ` it is
  remedy: {do: mend it}
  weight: 1
  source: common practice, no source
`
}

// flickers begins a job on the lamp, at the reading of what feeds it.
func flickers(t *testing.T) *player {
	t.Helper()
	lib, err := flickerLib()
	if err != nil {
		t.Fatal(err)
	}
	return playWith(t, lib, "gb", with(engineer("millrace-small", "lamp-flickers"), map[string]string{"lamp": "flickers"}))
}

var flickerLib = sync.OnceValues(func() (walk.Library, error) {
	lib := theHouse().lib
	files := fstest.MapFS{}
	for path, text := range flicker {
		files[path] = &fstest.MapFile{Data: []byte(text)}
	}
	set, problems := trees.Overlay(lib.Set, files, "own")
	lib.Set = set
	return lib, problems.Err()
})

const wandering = "190-240 moving"

func TestStepThatAsksWhetherVoltsMoveJudgesThemItself(t *testing.T) {
	t.Parallel()
	p := flickers(t).until("lamp-fed").typed(wandering)
	if got := lastRead(p); !strings.HasSuffix(got.Leads, "/incoming") || got.Verdict != "a joint before here" {
		t.Errorf("it is recorded as %q, leading to %q", got.Verdict, got.Leads)
	}
	if a := p.job.Ask(); a.Check != "lamp-incoming" {
		t.Fatalf("it asks %s %q%s", a.ID, a.Title, p.story())
	}
	reread(t, p.lib, p.job.Events())
	p.typed("231")
	p.until("result")
	if got := p.job.Ask().Choices[0].ID; got != "repair lamp-joint" {
		t.Errorf("it offers %s", got)
	}
}

// The branches that ask for it are not those a steady reading falls into.
func TestSteadyVoltsAtSuchAStepAreJudgedByTheirValue(t *testing.T) {
	t.Parallel()
	for typed, leads := range map[string]string{"231": "/fed-again", "0.3": "cause lamp-fuse"} {
		p := flickers(t).until("lamp-fed")
		for _, r := range p.job.Ask().Reading.Ranges {
			if r.Meaning == "a joint before here" {
				t.Errorf("%s is drawn as what only a moving reading means", r.Words)
			}
		}
		if p.typed(typed); !strings.HasSuffix(lastRead(p).Leads, leads) {
			t.Errorf("%s V leads to %q, expected %s", typed, lastRead(p).Leads, leads)
		}
	}
}

func TestStepThatDoesNotAskEndsAtMovingVoltsAfterOneThatAsked(t *testing.T) {
	t.Parallel()
	p := flickers(t).until("lamp-fed").typed(wandering).until("lamp-incoming").typed(wandering)
	if a := p.job.Ask(); a.ID != "referral" || !strings.HasPrefix(a.Title, "Stop: the mains will not stand still") {
		t.Errorf("it asks %s %q%s", a.ID, a.Title, p.story())
	}
	if got := lastRead(p).Leads; got != "refer "+walk.MovingVolts {
		t.Errorf("it leads to %q", got)
	}
}

// A wandering voltage known beforehand waits for the step that asks for it.
func TestMovingVoltsGivenEarlyWaitForTheStepThatAsks(t *testing.T) {
	t.Parallel()
	p := flickers(t).until("look").command("reading", "lamp-fed="+wandering)
	if a := p.job.Ask(); a.ID == "referral" {
		t.Fatalf("it ends the job: %q", a.Title)
	}
	p.until("lamp-incoming")
	reread(t, p.lib, p.job.Events())
}
