package outside

import (
	"os"
	"syscall"
	"testing"
)

// Drive mounts a small file system in memory on a folder, for a test to fill,
// and returns the folder. Where there is no right to mount the test is skipped.
func Drive(t testing.TB, dir, size string) string {
	t.Helper()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("spruelight", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("outside check left out: cannot mount a drive to fill: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Errorf("unmounting %s: %v", dir, err)
		}
	})
	return dir
}
