package main

import "runtime/debug"

// version returns the version the program was built from: a released one, else
// the commit, else "unreleased".
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unreleased"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	commit, dirty := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			commit = s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			dirty = "+changes"
		}
	}
	if commit == "" {
		return "unreleased"
	}
	return commit + dirty
}
