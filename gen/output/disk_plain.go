//go:build !linux && !darwin

package output

import "errors"

const syncEachFile = true

func exchange(a, b string) error { return errors.ErrUnsupported }

// renameNew renames, and fails with an error of fs.ErrExist where the new name
// is taken.
func renameNew(from, to string) error { return renameUnlessTaken(from, to) }

func syncAll(dir string) error { return syncDir(dir) }
