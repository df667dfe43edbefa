package vet_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/vet"
)

func filesOf(pairs ...string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		fsys[pairs[i]] = &fstest.MapFile{Data: []byte(pairs[i+1])}
	}
	return fsys
}

// times writes a text for each of n numbers.
func times(n int, write func(i int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(write(i))
	}
	return b.String()
}

func ownTree(steps string) string {
	return "symptom: own\nsign: a tree of our own\nwords: [own]\ncleared: warms\nstart: s0\nsteps:\n" + steps
}

// look is a step with one way on.
func look(id, to string) string {
	return fmt.Sprintf("  - id: %s\n    check: warms\n    branches:\n      - answer: [rises, stays]\n        %s\n", id, to)
}

// doubling is routines each of which uses the next one twice.
func doubling(deep int) string {
	use := func(i int) string {
		if i == deep {
			return fmt.Sprintf("- id: r%d\n  exits: [done]\n  start: a\n  steps:\n", i) + strings.ReplaceAll(look("a", "exit: done"), "\n  ", "\n    ") + "\n"
		}
		return fmt.Sprintf(`- id: r%d
  exits: [done]
  start: a
  steps:
    - id: a
      routine: r%d
      exits:
        done:
          go: b
    - id: b
      routine: r%d
      exits:
        done:
          exit: done
`, i, i+1, i+1)
	}
	return strings.ReplaceAll(times(deep+1, use), "  steps:\n  - id", "  steps:\n    - id")
}

const useR0 = "  - id: s0\n    routine: r0\n    exits:\n      done:\n        refer: watch\n"

func plantOf(id string) string {
	return "plant: " + id + `
is: one more
facts:
  - id: board-fed
    ask: What feeds the board?
    is: unit
    options:
      - {id: unit, say: the unit}
      - {id: booster, say: the booster}
assemblies:
  - use: house
  - use: valve
`
}

// longRun is a plant whose chain has that many links.
func longRun(links int) fstest.MapFS {
	points := times(links, func(i int) string {
		return fmt.Sprintf("  - {id: p%d, in: board-box, role: switched, words: p%d}\n", i, i)
	})
	cores := times(links-1, func(i int) string {
		return fmt.Sprintf("  - {id: c%d, words: c%d, from: p%d, to: p%d, area: 1, length: 1}\n", i, i, i, i+1)
	})
	return filesOf("assemblies/run.yaml", fmt.Sprintf(`assembly: run
is: a long run
points:
%scores:
  - {id: c, words: c, from: permanent-live, to: p0, area: 1, length: 1}
%schains:
  - {id: long-run, words: the long run, from: permanent-live, to: p%d}
`, points, cores, links-1), "plants/long.yaml", plantOf("long")+"  - use: run\n",
		"symptoms/own.yaml", strings.Replace(ownTree(`  - id: s0
    split: long-run
    check: driven at $point calling hot-water
    good: sound(ln)
    bad: dead(ln)
    past:
      refer: watch
    branches:
      - else: true
        refer: watch
`), "cleared", "plants: chain(\"long-run\")\ncleared", 1))
}

// What costs a hostile author nothing must not cost much to vet, nor fill the
// memory: each of these ends at a limit that is said.
func TestHostileTreesAreRefusedSoon(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		fsys fstest.MapFS
		want string
	}{
		"routines that double": {filesOf("routines/own.yaml", doubling(15), "symptoms/own.yaml", ownTree(useR0)),
			"bound, the tree has more than 20000 steps; expected at most that"},
		"routines in routines": {filesOf("routines/own.yaml", doubling(40), "symptoms/own.yaml", ownTree(useR0)),
			"routines are used inside one another more than 16 deep; expected at most that"},
		"a tree without end": {filesOf("symptoms/own.yaml", ownTree(times(21_000, func(i int) string {
			return look(fmt.Sprint("s", i), fmt.Sprint("go: s", i+1))
		})+look("s21000", "refer: watch"))), "bound, the tree has more than 20000 steps; expected at most that"},
		"a chain without end": {longRun(900), `the chain "long-run" has 900 links; expected at most 64 to be halved`},
		"many plants": {filesOf(many(150, func(i int) (string, string) {
			return fmt.Sprintf("plants/p%03d.yaml", i), plantOf(fmt.Sprintf("p%03d", i))
		})...), "there are 152 plants; expected at most 100, so this one and the rest were not looked at"},
		"many trees": {filesOf(many(900, func(i int) (string, string) {
			if i == 0 {
				return "plants/three.yaml", plantOf("three")
			}
			return fmt.Sprintf("symptoms/t%03d.yaml", i), strings.Replace(ownTree(look("s0", "refer: watch")), "own", fmt.Sprintf("t%03d", i), 1)
		})...), "symptoms times plants, or their steps together, are more than is looked at"},
		"a long talk": {filesOf("checks/own.yaml", "- id: told\n  look: How?\n  minutes: 1\n  say: "+strings.Repeat("hot water ", 1_900)+"\n  answers:\n    - {id: so, say: so}\n    - {id: no, say: no}\n  good: so\n",
			"symptoms/own.yaml", ownTree("  - id: s0\n    check: told\n    branches:\n      - answer: [so, no]\n        refer: watch\n")), "nobody keeps more than 1000 in mind"},
		"wrong everywhere": {filesOf("symptoms/own.yaml", ownTree(times(2_600, func(i int) string {
			return fmt.Sprintf("  - id: s%d\n    check: contact-ohms of limit\n    branches:\n      - if: reading < %d\n        go: s%d\n      - if: reading < %d\n        refer: watch\n", i, i+1, i+1, i+2)
		})+look("s2600", "refer: watch"))), "more problems than are kept; mend these first"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			set, problems := trees.Overlay(base(t), c.fsys, "own")
			if err := problems.Err(); err != nil {
				t.Fatal(err)
			}
			text := vet.Vet(set, measurements.DefaultKit(), nil).Text(0)
			if !strings.Contains(text, c.want) {
				t.Errorf("reported:\n%s\nexpected among it: %s", text[:min(len(text), 2_000)], c.want)
			}
		})
	}
}

