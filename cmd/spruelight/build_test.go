package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// long skips a test that builds the program anew, which takes minutes on a
// machine that has never done so.
func long(t *testing.T) {
	t.Helper()
	if os.Getenv("SPRUELIGHT_LONG") != "1" {
		t.Skip("left out: builds the program anew; SPRUELIGHT_LONG=1 runs it")
	}
}

// goes runs a command in a folder, with nothing of this machine's own settings.
func goes(t *testing.T, dir string, env []string, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(outside.Tool(t, name), args...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), append([]string{"GOFLAGS=", "GOWORK=off", "CGO_ENABLED=0"}, env...)...)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

// The program and its tests pass vet, and the program is built, for every
// system that it is meant for.
func TestEveryPlatform(t *testing.T) {
	long(t)
	for _, system := range []string{"linux", "darwin", "windows"} {
		for _, machine := range []string{"amd64", "arm64"} {
			t.Run(system+"/"+machine, func(t *testing.T) {
				env := []string{"GOOS=" + system, "GOARCH=" + machine}
				goes(t, "../..", env, "go", "vet", "./...")
				goes(t, "../..", env, "go", "build", "-trimpath", "-o", filepath.Join(t.TempDir(), "spruelight.exe"), "./cmd/spruelight")
			})
		}
	}
}

// Two builds of one commit in two folders are the same bytes, name the commit,
// and tell nothing of the folder they were made in.
func TestBuildsAreReproducible(t *testing.T) {
	long(t)
	if _, err := os.Stat("../../.git"); err != nil {
		t.Skip("left out: this is no checkout: ", err)
	}
	commit := strings.TrimSpace(goes(t, "../..", nil, "git", "rev-parse", "HEAD"))
	sums := map[string]bool{}
	for i := range 2 {
		dir := filepath.Join(t.TempDir(), strings.Repeat("deeper/", i*3)+"checkout")
		goes(t, ".", nil, "git", "clone", "--quiet", "--no-hardlinks", "../..", dir)
		goes(t, dir, nil, "git", "checkout", "--quiet", commit)
		goes(t, dir, nil, "go", "build", "-trimpath", "-buildvcs=true", "-o", "spruelight.exe", "./cmd/spruelight")
		made := filepath.Join(dir, "spruelight.exe")
		data, err := os.ReadFile(made)
		if err != nil {
			t.Fatal(err)
		}
		sums[fmt.Sprintf("%x", sha256.Sum256(data))] = true
		if bytes.Contains(data, []byte(dir)) {
			t.Errorf("the program names %s", dir)
		}
		out, err := exec.Command(made, "--version").Output()
		if err != nil || !strings.Contains(string(out), commit[:12]) {
			t.Errorf("--version says %q, %v; want commit %s", out, err, commit[:12])
		}
	}
	if len(sums) != 1 {
		t.Errorf("two builds differ: %v", sums)
	}
}
