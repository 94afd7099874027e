//go:build unix

package output

import (
	"errors"
	"io/fs"
	"os"
	"strconv"
	"syscall"
)

// fingerprint tells a folder from any other on the machine for as long as it
// exists, whatever its name: device and inode.
func fingerprint(info fs.FileInfo) string {
	st, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return ""
	}
	return strconv.FormatUint(uint64(st.Dev), 16) + "-" + strconv.FormatUint(st.Ino, 16)
}

// otherDrive reports whether two folders lie on different file systems.
func otherDrive(a, b fs.FileInfo) bool {
	x, ok := a.Sys().(*syscall.Stat_t)
	y, also := b.Sys().(*syscall.Stat_t)
	return ok && also && x.Dev != y.Dev
}

func rename(from, to string) error { return os.Rename(from, to) }

// isInUse is for Windows: here what is open can be renamed and removed.
func isInUse(error) bool { return false }

const errNotFolder = syscall.ENOTDIR

func isDiskFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT)
}

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

// isBusy reports the error for a folder that another file system is mounted on.
func isBusy(err error) bool {
	return errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.EXDEV)
}

func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		return nil // the file system keeps no order of names to sync
	}
	return err
}
