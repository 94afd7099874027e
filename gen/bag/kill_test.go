//go:build unix

package bag

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/testdata/outside"
)

const killVariable = "SPRUELIGHT_TEST_BAG_UNTIL_KILLED"

// TestMain lets the test program be run again as the one that is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv(killVariable); dir != "" {
		bagUntilKilled(dir)
	}
	os.Exit(m.Run())
}

func killPayload() []Item {
	var list []Item
	for i := range 40 {
		list = append(list, Bytes(fmt.Sprintf("photos/%d.jpg", i), []byte(strings.Repeat("photo", 2000*i))))
	}
	return list
}

// bagUntilKilled writes folder and zip in turn, for ever.
func bagUntilKilled(dir string) {
	for _, name := range []string{"bag", "bag.zip"} {
		if err := Write(ctx, filepath.Join(dir, name), killPayload(), marramInfo, Options{}); err != nil {
			fmt.Println("failed:", err)
			os.Exit(1)
		}
	}
	select {}
}

// Killed at any moment, the program leaves a whole bag under the final name or
// none; the next run clears away what was half done.
func TestKilledAtAnyMoment(t *testing.T) {
	kills := 20
	if os.Getenv("SPRUELIGHT_LONG") == "1" {
		kills = 200
	}
	random := rand.New(rand.NewPCG(8493, 2))
	began := time.Now()
	if err := Write(ctx, filepath.Join(outside.QuickDir(t), "bag"), killPayload(), nil, Options{}); err != nil {
		t.Fatal(err)
	}
	once := time.Since(began)
	seen := map[string]int{}
	for range kills {
		dir := outside.QuickDir(t)
		cmd := exec.Command(os.Args[0], "-test.run=^$")
		cmd.Env = append(os.Environ(), killVariable+"="+dir)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.Int64N(int64(3*once + 20*time.Millisecond))))
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if strings.HasPrefix(e.Name(), ".") {
				seen["half done"]++
				continue
			}
			seen["done"]++
			if rep := mustCheck(t, filepath.Join(dir, e.Name())); !rep.Valid {
				t.Errorf("%s is half a bag: %v", e.Name(), rep.Faults)
			}
		}
		for _, name := range []string{"bag", "bag.zip"} {
			err := Write(ctx, filepath.Join(dir, name), killPayload(), nil, Options{})
			if err != nil && !errors.Is(err, fs.ErrExist) {
				t.Error(err)
			}
		}
		mustBeAlone(t, dir, "bag", "bag.zip")
	}
	t.Logf("found %v", seen)
	if seen["half done"] == 0 {
		t.Error("no kill came in the middle of a run: the test is not testing")
	}
}
