package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

// tableCommand is a kind that needs no flags: a whole table.
func tableCommand(use, short string, rows func() []tableRow) *cobra.Command {
	return &cobra.Command{
		Use: use, Short: short, Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return printTable(cmd, rows()) },
	}
}

func expectInsulation() *cobra.Command {
	return tableCommand("insulation", "Least insulation resistance by circuit (BS 7671 Table 64)", func() []tableRow {
		var rows []tableRow
		for _, r := range expected.Insulation() {
			name := fmt.Sprintf("%s, tested at %s dc", r.Name, measurements.DCVolts.Format(r.TestVolts))
			rows = append(rows, tableRow{name, r.Expected, r})
		}
		return rows
	})
}

func expectRCD() *cobra.Command {
	return tableCommand("rcd", "Residual-current devices: trip currents, times, earth loop on TT", func() []tableRow {
		var rows []tableRow
		for _, r := range expected.RCD() {
			name := r.Name
			if r.Multiple > 0 {
				name = fmt.Sprintf("%s at %g × IΔn", r.Name, r.Multiple)
			}
			rows = append(rows, tableRow{name, r.Expected, r})
		}
		return rows
	})
}

func expectRS485() *cobra.Command {
	return tableCommand("rs485", "A data pair's volts and ohms (TIA/EIA-485-A)", func() []tableRow {
		return namedRows(expected.RS485())
	})
}

func expectContinuity() *cobra.Command {
	return tableCommand("continuity", "What low-resistance tests give on contacts, leads and bonds", func() []tableRow {
		return namedRows(expected.Continuity())
	})
}
