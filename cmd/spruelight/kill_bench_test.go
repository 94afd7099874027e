//go:build unix

package main

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/testdata/bigshop"
	"spruelight/testdata/outside"
)

// Killed at any moment, while it starts or while it shows a change, bench
// leaves the workshop as its keeper wrote it, with no file more, and the site
// that stands there as it was; the next bench shows the newest words.
func TestBenchKilledAtAnyMoment(t *testing.T) {
	dir := outside.QuickDir(t)
	shop := filepath.Join(dir, "shop")
	if err := bigshop.Write(shop, bigshop.Size{Builds: 2, Sittings: 3, Photos: 1}); err != nil {
		t.Fatal(err)
	}
	took := mustRun(t, dir, "assemble", shop, "--quiet")
	random := rand.New(rand.NewPCG(20260214, 13))
	starting, changing := &phase{"", took}, &phase{"", 50 * time.Millisecond}
	for i := range moments(6) {
		if i%4 == 0 { // the photos are made anew
			os.RemoveAll(filepath.Join(dir, "cache"))
		}
		words := fmt.Sprintf("Words number %d.", i)
		cmd := program(dir, "bench", shop, "--quiet")
		if i%2 == 0 {
			wall(t, shop, words)
			kept := stamp(t, shop)
			kill(t, starting.moment(random), cmd)
			kept.mustStand(t)
		} else {
			address, said := startBench(t, cmd)
			wall(t, shop, words)
			kept := stamp(t, shop)
			time.Sleep(changing.moment(random).after)
			endBench(cmd, said)
			kept.mustStand(t)
			if _, err := http.Get(address); err == nil {
				t.Error("the bench outlived its end")
			}
		}
		cmd = program(dir, "bench", shop, "--quiet")
		kept := stamp(t, shop)
		address, said := startBench(t, cmd)
		if page := fetch(t, address+"wall/about.html"); !strings.Contains(page, words) {
			t.Errorf("the next bench does not show %q", words)
		}
		endBench(cmd, said)
		kept.mustStand(t)
		if t.Failed() {
			t.Fatalf("kill %d", i)
		}
	}
}

// wall rewrites a page of the workshop.
func wall(t *testing.T, shop, words string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(shop, "wall", "about.md"), []byte("---\ntitle: About\n---\n"+words+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

// startBench starts bench and waits until it says where it is.
func startBench(t *testing.T, cmd *exec.Cmd) (address string, said io.Closer) {
	t.Helper()
	out, err := cmd.StderrPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if _, rest, ok := strings.Cut(lines.Text(), "the bench is at "); ok {
			address, _, _ = strings.Cut(rest, ";")
			return address, out
		}
	}
	t.Fatalf("the bench did not start: %v", cmd.Wait())
	return "", nil
}

func endBench(cmd *exec.Cmd, said io.Closer) {
	_ = cmd.Process.Kill() // SIGKILL
	said.Close()
	_ = cmd.Wait()
}

// fetch asks for a page until the first site is made.
func fetch(t *testing.T, address string) string {
	t.Helper()
	for began := time.Now(); time.Since(began) < time.Minute; time.Sleep(20 * time.Millisecond) {
		res, err := http.Get(address)
		if err != nil {
			continue
		}
		text, err := io.ReadAll(res.Body)
		res.Body.Close()
		if err == nil && res.StatusCode == http.StatusOK {
			return string(text)
		}
	}
	t.Errorf("%s gives nothing", address)
	return ""
}
