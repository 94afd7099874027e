package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// block is a fenced block of the README: commands with what they print, or a
// file to write.
type block struct{ kind, file, text string }

var fences = regexp.MustCompile("(?ms)^```(console|markdown)(?: ([^\n]+))?\n(.*?)^```$")

func readmeBlocks(t *testing.T) []block {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var blocks []block
	for _, m := range fences.FindAllStringSubmatch(string(text), -1) {
		blocks = append(blocks, block{m[1], m[2], m[3]})
	}
	return blocks
}

// A newcomer who types what the README says, into an empty folder, sees what
// it says. Every line of it is read from the README itself.
func TestReadmeFromAnEmptyFolder(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("the README's commands need a shell: ", err)
	}
	r := &reader{sh: sh, dir: t.TempDir(), home: t.TempDir()}
	commands := 0
	for _, b := range readmeBlocks(t) {
		if b.kind == "markdown" {
			name := filepath.Join(r.dir, filepath.FromSlash(today(b.file)))
			if _, err := os.Stat(name); err != nil {
				t.Errorf("the README has %s written, which the commands before it do not make: %v", b.file, err)
			}
			if err := os.WriteFile(name, []byte(b.text), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		for _, part := range strings.Split("\n"+b.text, "\n$ ")[1:] {
			line, want, _ := strings.Cut(strings.TrimSuffix(part, "\n")+"\n", "\n")
			commands++
			r.run(t, line, want)
		}
	}
	if commands < 8 {
		t.Errorf("only %d commands were found in the README", commands)
	}
	if _, err := os.Stat(filepath.Join(r.dir, "site", "moor-beacon", "lighting.html")); err != nil {
		t.Error(err)
	}
}

// reader is somebody at a terminal.
type reader struct{ sh, dir, home string }

// run types a line and holds what is printed against what the README says.
func (r *reader) run(t *testing.T, line, want string) {
	t.Helper()
	if to, ok := strings.CutPrefix(line, "cd "); ok {
		r.dir = filepath.Join(r.dir, to)
		return
	}
	env := append(os.Environ(), "HOME="+r.home, "XDG_CACHE_HOME="+filepath.Join(r.home, ".cache"), "NO_COLOR=1", "LC_ALL=C")
	var got bytes.Buffer
	if line == "spruelight bench" {
		runServer(t, r.dir, env, line)
		return
	}
	cmd := exec.Command(r.sh, "-c", line)
	cmd.Dir, cmd.Env, cmd.Stdout, cmd.Stderr = r.dir, env, &got, &got
	if err := cmd.Run(); err != nil {
		t.Errorf("%s: %v\n%s", line, err, &got)
		return
	}
	if !told(got.String(), want) {
		t.Errorf("%s\nprints\n%s\nthe README says\n%s", line, &got, want)
	}
}

// today puts the day of the test in the place of the README's.
func today(text string) string {
	return strings.ReplaceAll(text, "2026-02-14", time.Now().Format(time.DateOnly))
}

// told reports whether a text is as told: line for line, where ... stands for
// any lines.
func told(got, want string) bool {
	var form strings.Builder
	form.WriteString(`(?s)\A`)
	for _, line := range strings.SplitAfter(today(want), "\n") {
		if line == "...\n" {
			form.WriteString(`(?:[^\n]*\n)*?`)
			continue
		}
		form.WriteString(regexp.QuoteMeta(line))
	}
	return regexp.MustCompile(form.String() + `\z`).MatchString(got)
}

// What the README is checked by is itself right.
func TestTold(t *testing.T) {
	for _, c := range []struct {
		got, want string
		ok        bool
	}{
		{"a\nb\n", "a\nb\n", true}, {"a\nc\n", "a\nb\n", false}, {"a\nb\nc\n", "a\nb\n", false},
		{"a\nb\nc\n", "a\n...\nc\n", true}, {"a\nc\n", "a\n...\nc\n", true}, {"x\na\n", "...\na\n", true}, {"a\nx\n", "...\na\n", false},
	} {
		if told(c.got, c.want) != c.ok {
			t.Errorf("%q told as %q: %v", c.got, c.want, !c.ok)
		}
	}
}
