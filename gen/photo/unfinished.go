package photo

import (
	"cmp"
	"crypto/rand"
	"encoding/hex"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"
)

// unfinished is the folder of a cache in which files are written before they get
// their names. It lies in the cache, since the system's folder for temporary
// files may be smaller, or on another drive.
const unfinished = "unfinished"

// writeWhole writes a file of the cache in one step: whoever looks sees the
// whole file or none. While it is written its writer holds a lock on a file
// beside it, which the system takes back when the run ends.
func writeWhole(name string, b []byte) error {
	dir := filepath.Join(filepath.Dir(name), unfinished)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	var id [8]byte
	rand.Read(id[:]) // never fails, says crypto/rand
	stage := filepath.Join(dir, hex.EncodeToString(id[:]))
	var err error
	for range 3 { // a run that sweeps may take a new lock for an old one
		if err = writeStaged(stage, name, b); !os.IsNotExist(err) {
			break
		}
	}
	return err
}

func writeStaged(stage, name string, b []byte) error {
	fl := flock.New(stage + lockEnding)
	if free, err := fl.TryLock(); err != nil || !free {
		return cmp.Or(err, error(fs.ErrNotExist))
	}
	err := os.WriteFile(stage, b, 0o644)
	if err == nil {
		err = os.Rename(stage, name)
	}
	if err != nil {
		os.Remove(stage)
	}
	letGo(fl)
	return err
}

const lockEnding = ".lock"

// letGo removes a lock's file and gives the lock back. Windows removes no open
// file, and there it is safe afterwards.
func letGo(fl *flock.Flock) {
	err := os.Remove(fl.Path())
	fl.Close()
	if err != nil {
		os.Remove(fl.Path())
	}
}

// Sweep removes what runs that no longer live left unfinished in a cache: files
// whose lock nobody holds.
func Sweep(folder string) {
	dir := filepath.Join(folder, unfinished)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		stage := filepath.Join(dir, strings.TrimSuffix(e.Name(), lockEnding))
		fl := flock.New(stage + lockEnding)
		if free, err := fl.TryLock(); err == nil && free {
			os.Remove(stage)
			letGo(fl)
		} else {
			fl.Close()
		}
	}
}
