package keep

import (
	"fmt"
	"strconv"
	"strings"

	"faultwalk/measurements"
)

const configHead = `## Settings of faultwalk. Lines with ## explain; to make a setting count, take
## the # away from its line and change it. This file is yours: faultwalk writes
## it once and never changes it.

## Whose rules hold: who may do what, the supply's limits, whom to call.
#jurisdiction: gb

## Your name, as it goes on job sheets.
#operator: Your Name

## Your own instruments, in the place of the usual bag that is shown here.
##   proving_unit  true if you carry one, to prove a tester before and after
##   calibrated    an instrument's last calibration, as 2026-03-01; for sheets
##   mode          how it is set: MODES
##   quantity      what it reads then: QUANTITIES
##   input_ohms    volts only: what it puts across the probes. Above LIMIT ohms
##                 a low-impedance mode leaves ghosts and counts as high
##   accuracy      percent of the reading and counts of the last digit, as its
##                 data sheet has them
##   ranges        the largest value of each range and its last digit, in V, A,
##                 ohms or degrees Celsius, smallest range first
`

// configText is the first config file. The kit is written from the default
// one, so that the two cannot come apart.
func configText() string {
	head := strings.NewReplacer("MODES", wrapped(modes()), "QUANTITIES", wrapped(quantities()),
		"LIMIT", strconv.Itoa(measurements.LowImpedanceLimit)).Replace(configHead)
	var b strings.Builder
	kit := measurements.DefaultKit()
	fmt.Fprintf(&b, "kit:\n  proving_unit: %v\n  instruments:\n", kit.ProvingUnit)
	for _, i := range kit.Instruments {
		fmt.Fprintf(&b, "    - id: %s\n      name: %s\n      modes:\n", i.ID, i.Name)
		for _, s := range i.Modes {
			writeMode(&b, s)
		}
	}
	sample := strings.ReplaceAll(strings.TrimSuffix(b.String(), "\n"), "\n", "\n#")
	return head + "#" + sample + "\n"
}

func writeMode(b *strings.Builder, s measurements.ModeSpec) {
	fmt.Fprintf(b, "        - mode: %s\n          quantity: %s\n", s.Mode, s.Quantity)
	if s.InputOhms > 0 {
		fmt.Fprintf(b, "          input_ohms: %s\n", plain(s.InputOhms))
	}
	fmt.Fprintf(b, "          accuracy: {percent: %s, counts: %s}\n          ranges:\n", plain(s.Accuracy.Percent), plain(s.Accuracy.Counts))
	for _, r := range s.Ranges {
		fmt.Fprintf(b, "            - {max: %s, resolution: %s}\n", plain(r.Max), plain(r.Resolution))
	}
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// wrapped joins words with commas into remark lines that fit the column they stand in.
func wrapped(words []string) string {
	const width, indent = 58, "\n##                 "
	var b strings.Builder
	column := 30
	for i, w := range words {
		if i < len(words)-1 {
			w += ","
		}
		if column+len(w) > width {
			b.WriteString(indent)
			column = 0
		} else if i > 0 {
			b.WriteString(" ")
		}
		b.WriteString(w)
		column += len(w) + 1
	}
	return b.String()
}
