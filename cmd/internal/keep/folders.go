package keep

import (
	"errors"
	"path/filepath"
)

// Places says where a person's files belong on a system. Env looks a variable
// up, as os.Getenv does; Home is the person's folder; System is as runtime.GOOS.
type Places struct {
	System string
	Home   string
	Env    func(string) string
}

const product = "faultwalk"

var errNoHome = errors.New("it is not known where your files belong: set HOME, or name the folder with --jobs")

// StateDir is the folder for jobs: faultwalk under $XDG_STATE_HOME, which by its
// specification is ~/.local/state unless set; on Windows and macOS, where it is
// rarely set, under %LocalAppData% and ~/Library/Application Support.
func (p Places) StateDir() (string, error) {
	return p.under("XDG_STATE_HOME", "LocalAppData", ".local", "state")
}

// ConfigPath is the config file: faultwalk/config.yaml under $XDG_CONFIG_HOME,
// ~/.config unless set, %AppData%, or ~/Library/Application Support.
func (p Places) ConfigPath() (string, error) {
	dir, err := p.under("XDG_CONFIG_HOME", "AppData", ".config")
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "config.yaml"), nil
}

// under chooses the folder. A relative path in a variable is passed over, as the
// XDG Base Directory Specification 0.8 asks.
func (p Places) under(xdg, windows string, usual ...string) (string, error) {
	if dir := p.Env(xdg); filepath.IsAbs(dir) {
		return filepath.Join(dir, product), nil
	}
	if p.System == "windows" {
		if dir := p.Env(windows); filepath.IsAbs(dir) {
			return filepath.Join(dir, product), nil
		}
		return "", errNoHome
	}
	if !filepath.IsAbs(p.Home) {
		return "", errNoHome
	}
	if p.System == "darwin" {
		usual = []string{"Library", "Application Support"}
	}
	return filepath.Join(append(append([]string{p.Home}, usual...), product)...), nil
}
