package keep

import (
	"errors"
	"strings"
	"time"

	"faultwalk/measurements"
	"faultwalk/trees/strict"
)

func readKit(m *strict.Map) measurements.Kit {
	var kit measurements.Kit
	kit.ProvingUnit, _ = m.OptBool("proving_unit")
	seen := map[string]bool{}
	for _, n := range m.List("instruments") {
		i := readInstrument(n, seen)
		kit.Instruments = append(kit.Instruments, i)
	}
	m.Done()
	return kit
}

func readInstrument(n *strict.Node, seen map[string]bool) measurements.Instrument {
	m := n.Map("an instrument")
	id, name := m.Text("id"), m.Text("name")
	if seen[id.Value] && id.Value != "" {
		id.Problem("the id %q is used twice; expected one of its own for each instrument", id.Value)
	}
	if strings.ContainsAny(id.Value, " \t\n") {
		id.Problem("found %q for \"id\"; expected one word, such as my-multimeter", short(id.Value))
	}
	seen[id.Value] = true
	i := measurements.Instrument{ID: id.Value, Name: name.Value, Calibrated: readDay(m, "calibrated")}
	for _, mode := range m.List("modes") {
		i.Modes = append(i.Modes, readMode(mode, i))
	}
	m.Done()
	return i
}

// readDay reads a date that may be missing.
func readDay(m *strict.Map, key string) string {
	day, ok := m.OptText(key)
	if !ok || day.Value == "" {
		return ""
	}
	if _, err := time.Parse(time.DateOnly, day.Value); err != nil {
		day.Problem("found %q for %q; expected a date such as 2026-03-01", short(day.Value), key)
	}
	return day.Value
}

func readMode(n *strict.Node, of measurements.Instrument) measurements.ModeSpec {
	m := n.Map("a mode")
	before := len(n.Source().Problems())
	s := measurements.ModeSpec{
		Mode:     measurements.Mode(m.OneOf("mode", modes()...).Value),
		Quantity: measurements.Quantity(m.OneOf("quantity", quantities()...).Value),
	}
	ohms, _ := m.OptNumber("input_ohms")
	s.InputOhms = ohms.Value
	s.Accuracy = readAccuracy(m.Sub("accuracy"))
	for _, r := range m.List("ranges") {
		s.Ranges = append(s.Ranges, readRange(r))
	}
	m.Done()
	if len(n.Source().Problems()) == before { // what could not be read is not judged
		judge(n, of, s)
	}
	return s
}

func readAccuracy(m *strict.Map) measurements.Accuracy {
	a := measurements.Accuracy{Percent: m.Number("percent").Value, Counts: m.Number("counts").Value}
	m.Done()
	return a
}

func readRange(n *strict.Node) measurements.Range {
	m := n.Map("a range")
	r := measurements.Range{Max: m.Number("max").Value, Resolution: m.Number("resolution").Value}
	m.Done()
	return r
}

// judge lets the meters' own rules judge one mode, and puts what they say where
// the mode stands in the file.
func judge(n *strict.Node, of measurements.Instrument, s measurements.ModeSpec) {
	alone := measurements.Kit{Instruments: []measurements.Instrument{{ID: of.ID, Name: of.Name, Modes: []measurements.ModeSpec{s}}}}
	if of.ID == "" {
		alone.Instruments[0].ID = "without an id" // its absence is reported already
	}
	err := alone.Validate()
	var several interface{ Unwrap() []error }
	if errors.As(err, &several) {
		for _, one := range several.Unwrap() {
			n.Problem("%v", one)
		}
	}
}

func quantities() []string {
	var all []string
	for _, q := range measurements.Quantities() {
		all = append(all, string(q))
	}
	return all
}

// modes lists every mode once, in the order of the quantities they read.
func modes() []string {
	var all []string
	seen := map[measurements.Mode]bool{}
	for _, q := range measurements.Quantities() {
		for _, m := range measurements.ModesFor(q) {
			if !seen[m] {
				seen[m] = true
				all = append(all, string(m))
			}
		}
	}
	return all
}
