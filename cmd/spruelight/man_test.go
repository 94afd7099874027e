package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// manPages writes the man pages into a new folder.
func manPages(t *testing.T, args ...string) string {
	t.Helper()
	dir := t.TempDir()
	cmd := exec.Command("spruelight", append([]string{"man", "--quiet", "--out", dir}, args...)...)
	if out, err := cmd.CombinedOutput(); err != nil || len(out) > 0 {
		t.Fatalf("%v: %s", err, out)
	}
	return dir
}

// There is a man page for every verb and sum, the same on every day, with its
// examples, flags and exit codes.
func TestManPages(t *testing.T) {
	one, two := manPages(t), manPages(t)
	for _, s := range sheets() {
		name := s.page() + ".1"
		a, err := os.ReadFile(filepath.Join(one, name))
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := os.ReadFile(filepath.Join(two, name)); !bytes.Equal(a, b) {
			t.Errorf("%s differs from one run to the next", name)
		}
		plain := strings.NewReplacer(`\-`, "-", `\(dq`, `"`, `\(ti`, "~", `\e`, `\`, `\(+-`, "±", `\(aq`, "'").Replace(string(a))
		for _, e := range s.examples {
			if !strings.Contains(plain, "\n"+e+"\n") {
				t.Errorf("%s lacks %s", name, e)
			}
		}
		for _, f := range append(s.flags, s.common...) {
			if !strings.Contains(plain, ".B "+f.name+"\n") {
				t.Errorf("%s lacks %s", name, f.name)
			}
		}
		for _, head := range []string{"NAME", "SYNOPSIS", "EXIT STATUS", "ENVIRONMENT", "SEE ALSO"} {
			if !strings.Contains(plain, ".SH "+head+"\n") {
				t.Errorf("%s has no %s", name, head)
			}
		}
	}
	if files, _ := os.ReadDir(one); len(files) != len(sheets()) {
		t.Errorf("%d pages for %d verbs and sums", len(files), len(sheets()))
	}
}

// mandoc finds nothing to say about any page.
func TestManPagesByMandoc(t *testing.T) {
	mandoc := outside.Tool(t, "mandoc")
	dir := manPages(t, "--at", "2026-02-14")
	pages, _ := filepath.Glob(filepath.Join(dir, "*.1"))
	for _, page := range pages {
		// The portable mandoc adds a style note for a man page not in an
		// operating system's tree; everything above that level counts.
		if out, err := exec.Command(mandoc, "-T", "lint", "-W", "warning", page).CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%v: %s", err, out)
		}
	}
	out, err := exec.Command(mandoc, "-T", "ascii", "-O", "width=78", filepath.Join(dir, "spruelight-reckon-led.1")).Output()
	if err != nil || !strings.Contains(string(out), `spruelight reckon led --supply "5 V" --lamp white`) {
		t.Errorf("%v: the example does not come out as it was typed:\n%s", err, out)
	}
}

// groff, by way of man, finds nothing either.
func TestManPagesByGroff(t *testing.T) {
	man := outside.Tool(t, "man")
	pages, _ := filepath.Glob(filepath.Join(manPages(t, "--at", "2026-02-14"), "*.1"))
	for _, page := range pages {
		cmd := exec.Command(man, "--warnings", "-E", "UTF-8", "-l", "-Tutf8", "-Z", page)
		cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "MANROFFSEQ=")
		var complaints bytes.Buffer
		cmd.Stderr = &complaints
		if err := cmd.Run(); err != nil || complaints.Len() > 0 {
			t.Errorf("%s: %v: %s", page, err, complaints.String())
		}
	}
}
