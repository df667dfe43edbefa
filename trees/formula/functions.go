package formula

import (
	"maps"
	"slices"
)

// function says what stands in the brackets of a function: first names in
// quotes, then formulas.
type function struct {
	words, args int
	more        bool // more formulas than args may come
	field       bool // .field follows the brackets
	gives       Type
	example     string
}

// functions are all a formula may call. Those without names in quotes are
// worked out here, the rest by the [Resolver].
var functions = map[string]function{
	"volts":      {words: 2, gives: Numeric, example: `volts("live", "neutral")`},
	"dcvolts":    {words: 2, gives: Numeric, example: `dcvolts("plus", "minus")`},
	"amps":       {words: 1, gives: Numeric, example: `amps("winding")`},
	"dcamps":     {words: 1, gives: Numeric, example: `dcamps("loop")`},
	"called":     {words: 1, gives: Numeric, example: `called("hot-water")`},
	"setting":    {words: 1, gives: Wordy, example: `setting("hot-water-on")`},
	"has":        {words: 1, gives: Numeric, example: `has("zone-pump")`},
	"part":       {words: 1, field: true, example: `part("diverter").body`},
	"box":        {words: 1, field: true, example: `box("valve-box").wet`},
	"device":     {words: 1, field: true, example: `device("unit-isolator").on`},
	"swings":     {args: 1, gives: Numeric, example: `swings(part("board").calling)`},
	"after":      {words: 1, args: 1, example: `after("reset unit-breaker", device("unit-breaker").on)`},
	"min":        {args: 2, more: true, gives: Numeric, example: "min(a, b)"},
	"max":        {args: 2, more: true, gives: Numeric, example: "max(a, b)"},
	"abs":        {args: 1, gives: Numeric, example: "abs(a)"},
	"round":      {args: 1, gives: Numeric, example: "round(a)"},
	"thermistor": {args: 3, gives: Numeric, example: "thermistor(r25, beta, celsius)"},
	"celsius":    {args: 3, gives: Numeric, example: "celsius(r25, beta, ohms)"},
}

// Functions lists the functions a formula may call, sorted.
func Functions() []string { return slices.Sorted(maps.Keys(functions)) }
