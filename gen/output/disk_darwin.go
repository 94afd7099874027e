package output

import (
	"errors"
	"fmt"
	"os"

	"golang.org/x/sys/unix"
)

const syncEachFile = true

func exchange(a, b string) error {
	return renamex(a, b, unix.RENAME_SWAP)
}

// renameNew renames, and fails with an error of fs.ErrExist where the new name
// is taken.
func renameNew(from, to string) error {
	err := renamex(from, to, unix.RENAME_EXCL)
	if errors.Is(err, errors.ErrUnsupported) {
		return renameUnlessTaken(from, to)
	}
	return err
}

func renamex(from, to string, flag uint32) error {
	err := unix.RenamexNp(from, to, flag)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.ENOTSUP), errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOSYS):
		return fmt.Errorf("%w: %w", errors.ErrUnsupported, err)
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}

func syncAll(dir string) error { return syncDir(dir) }
