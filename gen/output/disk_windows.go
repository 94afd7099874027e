package output

import (
	"errors"
	"io/fs"

	"golang.org/x/sys/windows"
)

// fingerprint is empty: without an exchange the names alone tell what happened.
func fingerprint(fs.FileInfo) string { return "" }

func otherDrive(a, b fs.FileInfo) bool { return false }

const errNotFolder = windows.ERROR_DIRECTORY

func isDiskFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}

func isReadOnly(err error) bool { return errors.Is(err, windows.ERROR_WRITE_PROTECT) }

func isBusy(err error) bool { return errors.Is(err, windows.ERROR_NOT_SAME_DEVICE) }

// syncDir does nothing: Windows offers no flush of a folder's names to a
// program without administrator's rights.
func syncDir(string) error { return nil }
