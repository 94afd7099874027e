//go:build linux

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"spruelight/gen/output"
	"spruelight/testdata/outside"

	"github.com/gofrs/flock"
)

// A drive that fills up while the site is written: the former site stands, the
// message says what to do, and with room the same call works.
func TestAssembleOntoAFullDrive(t *testing.T) {
	dir := t.TempDir()
	shops, sites, _ := twoShops(t, dir)
	out := filepath.Join(outside.Drive(t, filepath.Join(dir, "drive"), "2m"), "site")
	mustRun(t, dir, assembleInto(shops[0], out)...)
	ballast := filepath.Join(dir, "drive", "ballast")
	var have syscall.Statfs_t
	if err := syscall.Statfs(filepath.Dir(out), &have); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(ballast, make([]byte, int64(have.Bfree)*have.Bsize-64<<10), 0o666); err != nil {
		t.Fatal(err)
	}
	kept := stamp(t, out)
	mustRefuse(t, dir, "cannot be written: the drive is full: no space left on device; free some space and run again; what was there before is untouched", assembleInto(shops[1], out)...)
	kept.mustStand(t)
	if names := beside(t, filepath.Dir(out), "site", "ballast"); len(names) > 0 {
		t.Errorf("left behind: %q", names)
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	mustRun(t, dir, assembleInto(shops[1], out)...)
	mustBe(t, "with room", readTree(t, out), sites[1])
}

// A full cache is no reason to stop: the site is made, and a warning says so.
func TestAssembleWithAFullCache(t *testing.T) {
	dir := t.TempDir()
	shops, sites, _ := twoShops(t, dir)
	cache := outside.Drive(t, filepath.Join(dir, "drive"), "16k")
	out := filepath.Join(dir, "out")
	said, err := program(dir, append(assembleInto(shops[0], out), "--cache", cache)...).CombinedOutput()
	if err != nil || !bytes.Contains(said, []byte("the photo cache cannot be written")) || !bytes.Contains(said, []byte("no space left on device")) {
		t.Errorf("%v: %s", err, said)
	}
	mustBe(t, "the site", readTree(t, out), sites[0])
}

// A drive that must not be written to is named, by every verb that writes.
func TestReadOnlyDrive(t *testing.T) {
	dir := t.TempDir()
	shop, slug := finishedShop(t, dir)
	top := outside.Drive(t, filepath.Join(dir, "drive"), "8m")
	frozen := filepath.Join(top, "shop")
	if err := os.CopyFS(frozen, os.DirFS(shop)); err != nil {
		t.Fatal(err)
	}
	mustRun(t, dir, assembleInto(frozen, filepath.Join(frozen, "site"))...)
	mustRun(t, dir, "shelve", slug, "--workshop", shop, "--out", filepath.Join(dir, "bag"))
	if err := syscall.Mount("", top, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	kept := stamp(t, frozen)
	settings := []string{"--at", "2026-02-15 21:00", "--workshop"}
	for name, args := range map[string][]string{
		"assemble":      {"assemble", "--out", filepath.Join(frozen, "site")},
		"shelve":        {"shelve", slug, "--out", filepath.Join(top, "bag")},
		"shelve to zip": {"shelve", slug, "--out", filepath.Join(top, "bag.zip")},
		"sit":           {"sit", slug},
		"unbox":         {"unbox", "raft"},
		"restore":       {"shelve", "--restore", filepath.Join(dir, "bag"), filepath.Join(top, "back")},
		"netlist":       {"reckon", "netlist", slug, "--out", filepath.Join(top, "netlists")},
	} {
		t.Run(name, func(t *testing.T) {
			args = append(append(args, settings...), frozen)
			mustRefuse(t, dir, "read-only file system", args...)
			said, _ := program(dir, args...).CombinedOutput()
			if advised := strings.Contains(string(said), "--out"); advised != slices.Contains(args, "--out") {
				t.Errorf("advises a flag that it lacks, or not one that it has: %s", said)
			}
		})
	}
	kept.mustStand(t)
	mustRun(t, dir, append(append([]string{"assemble", "--quiet", "--out", filepath.Join(dir, "elsewhere")}, settings...), frozen)...)
}

// A drive in another place than the workshop takes the site like any other; its
// top, which cannot change its name, is refused with the way out.
func TestAssembleOntoAnotherDrive(t *testing.T) {
	dir := t.TempDir()
	shops, sites, _ := twoShops(t, dir)
	top := outside.Drive(t, filepath.Join(dir, "drive"), "8m")
	mustRefuse(t, dir, "is the top of a drive or mount, which cannot change its name, so a new site cannot take its place in one step; choose a folder inside it, such as "+filepath.Join(top, "www"), assembleInto(shops[0], top)...)
	out := filepath.Join(top, "www")
	for i := range shops {
		mustRun(t, dir, assembleInto(shops[i], out)...)
		mustBe(t, "the site", readTree(t, out), sites[i])
	}
}

// Two runs on one folder: the second says for whom it waits, and writes when
// the first has ended.
func TestSecondRunWaits(t *testing.T) {
	dir := t.TempDir()
	shops, sites, _ := twoShops(t, dir)
	out := filepath.Join(dir, "out")
	lock := flock.New(filepath.Join(dir, ".out.lock"))
	if err := lock.Lock(); err != nil {
		t.Fatal(err)
	}
	holder, err := json.Marshal(output.Holder{PID: 4242, Host: "other", Started: time.Date(2026, 2, 14, 21, 0, 0, 0, time.UTC)})
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, ".out.lock-holder"), holder, 0o666)
	}
	if err != nil {
		t.Fatal(err)
	}
	cmd := program(dir, assembleInto(shops[0], out)...)
	said, err := cmd.StderrPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(said)
	for waits := false; !waits; {
		if !lines.Scan() {
			t.Fatalf("the second run did not wait: %v", cmd.Wait())
		}
		waits = strings.Contains(lines.Text(), "waiting for process 4242 on other, at it since 2026-02-14 21:00:00")
	}
	if _, err := os.Lstat(out); !os.IsNotExist(err) {
		t.Errorf("the second run has written already: %v", err)
	}
	lock.Close()
	for lines.Scan() {
	}
	if err := cmd.Wait(); err != nil {
		t.Error(err)
	}
	mustBe(t, "the site", readTree(t, out), sites[0])
	if names := beside(t, dir, "out", "cache", "shop-0", "shop-1", "whole-0", "whole-1"); len(names) > 0 {
		t.Errorf("left behind: %q", names)
	}
}

