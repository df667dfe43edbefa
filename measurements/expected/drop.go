package expected

import (
	"fmt"
	"strings"
)

// Cable is a table of BS 7671 Appendix 4, by what the cable is.
type Cable string

// The cables whose single-phase voltage drop is tabulated here.
const (
	Twin       Cable = "twin"        // 4D5, 70 °C flat twin and earth
	SingleCore Cable = "single-core" // 4D1B column 3, 70 °C single-core in conduit
	HotSingle  Cable = "hot-single"  // 4E1B, 90 °C single-core
	Armoured   Cable = "armoured"    // 4E4B, 90 °C two-core armoured
	Flex       Cable = "flex"        // 4F3B, 60 °C flexible cord
)

// Cables lists the tables in a fixed order.
func Cables() []Cable { return []Cable{Twin, SingleCore, HotSingle, Armoured, Flex} }

// dropTable is one tabulated cable.
type dropTable struct {
	table   string
	celsius float64   // working temperature of the conductors
	areas   []float64 // mm²
	drops   []float64 // mV per A per m, to the table's two figures
}

func (c Cable) table() (dropTable, error) {
	fixed := []float64{1, 1.5, 2.5, 4, 6, 10, 16}
	switch c {
	case Twin:
		return dropTable{"4D5", 70, fixed, []float64{44, 29, 18, 11, 7.3, 4.4, 2.8}}, nil
	case SingleCore:
		return dropTable{"4D1B (from memory)", 70, fixed, []float64{44, 29, 18, 11, 7.3, 4.4, 2.8}}, nil
	case HotSingle:
		return dropTable{"4E1B", 90, fixed, []float64{46, 31, 19, 12, 7.9, 4.7, 2.9}}, nil
	case Armoured:
		return dropTable{"4E4B", 90, fixed[1:], []float64{31, 19, 12, 7.9, 4.7, 2.9}}, nil
	case Flex:
		return dropTable{"4F3B", 60, []float64{0.5, 0.75, 1, 1.5, 2.5, 4}, []float64{93, 62, 46, 32, 19, 12}}, nil
	}
	return dropTable{}, fmt.Errorf("cable %q: expected one of %v", string(c), Cables())
}

// UsualCable is flexible cord below 1 mm² and flat twin and earth from there on.
func UsualCable(area float64) Cable {
	if area < 1 {
		return Flex
	}
	return Twin
}

// WorkingCelsius is the conductor temperature the cable's table is for, in °C.
func (c Cable) WorkingCelsius() (float64, error) {
	t, err := c.table()
	return t.celsius, err
}

// MillivoltsPerAmpMetre is the tabulated single-phase drop of an area in mm².
func (c Cable) MillivoltsPerAmpMetre(area float64) (float64, error) {
	t, err := c.table()
	if err != nil {
		return 0, err
	}
	for n, a := range t.areas {
		if a == area {
			return t.drops[n], nil
		}
	}
	list := strings.Trim(fmt.Sprint(t.areas), "[]")
	return 0, fmt.Errorf("area %g mm²: table %s has %s", area, t.table, strings.ReplaceAll(list, " ", ", "))
}

// Drop is the voltage lost there and back by the table, with conductors at working
// temperature, in V; high is what BS 7671 allows for uses other than lighting.
func Drop(cable Cable, area, metres, amps float64) (Expected, error) {
	perAmpMetre, err := cable.MillivoltsPerAmpMetre(area)
	if err = firstError(err, positive("length", metres, "m"), positive("current", amps, "A")); err != nil {
		return Expected{}, err
	}
	t, _ := cable.table()
	source := fmt.Sprintf("BS 7671 Appendix 4 Table %s, %g mV/A/m", t.table, perAmpMetre)
	note := fmt.Sprintf("conductors at %g °C, less when they are cooler", t.celsius)
	return drop(perAmpMetre/1000*metres*amps, source, note), nil
}

// DropAt is the same from the conductor's resistance at a temperature in °C.
func DropAt(c Conductor, metres, amps, celsius float64) (Expected, error) {
	ohms, err := c.ohms(2*metres, celsius)
	if err = firstError(err, positive("current", amps, "A")); err != nil {
		return Expected{}, err
	}
	source := fmt.Sprintf("IEC 60228 class %d, %g mm² copper at %g °C, there and back", c.Class, c.Area, celsius)
	return drop(ohms*amps, source, ""), nil
}

func drop(volts float64, source, note string) Expected {
	limit := DropLimit("public", "other")
	return Expected{
		Nominal: number(volts), High: limit.High, Unit: "V", Source: source,
		Note: join(note, fmt.Sprintf("high is the limit of %s; much more than nominal is a poor joint all the same", limit.Source)),
	}
}

// DropLimits are the limits of BS 7671 Table 4Ab from the origin to the load, in V
// at 230 V.
func DropLimits() []Named {
	var list []Named
	for _, supply := range []string{"public", "private"} {
		for _, use := range []string{"lighting", "other"} {
			list = append(list, Named{supply + " supply, " + use, DropLimit(supply, use)})
		}
	}
	return list
}

// DropLimit is one of [DropLimits]: supply is public or private, use lighting or
// other; anything unknown is held to the strictest.
func DropLimit(supply, use string) Expected {
	percent := 3.0
	if use == "other" {
		percent = 5
	}
	if supply == "private" {
		percent += 3
	}
	return Expected{
		High: number(230 * percent / 100), Unit: "V",
		Source: fmt.Sprintf("BS 7671 Table 4Ab, %g %% of 230 V", percent),
	}
}
