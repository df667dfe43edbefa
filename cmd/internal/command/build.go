package command

import "runtime/debug"

// build names this program in journals, so that a record says what made it:
// the module's version, or the commit it was built from.
var build = named(debug.ReadBuildInfo())

func named(info *debug.BuildInfo, known bool) string {
	if !known {
		return "development"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	revision, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			revision = s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = " with changes"
		}
	}
	if revision == "" {
		return "development"
	}
	return revision + changed
}
