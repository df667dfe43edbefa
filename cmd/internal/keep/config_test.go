package keep

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"faultwalk/measurements"
)

func config(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "config.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestWithoutSettingsTheDefaultsHold(t *testing.T) {
	t.Parallel()
	for name, path := range map[string]string{
		"no file":      filepath.Join(t.TempDir(), "none.yaml"),
		"an empty one": config(t, ""),
		"only remarks": config(t, "\n# a remark\n  # another\r\n\n#last"),
	} {
		c, err := ReadConfig(path)
		if diff := cmp.Diff(DefaultConfig(), c); err != nil || diff != "" {
			t.Errorf("%s: %v\n%s", name, err, diff)
		}
	}
}

const ownKit = `jurisdiction: gb
operator: Sam Weaver
kit:
  proving_unit: true
  instruments:
    - id: my-meter
      name: multimeter
      calibrated: 2026-03-01
      modes:
        - mode: low impedance
          quantity: ac volts
          input_ohms: 3500
          accuracy: {percent: 1.5, counts: 3}
          ranges:
            - {max: 60, resolution: 0.01}
            - {max: 600, resolution: 0.1}
`

func TestAnOwnKitIsRead(t *testing.T) {
	t.Parallel()
	c, err := ReadConfig(config(t, ownKit))
	want := Config{Jurisdiction: "gb", Operator: "Sam Weaver", OwnKit: true, Kit: measurements.Kit{
		ProvingUnit: true,
		Instruments: []measurements.Instrument{{ID: "my-meter", Name: "multimeter", Calibrated: "2026-03-01", Modes: []measurements.ModeSpec{{
			Mode: measurements.LowImpedance, Quantity: measurements.ACVolts, InputOhms: 3500,
			Accuracy: measurements.Accuracy{Percent: 1.5, Counts: 3}, Ranges: []measurements.Range{{Max: 60, Resolution: 0.01}, {Max: 600, Resolution: 0.1}},
		}}}},
	}}
	if diff := cmp.Diff(want, c); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
}

func TestWrongSettingsAreReportedAtTheirPlace(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ old, new, want string }{
		"unknown key":     {"operator:", "operater:", `:2:1: unexpected key "operater" in the settings`},
		"jurisdiction":    {"gb", "Great Britain", `:1:15: found "Great Britain" for "jurisdiction"`},
		"unknown mode":    {"mode: low impedance", "mode: lo-z", `:10:17: found "lo-z" for "mode"; expected one of "clamp", "continuity"`},
		"quantity":        {"quantity: ac volts", "quantity: ohms", `:10:11: instrument "my-meter": mode "low impedance": cannot read ohms`},
		"no input":        {"          input_ohms: 3500\n", "", `:10:11: instrument "my-meter": mode "low impedance": input_ohms is missing`},
		"ohms as text":    {"3500", "3k5", `:12:23: found the text "3k5", expected a number`},
		"negative":        {"percent: 1.5", "percent: -1", `:10:11: instrument "my-meter": mode "low impedance": accuracy is below zero`},
		"range order":     {"max: 60,", "max: 700,", `:10:11: instrument "my-meter": mode "low impedance": range 2: max 600 is not above`},
		"no resolution":   {"resolution: 0.01}", "step: 0.01}", `:15:15: a range needs "resolution"`},
		"no such day":     {"2026-03-01", "2026-02-30", `:8:19: found "2026-02-30" for "calibrated"; expected a date`},
		"id of two words": {"id: my-meter", "id: my meter", `:6:11: found "my meter" for "id"; expected one word`},
		"id twice":        {"      modes:\n", "      modes: []\n    - id: my-meter\n      name: other\n      modes:\n", `:10:11: the id "my-meter" is used twice`},
		"proving unit":    {"proving_unit: true", "proving_unit: yes please", `:4:17: found the text "yes please", expected true or false`},
		"no kit":          {"  instruments:", "  meters:", `:5:3: unexpected key "meters"`},
		"not YAML":        {"jurisdiction: gb", "jurisdiction: [gb", `:3:1: not YAML`},
	} {
		path := config(t, strings.Replace(ownKit, c.old, c.new, 1))
		_, err := ReadConfig(path)
		if err != nil && strings.Count(err.Error(), "resolution 0") > 0 {
			t.Errorf("%s: what is missing is judged as well: %v", name, err)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: got %v\nwant %s", name, err, c.want)
		}
	}
}

func TestTheFirstConfigIsAllRemarksAndExplainsEachKey(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "faultwalk", "config.yaml")
	if wrote, err := WriteConfig(path); err != nil || !wrote {
		t.Fatal(wrote, err)
	}
	c, err := ReadConfig(path)
	if diff := cmp.Diff(DefaultConfig(), c); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	text, _ := os.ReadFile(path)
	for i, line := range strings.Split(string(text), "\n") {
		if len(line) > 80 {
			t.Errorf("line %d is wider than a screen: %s", i+1, line)
		}
	}
	for _, word := range append(append(modes(), quantities()...), "proving_unit  ", "calibrated  ", "input_ohms  ", "accuracy  ", "ranges  ", "30000 ohms") {
		if !strings.Contains(strings.Join(strings.Fields(strings.ReplaceAll(string(text), "#", "")), " "), strings.Join(strings.Fields(word), " ")) {
			t.Errorf("%q is not explained", word)
		}
	}
}

// What the file shows to be changed must be what holds without it.
func TestTheFirstConfigUncommentedIsTheDefault(t *testing.T) {
	t.Parallel()
	var lines []string
	for _, line := range strings.Split(configText(), "\n") {
		if setting, ok := strings.CutPrefix(line, "#"); ok && !strings.HasPrefix(setting, "#") {
			lines = append(lines, setting)
		}
	}
	path := config(t, strings.Join(lines, "\n"))
	c, err := ReadConfig(path)
	want := DefaultConfig()
	want.Operator, want.OwnKit = "Your Name", true
	if diff := cmp.Diff(want, c); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
}

func TestAConfigThatIsThereIsNeverTouched(t *testing.T) {
	t.Parallel()
	path := config(t, "mine: true\n")
	if wrote, err := WriteConfig(path); err != nil || wrote {
		t.Errorf("wrote %v, %v", wrote, err)
	}
	if text, _ := os.ReadFile(path); string(text) != "mine: true\n" {
		t.Errorf("it is now %q", text)
	}
}
