package keep

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"

	"faultwalk/measurements"
	"faultwalk/trees/strict"
)

// Config is what a person set once for all jobs.
type Config struct {
	Jurisdiction string           // whose rules of the trade hold; "gb" unless set
	Operator     string           // the name that goes on events and sheets; empty if not set
	Kit          measurements.Kit // measurements.DefaultKit unless set
	OwnKit       bool             // the kit is from the file
}

// DefaultConfig is what holds without a file.
func DefaultConfig() Config {
	return Config{Jurisdiction: "gb", Kit: measurements.DefaultKit()}
}

// configLimits are far above any person's meters.
var configLimits = strict.Limits{Size: 256 << 10, Depth: 16, Nodes: 20_000}

// ReadConfig reads the config file; if there is none, or nothing in it but
// remarks, the defaults hold. Whatever is wrong in it is reported at once, as
// [strict.Problems] with file, line and column.
func ReadConfig(path string) (Config, error) {
	text, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return DefaultConfig(), nil
	case err != nil:
		return Config{}, trouble("read the settings in", path, err)
	case onlyRemarks.Match(text):
		return DefaultConfig(), nil
	}
	source := strict.Parse(path, text, configLimits)
	c := readConfig(source.Root)
	if err := source.Err(); err != nil {
		return Config{}, err
	}
	return c, nil
}

var (
	onlyRemarks = regexp.MustCompile(`\A\x{FEFF}?([ \t\r]*(#[^\n]*)?(\n|\z))*\z`)
	jurisdictID = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
)

func readConfig(root *strict.Node) Config {
	c := DefaultConfig()
	m := root.Map("the settings")
	if id, ok := m.OptText("jurisdiction"); ok && id.Value != "" {
		if c.Jurisdiction = id.Value; !jurisdictID.MatchString(id.Value) {
			id.Problem("found %q for \"jurisdiction\"; expected the id of one, such as gb", short(id.Value))
		}
	}
	if name, ok := m.OptText("operator"); ok {
		c.Operator = name.Value
	}
	if kit, ok := m.OptSub("kit"); ok {
		c.Kit, c.OwnKit = readKit(kit), true
	}
	m.Done()
	return c
}

// WriteConfig writes a first config file, all remarks, that explains each
// setting and shows the default kit to be changed. It never touches a file that
// is there, and says whether it wrote one.
func WriteConfig(path string) (written bool, err error) {
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return false, err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return false, nil
	}
	if err != nil {
		return false, trouble("write the settings to", path, err)
	}
	_, err = f.WriteString(configText())
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		os.Remove(path)
		return false, trouble("write the settings to", path, err)
	}
	return true, syncFolder(filepath.Dir(path))
}
