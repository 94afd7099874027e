package output

import (
	"errors"
	"fmt"
	"os"

	"golang.org/x/sys/unix"
)

// syncEachFile is false: one syncfs covers all files of a stage, many times
// faster than an fsync of each.
const syncEachFile = false

func exchange(a, b string) error {
	return renameat2(a, b, unix.RENAME_EXCHANGE)
}

// renameNew renames, and fails with an error of fs.ErrExist where the new name
// is taken.
func renameNew(from, to string) error {
	err := renameat2(from, to, unix.RENAME_NOREPLACE)
	if errors.Is(err, errors.ErrUnsupported) {
		return renameUnlessTaken(from, to)
	}
	return err
}

func renameat2(from, to string, flag uint) error {
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, flag)
	switch {
	case err == nil:
		return nil
	// EINVAL is what file systems without that flag answer (renameat2(2)).
	case errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOSYS), errors.Is(err, unix.EOPNOTSUPP):
		return fmt.Errorf("%w: %w", errors.ErrUnsupported, err)
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}

func syncAll(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return unix.Syncfs(int(f.Fd()))
}
