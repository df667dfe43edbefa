package command

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"faultwalk/measurements"
)

// amount is a flag that holds a number and knows whether it was given.
type amount struct {
	value    float64
	given    bool
	quantity measurements.Quantity // "" for a bare number; else units are understood too
}

// String, Set and Type make amount a pflag value.
func (a *amount) String() string {
	if !a.given && a.value == 0 {
		return ""
	}
	return strconv.FormatFloat(a.value, 'g', -1, 64)
}

// Set takes a decimal point or comma, and "10k" where the flag is in ohms.
func (a *amount) Set(text string) error {
	v, err := a.parse(text)
	if err != nil {
		return err
	}
	a.value, a.given = v, true
	return nil
}

func (a *amount) parse(text string) (float64, error) {
	if a.quantity != "" {
		r, err := measurements.Parse(a.quantity, text)
		if err == nil && (r.Open || !r.Value.IsPoint()) {
			err = errors.New("expected one number")
		}
		return r.Value.Lo, err
	}
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, errors.New("expected a number like 2.5")
	}
	return v, nil
}

// Type is the word shown for the flag's value in help.
func (a *amount) Type() string { return "number" }

// number adds a flag that holds a bare number.
func number(cmd *cobra.Command, name, usage string) *amount {
	a := &amount{}
	cmd.Flags().Var(a, name, usage)
	return a
}

// numberOr is number with a value it has unless given.
func numberOr(cmd *cobra.Command, name string, value float64, usage string) *amount {
	a := &amount{value: value}
	cmd.Flags().Var(a, name, usage)
	return a
}

// quantity adds a flag that is read as a meter reading is.
func quantity(cmd *cobra.Command, name string, q measurements.Quantity, usage string) *amount {
	a := &amount{quantity: q}
	cmd.Flags().Var(a, name, usage)
	return a
}

// quantityOr is quantity with a value it has unless given.
func quantityOr(cmd *cobra.Command, name string, q measurements.Quantity, value float64, usage string) *amount {
	a := quantity(cmd, name, q, usage)
	a.value = value
	cmd.Flags().Lookup(name).DefValue = a.String()
	return a
}

// missing names every flag that was needed and not given, with what it is for.
func missing(cmd *cobra.Command, needed map[string]*amount) error {
	var lines []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if a, ok := needed[f.Name]; ok && !a.given {
			lines = append(lines, fmt.Sprintf("--%s is missing: %s", f.Name, f.Usage))
		}
	})
	if len(lines) == 0 {
		return nil
	}
	return errors.New(strings.Join(lines, "\n"))
}
