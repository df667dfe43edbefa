package command

import (
	"fmt"
	"io"
	"strings"

	"faultwalk/measurements"
)

// writeLevels writes the levels of a plant as the file that the trees hold.
func writeLevels(to io.Writer, s *stood) error {
	text, err := levelsFile(s)
	if err != nil {
		return err
	}
	_, err = io.WriteString(to, text)
	return err
}

func levelsFile(s *stood) (string, error) {
	checks, problems := s.set.ChecksOn(s.model.Plant)
	if err := problems.Err(); err != nil {
		return "", err
	}
	var b strings.Builder
	fmt.Fprintf(&b, `# Worked out from the plant's model, never by hand: faultwalk probe --plant %s --levels
# Volts between two points of the healthy plant in one mode of the meter: off, the most while nothing drives it; on, the
# least while something does. A pair that is not here is dead undriven and has full mains driven.
plant: %s
levels:
`, s.model.Plant.ID, s.model.Plant.ID)
	for _, l := range s.model.Levels(checks, measurements.DefaultKit()) {
		fmt.Fprintf(&b, "  - {from: %s, to: %s, mode: %s", l.From, l.To, l.Mode)
		if l.Off >= 0 {
			fmt.Fprintf(&b, ", off: %g", l.Off)
		}
		if l.On >= 0 {
			fmt.Fprintf(&b, ", on: %g", l.On)
		}
		b.WriteString("}\n")
	}
	return b.String(), nil
}
