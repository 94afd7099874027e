package output

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"golang.org/x/sys/windows"
)

// fingerprint is empty: without an exchange the names alone tell what happened.
func fingerprint(fs.FileInfo) string { return "" }

func otherDrive(a, b fs.FileInfo) bool { return false }

// rename tries for a second: an indexer or a virus scanner keeps a file open for
// moments, and Windows renames no folder that holds an open file.
func rename(from, to string) (err error) {
	for range 20 {
		if err = os.Rename(from, to); !isInUse(err) {
			return err
		}
		time.Sleep(50 * time.Millisecond)
	}
	return err
}

// isInUse reports the errors for a folder that holds an open file.
func isInUse(err error) bool {
	return errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_ACCESS_DENIED)
}

const errNotFolder = windows.ERROR_DIRECTORY

func isDiskFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}

func isReadOnly(err error) bool { return errors.Is(err, windows.ERROR_WRITE_PROTECT) }

func isBusy(err error) bool { return errors.Is(err, windows.ERROR_NOT_SAME_DEVICE) }

// syncDir does nothing: Windows offers no flush of a folder's names to a
// program without administrator's rights.
func syncDir(string) error { return nil }
