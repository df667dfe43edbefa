package measurements

import (
	"math"
	"strconv"
	"strings"
)

// Format writes v (SI or °C) in the trade's writing with every digit it has:
// "231.4 V", "12 mV", "0.52 Ω", "2.2 kΩ", "1.2 MΩ", "46 mA", "52 °C"; +Inf is "OL".
// [Parse] of the result gives v back exactly.
func (q Quantity) Format(v float64) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return "OL"
	}
	prefix, exp := q.prefix(math.Abs(v))
	return decimal(v, exp) + " " + prefix + q.Unit()
}

// Approx is [Quantity.Format] with v rounded to four significant digits, for
// computed values: 17.6333… Ω is "17.63 Ω".
func (q Quantity) Approx(v float64) string {
	return q.Format(Significant(v, 4))
}

// Significant rounds v to so many significant decimal digits.
func Significant(v float64, digits int) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	if err != nil {
		return v
	}
	return rounded
}

// prefix picks the prefix the trade writes a magnitude with, and its power of ten.
func (q Quantity) prefix(magnitude float64) (symbol string, exp int) {
	switch q.Unit() {
	case "Ω":
		if q == Insulation && magnitude < 1e3 {
			return "", 0 // no milliohms: Parse takes them for megohms mistyped
		}
		return ohmPrefix(magnitude)
	case "V":
		return milliBelow(magnitude, 0.1)
	case "A":
		if q == Leakage {
			return milliBelow(magnitude, 1)
		}
		return milliBelow(magnitude, 0.1)
	}
	return "", 0
}

// milliBelow writes what is under the limit in thousandths, zero excepted.
func milliBelow(magnitude, limit float64) (string, int) {
	if magnitude > 0 && magnitude < limit {
		return "m", -3
	}
	return "", 0
}

func ohmPrefix(magnitude float64) (string, int) {
	switch {
	case magnitude >= 1e9:
		return "G", 9
	case magnitude >= 1e6:
		return "M", 6
	case magnitude >= 1e3:
		return "k", 3
	}
	return milliBelow(magnitude, 0.01)
}

// decimal writes v / 10^exp without an exponent. It moves the point in the
// shortest text of v instead of dividing, so that no digit is lost.
func decimal(v float64, exp int) string {
	if v == 0 {
		return "0"
	}
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(math.Abs(v), 'e', -1, 64), "e")
	e, _ := strconv.Atoi(power)
	digits := strings.Replace(mantissa, ".", "", 1)
	sign := ""
	if v < 0 {
		sign = "-"
	}
	return sign + placePoint(digits, e-exp+1)
}

// placePoint puts the decimal point after so many digits; at may lie outside them.
func placePoint(digits string, at int) string {
	switch {
	case at <= 0:
		return "0." + strings.Repeat("0", -at) + digits
	case at >= len(digits):
		return digits + strings.Repeat("0", at-len(digits))
	}
	return digits[:at] + "." + digits[at:]
}
