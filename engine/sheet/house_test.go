package sheet_test

import (
	"flag"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/rogpeppe/go-internal/txtar"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
	"faultwalk/measurements"
	"faultwalk/trees"
)

var update = flag.Bool("update", false, "walk the jobs of testdata again and write their sheets; read every line before committing it")

// files are a small tree set of these tests, which nobody edits for another reason.
func files(t testing.TB) fstest.MapFS {
	t.Helper()
	archive, err := txtar.ParseFile("testdata/trees.txtar")
	if err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{}
	for _, f := range archive.Files {
		fsys[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return fsys
}

func library(t testing.TB) walk.Library {
	t.Helper()
	set, problems := trees.Load(files(t), "testdata")
	if len(problems) > 0 {
		t.Fatal(problems.Format(20))
	}
	return walk.Library{Set: set, Kit: measurements.DefaultKit(), Build: "test"}
}

// job reads a recorded journal.
func job(t testing.TB, name string) []journal.Event {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name + ".jsonl")
	if err != nil {
		t.Fatal(err)
	}
	events, _, damage := journal.Decode(data)
	if damage != nil {
		t.Fatal(damage)
	}
	return events
}

// hand walks a job for a journal, one answer a minute.
type hand struct {
	t    testing.TB
	job  *walk.Job
	at   time.Time
	says map[string]string // question, check or probe → answer
}

func begin(t testing.TB, lib walk.Library, id string) *hand {
	at := time.Date(2026, 2, 3, 9, 0, 0, 0, time.UTC)
	j, _ := walk.Begin(lib, id, "R. Okafor", "xx", at)
	return &hand{t: t, job: j, at: at, says: map[string]string{}}
}

func (h *hand) give(a walk.Answer) {
	h.t.Helper()
	h.at = h.at.Add(time.Minute)
	ask := h.job.Ask()
	out, err := h.job.Answer(a, "R. Okafor", h.at)
	if err != nil {
		h.t.Fatalf("%s %q refused %+v: %v", ask.ID, ask.Title, a, err)
	}
	if len(out.Events) > 0 { // without any it asks about the answer itself
		h.job.Apply(out.Events...)
	}
}

func (h *hand) type_(command, rest string) { h.give(walk.Answer{Command: command, Rest: rest}) }

// until answers as says tells, first choices otherwise, until a question or a
// check of that name stands.
func (h *hand) until(name string) *hand {
	h.t.Helper()
	for range 200 {
		a := h.job.Ask()
		switch {
		case a.ID == name, a.Check != "" && a.Check == name, a.Kind == walk.Over:
			return h
		}
		h.give(h.answer(a))
	}
	h.t.Fatalf("%s never stands; %q does", name, h.job.Ask().Title)
	return h
}

func (h *hand) answer(a *walk.Ask) walk.Answer {
	said, known := h.says[a.ID]
	if a.Check != "" {
		said = h.says[a.Check]
		if a.Reading != nil && h.says[a.Check+" "+a.Reading.As] != "" {
			said = h.says[a.Check+" "+a.Reading.As]
		}
		known = true
	}
	switch {
	case a.Kind == walk.Fill && a.ID == "prove":
		return walk.Answer{Fields: proved(a)}
	case a.Kind == walk.Fill:
		return walk.Answer{Fields: []string{"yes", said}}
	case a.Kind == walk.Write || a.Kind == walk.Measure:
		return walk.Answer{Typed: said}
	case known:
		return walk.Answer{Choice: said}
	}
	return walk.Answer{Choice: a.Choices[0].ID}
}

// proved fills a form of dead with what a two-pole tester shows on it.
func proved(a *walk.Ask) []string {
	var out []string
	for _, f := range a.Fields {
		if f.Number {
			out = append(out, "0")
		} else {
			out = append(out, "yes")
		}
	}
	return out
}

// other is the same house with trees that call one of its checks otherwise.
func other(t testing.TB) *trees.Set {
	t.Helper()
	fsys := files(t)
	for _, name := range []string{"checks/all.yaml", "symptoms/cylinder-stays-cold.yaml"} {
		fsys[name].Data = []byte(strings.ReplaceAll(string(fsys[name].Data), "contact-ohms", "contact-resistance"))
	}
	set, problems := trees.Load(fsys, "testdata")
	if len(problems) > 0 {
		t.Fatal(problems.Format(20))
	}
	return set
}
