package output

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestSecondRunIsToldWhoHoldsTheLock(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	release, err := lock(context.Background(), dir, waiting{})
	if err != nil {
		t.Fatal(err)
	}
	var told []Holder
	_, err = Write(context.Background(), dir, siteB.files(), Options{Wait: -1, Waiting: func(h Holder) { told = append(told, h) }})
	host, _ := os.Hostname()
	want := fmt.Sprintf("is being written by process %d on %s, at it since %d-", os.Getpid(), host, time.Now().Year())
	if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "wait until it has ended") {
		t.Errorf("got %v, want %q", err, want)
	}
	if len(told) != 1 || told[0].PID != os.Getpid() {
		t.Errorf("was told of %v", told)
	}
	mustHold(t, dir, siteA)

	ctx, cancel := context.WithTimeoutCause(context.Background(), 20*time.Millisecond, errors.New("enough"))
	defer cancel()
	if _, err = Write(ctx, dir, siteB.files(), Options{}); err == nil || !strings.HasSuffix(err.Error(), ": enough") {
		t.Errorf("a cancelled wait ends with %v", err)
	}
	release()
	mustBeAlone(t, dir)
	mustWrite(t, dir, siteB)
}

func TestSecondRunWaits(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	release, err := lock(context.Background(), dir, waiting{})
	if err != nil {
		t.Fatal(err)
	}
	waits := func(Holder) { time.AfterFunc(30*time.Millisecond, release) }
	if _, err := Write(context.Background(), dir, siteA.files(), Options{Waiting: waits}); err != nil {
		t.Fatal(err)
	}
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)
}

// Many runs at once, each with its own site, end with one of the sites and no
// error: the file that bears the lock comes and goes under them.
func TestManyRunsAtOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	const runs = 12
	ends := make(chan error)
	for i := range runs {
		go func() {
			_, err := Write(context.Background(), dir, tree{"index.html": fmt.Sprint(i), fmt.Sprintf("%d.html", i): "x"}.files(), Options{})
			ends <- err
		}()
	}
	for range runs {
		if err := <-ends; err != nil {
			t.Error(err)
		}
	}
	got := read(t, dir)
	if len(got) != 2 || got[got["index.html"]+".html"] != "x" {
		t.Errorf("a mixture: %v", got)
	}
	mustBeAlone(t, dir)
}

// The lock of a run that died is free, whatever files it left.
func TestStaleLock(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	put(t, filepath.Dir(dir), tree{".site.lock": "", ".site.lock-holder": `{"pid":1,"host":"elsewhere"}`})
	if _, err := Write(context.Background(), dir, siteA.files(), Options{Wait: -1}); err != nil {
		t.Fatal(err)
	}
	mustBeAlone(t, dir)
}
