package keep

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"faultwalk/engine/journal"
)

// State is how a job stands.
type State string

// The states of a job.
const (
	StateOpen    State = "open"
	StateClosed  State = "closed"
	StateDamaged State = "damaged"         // or unreadable: see Summary.Why
	StateLater   State = "later version's" // written by a later faultwalk
)

// Summary is a job in a list. Times are zero and words empty where the journal
// does not say.
type Summary struct {
	ID      string
	State   State
	As      string // closed jobs: proven, left safe, referred or abandoned
	Why     string // damaged jobs: line and reason
	Started time.Time
	Last    time.Time // the latest event
	Events  int
	Plant   string // id of the plant, once it is chosen
	Symptom string // id of the symptom that was chosen
}

// The questions of the intake whose answers a list shows.
const (
	askPlant   = "plant"
	askSymptom = "symptom"
)

// List gives every job in the store, newest first. A folder that is not there
// holds none; a journal that cannot be read is listed as damaged.
func (s Store) List() ([]Summary, error) {
	ids, err := s.ids()
	if err != nil {
		return nil, err
	}
	jobs := make([]Summary, 0, len(ids))
	for _, id := range ids {
		events, damage, err := s.Read(id)
		if errors.Is(err, ErrNoJob) {
			continue // forgotten since
		}
		jobs = append(jobs, summary(id, events, damage, err))
	}
	return jobs, nil
}

// ids are the jobs that have a journal, newest first.
func (s Store) ids() ([]string, error) {
	entries, err := os.ReadDir(s.Dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, trouble("read the folder", s.Dir, err)
	}
	var ids []string
	for _, e := range entries {
		if id, ok := strings.CutSuffix(e.Name(), ".jsonl"); ok && jobID.MatchString(id) {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, func(a, b string) int { return -byAge(a, b) })
	return ids, nil
}

// byAge compares two ids by day, then by number.
func byAge(a, b string) int {
	x, y := jobID.FindStringSubmatch(a), jobID.FindStringSubmatch(b)
	m, _ := strconv.Atoi(x[2])
	n, _ := strconv.Atoi(y[2])
	return cmp.Or(cmp.Compare(x[1], y[1]), cmp.Compare(m, n))
}

func summary(id string, events []journal.Event, damage *journal.Damage, err error) Summary {
	s := Summary{ID: id, State: StateOpen, Events: len(events)}
	taken := retracted(events)
	for _, e := range events {
		if s.Started.IsZero() {
			s.Started = e.At
		}
		s.Last = e.At
		if !taken[e.N] {
			s.note(e)
		}
	}
	switch {
	case err != nil:
		s.State, s.Why = StateDamaged, err.Error()
	case damage == nil || damage.Torn && len(events) > 0: // Open mends it
	case damage.Later:
		s.State, s.Why = StateLater, damage.Error()
	default:
		s.State, s.Why = StateDamaged, damage.Error()
	}
	return s
}

// note takes from an event what a list shows.
func (s *Summary) note(e journal.Event) {
	switch b := e.Body.(type) {
	case *journal.Closed:
		s.State, s.As = StateClosed, b.As
	case *journal.Answered:
		switch b.Ask {
		case askPlant:
			s.Plant = b.Choice
		case askSymptom:
			s.Symptom = b.Choice
		}
	}
}

func retracted(events []journal.Event) map[int]bool {
	taken := map[int]bool{}
	for _, e := range events {
		if b, ok := e.Body.(*journal.Retracted); ok {
			taken[b.Event] = true
		}
	}
	return taken
}
