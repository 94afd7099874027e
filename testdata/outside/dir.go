package outside

import (
	"os"
	"testing"
)

// QuickDir is t.TempDir in memory where the system offers that, for tests that
// make and remove many thousands of files.
func QuickDir(t testing.TB) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "spruelight-")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}
