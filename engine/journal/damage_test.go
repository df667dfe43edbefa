package journal_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"faultwalk/engine/journal"
)

// read checks that the events before the damage are those of the whole journal.
func read(t *testing.T, data []byte) (events int, d *journal.Damage) {
	t.Helper()
	got, tail, damage := journal.Decode(data)
	if damage == nil {
		return len(got), nil
	}
	again, end := write(t, got)
	whole := bytes.TrimSuffix(again, []byte("\n"))
	if !bytes.HasPrefix(data, whole) || tail != end || damage.Offset != len(again) && damage.Offset != len(whole) {
		t.Fatalf("the %d events before %v are not what stands there", len(got), damage)
	}
	return len(got), damage
}

func TestAnAlteredByteNamesItsLine(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind())
	line := 1
	for i, b := range data {
		if i%7 != 0 && b != '\n' && b != '}' {
			continue // one in seven is enough, and quick
		}
		altered := slices.Clone(data)
		altered[i] = b ^ 0x15
		n, damage := read(t, altered)
		if damage == nil || damage.Line != line || n != line-1 || damage.Torn || damage.Later {
			t.Fatalf("byte %d of line %d altered to %q: %d events, %v", i, line, altered[i], n, damage)
		}
		if b == '\n' {
			line++
		}
	}
}

func TestMovedLinesAreNamed(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind())
	all := lines(data)
	for name, c := range map[string]struct {
		lines [][]byte
		line  int
		what  string
	}{
		"first taken out":  {all[1:], 1, "found event 2; expected event 1"},
		"third taken out":  {slices.Delete(slices.Clone(all), 2, 3), 3, "found event 4; expected event 3"},
		"third twice":      {slices.Insert(slices.Clone(all), 2, all[2]), 4, "found event 3; expected event 4"},
		"an empty line":    {slices.Insert(slices.Clone(all), 2, []byte("\n")), 3, "no line of a journal"},
		"another's second": {[][]byte{all[0], []byte(seal(journal.Tail{Sum: "0123456789abcdef"}, `{"n":2,"at":"","by":"","kind":"noted","body":{}`))}, 2, "the sum does not fit"},
		"no sum":           {[][]byte{all[0], []byte("{\"n\":2}\n")}, 2, "does not end with its sum"},
		"not a journal":    {[][]byte{[]byte("symptom: cylinder-stays-cold\n")}, 1, "no line of a journal"},
		"a list":           {[][]byte{[]byte("[]\n")}, 1, "no line of a journal"},
	} {
		_, damage := read(t, bytes.Join(c.lines, nil))
		if damage == nil || damage.Line != c.line || !strings.Contains(damage.Error(), c.what) || damage.Torn || damage.Later {
			t.Errorf("%s: got %v, want line %d: %s", name, damage, c.line, c.what)
		}
	}
}

func TestATornLastLineIsToldFromAnAlteredOne(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind()[:4])
	line, begin := 1, 0
	for cut := range data {
		if cut == begin {
			continue // the cut between two lines leaves no mark
		}
		n, damage := read(t, data[:cut])
		wholeButEnding := data[cut] == '\n'
		if damage == nil || !damage.Torn || damage.Line != line || wholeButEnding != (n == line) {
			t.Fatalf("cut at byte %d in line %d: %d events, %v", cut, line, n, damage)
		}
		if wholeButEnding {
			line, begin = line+1, cut+1
		}
	}
}

// After a loss of power a file system may leave zeros where data never came.
func TestZerosAtTheEndAreTorn(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind())
	all := lines(data)
	two := string(all[0]) + string(all[1])
	for name, c := range map[string]struct {
		tail string
		torn bool
	}{
		"zeros":                       {strings.Repeat("\x00", 4096), true},
		"zeros and an ending":         {"\x00\x00\x00\n", true},
		"a beginning and zeros":       {string(all[2][:30]) + "\x00\x00", true},
		"a hole in the line":          {string(all[2][:30]) + "\x00\x00" + string(all[2][32:]), true},
		"a hole, and more lines":      {string(all[2][:30]) + "\x00\x00" + string(all[2][32:]) + string(all[3]), false},
		"zeros and text":              {"\x00\x00text", false},
		"something else, no end":      {"what is this", false},
		"an event out of turn, torn":  {string(all[3][:30]), false},
		"longer than any line":        {string(all[2][:30]) + strings.Repeat("x", journal.MaxLine), false},
		"a whole line, another's sum": {strings.TrimSuffix(seal(journal.Tail{}, `{"n":3,"at":""`), "\n"), false},
	} {
		n, damage := read(t, []byte(two+c.tail))
		if damage == nil || damage.Torn != c.torn || damage.Line != 3 || n != 2 || damage.Offset != len(two) {
			t.Errorf("%s: %d events, %+v; want torn %v", name, n, damage, c.torn)
		}
	}
}

