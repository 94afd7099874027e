package gen_test

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// licences are the words by which the licences of the table are known.
var licences = map[string]*regexp.Regexp{
	"MIT":        regexp.MustCompile(`(?s)Permission is hereby granted, free of charge, to any person.*THE SOFTWARE IS PROVIDED "AS IS"`),
	"BSD":        regexp.MustCompile(`(?s)Redistribution and use in source and binary forms.*THIS SOFTWARE IS PROVIDED BY THE`),
	"Apache-2.0": regexp.MustCompile(`(?s)Apache License\s+Version 2\.0, January 2004`),
}

// row is a line of DEVELOPERS.md's table of modules.
var row = regexp.MustCompile("(?m)^\\| `([^`]+)` \\| ([^|]+) \\| ([^|]+) \\|$")

// Every module that is linked into the program or its tests, on any system,
// stands in DEVELOPERS.md with its reason and its licence, and that is the
// licence in the module itself; nothing stands there that is not used.
func TestModulesAreAccountedFor(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]string{}
	for _, m := range row.FindAllStringSubmatch(string(text), -1) {
		if _, twice := listed[m[1]]; twice || strings.TrimSpace(m[2]) == "" {
			t.Errorf("%s stands twice, or without a reason", m[1])
		}
		listed[m[1]] = strings.TrimSpace(m[3])
	}
	used := modules(t)
	for name, dir := range used {
		licence, ok := listed[name]
		switch {
		case !ok:
			t.Errorf("%s is used and does not stand in DEVELOPERS.md", name)
		case licences[licence] == nil:
			t.Errorf("%s: the licence %q is not known here", name, licence)
		case !licences[licence].MatchString(licenceText(t, dir)):
			t.Errorf("%s: its own licence is not %s", name, licence)
		}
	}
	for name := range listed {
		if _, ok := used[name]; !ok {
			t.Errorf("%s stands in DEVELOPERS.md and is not used", name)
		}
	}
}

// modules are the modules whose packages are used on the systems that the
// program is made for, with the folders they lie in.
func modules(t *testing.T) map[string]string {
	t.Helper()
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("outside check left out: the go command is not installed")
	}
	used, err := listed()
	if err != nil {
		t.Fatal(err)
	}
	return used
}

var listed = sync.OnceValues(func() (map[string]string, error) {
	used := map[string]string{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		cmd := exec.Command("go", "list", "-deps", "-test", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}", "./...")
		cmd.Dir, cmd.Env = "..", append(os.Environ(), "GOOS="+system, "GOARCH=arm64", "CGO_ENABLED=0")
		out, err := cmd.Output()
		if err != nil {
			return nil, fmt.Errorf("go list for %s: %w", system, err)
		}
		for line := range strings.Lines(string(out)) {
			if name, dir, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
				used[name] = dir
			}
		}
	}
	return used, nil
})

func licenceText(t *testing.T, dir string) string {
	t.Helper()
	var names []string
	for _, pattern := range []string{"LICENSE*", "LICENCE*", "COPYING*"} {
		found, _ := filepath.Glob(filepath.Join(dir, pattern))
		names = append(names, found...)
	}
	if len(names) == 0 {
		t.Errorf("%s holds no licence", dir)
		return ""
	}
	text, err := os.ReadFile(names[0])
	if err != nil {
		t.Error(err)
	}
	return string(text)
}

// Few modules are named directly; one more needs a reason.
func TestFewDirectModules(t *testing.T) {
	const most = 23
	imports := regexp.MustCompile(`"((?:[a-z0-9-]+\.)+[a-z]+/[^"]+)"`)
	names := slices.Sorted(maps.Keys(modules(t)))
	direct := map[string]bool{}
	for _, top := range []string{"../gen", "../cmd", "../testdata"} {
		err := filepath.WalkDir(top, func(name string, e os.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, ".go") {
				return err
			}
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			head, _, _ := strings.Cut(string(data), "\nfunc ")
			for _, m := range imports.FindAllStringSubmatch(head, -1) {
				for _, module := range names {
					if m[1] == module || strings.HasPrefix(m[1], module+"/") {
						direct[module] = true
					}
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(direct) > most {
		t.Errorf("%d modules are imported, at most %d have a reason: %v", len(direct), most, slices.Sorted(maps.Keys(direct)))
	}
	t.Logf("%d direct of %d", len(direct), len(names))
}
