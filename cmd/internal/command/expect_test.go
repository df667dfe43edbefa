package command

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// expectRun runs `expect ARGS` under a bare root.
func expectRun(args ...string) (output string, err error) {
	var out strings.Builder
	root := &cobra.Command{Use: "root", SilenceErrors: true}
	root.AddCommand(newExpect())
	root.SetOut(&out)
	root.SetErr(&out)
	root.SetArgs(append([]string{"expect"}, args...))
	err = root.Execute()
	return out.String(), err
}

// sensorTable writes a table to a file and gives its path.
func sensorTable(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sensor.csv")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

const reference = "../../../testdata/reference/"

func TestExpectJSONHasLimitsUnitAndSource(t *testing.T) {
	t.Parallel()
	none := math.NaN() // null
	for _, c := range []struct {
		args               string
		low, nominal, high float64
		within             float64
		unit, source       string
	}{
		// Published 10 kΩ table, beta column; limits are ±5 % and ±2 K.
		{"thermistor --r25 10000 --beta 3977 --at 50", 3139.3, 3563.1, 4034.4, 12, "Ω", "beta equation"},
		{"thermistor --r25 10k --beta 3977 --at 50 --tolerance 0 --thermometer 0", 3563.1, 3563.1, 3563.1, 0.05, "Ω", "beta equation"},
		{"thermistor --table " + reference + "ntc_10k_b3977.csv --at 50", 3179, 3606, 4082, 12, "Ω", "table ntc_10k_b3977.csv"},
		{"thermistor --sh 1.129148e-3,2.34125e-4,8.76741e-8 --at 24.9997 --tolerance 0 --thermometer 0", 10000, 10000, 10000, 1, "Ω", "Steinhart-Hart"},
		{"thermistor --sh 3.354016e-3,2.569850e-4,2.620131e-6,6.383091e-8 --r25 10000 --at -20 --tolerance 0 --thermometer 0", 96295.7, 96295.7, 96295.7, 0.1, "Ω", "four-term"},
		// IEC 60751: 1000·(1 + 3.9083e-3·37 - 5.775e-7·37²), class B ±0.485 K.
		{"platinum --r0 1000 --at 37", 1141.94, 1143.817, 1145.69, 0.02, "Ω", "IEC 60751"},
		{"platinum --r0 100 --at -20", 92.0026, 92.1599, 92.3172, 0.001, "Ω", "IEC 60751"},
		{"element --watts 3000 --rated 230", 16.794, 17.633, 19.593, 0.001, "Ω", "IEC 60335-1"},
		{"element --watts 3000 --rated 240", 18.286, 19.2, 21.333, 0.001, "Ω", "IEC 60335-1"},
		{"element --watts 3000 --rated 240 --cold", 17.92, 19.2, 21.333, 0.001, "Ω", "IEC 60335-1"},
		{"element --watts 3000 --rated 240 --volts 230", 10.78, 11.98, 12.58, 0.01, "A", "IEC 60335-1"},
		{"loop --breaker C32", none, none, 0.68, 1e-9, "Ω", "BS 7671:2018+A2 Table 41.3"},
		{"loop --breaker D32 --time 5", none, none, 0.68, 1e-9, "Ω", "BS 7671:2018+A2 Table 41.3"},
		{"breaker --breaker C32", 160, none, 320, 1e-9, "A", "IEC 60898-1"},
		// 18 mV/A/m × 20 m × 13 A; 5 % of 230 V.
		{"drop --area 2.5 --length 20 --amps 13", none, 4.68, 11.5, 1e-9, "V", "BS 7671 Appendix 4 Table 4D5"},
		{"drop --area 2.5 --length 20 --amps 13 --at 20", none, 3.8532, 11.5, 1e-9, "V", "IEC 60228 class 1"},
		{"drop --area 0,75 --length 10 --amps 3", none, 1.86, 11.5, 1e-9, "V", "Table 4F3B"},
		{"core --area 0.75 --length 10 --at 20", none, 0.26, 0.26, 1e-9, "Ω", "IEC 60228 class 5"},
		{"core --area 0.75 --length 10 --at 20 --loop", none, 0.52, 0.52, 1e-9, "Ω", "there and back"},
		{"core --area 0.75 --length 10 --at 20 --class 1", none, 0.245, 0.245, 1e-9, "Ω", "IEC 60228 class 1"},
		{"core --area 1.5 --length 1000 --at 70", none, 14.52, 14.52, 1e-9, "Ω", "IEC 60228 class 1"},
		{"r1r2 --line 2.5 --protective 1.5 --length 20", none, 0.3902, 0.3902, 1e-9, "Ω", "Table I1"},
		{"supply", 216.2, 230, 253, 1e-9, "V", "ESQCR 2002"},
		{"supply --of three-phase", 376, 400, 440, 1e-9, "V", "ESQCR 2002"},
		{"supply --of frequency", 49.5, 50, 50.5, 1e-9, "Hz", "ESQCR 2002"},
		{"ghost --length 10", 0, none, 219.16, 0.01, "V", "capacitive divider"},
		{"ghost --length 10 --meter 3k", 0, none, 0.22, 0.01, "V", "capacitive divider"},
	} {
		out, err := expectRun(append(strings.Fields(c.args), "--json")...)
		if err != nil {
			t.Errorf("%s: %v", c.args, err)
			continue
		}
		var got map[string]any
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Errorf("%s: %v in %s", c.args, err, out)
			continue
		}
		for key, want := range map[string]float64{"low": c.low, "nominal": c.nominal, "high": c.high} {
			v, there := got[key]
			number, isNumber := v.(float64)
			if !there || isNumber == math.IsNaN(want) || isNumber && math.Abs(number-want) > c.within {
				t.Errorf("%s: %s is %v, want %g", c.args, key, v, want)
			}
		}
		if source, _ := got["source"].(string); got["unit"] != c.unit || !strings.Contains(source, c.source) {
			t.Errorf("%s: unit %v, source %v", c.args, got["unit"], got["source"])
		}
	}
}

