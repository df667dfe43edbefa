package sheet_test

import (
	"os"
	"testing"

	"faultwalk/engine/journal"
	"faultwalk/engine/walk"
)

// jobs are walked anew by -update; otherwise their journals are read, so that
// a change of the walk does not change what is tested here.
func jobs() map[string]func(testing.TB, walk.Library) *hand {
	return map[string]func(testing.TB, walk.Library) *hand{
		"repaired": repaired, "left": left, "danger": danger, "stopped": stopped,
	}
}

func TestJobsAreWalkedAnewForTheGoldenSheets(t *testing.T) {
	if !*update {
		t.Skip("only with -update")
	}
	for name, walked := range jobs() {
		var data []byte
		tail := journal.Start()
		for _, e := range walked(t, library(t)).job.Events() {
			line, next, err := journal.Append(tail, e)
			if err != nil {
				t.Fatal(err)
			}
			data, tail = append(data, line...), next
		}
		if err := os.WriteFile("testdata/"+name+".jsonl", data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// repaired is a job from the first question to a proven repair, with a reading
// given early, one taken back, remarks that would harm a page or a terminal,
// other hands, and a break.
func repaired(t testing.TB, lib walk.Library) *hand {
	h := begin(t, lib, "2026-02-03-1")
	h.says = map[string]string{"hands": "apprentice", "certificates": "unvented", "supervisor": "A. <Lind> & Co", "instruments": "all",
		"tester": "2026-01-10", "changed": "trades", "settings": "wanted",
		"driven at valve-live calling hot-water ln": "0.4", "driven at valve-live calling hot-water le": "0,6 V",
		"contact-ohms of limit": "OL", "button of limit": "out"}
	h.until("settings")
	h.type_("reading", "warms=stays")
	h.type_("note", "tenant: \"cold since <Sunday>\"\x1b[31m & a \u202Eright-to-left mark")
	h.says["settings"] = "off"
	h.until("result")
	h.type_("back", "")
	h.says["settings"] = "wanted"
	h.until("driven at valve-live calling hot-water")
	h.type_("stop", "")
	h.at = h.at.AddDate(0, 0, 1)
	h.job.Apply(h.job.TakeUp("R. Okafor", h.at))
	h.until("contact-ohms of limit")
	h.says["hand over"] = "yes"
	h.type_("hand over", "")
	h.says["hands"] = "electrical"
	h.until("repair")
	h.says["contact-ohms of limit"], h.says["button of limit"], h.says["warms"] = "0.3", "in", "rises"
	h.says["driven at valve-live calling hot-water ln"] = "238.5"
	return h.until("over")
}

// left is a job left safe: a step skipped, a cover that would not come off, a
// voltage found at a proof, and the repair not made.
func left(t testing.TB, lib walk.Library) *hand {
	h := begin(t, lib, "2026-02-03-2")
	h.says = map[string]string{"hands": "electrical", "certificates": "unvented", "instruments": "all", "tester": "not known",
		"settings": "wanted", "contact-ohms of limit": "0.3", "leave": "isolated", "result": "leave"}
	h.until("driven at valve-live calling hot-water")
	h.type_("skip", "it rains in")
	h.until("prove")
	found := proved(h.job.Ask())
	found[2] = "118"
	h.give(walk.Answer{Fields: found})
	h.give(walk.Answer{Choice: "breaker"})
	h.says["voltage found"] = "prove"
	return h.until("over")
}

// danger ends at the first question.
func danger(t testing.TB, lib walk.Library) *hand {
	h := begin(t, lib, "2026-02-03-3")
	h.says = map[string]string{"danger": "burning"}
	return h.until("over")
}

// stopped is still open, by phone, with nothing read.
func stopped(t testing.TB, lib walk.Library) *hand {
	h := begin(t, lib, "2026-02-03-4")
	h.says = map[string]string{"operator": "phone", "hands": "householder"}
	h.until("settings")
	h.type_("stop", "")
	return h
}
