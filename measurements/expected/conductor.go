package expected

import (
	"fmt"
	"strings"
)

// Temperature coefficients of copper per K, from 20 °C.
const (
	AlphaCable    = 0.004   // IEC 60228 annex, Kt = 1/(1 + 0.004(t-20)); used throughout for cables
	AlphaAnnealed = 0.00393 // annealed copper, IEC 60028
)

// CopperFactor is the resistance of copper at a temperature in °C over that at 20 °C.
func CopperFactor(alpha, celsius float64) float64 { return 1 + alpha*(celsius-20) }

// Conductor is one copper core.
type Conductor struct {
	Area   float64 // mm²
	Class  int     // IEC 60228: 1 solid, 2 stranded, 5 flexible
	Tinned bool    // class 5 only
}

// row is one area of IEC 60228 Tables 1 to 3: maximum resistance at 20 °C, Ω/km.
type row struct{ area, solid, flexible, tinned float64 }

// iec60228 gives the areas of domestic work. Class 2 plain equals class 1 here.
func iec60228() []row {
	return []row{
		{0.5, 36.0, 39.0, 40.1},
		{0.75, 24.5, 26.0, 26.7},
		{1, 18.1, 19.5, 20.0},
		{1.5, 12.1, 13.3, 13.7},
		{2.5, 7.41, 7.98, 8.21},
		{4, 4.61, 4.95, 5.09},
		{6, 3.08, 3.30, 3.39},
		{10, 1.83, 1.91, 1.95},
		{16, 1.15, 1.21, 1.24},
	}
}

// UsualClass is the class a core of an area has unless somebody says otherwise:
// below 1 mm² it is flexible cord, from there on fixed wiring. Common practice.
func UsualClass(area float64) int {
	if area < 1 {
		return 5
	}
	return 1
}

// OhmsPerKilometre is the maximum resistance at 20 °C; an error lists the areas or
// classes there are.
func (c Conductor) OhmsPerKilometre() (float64, error) {
	for _, r := range iec60228() {
		if r.area != c.Area {
			continue
		}
		switch {
		case c.Class == 5 && c.Tinned:
			return r.tinned, nil
		case c.Class == 5:
			return r.flexible, nil
		case c.Tinned:
			return 0, fmt.Errorf("tinned conductors of class %d are not in the table: only class 5", c.Class)
		case c.Class == 1, c.Class == 2:
			return r.solid, nil
		}
		return 0, fmt.Errorf("class %d: expected 1 (solid), 2 (stranded) or 5 (flexible)", c.Class)
	}
	return 0, fmt.Errorf("area %g mm²: expected one of %s", c.Area, areas())
}

func areas() string {
	var list []string
	for _, r := range iec60228() {
		list = append(list, fmt.Sprintf("%g", r.area))
	}
	return strings.Join(list, ", ")
}

// ohms is the resistance of a length at a temperature, checked.
func (c Conductor) ohms(metres, celsius float64) (float64, error) {
	perKm, err := c.OhmsPerKilometre()
	err = firstError(err, positive("length", metres, "m"), within("temperature", celsius, -50, 250, "°C"))
	return perKm / 1000 * metres * CopperFactor(AlphaCable, celsius), err
}

// Core is the resistance of one core of a length in m at a temperature in °C, in
// Ω. The standard gives a maximum, so nominal and high are the same.
func Core(c Conductor, metres, celsius float64) (Expected, error) {
	ohms, err := c.ohms(metres, celsius)
	return Expected{
		Nominal: number(ohms), High: number(ohms), Unit: "Ω",
		Source: fmt.Sprintf("IEC 60228 class %d, %g mm² copper, maximum at 20 °C × (1 + 0.004(t-20))", c.Class, c.Area),
		Note:   "add the leads unless they were nulled, and a few hundredths for each terminal",
	}, err
}

// CoreThereAndBack is two such cores in series, as measured with the far end linked.
func CoreThereAndBack(c Conductor, metres, celsius float64) (Expected, error) {
	e, err := Core(c, 2*metres, celsius)
	e.Source += ", there and back"
	return e, err
}

// R1PlusR2 is a line and a protective conductor linked at the far end, in Ω.
func R1PlusR2(line, protective Conductor, metres, celsius float64) (Expected, error) {
	r1, err1 := line.ohms(metres, celsius)
	r2, err2 := protective.ohms(metres, celsius)
	return Expected{
		Nominal: number(r1 + r2), High: number(r1 + r2), Unit: "Ω",
		Source: fmt.Sprintf("IEC 60228 as in the On-Site Guide Table I1, R1+R2 of %g/%g mm²", line.Area, protective.Area),
	}, firstError(err1, err2)
}
