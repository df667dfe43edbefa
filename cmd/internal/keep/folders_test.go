package keep

import (
	"path/filepath"
	"runtime"
	"testing"
)

func TestFilesLieWhereTheSystemWantsThem(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("paths are written the other way here")
	}
	for name, c := range map[string]struct {
		system, home  string
		env           map[string]string
		state, config string
	}{
		"linux":        {"linux", "/home/x", nil, "/home/x/.local/state/faultwalk", "/home/x/.config/faultwalk/config.yaml"},
		"linux, set":   {"linux", "/home/x", map[string]string{"XDG_STATE_HOME": "/s", "XDG_CONFIG_HOME": "/c"}, "/s/faultwalk", "/c/faultwalk/config.yaml"},
		"relative":     {"linux", "/home/x", map[string]string{"XDG_STATE_HOME": "s", "XDG_CONFIG_HOME": "./c"}, "/home/x/.local/state/faultwalk", "/home/x/.config/faultwalk/config.yaml"},
		"darwin":       {"darwin", "/Users/x", nil, "/Users/x/Library/Application Support/faultwalk", "/Users/x/Library/Application Support/faultwalk/config.yaml"},
		"darwin, set":  {"darwin", "/Users/x", map[string]string{"XDG_STATE_HOME": "/s"}, "/s/faultwalk", "/Users/x/Library/Application Support/faultwalk/config.yaml"},
		"windows":      {"windows", "", map[string]string{"LocalAppData": "/l", "AppData": "/a"}, "/l/faultwalk", "/a/faultwalk/config.yaml"},
		"home unknown": {"linux", "", nil, "", ""},
		"windows, not": {"windows", "/home/x", nil, "", ""},
	} {
		p := Places{c.system, c.home, func(key string) string { return c.env[key] }}
		state, err := p.StateDir()
		config, err2 := p.ConfigPath()
		if filepath.ToSlash(state) != c.state || filepath.ToSlash(config) != c.config {
			t.Errorf("%s: got %q and %q, want %q and %q", name, state, config, c.state, c.config)
		}
		if (err != nil) != (c.state == "") || (err2 != nil) != (c.config == "") {
			t.Errorf("%s: errors %v, %v", name, err, err2)
		}
	}
}