func TestOnlyLoopHasEightyPercent(t *testing.T) {
	t.Parallel()
	out, err := expectRun("loop", "--breaker", "C32", "--json")
	if err != nil || !strings.Contains(out, `"eighty_percent": 0.544`) {
		t.Errorf("%v: %s", err, out)
	}
	out, err = expectRun("supply", "--json")
	if err != nil || strings.Contains(out, "eighty_percent") {
		t.Errorf("%v: %s", err, out)
	}
}

func TestExpectTablesAreListsWithNames(t *testing.T) {
	t.Parallel()
	for kind, least := range map[string]int{"insulation": 8, "rcd": 14, "rs485": 17, "breaker": 6, "continuity": 10, "supply --of all": 5} {
		out, err := expectRun(append(strings.Fields(kind), "--json")...)
		var rows []map[string]any
		if err == nil {
			err = json.Unmarshal([]byte(out), &rows)
		}
		if err != nil || len(rows) != least {
			t.Errorf("%s: %d rows (%v)", kind, len(rows), err)
		}
		for _, r := range rows {
			for _, key := range []string{"name", "low", "nominal", "high", "unit", "source"} {
				if _, ok := r[key]; !ok {
					t.Errorf("%s: no %s in %v", kind, key, r)
				}
			}
		}
	}
}

func TestExpectTextFitsAndSaysEverything(t *testing.T) {
	t.Parallel()
	for args, want := range map[string][]string{
		"thermistor --r25 10000 --beta 3977 --at 50": {"nominal   3.563 kΩ", "low       3.1", "high      4.0", "source    beta equation, R25 10000 Ω, B 3977 K", "note      one B value", "-20 °C"},
		"element --watts 3000 --rated 240":           {"nominal   19.2 Ω", "cold it may read 2 % less"},
		"loop --breaker C32":                         {"high      0.68 Ω", "80 %      0.544 Ω", "0.6828 Ω before rounding"},
		"supply":                                     {"low       216.2 V", "nominal   230 V", "high      253 V", "source    ESQCR 2002"},
		"insulation":                                 {"SELV and PELV, tested at 250 V dc: at least 500 kΩ", "BS 7671:2018 Table 64"},
		"rcd":                                        {"general non-delay at 5 × IΔn: at most 40 ms", "S type delay at 1 × IΔn: 130 ms to 500 ms", "behind 30 mA: at most 1.667 kΩ"},
		"breaker":                                    {"C instantaneous: 5 × In to 10 × In"},
		"rs485":                                      {"resistance A-B, both terminators, power off: 60 Ω", "receiver threshold: -0.2 V to 0.2 V"},
		"continuity":                                 {"good closed contact: at most 0.5 Ω", "common practice, no source"},
	} {
		out, err := expectRun(strings.Fields(args)...)
		if err != nil {
			t.Errorf("%s: %v", args, err)
		}
		for _, w := range want {
			if !strings.Contains(out, w) {
				t.Errorf("%s: no %q in\n%s", args, w, out)
			}
		}
		for _, line := range strings.Split(out, "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("%s: longer than 80 columns: %q", args, line)
			}
		}
	}
}