// Runs that start together on one folder all end well, with the whole of one
// site.
func TestRunsAtOnce(t *testing.T) {
	dir := t.TempDir()
	shops, sites, _ := twoShops(t, dir)
	out := filepath.Join(dir, "out")
	ends := make(chan string)
	for i := range 4 {
		go func() {
			said, err := program(dir, assembleInto(shops[i%2], out)...).CombinedOutput()
			if err != nil {
				ends <- err.Error() + ": " + string(said)
			} else {
				ends <- ""
			}
		}()
	}
	for range 4 {
		if bad := <-ends; bad != "" {
			t.Error(bad)
		}
	}
	if got := readTree(t, out); differences(got, sites[0]) != "" && differences(got, sites[1]) != "" {
		t.Errorf("a mixture: %s", differences(got, sites[0]))
	}
}

// A folder that belongs to somebody else is not touched, and named.
func TestFolderOfAnother(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("outside check left out: only root can become somebody else")
	}
	dir, err := os.MkdirTemp("/var/tmp", "spruelight-")
	if err != nil {
		t.Skip("outside check left out: ", err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	shops, _, _ := twoShops(t, dir)
	out := filepath.Join(dir, "www", "site")
	mustRun(t, dir, assembleInto(shops[0], out)...)
	theirs := filepath.Join(dir, "theirs")
	open := []error{os.Chmod(dir, 0o755), os.MkdirAll(theirs, 0o777), os.Chmod(theirs, 0o777)}
	bin := filepath.Join(dir, "spruelight")
	data, err := os.ReadFile("/proc/self/exe")
	if err == nil {
		err = os.WriteFile(bin, data, 0o755)
	}
	for _, e := range append(open, err) {
		if e != nil {
			t.Fatal(e)
		}
	}
	kept := stamp(t, out)
	cmd := program(theirs, assembleInto(shops[1], out)...)
	cmd.Path, cmd.Dir = bin, theirs
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	said, _ := cmd.CombinedOutput()
	want := "cannot prepare site in this folder: not permitted: permission denied; change the permissions of that folder, or choose another with --out"
	if cmd.ProcessState.ExitCode() != 1 || !strings.Contains(string(said), want) {
		t.Errorf("exit code %d, %s", cmd.ProcessState.ExitCode(), said)
	}
	kept.mustStand(t)
}
