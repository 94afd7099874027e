//go:build unix

package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// The tests here kill the program itself, as a power cut or an impatient user
// does, and look at every file afterwards. That single steps of staging and
// swapping hold is proven in gen/output and gen/bag; what is proven here is the
// whole verb, with its photos, its cache and its locks.

// moments is how often a test kills: enough to notice a fault in an ordinary
// run, 200 times with SPRUELIGHT_LONG=1.
func moments(usual int) int {
	if os.Getenv("SPRUELIGHT_LONG") == "1" {
		return 200
	}
	return usual
}

// tree is what a folder holds: path to content, of a link its target, and of a
// folder "".
type tree map[string]string

func readTree(t *testing.T, dir string) tree {
	t.Helper()
	got := tree{}
	err := filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(dir, name)
		switch {
		case e.IsDir():
			got[rel] = ""
		case e.Type()&fs.ModeSymlink != 0:
			got[rel], err = os.Readlink(name)
		default:
			var data []byte
			data, err = os.ReadFile(name)
			got[rel] = string(data)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// differences names what two trees do not have in common, a few of it.
func differences(got, want tree) string {
	var names []string
	for p, text := range got {
		if other, ok := want[p]; !ok {
			names = append(names, "+"+p)
		} else if other != text {
			names = append(names, "≠"+p)
		}
	}
	for p := range want {
		if _, ok := got[p]; !ok {
			names = append(names, "-"+p)
		}
	}
	slices.Sort(names)
	if len(names) > 10 {
		names = append(names[:10], fmt.Sprintf("and %d more", len(names)-10))
	}
	return strings.Join(names, " ")
}

func mustBe(t *testing.T, what string, got, want tree) {
	t.Helper()
	if !maps.Equal(got, want) {
		t.Errorf("%s: %s", what, differences(got, want))
	}
}

// stamped is a folder whose files must not be touched, not even rewritten with
// the same bytes.
type stamped struct {
	dir   string
	files tree
	times map[string]time.Time
}

func stamp(t *testing.T, dir string) stamped {
	t.Helper()
	s := stamped{dir, readTree(t, dir), map[string]time.Time{}}
	for p := range s.files {
		info, err := os.Lstat(filepath.Join(dir, p))
		if err != nil {
			t.Fatal(err)
		}
		s.times[p] = info.ModTime()
	}
	return s
}

func (s stamped) mustStand(t *testing.T) {
	t.Helper()
	now := stamp(t, s.dir)
	mustBe(t, "the workshop was touched", now.files, s.files)
	for p, was := range s.times {
		if !now.times[p].Equal(was) {
			t.Errorf("%s of the workshop was written", p)
		}
	}
}

// program is the program with its arguments, in an environment of its own
// below dir.
func program(dir string, args ...string) *exec.Cmd {
	cmd := exec.Command("spruelight", args...)
	cmd.Env = append(os.Environ(), "HOME="+dir, "XDG_CACHE_HOME="+filepath.Join(dir, "cache"), "NO_COLOR=1")
	return cmd
}

// mustRun runs the program to its end and returns how long that took.
func mustRun(t *testing.T, dir string, args ...string) time.Duration {
	t.Helper()
	began := time.Now()
	if out, err := program(dir, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
	return time.Since(began)
}

// phase is a part of a run in which to kill: it begins with the start, or when
// a file of a pattern appears. How long it takes depends on the machine and on
// what else runs there, so it is learnt from what the kills meet.
type phase struct {
	sight string
	span  time.Duration
}

// moment is a moment of the phase.
func (p *phase) moment(random *rand.Rand) moment {
	return moment{p.sight, time.Duration(random.Int64N(int64(p.span)))}
}

// learn takes note of whether the run was still at work.
func (p *phase) learn(killed bool) {
	if killed {
		p.span += p.span / 8
	} else {
		p.span -= p.span / 3
	}
}

// moment is when to kill: some time after the sight.
type moment struct {
	sight string
	after time.Duration
}

// kill runs the program, kills it at a moment, and reports whether it was still
// at work then.
func kill(t *testing.T, at moment, cmd *exec.Cmd) bool {
	t.Helper()
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	sighted := at.sight == ""
	for !sighted {
		if found, _ := filepath.Glob(at.sight); len(found) > 0 {
			break
		}
		select {
		case err := <-ended:
			return mustEndWell(t, err, said.String())
		default: // what is waited for may last a millisecond
		}
	}
	select {
	case err := <-ended:
		return mustEndWell(t, err, said.String())
	case <-time.After(at.after):
	}
	_ = cmd.Process.Signal(syscall.SIGKILL)
	<-ended
	return cmd.ProcessState.Sys().(syscall.WaitStatus).Signaled()
}

// mustEndWell checks a run that was faster than its killer.
func mustEndWell(t *testing.T, err error, said string) bool {
	t.Helper()
	if err != nil {
		t.Errorf("a run that nobody disturbed: %v\n%s", err, said)
	}
	return false
}

// beside returns the names in a folder other than the given.
func beside(t *testing.T, dir string, known ...string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		if !slices.Contains(known, e.Name()) {
			names = append(names, e.Name())
		}
	}
	return names
}

// tally counts what the kills of a test met.
type tally struct {
	kills, atWork int
	left          map[string]int // names of what was left behind, without their numbers
}

func (c *tally) note(atWork bool, names []string) {
	c.kills++
	if atWork {
		c.atWork++
	}
	if c.left == nil {
		c.left = map[string]int{}
	}
	for _, name := range names {
		c.left[strings.TrimRight(name, "0123456789abcdef")]++
	}
}

// mustMeanSomething fails a test whose kills came too early or too late. want
// is something that must have been left once where there were many kills.
func (c *tally) mustMeanSomething(t *testing.T, want string) {
	t.Helper()
	t.Logf("%d of %d were killed at work; left behind: %v", c.atWork, c.kills, c.left)
	if c.atWork < c.kills/6 || c.kills >= 50 && want != "" && c.left[want] == 0 {
		t.Error("too few kills came in the middle of a run: the test is not testing")
	}
}
