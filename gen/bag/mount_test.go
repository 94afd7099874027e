//go:build linux

package bag

import (
	"errors"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestDriveThatIsFull(t *testing.T) {
	drive := t.TempDir()
	if err := syscall.Mount("spruelight", drive, "tmpfs", 0, "size=256k"); err != nil {
		t.Skipf("outside check left out: cannot mount a drive to fill: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(drive, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	large := []Item{Bytes("large.jpg", make([]byte, 400<<10))}
	for _, name := range []string{"bag", "bag.zip"} {
		err := Write(ctx, filepath.Join(drive, name), large, marramInfo, Options{})
		if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "the drive is full") {
			t.Errorf("%s: %v", name, err)
		}
		mustBeAlone(t, drive)
	}
	if err := syscall.Mount("", drive, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"bag", "bag.zip"} {
		err := Write(ctx, filepath.Join(drive, name), large, marramInfo, Options{})
		if !errors.Is(err, syscall.EROFS) || !strings.Contains(err.Error(), "the drive is read-only") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
