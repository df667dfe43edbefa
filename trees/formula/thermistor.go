package formula

import "math"

// Kelvin of 0 °C and of 25 °C, where thermistors are named.
const (
	zero = 273.15
	room = 298.15
)

// Thermistor gives the ohms of a thermistor at a temperature in °C, by the
// beta equation R = R25·exp(β·(1/T − 1/298.15 K)).
func Thermistor(r25, beta, celsius float64) float64 {
	return r25 * math.Exp(beta*(1/(celsius+zero)-1/room))
}

// Celsius gives the temperature at which a thermistor has those ohms: what
// electronics show. An open circuit is absolute nought, −273.15; fewer ohms
// than the curve ever reaches are +Inf.
func Celsius(r25, beta, ohms float64) float64 {
	kelvin := 1 / (1/room + math.Log(ohms/r25)/beta)
	if !(kelvin >= 0) || ohms <= 0 {
		return math.Inf(1)
	}
	return kelvin - zero
}