func TestExpectRefusesWithTheWayOut(t *testing.T) {
	t.Parallel()
	for args, want := range map[string]string{
		"":                                    "expect what? choose one of breaker, continuity, core, drop, element",
		"elemnt":                              `did you mean element?`,
		"unicorn":                             "choose one of breaker",
		"element --watts 3000":                "--rated: rated voltage is missing: a 3 kW element rated 240 V is 19.2 Ω, rated 230 V 17.6 Ω; read the plate",
		"element":                             "--watts is missing: rated power in watts, from the plate\n--rated: rated voltage",
		"element --watts 3000 --rated 0":      "rated voltage is missing",
		"element --watts x --rated 230":       "expected a number like 2.5",
		"element --watts 3000 --rated 230ohm": "is in ohms and this check reads ac volts",
		"element --watts 3000 --rated 240 --cold --volts 2": "none of the others can be",
		"loop":                                                           "--breaker is missing: curve and rating as printed on it, like --breaker C32",
		"loop --breaker C33":                                             "rating 33 A is not made; expected one of 3, 6, 10, 13, 16",
		"loop --breaker C32 --time 1":                                    "expected 0.4 (final circuits) or 5",
		"core --length 3":                                                "--area is missing: area of the core in mm²",
		"core --area 2.4 --length 3":                                     "area 2.4 mm²: expected one of 0.5, 0.75, 1, 1.5, 2.5",
		"core --area 2.5 --length 3 --class 2.5":                         "--class 2.5: expected 1 (solid), 2 (stranded) or 5 (flexible)",
		"drop --area 2.5":                                                "--amps is missing: current in amps, as measured or rated\n--length is missing",
		"core --area 2.5 --length 3 --class 3":                           "class 3: expected 1 (solid)",
		"drop --area 2.5 --length 1 --amps 3 --class 2":                  "--class says nothing without --at",
		"drop --area 2.5 --length 1 --amps OL":                           "OL",
		"drop --area 2.5 --length 1 --amps 3 --cable rope":               `cable "rope": expected one of [twin`,
		"thermistor --at 50":                                             "give one of --table FILE, --sh A,B,C[,D] or --beta with --r25",
		"thermistor --at 50 --beta 3977":                                 "--r25 is missing",
		"thermistor --r25 10k --beta 3977":                               "--at is missing: temperature at the sensor in °C",
		"thermistor --r25 10k --beta 3977 --at 50-60":                    "expected one number",
		"thermistor --at 50 --r25 10k --beta 3977 --sh 1,2,3":            "give one of",
		"thermistor --at 50 --sh 1,2":                                    "2 coefficients; expected A,B,C or A,B,C,D",
		"thermistor --at 50 --sh 1,b,3":                                  `"b" is not a number`,
		"thermistor --at 50 --sh 1,2,3,4":                                "--r25 is missing: four coefficients are in ln(R/R25)",
		"thermistor --at 50 --table /no/such/file.csv":                   "no such file",
		"thermistor --at 200 --table " + reference + "ntc_10k_b3977.csv": "the table runs from -40 to 150 °C and 200 °C is outside it",
		"platinum --at 37":                                               "--r0 is missing: ohms at 0 °C: 100 or 1000",
		"platinum --at 37 --r0 1000 --class Z":                           `class "Z": expected AA, A, B or C`,
		"supply --of two-phase":                                          "expected single-phase, three-phase, frequency or all",
		"supply please":                                                  "unknown command",
	} {
		out, err := expectRun(strings.Fields(args)...)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %s\n%s", args, err, want, out)
		}
		if strings.Contains(out, "Usage:") {
			t.Errorf("%q: the whole usage was printed", args)
		}
	}
}

func TestBadSensorTableIsNamedByFileAndLine(t *testing.T) {
	t.Parallel()
	const header = "temperature_C,resistance_ohm\n"
	for text, want := range map[string]string{
		"":                                       ":1: expected a first line with the columns temperature_C,resistance_ohm",
		"t,r\n0,1\n":                             ":1: expected a first line with the columns",
		header:                                   ":1: a sensor table needs at least two lines",
		header + "0,32650\n":                     ":2: a sensor table needs at least two lines",
		header + "0,32650\n50,many\n":            `:3: resistance_ohm is "many": expected ohms like 12490`,
		header + "cold,32650\n50,3603\n":         `:2: temperature_C is "cold": expected degrees like 20.5`,
		header + "# note\n0,32650\n50,3603,1\n":  ":4: wrong number of fields",
		header + "0,32650\n\n25,9000\n50,9100\n": ":5: resistance at 50 °C is 9100 Ω after 9000 Ω at 25 °C",
		header + "50,3603\n0,32650\n50,3604\n":   ":4: 50 °C is given twice",
		header + "0,0\n50,3603\n":                ":2: resistance is 0 Ω: expected a number above 0",
		header + strings.Repeat(" ", 1<<20):      "larger than 1048576 bytes",
	} {
		path := sensorTable(t, text)
		_, err := expectRun("thermistor", "--table", path, "--at", "20")
		if err == nil || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), want) {
			t.Errorf("%.60q:\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestSensorTableMayHaveOtherColumnsAndAByteOrderMark(t *testing.T) {
	t.Parallel()
	path := sensorTable(t, "\ufeffresistance_ohm, remark, temperature_C\r\n32650, frost, 0\r\n3603, warm, 50\r\n")
	out, err := expectRun("thermistor", "--table", path, "--at", "50", "--json")
	if err != nil || !strings.Contains(out, `"nominal": 3603`) || !strings.Contains(out, `"low": null`) {
		t.Errorf("%v: %s", err, out)
	}
}
