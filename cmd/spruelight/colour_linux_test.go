package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// terminal opens a pseudo-terminal: what the program sees, and what a reader
// at the screen sees.
func terminal(t *testing.T) (program, screen *os.File) {
	t.Helper()
	screen, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip("no pseudo-terminal here: ", err)
	}
	t.Cleanup(func() { screen.Close() })
	fd := int(screen.Fd())
	if err := unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0); err != nil {
		t.Fatal(err)
	}
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err != nil {
		t.Fatal(err)
	}
	program, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	return program, screen
}

// shown runs the program with standard error at a terminal and returns what is
// on the screen.
func shown(t *testing.T, dir string, env []string, args ...string) string {
	t.Helper()
	program, screen := terminal(t)
	cmd := exec.Command("spruelight", args...)
	cmd.Dir, cmd.Stderr = dir, program
	cmd.Env = append(os.Environ(), append([]string{"TERM=xterm-256color", "NO_COLOR=", "XDG_CACHE_HOME=" + t.TempDir()}, env...)...)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	program.Close()
	text, _ := io.ReadAll(screen) // ends with an error where the program ends
	cmd.Wait()
	return strings.ReplaceAll(string(text), "\r\n", "\n")
}

var escapes = regexp.MustCompile("\x1b\\[[0-9;]*m")

// Findings are coloured on a terminal alone, never where NO_COLOR is set, and
// say the same without.
func TestColoursOnATerminalOnlyAndNeverNeeded(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"workshop.yaml": "name: Bench\n", "builds/skiff/build.md": "---\nname: Skiff\nstate: bench\ncolr: red\n---\n"} {
		if err := os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	coloured := shown(t, dir, nil, "dryfit")
	if !escapes.MatchString(coloured) || !strings.Contains(escapes.ReplaceAllString(coloured, ""), `stop: "colr" is not a key here`) {
		t.Errorf("no colours on a terminal:\n%q", coloured)
	}
	cmd := exec.Command("spruelight", "dryfit")
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "TERM=xterm-256color", "NO_COLOR=", "XDG_CACHE_HOME="+t.TempDir())
	piped, _ := cmd.CombinedOutput()
	for how, text := range map[string]string{
		"NO_COLOR=1": shown(t, dir, []string{"NO_COLOR=1"}, "dryfit"),
		"TERM=dumb":  shown(t, dir, []string{"TERM=dumb"}, "dryfit"),
		"a pipe":     string(piped),
	} {
		if strings.Contains(text, "\x1b") {
			t.Errorf("%s: escapes in %q", how, text)
		}
		if text != escapes.ReplaceAllString(coloured, "") {
			t.Errorf("%s says other things than the coloured text:\n%s\n%s", how, text, coloured)
		}
	}
}

// A bar of progress is shown on a terminal, and not with --quiet.
func TestProgressOnATerminalOnly(t *testing.T) {
	dir := smallExample(t)
	if text := shown(t, dir, nil, "assemble"); !strings.Contains(text, "photos") || !strings.Contains(text, "\r") {
		t.Errorf("no bar: %q", text)
	}
	if text := shown(t, dir, nil, "assemble", "--quiet", "--out", "again"); strings.Contains(text, "photos made") || strings.Contains(text, "█") {
		t.Errorf("not quiet: %q", text)
	}
}
