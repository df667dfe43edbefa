package command

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"faultwalk/measurements"
	"faultwalk/measurements/expected"
)

func expectThermistor() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "thermistor",
		Short:   "A thermistor's ohms at a temperature, by table, coefficients or beta",
		Example: "  expect thermistor --r25 10000 --beta 3977 --at 50\n  expect thermistor --table sensor.csv --at 50\n  expect thermistor --sh 1.129148e-3,2.34125e-4,8.76741e-8 --at 50",
		Args:    cobra.NoArgs,
	}
	usual := expected.UsualTolerance()
	at := quantity(cmd, "at", measurements.Celsius, "temperature at the sensor in °C")
	r25 := quantity(cmd, "r25", measurements.Ohms, "ohms at 25 °C, from the sensor's data")
	beta := number(cmd, "beta", "B value in K, from the sensor's data")
	sh := cmd.Flags().String("sh", "", "Steinhart-Hart A,B,C in ln R, or A,B,C,D in ln(R/R25) with --r25")
	table := cmd.Flags().String("table", "", "file with the columns temperature_C,resistance_ohm")
	percent := numberOr(cmd, "tolerance", usual.Percent, "± percent of the sensor")
	kelvin := numberOr(cmd, "thermometer", usual.Kelvin, "± K of the reference thermometer")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		curve, err := thermistorCurve(r25, beta, *sh, *table)
		if err = firstError(missing(cmd, map[string]*amount{"at": at}), err); err != nil {
			return err
		}
		e, err := expected.Thermistor(curve, at.value, expected.Tolerance{Percent: percent.value, Kelvin: kelvin.value})
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

// thermistorCurve takes exactly one of the three ways a thermistor is described.
func thermistorCurve(r25, beta *amount, sh, table string) (expected.Curve, error) {
	ways := 0
	for _, given := range []bool{beta.given, sh != "", table != ""} {
		if given {
			ways++
		}
	}
	switch {
	case ways != 1:
		return nil, errors.New("give one of --table FILE, --sh A,B,C[,D] or --beta with --r25: curves differ between makes, so none is assumed")
	case table != "":
		return readTable(table)
	case sh != "":
		return steinhartHart(sh, r25)
	case !r25.given:
		return nil, errors.New("--r25 is missing: --beta needs the ohms at 25 °C, like --r25 10000")
	}
	return expected.NewBeta(r25.value, beta.value)
}

func steinhartHart(text string, r25 *amount) (expected.Curve, error) {
	var c []float64
	for _, part := range strings.Split(text, ",") {
		v, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		if err != nil {
			return nil, fmt.Errorf("--sh %q: %q is not a number; expected A,B,C or A,B,C,D with decimal points", text, part)
		}
		c = append(c, v)
	}
	switch {
	case len(c) == 3:
		return expected.NewSteinhartHart3(c[0], c[1], c[2])
	case len(c) != 4:
		return nil, fmt.Errorf("--sh %q: %d coefficients; expected A,B,C or A,B,C,D", text, len(c))
	case !r25.given:
		return nil, errors.New("--r25 is missing: four coefficients are in ln(R/R25)")
	}
	return expected.NewSteinhartHart4(c[0], c[1], c[2], c[3], r25.value)
}

func expectPlatinum() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "platinum",
		Short:   "A platinum sensor's ohms at a temperature (IEC 60751)",
		Example: "  expect platinum --r0 1000 --at 37",
		Args:    cobra.NoArgs,
	}
	r0 := quantity(cmd, "r0", measurements.Ohms, "ohms at 0 °C: 100 or 1000")
	at := quantity(cmd, "at", measurements.Celsius, "temperature at the sensor in °C")
	class := cmd.Flags().String("class", "B", "tolerance class: AA, A, B or C")
	kelvin := numberOr(cmd, "thermometer", 0, "± K of the reference thermometer, added to the class")
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := missing(cmd, map[string]*amount{"r0": r0, "at": at}); err != nil {
			return err
		}
		curve, err := expected.NewPlatinum(r0.value)
		if err != nil {
			return err
		}
		e, err := expected.PlatinumAt(curve, at.value, expected.PlatinumClass(strings.ToUpper(*class)), kelvin.value)
		if err != nil {
			return err
		}
		return printExpected(cmd, e)
	}
	return cmd
}

// firstError gives the first of several checks that failed.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
