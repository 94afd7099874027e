package kept

import (
	"io/fs"
	"syscall"
	"time"
)

// identity returns a file's inode and the time of its last change of any kind,
// which no program can set.
func identity(info fs.FileInfo) (inode uint64, changed time.Time) {
	st, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return 0, info.ModTime()
	}
	return st.Ino, time.Unix(st.Ctim.Unix())
}
