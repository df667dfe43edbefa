package walk

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"faultwalk/engine/journal"
	"faultwalk/measurements"
)

func askInstruments(j *Job) *Ask {
	if k := j.answer("hands"); k == "householder" || j.mind.answers["instruments"] != nil {
		return nil
	}
	a := &Ask{Kind: Write, Title: "Which instruments are there? Numbers, all, or none"}
	for i, in := range j.lib.Kit.Instruments {
		a.Body = append(a.Body, fmt.Sprintf("  %d) %s", i+1, in.Name))
	}
	return a
}

func takeInstruments(j *Job, a Answer) (taken, error) {
	ids, err := chosenKit(j.lib.Kit, a.Typed)
	if err != nil {
		return taken{}, err
	}
	return j.withHands(&journal.Answered{Ask: "instruments", Values: map[string]string{"kit": strings.Join(ids, " ")}}), nil
}

// chosenKit reads "1 3", "1,3", "all" or "none"; ids are taken too.
func chosenKit(kit measurements.Kit, typed string) ([]string, error) {
	var ids []string
	words := strings.FieldsFunc(strings.ToLower(typed), func(r rune) bool { return r == ' ' || r == ',' })
	for _, w := range words {
		switch {
		case w == "all" && len(words) == 1:
			for _, in := range kit.Instruments {
				ids = append(ids, in.ID)
			}
			return ids, nil
		case w == "none" && len(words) == 1:
			return nil, nil
		}
		i := slices.IndexFunc(kit.Instruments, func(in measurements.Instrument) bool { return in.ID == w })
		if n := 0; i < 0 {
			if _, err := fmt.Sscanf(w, "%d", &n); err != nil || n < 1 || n > len(kit.Instruments) {
				return nil, &Refused{fmt.Sprintf("%q is no instrument of the list; expected numbers from 1 to %d, all or none", w, len(kit.Instruments))}
			}
			i = n - 1
		}
		if !slices.Contains(ids, kit.Instruments[i].ID) {
			ids = append(ids, kit.Instruments[i].ID)
		}
	}
	if len(ids) == 0 {
		return nil, &Refused{"expected numbers of the list, all or none"}
	}
	return ids, nil
}

// needsTester says whether a voltage tester is among the instruments: only
// with one, and a proving unit for it, can anything be proved dead.
func (j *Job) needsTester(ids []string) bool {
	for _, id := range ids {
		if in, ok := j.lib.Kit.Instrument(id); ok {
			if _, ok := in.Spec(measurements.TwoPoleUnloaded, measurements.ACVolts); ok {
				return true
			}
		}
	}
	return false
}

func askTester(j *Job) *Ask {
	kit := j.mind.answers["instruments"]
	if kit == nil || j.mind.answers["tester"] != nil || !j.needsTester(strings.Fields(kit.Values["kit"])) {
		return nil
	}
	return &Ask{Kind: Fill, Title: "The voltage tester", Fields: []Field{
		{Name: "proving unit", Text: "Is a proving unit there for it? yes or no", YesNo: true},
		{Name: "calibrated", Text: "When were the instruments last calibrated? A date, or not known"},
	}}
}

func takeTester(j *Job, a Answer) (taken, error) {
	if len(a.Fields) != 2 {
		return taken{}, &Refused{"expected yes or no, then a date or not known"}
	}
	yes, ok := yesNo(a.Fields[0])
	if !ok {
		return taken{}, &Refused{"expected yes or no: is a proving unit there?"}
	}
	date := strings.TrimSpace(a.Fields[1])
	if !isWhen(date) {
		return taken{}, &Refused{fmt.Sprintf("%q is no time; expected when the instruments were last calibrated, such as 2026-01-10 or last summer, or not known", date)}
	}
	t := j.withHands(&journal.Answered{Ask: "tester", Choice: yes, Values: map[string]string{"calibrated": date}})
	if yes == "no" {
		t.say = []string{"Without a proving unit nothing is proved dead, so no mains cover comes off here: what needs that is passed on to somebody with a proved tester."}
	}
	return t, nil
}

var year = regexp.MustCompile(`\b(19|20)?[0-9]{2}\b`)

// isWhen says whether what was typed tells a time, in whatever words: a year in
// it, two words or more, or one that means a time or that nobody knows.
func isWhen(typed string) bool {
	words := strings.Fields(strings.ToLower(typed))
	switch {
	case len(words) == 0:
		return false
	case len(words) == 1:
		return len(words[0]) > 3 && year.MatchString(words[0]) || slices.Contains([]string{"never", "unknown", "today", "yesterday", "recently", "new"}, words[0])
	}
	answers := []string{"all", "no", "none", "yes", "n", "y"}
	return !slices.ContainsFunc(words, func(w string) bool { return slices.Contains(answers, w) })
}

func yesNo(s string) (string, bool) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "yes", "y":
		return "yes", true
	case "no", "n":
		return "no", true
	}
	return "", false
}