func TestWhatALaterBuildWroteIsOnlyRead(t *testing.T) {
	t.Parallel()
	data, tail := write(t, everyKind()[:2])
	const start = `{"n":3,"at":"2026-11-25T18:00:03.003Z","by":"x",`
	for name, c := range map[string]struct{ line, what string }{
		"kind":        {seal(tail, start+`"kind":"predicted","body":{"cause":"x"}`), `kind "predicted"`},
		"key of line": {seal(tail, start+`"kind":"noted","body":{"text":"x"},"desk":"2"`), `key "desk"`},
		"key of body": {seal(tail, start+`"kind":"noted","body":{"text":"x","picture":"y"}`), `key "picture"`},
		"key of a value": {seal(tail, start+`"kind":"read","body":{"check":"x","measured":"","purpose":"tree",`+
			`"values":[{"as":"ln","mode":"","meter":"","typed":"","hertz":50}],"verdict":""}`), `key "hertz"`},
	} {
		n, damage := read(t, append(slices.Clone(data), c.line...))
		if damage == nil || !damage.Later || damage.Torn || damage.Line != 3 || n != 2 || !strings.Contains(damage.What, c.what) {
			t.Errorf("%s: %d events, %+v", name, n, damage)
		}
	}
}

func TestALaterFormatIsOnlyRead(t *testing.T) {
	t.Parallel()
	const opened = `{"n":1,"at":"2026-11-25T18:00:00.000Z","by":"x","kind":"opened","body":{"format":2,"job":"2026-11-25-1","build":"","jurisdiction":"gb","trees":"","safety":""}`
	for name, line := range map[string]string{
		"shaped as ours":       seal(journal.Start(), opened),
		"summed otherwise":     opened + `,"sum":"sha3:00"}` + "\n",
		"with keys of its own": opened + `,"desk":1}` + "\n",
		"not ended":            opened + `}`,
		"another type":         seal(journal.Start(), strings.Replace(opened, `"gb"`, `["gb"]`, 1)),
	} {
		_, damage := read(t, []byte(line))
		if damage == nil || !damage.Later || damage.Torn || damage.Line != 1 || !strings.Contains(damage.What, "format 2, this build knows format 1") {
			t.Errorf("%s: %+v", name, damage)
		}
	}
}

func TestALineThatFitsItsSumIsStillReadStrictly(t *testing.T) {
	t.Parallel()
	data, tail := write(t, everyKind()[:2])
	const at = `"at":"2026-11-25T18:00:03.003Z"`
	for name, text := range map[string]string{
		"other order":     `{` + at + `,"n":3,"by":"x","kind":"noted","body":{"text":"x"}`,
		"spaces":          `{"n":3, ` + at + `,"by":"x","kind":"noted","body":{"text":"x"}`,
		"key twice":       `{"n":3,` + at + `,"by":"x","by":"y","kind":"noted","body":{"text":"x"}`,
		"key in capitals": `{"n":3,` + at + `,"BY":"x","kind":"noted","body":{"text":"x"}`,
		"no by":           `{"n":3,` + at + `,"kind":"noted","body":{"text":"x"}`,
		"no body":         `{"n":3,` + at + `,"by":"x","kind":"noted"`,
		"body is null":    `{"n":3,` + at + `,"by":"x","kind":"noted","body":null`,
		"body is a list":  `{"n":3,` + at + `,"by":"x","kind":"noted","body":[]`,
		"text is number":  `{"n":3,` + at + `,"by":"x","kind":"noted","body":{"text":1}`,
		"n is a fraction": `{"n":3.5,` + at + `,"by":"x","kind":"noted","body":{"text":"x"}`,
		"escaped letter":  `{"n":3,` + at + `,"by":"x","kind":"noted","body":{"text":"\u0041"}`,
		"empty list":      `{"n":3,` + at + `,"by":"x","kind":"repaired","body":{"cause":"x","did":"x","parts":[]}`,
		"time in a zone":  `{"n":3,"at":"2026-11-25T18:00:03.003+00:00","by":"x","kind":"noted","body":{"text":"x"}`,
		"time in seconds": `{"n":3,"at":"2026-11-25T18:00:03Z","by":"x","kind":"noted","body":{"text":"x"}`,
		"no such day":     `{"n":3,"at":"2026-02-30T18:00:03.003Z","by":"x","kind":"noted","body":{"text":"x"}`,
		"opened again":    `{"n":3,` + at + `,"by":"x","kind":"opened","body":{"format":1,"job":"","build":"","jurisdiction":"","trees":"","safety":""}`,
		"n of another":    `{"n":4,` + at + `,"by":"x","kind":"noted","body":{"text":"x"}`,
		"infinite number": `{"n":3,` + at + `,"by":"x","kind":"acted","body":{"act":{"do":"wait","on":"x","minutes":1e999},"outcome":"done"}`,
	} {
		n, damage := read(t, append(slices.Clone(data), seal(tail, text)...))
		if damage == nil || damage.Later || damage.Torn || damage.Line != 3 || n != 2 || !strings.Contains(damage.What, "the sum fits") {
			t.Errorf("%s: %d events, %+v", name, n, damage)
		}
	}
}

func TestSizesAreLimited(t *testing.T) {
	t.Parallel()
	data, _ := write(t, everyKind()[:1])
	long := append(slices.Clone(data), bytes.Repeat([]byte("x"), journal.MaxLine)...)
	if _, damage := read(t, append(long, '\n')); damage == nil || damage.Line != 2 || !strings.Contains(damage.What, "expected at most 65535") {
		t.Errorf("a long line: %+v", damage)
	}
	huge := append(slices.Clone(data), make([]byte, journal.MaxFile)...)
	if n, damage := read(t, huge); damage == nil || n != 1 || damage.Torn || !strings.Contains(damage.What, "beyond 67108864 bytes") {
		t.Errorf("a long journal: %d events, %+v", n, damage)
	}
}
