package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// newExpect is the command `expect KIND`: what a healthy plant should read, with
// the standard it comes from, as text or with --json.
func newExpect() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "expect KIND",
		Short: "What a healthy part should read, and by which standard",
		Long:  "What a healthy part should read: low, nominal and high, with the standard each comes from.\nResistances in ohms, lengths in metres, areas in mm², temperatures in °C.",
		Args:  cobra.ArbitraryArgs,
		RunE:  noKind,
	}
	cmd.PersistentFlags().Bool("json", false, "write low, nominal, high, unit and source as JSON")
	cmd.AddCommand(
		expectThermistor(), expectPlatinum(), expectElement(),
		expectCore(), expectR1R2(), expectDrop(),
		expectLoop(), expectBreaker(), expectSupply(), expectGhost(),
		expectInsulation(), expectRCD(), expectRS485(), expectContinuity(),
	)
	for _, c := range append(cmd.Commands(), cmd) {
		c.SilenceUsage = true
	}
	return cmd
}

// noKind refuses `expect` alone and an unknown kind, listing those there are.
func noKind(cmd *cobra.Command, args []string) error {
	var kinds []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			kinds = append(kinds, c.Name())
		}
	}
	list := strings.Join(kinds, ", ")
	if len(args) == 0 {
		return fmt.Errorf("expect what? choose one of %s", list)
	}
	cmd.SuggestionsMinimumDistance = 2
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return fmt.Errorf("expect %q: did you mean %s?", args[0], strings.Join(near, " or "))
	}
	return fmt.Errorf("expect %q: choose one of %s", args[0], list)
}
