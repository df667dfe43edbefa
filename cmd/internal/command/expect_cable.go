package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

func expectCore() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "core",
		Short:   "Ohms of one core of a cable, or there and back with --loop",
		Example: "  expect core --area 0.75 --length 10 --at 20\n  expect core --area 2.5 --length 20 --loop",
		Args:    cobra.NoArgs,
	}
	area := number(cmd, "area", "area of the core in mm², like 2.5")
	length := number(cmd, "length", "length in metres, one way")
	at := quantityOr(cmd, "at", measurements.Celsius, 20, "temperature of the core in °C")
	class := classFlag(cmd)
	tinned := cmd.Flags().Bool("tinned", false, "tinned copper (class 5)")
	loop := cmd.Flags().Bool("loop", false, "there and back: far end linked")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := missing(cmd, map[string]*amount{"area": area, "length": length}); err != nil {
			return err
		}
		copper, err := conductor(area.value, class, *tinned)
		if err != nil {
			return err
		}
		core := expected.Core
		if *loop {
			core = expected.CoreThereAndBack
		}
		e, err := core(copper, length.value, at.value)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func expectR1R2() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "r1r2",
		Short:   "Ohms of line and protective conductor linked at the far end",
		Example: "  expect r1r2 --line 2.5 --protective 1.5 --length 20",
		Args:    cobra.NoArgs,
	}
	line := number(cmd, "line", "area of the line conductor in mm²")
	protective := number(cmd, "protective", "area of the protective conductor in mm²")
	length := number(cmd, "length", "length in metres, one way")
	at := quantityOr(cmd, "at", measurements.Celsius, 20, "temperature of the cores in °C")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := missing(cmd, map[string]*amount{"line": line, "protective": protective, "length": length}); err != nil {
			return err
		}
		usual := func(area float64) expected.Conductor {
			return expected.Conductor{Area: area, Class: expected.UsualClass(area)}
		}
		e, err := expected.R1PlusR2(usual(line.value), usual(protective.value), length.value, at.value)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func expectDrop() *cobra.Command {
	var names []string
	for _, c := range expected.Cables() {
		names = append(names, string(c))
	}
	cmd := &cobra.Command{
		Use:     "drop",
		Short:   "Volts lost along a cable under load",
		Long:    "Volts lost there and back: by the tables of BS 7671, with conductors at working temperature, or with --at from their resistance at a temperature.",
		Example: "  expect drop --area 2.5 --length 20 --amps 13\n  expect drop --area 2.5 --length 20 --amps 13 --at 30",
		Args:    cobra.NoArgs,
	}
	area := number(cmd, "area", "area of the cores in mm², like 2.5")
	length := number(cmd, "length", "length in metres, one way")
	amps := quantity(cmd, "amps", measurements.Amps, "current in amps, as measured or rated")
	at := quantity(cmd, "at", measurements.Celsius, "temperature of the cores in °C, instead of the table")
	cable := cmd.Flags().String("cable", "", "table: "+strings.Join(names, ", ")+" (unless given: twin, or flex below 1 mm²)")
	class := classFlag(cmd)
	cmd.MarkFlagsMutuallyExclusive("cable", "at")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := missing(cmd, map[string]*amount{"area": area, "length": length, "amps": amps}); err != nil {
			return err
		}
		e, err := dropOf(area.value, length.value, amps.value, at, class, expected.Cable(*cable))
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

func dropOf(area, length, amps float64, at, class *amount, cable expected.Cable) (expected.Expected, error) {
	copper, err := conductor(area, class, false)
	switch {
	case err != nil:
		return expected.Expected{}, err
	case at.given:
		return expected.DropAt(copper, length, amps, at.value)
	case class.given:
		return expected.Expected{}, errors.New("--class says nothing without --at: the tables are by cable; give --cable or --at")
	}
	if cable == "" {
		cable = expected.UsualCable(area)
	}
	return expected.Drop(cable, area, length, amps)
}

func classFlag(cmd *cobra.Command) *amount {
	return number(cmd, "class", "IEC 60228 class: 1 solid, 2 stranded, 5 flexible (unless given: 5 below 1 mm², else 1)")
}

// conductor is a core of the usual class for its area, or of the class given.
func conductor(area float64, class *amount, tinned bool) (expected.Conductor, error) {
	c := expected.Conductor{Area: area, Class: expected.UsualClass(area), Tinned: tinned}
	if class.given {
		c.Class = int(class.value)
	}
	if class.given && float64(c.Class) != class.value {
		return c, fmt.Errorf("--class %g: expected 1 (solid), 2 (stranded) or 5 (flexible)", class.value)
	}
	return c, nil
}

func expectGhost() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "ghost",
		Short:   "The most a core that nothing drives can show beside a live one",
		Example: "  expect ghost --length 10\n  expect ghost --length 10 --meter 3k",
		Args:    cobra.NoArgs,
	}
	length := number(cmd, "length", "metres the two cores lie side by side")
	coupling := numberOr(cmd, "coupling", 100, "picofarads per metre between the cores")
	meter := quantityOr(cmd, "meter", measurements.Ohms, 10e6, "input of the meter in ohms")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := missing(cmd, map[string]*amount{"length": length}); err != nil {
			return err
		}
		e, err := expected.Ghost(length.value*coupling.value*1e-12, meter.value)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}