func many(n int, write func(i int) (file, text string)) []string {
	var pairs []string
	for i := range n {
		file, text := write(i)
		pairs = append(pairs, file, text)
	}
	return pairs
}

// What the reader must refuse before anything is bound. The text of each is
// made here, so that the files stay small.
func TestTreesThatLowerWhatKeepsPeopleSafeAreRefused(t *testing.T) {
	t.Parallel()
	bomb := "- &a [x, x, x, x, x, x, x, x, x]\n" + times(8, func(i int) string {
		return fmt.Sprintf("- &%c [*%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c]\n", 'b'+i, 'a'+i, 'a'+i, 'a'+i, 'a'+i, 'a'+i, 'a'+i, 'a'+i, 'a'+i)
	})
	for name, c := range map[string]struct{ file, text, want string }{
		"a huge file":    {"checks/own.yaml", strings.Repeat("- x\n", 1<<20+1), "own/checks/own.yaml:1:1: has more than 4194304 bytes"},
		"a deep file":    {"checks/own.yaml", strings.Repeat("[", 100_000), "own/checks/own.yaml:1:1: "},
		"an alias bomb":  {"checks/own.yaml", bomb, "own/checks/own.yaml:1:3: found the anchor &a"},
		"brackets":       {"symptoms/own.yaml", ownTree("  - id: s0\n    check: triple at permanent-live\n    branches:\n      - if: " + strings.Repeat("(", 1_000_000) + "\n        refer: watch\n"), "own/symptoms/own.yaml:10:13: "},
		"no gates":       {"jurisdictions/xx.yaml", "jurisdiction: xx\n", "own/jurisdictions/xx.yaml:1:1: trees from outside may not bring jurisdictions"},
		"other gates":    {"jurisdictions/own.yaml", "jurisdiction: own\n", "own/jurisdictions/own.yaml:1:1: trees from outside may not bring jurisdictions"},
		"no cautions":    {"cautions/all.yaml", "[]\n", "own/cautions/all.yaml:1:1: trees from outside may not bring cautions"},
		"no stops":       {"stops/all.yaml", "[]\n", "own/stops/all.yaml:1:1: trees from outside may not bring stops"},
		"another mains":  {"scales/own.yaml", "- id: mains\n  bands:\n    - {band: fine}\n", `own/scales/own.yaml:1:7: the scale "mains" cannot be replaced`},
		"another ending": {"referrals/own.yaml", "- id: voltage-found\n  words: carry on\n  to: you\n  leave: open\n", `own/referrals/own.yaml:1:7: the referral "voltage-found" cannot be replaced`},
		"said to be outside": {"checks/own.yaml", "- id: own\n  power: outside\n  look: How?\n  minutes: 1\n  answers:\n    - {id: so, say: so}\n    - {id: no, say: no}\n",
			`own/checks/own.yaml:2:3: unexpected key "power"`},
		"a remedy asking less": {"causes/own.yaml", "- id: limit-open\n  of: {of: part}\n  words: $of is open\n  remedy:\n    do: Reset it.\n",
			`own/causes/own.yaml:1:7: "limit-open" takes the place of one that asks "limit"; expected it to ask for that too`},
		"a remedy not done dead": {"causes/own.yaml", "- id: open-core\n  of: {of: core}\n  words: $of is broken\n  remedy:\n    do: Remake it.\n",
			`own/causes/own.yaml:1:7: "open-core" takes the place of one that is done dead; expected "dead: true"`},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			_, problems := trees.Overlay(base(t), filesOf(c.file, c.text), "own")
			if text := vet.Unread(problems).Text(0); !strings.Contains(text, c.want) {
				t.Errorf("reported:\n%s\nexpected among it: %s", text[:min(len(text), 2_000)], c.want)
			}
		})
	}
}
