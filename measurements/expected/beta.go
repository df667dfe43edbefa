package expected

import (
	"fmt"
	"math"
)

// Beta is a thermistor known by its resistance at 25 °C and one B value.
type Beta struct {
	R25 float64 // Ω at 25 °C
	B   float64 // K, usually fitted between 25 and 85 °C
}

// NewBeta checks the two numbers: R25 above zero and B between 1000 and 10000 K.
func NewBeta(r25, b float64) (Beta, error) {
	err := firstError(positive("resistance at 25 °C", r25, "Ω"), within("beta", b, 1000, 10000, "K"))
	return Beta{R25: r25, B: b}, err
}

// Ohms is R25·exp(B(1/T - 1/298.15)), in Ω.
func (b Beta) Ohms(celsius float64) (float64, error) {
	if err := temperature(celsius); err != nil {
		return 0, err
	}
	return b.R25 * math.Exp(b.B*(1/(celsius+kelvin)-1/(25+kelvin))), nil
}

// Celsius inverts [Beta.Ohms].
func (b Beta) Celsius(ohms float64) (float64, error) {
	if err := positive("resistance", ohms, "Ω"); err != nil {
		return 0, err
	}
	celsius := 1/(1/(25+kelvin)+math.Log(ohms/b.R25)/b.B) - kelvin
	return celsius, temperature(celsius)
}

// Describe says how far one B value is out in the cold. The figures are those of
// four published component tables against their own 25/85 °C B values.
func (b Beta) Describe() (source, note string) {
	source = fmt.Sprintf("beta equation, R25 %g Ω, B %g K", b.R25, b.B)
	return source, "one B value fits between the two temperatures it was taken from, usually 25 and 85 °C: in the cold it gives too many ohms, 10 to 15 % (about 2 K) at -20 °C and 20 to 32 % (3 to 4.5 K) at -40 °C; below 0 °C use the sensor's table"
}
