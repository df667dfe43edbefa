package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

func expectSupply() *cobra.Command {
	cmd := &cobra.Command{Use: "supply", Short: "Limits of the mains at the supply terminals", Args: cobra.NoArgs}
	of := cmd.Flags().String("of", "single-phase", "single-phase, three-phase, frequency, or all")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		switch *of {
		case "single-phase":
			return printExpected(cmd, expected.SupplyVoltage())
		case "three-phase":
			return printExpected(cmd, expected.SupplyThreePhase())
		case "frequency":
			return printExpected(cmd, expected.SupplyFrequency())
		case "all":
			return printTable(cmd, namedRows(expected.Supply()))
		}
		return fmt.Errorf("--of %q: expected single-phase, three-phase, frequency or all", *of)
	}
	return cmd
}

func expectElement() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "element",
		Short:   "A heating element's ohms from its plate (IEC 60335-1)",
		Example: "  expect element --watts 3000 --rated 230\n  expect element --watts 3000 --rated 240 --cold\n  expect element --watts 3000 --rated 240 --volts 236",
		Args:    cobra.NoArgs,
	}
	watts := number(cmd, "watts", "rated power in watts, from the plate")
	rated := quantity(cmd, "rated", measurements.ACVolts, "rated voltage, from the plate")
	cold := cmd.Flags().Bool("cold", false, "for a reading on the cold element: low limit 2 % lower")
	volts := quantity(cmd, "volts", measurements.ACVolts, "volts just read: gives the current in amps instead")
	cmd.MarkFlagsMutuallyExclusive("cold", "volts")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		err := missing(cmd, map[string]*amount{"watts": watts})
		if !rated.given {
			err = errors.Join(err, fmt.Errorf("--rated: %w", expected.ErrRatedVoltage))
		}
		if err != nil {
			return err
		}
		e, err := elementOf(watts.value, rated.value, volts, *cold)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func elementOf(watts, rated float64, volts *amount, cold bool) (expected.Expected, error) {
	switch {
	case volts.given:
		return expected.ElementAmps(watts, rated, volts.value)
	case cold:
		return expected.ElementCold(watts, rated)
	}
	return expected.Element(watts, rated)
}

func expectLoop() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "loop",
		Short:   "Maximum earth loop impedance for a breaker (BS 7671 Table 41.3)",
		Example: "  expect loop --breaker C32",
		Args:    cobra.NoArgs,
	}
	breaker := breakerFlag(cmd)
	seconds := numberOr(cmd, "time", 0.4, "disconnection time in seconds: 0.4 or 5")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if *breaker == "" {
			return errors.New("--breaker is missing: curve and rating as printed on it, like --breaker C32")
		}
		b, err := expected.ParseBreaker(*breaker)
		if err != nil {
			return err
		}
		e, err := b.MaximumLoop(seconds.value)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func expectBreaker() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "breaker",
		Short:   "At which current breakers trip at once (IEC 60898-1)",
		Example: "  expect breaker\n  expect breaker --breaker C32",
		Args:    cobra.NoArgs,
	}
	breaker := breakerFlag(cmd)
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if *breaker == "" {
			return printTable(cmd, namedRows(expected.BreakerBands()))
		}
		b, err := expected.ParseBreaker(*breaker)
		if err != nil {
			return err
		}
		e, err := b.TripBand()
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func breakerFlag(cmd *cobra.Command) *string {
	return cmd.Flags().String("breaker", "", "curve and rating as printed on it, like C32")
}
