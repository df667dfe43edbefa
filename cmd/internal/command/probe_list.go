package command

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"

	"faultwalk/engine/plant"
	"faultwalk/measurements"
	"faultwalk/trees"
)

// idColumn is how far ids push the words beside them in a pipe, in columns;
// longer ones push their own alone.
const idColumn = 36

// printList writes ids with the words beside them, in two columns where every
// row fits and else the words under the id, and last lines below.
func (w World) printList(rows [][2]string, last ...string) error {
	longest, words := 0, 0
	for _, r := range rows {
		longest, words = max(longest, runewidth.StringWidth(r[0])), max(words, runewidth.StringWidth(r[1]))
	}
	room := w.room()
	if room == 0 {
		longest = min(longest, idColumn)
	}
	var lines []string
	for _, r := range rows {
		if room == 0 || longest+hang+words <= room-hang {
			lines = append(lines, r[0]+strings.Repeat(" ", max(longest-runewidth.StringWidth(r[0]), 0)+hang)+r[1])
		} else {
			lines = append(lines, r[0], strings.Repeat(" ", 2*hang)+r[1])
		}
	}
	return w.print(append(lines, last...))
}

// writeFaults lists every fault of a plant with its words and weight.
func writeFaults(w World, m *plant.Model, asJSON bool) error {
	type row struct {
		Fault  string   `json:"fault"`
		Words  string   `json:"words"`
		Weight float64  `json:"weight"`
		Causes []string `json:"causes,omitempty"`
		Refers []string `json:"refers,omitempty"`
		Hidden string   `json:"hidden,omitempty"`
		Source string   `json:"source,omitempty"`
	}
	var rows []row
	var texts [][2]string
	for _, f := range m.Faults() {
		rows = append(rows, row{f.ID, f.Words, f.Weight, f.Causes, f.Refers, f.Hidden, f.Source})
		text := fmt.Sprintf("%s; weight %.3g", f.Words, f.Weight)
		if f.Hidden != "" {
			text += "; shows no sign: " + f.Hidden
		}
		texts = append(texts, [2]string{f.ID, text})
	}
	if asJSON {
		return writeJSON(w.Out, rows)
	}
	return w.printList(texts, fmt.Sprintf("%d faults of %s, with their prior weights", len(rows), m.Plant.ID))
}

// writePoints lists the points of a plant, and what else flags name.
func writePoints(w World, p *trees.Plant, asJSON bool) error {
	type row struct {
		Point     string `json:"point"`
		Words     string `json:"words"`
		Marking   string `json:"marking,omitempty"`
		Role      string `json:"role,omitempty"`
		Enclosure string `json:"enclosure,omitempty"`
		Mains     bool   `json:"mains"` // mains can reach it with nothing switched off
	}
	rows := []row{}
	var texts [][2]string
	for _, pt := range p.Points {
		rows = append(rows, row{pt.ID, pt.Words, pt.Marking, pt.Role, pt.In, p.IsLive(pt.ID)})
		words := pt.Name()
		if pt.In != "" {
			words += ", in " + p.Words(pt.In)
		}
		texts = append(texts, [2]string{pt.ID, words})
	}
	if asJSON {
		return writeJSON(w.Out, rows)
	}
	return w.printList(texts, fmt.Sprintf("%d points of %s; --to may be %s too", len(rows), p.ID, trueEarth),
		"calls: "+strings.Join(idsOf(p.Calls, func(c *trees.Call) string { return c.ID }), ", "),
		"devices: "+strings.Join(idsOf(p.Devices, func(d *trees.Device) string { return d.ID }), ", "),
		"plugs: "+strings.Join(idsOf(p.Plugs, func(u *trees.Plug) string { return u.ID }), ", "))
}

// writeChecks lists the checks that the trees take on a plant.
func writeChecks(w World, s *stood, asJSON bool) error {
	type row struct {
		Check   string   `json:"check"`
		Words   string   `json:"words"`
		Read    string   `json:"read,omitempty"` // the quantity; none for a look
		Calls   []string `json:"calls,omitempty"`
		Power   string   `json:"power"`
		Minutes float64  `json:"minutes"`
	}
	checks, problems := s.set.ChecksOn(s.model.Plant)
	if err := problems.Err(); err != nil {
		return found(err)
	}
	rows := []row{}
	var texts [][2]string
	for _, c := range checks {
		r := row{Check: c.ID, Words: s.checkWords(c), Read: string(c.Quantity), Power: c.Need.Power, Minutes: c.Check.Minutes}
		for _, call := range s.model.Plant.Calls {
			if c.Need.Calls[call.ID] {
				r.Calls = append(r.Calls, call.ID)
			}
		}
		rows, texts = append(rows, r), append(texts, [2]string{c.ID, r.Words})
	}
	if asJSON {
		return writeJSON(w.Out, rows)
	}
	return w.printList(texts, fmt.Sprintf("%d checks of the trees on %s", len(rows), s.model.Plant.ID))
}

// checkWords say what a check asks, or what it reads where.
func (s *stood) checkWords(c *trees.BoundCheck) string {
	if c.Look != "" {
		return c.Look
	}
	var where []string
	for _, p := range c.Probes {
		switch {
		case c.Quantity == measurements.Amps || c.Quantity == measurements.Leakage:
			where = append(where, "round "+s.model.Clamps(c.Quantity, p))
		case onePlace(c.Quantity):
			where = append(where, "at "+p.From.Name())
		default:
			where = append(where, p.From.Name()+" to "+toName(p))
		}
	}
	return string(c.Quantity) + ", " + strings.Join(where, "; ")
}

func toName(p trees.BoundProbe) string {
	if p.To == nil {
		return "true earth"
	}
	return p.To.Name()
}
