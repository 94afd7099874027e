//go:build linux

package output

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"

	"spruelight/testdata/outside"
)

func bind(t *testing.T, from, to string) {
	t.Helper()
	if err := os.MkdirAll(to, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount(from, to, "", syscall.MS_BIND, ""); err != nil {
		t.Skipf("outside check left out: cannot mount: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(to, syscall.MNT_DETACH); err != nil {
			t.Errorf("unmounting %s: %v", to, err)
		}
	})
}

func TestDriveThatIsFull(t *testing.T) {
	drive := filepath.Join(realTemp(t), "drive")
	outside.Drive(t, drive, "256k")
	dir := filepath.Join(drive, "site")
	mustWrite(t, dir, siteA)
	big := siteB.with(tree{"big.html": strings.Repeat("x", 400<<10)})
	_, err := Write(context.Background(), dir, big.files(), Options{})
	want := dir + "/big.html: cannot be written: the drive is full: no space left on device; " +
		"free some space and run again; what was there before is untouched"
	if err == nil || err.Error() != want || !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)

	err = Folder(context.Background(), filepath.Join(drive, "bag"), func(stage string) error {
		return os.WriteFile(filepath.Join(stage, "big"), make([]byte, 400<<10), 0o666)
	})
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "the drive is full") {
		t.Errorf("a folder: %v", err)
	}
	err = NewFileFrom(context.Background(), filepath.Join(drive, "bag.zip"), func(w io.Writer) error {
		_, err := w.Write(make([]byte, 400<<10))
		return err
	})
	if !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("a file: %v", err)
	}
	mustBeAlone(t, dir)
	mustWrite(t, dir, siteB)
	mustHold(t, dir, siteB)
}

func TestDriveThatIsReadOnly(t *testing.T) {
	drive := filepath.Join(realTemp(t), "drive")
	outside.Drive(t, drive, "256k")
	dir := filepath.Join(drive, "site")
	mustWrite(t, dir, siteA)
	if err := syscall.Mount("", drive, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	_, err := Write(context.Background(), dir, siteB.files(), Options{})
	want := drive + ": cannot prepare site in this folder: the drive is read-only: read-only file system; choose another folder with --out"
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	mustHold(t, dir, siteA)
}

func TestTopOfADrive(t *testing.T) {
	tmp := realTemp(t)
	drive := filepath.Join(tmp, "drive")
	outside.Drive(t, drive, "256k")
	want := "{tmp}/drive: is the top of a drive or mount, which cannot change its name, so " +
		"a new site cannot take its place in one step; choose a folder inside it, such as {tmp}/drive/www"
	if got := refused(t, tmp, drive, Options{}); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	dir := filepath.Join(drive, "www")
	mustWrite(t, dir, siteA)
	mustWrite(t, dir, siteB)
	mustHold(t, dir, siteB)
}

// A folder mounted in another place of the same drive looks like any other
// until it is to change its name.
func TestFolderMountedTwice(t *testing.T) {
	tmp := realTemp(t)
	from, to := filepath.Join(tmp, "from"), filepath.Join(tmp, "to")
	mustWrite(t, from, siteA)
	bind(t, from, to)
	if got := refused(t, tmp, to, Options{}); !strings.HasPrefix(got, "{tmp}/to: is the top of a drive or mount") {
		t.Errorf("got %s", got)
	}
	mustHold(t, from, siteA)
	mustBeAlone(t, to, "from")
	if got := refused(t, tmp, filepath.Join(to, "builds"), Options{Forbid: []string{from}}); !strings.Contains(got, "lies inside {tmp}/from") {
		t.Errorf("got %s", got)
	}
}

// Without the rights of root a folder that belongs to another stays untouched.
func TestFolderOfAnother(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("outside check left out: only root can become somebody else")
	}
	tmp := realTemp(t)
	for d := tmp; d != "/"; d = filepath.Dir(d) {
		if info, err := os.Stat(d); err != nil || info.Mode().Perm()&0o001 == 0 {
			// t.TempDir is closed to others.
			if err := os.Chmod(d, info.Mode().Perm()|0o055); err != nil {
				t.Fatal(err)
			}
		}
	}
	dir := filepath.Join(tmp, "site")
	mustWrite(t, dir, siteA)
	err := asNobody(t, func() error {
		_, err := Write(context.Background(), dir, siteB.files(), Options{})
		return err
	})
	want := fmt.Sprintf("%s: cannot prepare site in this folder: not permitted: permission denied; "+
		"change the permissions of that folder, or choose another with --out", tmp)
	if err == nil || err.Error() != want || !errors.Is(err, fs.ErrPermission) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	mustHold(t, dir, siteA)
}

// asNobody runs f with the file rights of user 65534, on a thread of its own
// that ends with its goroutine, since it stays locked.
func asNobody(t *testing.T, f func() error) error {
	t.Helper()
	end := make(chan error)
	go func() {
		runtime.LockOSThread()
		const nobody = 65534
		if err := errors.Join(unix.Setfsgid(nobody), unix.Setfsuid(nobody)); err != nil {
			end <- err
			return
		}
		end <- f()
	}()
	return <-end
}
