//go:build unix

package output

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/testdata/outside"
)

const killVariable = "SPRUELIGHT_TEST_WRITE_UNTIL_KILLED"

// TestMain lets the test program be run again as the one that is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv(killVariable); dir != "" {
		writeUntilKilled(dir)
	}
	os.Exit(m.Run())
}

var killGuests = tree{"CNAME": "bench.example", "builds/03/mine.txt": "mine", ".git/HEAD": "ref", ".git/refs/main": "1"}

// writeUntilKilled writes one site over the other for ever.
func writeUntilKilled(dir string) {
	a, b := killSites()
	fmt.Println("ready")
	for i := 0; ; i++ {
		site := a
		if i%2 == 0 {
			site = b
		}
		if _, err := Write(context.Background(), dir, site.files(), Options{}); err != nil {
			fmt.Println("failed:", err)
			os.Exit(1)
		}
	}
}

// Killed at any moment, the program leaves the whole of one site or the whole
// of the other, and the next run clears away what it left.
func TestKilledAtAnyMoment(t *testing.T) {
	kills := 25
	if os.Getenv("SPRUELIGHT_LONG") == "1" {
		kills = 200
	}
	dir := filepath.Join(outside.QuickDir(t), "site")
	a, b := killSites()
	took := time.Now()
	mustWrite(t, dir, a)
	put(t, dir, killGuests)
	mustWrite(t, dir, b)
	once := time.Since(took)
	random := rand.New(rand.NewPCG(20260214, 1))
	cut := 0
	for i := range kills {
		after := time.Duration(random.Int64N(int64(2 * once)))
		killOne(t, dir, after)
		got, left := read(t, dir), leftBeside(t, dir)
		checkKilled(t, got, left, a, b)
		if len(left) > 0 {
			cut++
		}
		next := a
		if i%2 == 0 {
			next = b
		}
		mustWrite(t, dir, next)
		mustHold(t, dir, next.with(killGuests))
		mustBeAlone(t, dir)
		if t.Failed() {
			t.Fatalf("kill %d, after %v", i, after)
		}
	}
	t.Logf("%d of %d kills came in the middle of a run", cut, kills)
	if cut < kills/10 {
		t.Errorf("only %d of %d kills came in the middle of a run: the test is not testing", cut, kills)
	}
}

func killOne(t *testing.T, dir string, after time.Duration) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), killVariable+"="+dir)
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	if line, err := lines.ReadString('\n'); err != nil || line != "ready\n" {
		t.Fatalf("the other process says %q, %v", line, err)
	}
	time.Sleep(after)
	_ = cmd.Process.Kill() // SIGKILL
	rest, _ := io.ReadAll(lines)
	_ = cmd.Wait()
	if len(rest) > 0 {
		t.Fatalf("the other process: %s", rest)
	}
}

// leftBeside returns what a killed run left: each folder with its files, and
// each note.
func leftBeside(t *testing.T, dir string) map[string]tree {
	t.Helper()
	left := map[string]tree{}
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		switch {
		case e.Name() == filepath.Base(dir):
		case e.IsDir():
			left[e.Name()] = read(t, filepath.Join(filepath.Dir(dir), e.Name()))
		case strings.Contains(e.Name(), ".swap"):
			left[e.Name()] = nil
		}
	}
	return left
}

func checkKilled(t *testing.T, got tree, left map[string]tree, a, b tree) {
	t.Helper()
	ours := tree{}
	for p, text := range got {
		if _, theirs := killGuests[p]; !theirs {
			ours[p] = text
		}
	}
	if !equal(ours, a) && !equal(ours, b) {
		t.Errorf("neither of the two sites: %d files", len(ours))
	}
	for p, text := range killGuests {
		found := got[p] == text
		for _, l := range left {
			found = found || l[p] == text
		}
		if !found {
			t.Errorf("%s of somebody else is lost", p)
		}
	}
}

func equal(a, b tree) bool {
	if len(a) != len(b) {
		return false
	}
	for p, text := range a {
		if other, ok := b[p]; !ok || other != text {
			return false
		}
	}
	return true
}
