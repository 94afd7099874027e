package output

import (
	"io"
	"io/fs"
	"os"
	"time"
)

// disk is what staging and swapping need of a file system. It is an interface
// so that tests can let any single step fail, or stop the world after it.
type disk interface {
	Lstat(path string) (fs.FileInfo, error)
	ReadDir(path string) ([]fs.DirEntry, error)
	ReadFile(path string) ([]byte, error)
	Open(path string) (io.ReadCloser, error)
	Create(path string) (io.WriteCloser, error) // a file that must not exist yet
	Mkdir(path string) error
	Link(from, to string) error
	Rename(from, to string) error
	Exchange(a, b string) error // errors.ErrUnsupported where the system cannot
	Remove(path string) error
	Chmod(path string, mode fs.FileMode) error
	Chtimes(path string, modified time.Time) error
	Sync(dir string) error    // puts dir and all that was created on its drive onto the medium
	SyncDir(dir string) error // puts the names in dir onto the medium
}

type realDisk struct{}

func (realDisk) Lstat(path string) (fs.FileInfo, error)     { return os.Lstat(path) }
func (realDisk) ReadDir(path string) ([]fs.DirEntry, error) { return os.ReadDir(path) }
func (realDisk) ReadFile(path string) ([]byte, error)       { return os.ReadFile(path) }
func (realDisk) Open(path string) (io.ReadCloser, error)    { return os.Open(path) }
func (realDisk) Mkdir(path string) error                    { return os.Mkdir(path, 0o777) }
func (realDisk) Link(from, to string) error                 { return os.Link(from, to) }
func (realDisk) Rename(from, to string) error               { return rename(from, to) }
func (realDisk) Exchange(a, b string) error                 { return exchange(a, b) }
func (realDisk) Remove(path string) error                   { return os.Remove(path) }
func (realDisk) Chmod(path string, mode fs.FileMode) error  { return os.Chmod(path, mode) }
func (realDisk) Sync(dir string) error                      { return syncAll(dir) }
func (realDisk) SyncDir(dir string) error                   { return syncDir(dir) }

func (realDisk) Chtimes(path string, modified time.Time) error {
	return os.Chtimes(path, modified, modified)
}

func (realDisk) Create(path string) (io.WriteCloser, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err
	}
	return syncedFile{f}, nil
}

// syncedFile is on the medium once closed, where syncAll does not see to that.
type syncedFile struct{ *os.File }

func (f syncedFile) Close() error {
	var err error
	if syncEachFile {
		err = f.Sync()
	}
	if e := f.File.Close(); err == nil {
		err = e
	}
	return err
}

// removeAll deletes a tree that is wholly ours, not following symbolic links.
func removeAll(d disk, path string) error {
	info, err := d.Lstat(path)
	if err != nil {
		return ignoreMissing(err)
	}
	if info.IsDir() {
		entries, err := d.ReadDir(path)
		if err != nil {
			return ignoreMissing(err)
		}
		for _, e := range entries {
			if err := removeAll(d, path+string(os.PathSeparator)+e.Name()); err != nil {
				return err
			}
		}
	}
	return ignoreMissing(d.Remove(path))
}

func ignoreMissing(err error) error {
	if os.IsNotExist(err) {
		return nil
	}
	return err
}

// exists reports whether anything bears the name.
func exists(d disk, path string) (bool, error) {
	_, err := d.Lstat(path)
	if os.IsNotExist(err) {
		return false, nil
	}
	return err == nil, err
}
