package output

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteFile puts data under the name in one step, in the place of a file that
// may be there: whoever looks sees the whole old or the whole new content. A
// link stays; the file it leads to is replaced.
func WriteFile(ctx context.Context, name string, data []byte) error {
	real, err := filepath.EvalSymlinks(name)
	if err != nil {
		real = name // nothing there yet, or replaceFile says what is the matter
	}
	release, err := alone(ctx, real)
	if err != nil {
		return err
	}
	defer release()
	return failed(name, "cannot be written", replaceFile(real, data))
}

// replaceFile stages a file beside another and renames it over that, whose
// permissions it takes over.
func replaceFile(name string, data []byte) error {
	f, stage, err := createStage(name)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if former, e := os.Stat(name); err == nil && e == nil {
		err = f.Chmod(former.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = rename(stage, name)
	}
	if err != nil {
		os.Remove(stage)
		return err
	}
	return syncDir(filepath.Dir(name))
}

// NewFile writes a file that must not exist yet, and makes the folders above it.
// It appears under its name whole or not at all, and never takes the place of
// another: then the error is of fs.ErrExist.
func NewFile(ctx context.Context, name string, data []byte) error {
	return NewFileFrom(ctx, name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// NewFileFrom is NewFile for content that is too large for memory or takes
// long: fill writes it. One run at a time works on a name, so what a run that
// was cut off left is cleared away first.
func NewFileFrom(ctx context.Context, name string, fill func(io.Writer) error) error {
	return staged(ctx, name, func(target string) error { return newFile(target, fill) })
}

// Folder makes a folder that must not exist yet. fill gets the path of an empty
// hidden folder beside it to work in; when it returns nil, that folder gets its
// final name in one step. On any error, or when the run is cut off, nothing
// bears the final name.
func Folder(ctx context.Context, final string, fill func(stage string) error) error {
	return staged(ctx, final, func(target string) error { return newFolder(target, fill) })
}

// staged holds the lock of a name that must be free while make makes it.
func staged(ctx context.Context, name string, make func(target string) error) error {
	target, err := filepath.Abs(name)
	if err != nil {
		return failed(name, "cannot be found", err)
	}
	if err := Free(target); err != nil {
		return err
	}
	if err := MakeFolders(filepath.Dir(target)); err != nil {
		return err
	}
	release, err := alone(ctx, target)
	if err != nil {
		return err
	}
	defer release()
	return make(target)
}

// MakeFolders makes a folder, and those above it, where they are not there.
func MakeFolders(dir string) error {
	return failed(dir, "cannot make this folder", os.MkdirAll(dir, 0o777))
}

// alone takes the lock of a target, and clears away what a run that was cut off
// has staged for it.
func alone(ctx context.Context, target string) (release func(), err error) {
	if release, err = lock(ctx, target, waiting{}); err != nil {
		return nil, err
	}
	left, err := leftovers(realDisk{}, target)
	if err != nil {
		err = failed(filepath.Dir(target), "cannot be listed", err)
	}
	for _, l := range left {
		if e := removeAll(realDisk{}, l); e != nil && err == nil {
			err = failed(l, "cannot remove what an interrupted run left", e)
		}
	}
	if err != nil {
		release()
		return nil, err
	}
	return release, nil
}

// Free returns nil where nothing bears the name, so that NewFileFrom or Folder
// may use it, else an error of fs.ErrExist. It is for those who would do much
// work first. A run that was cut off just after it had given the name may have
// left its lock, which goes here.
func Free(name string) error {
	_, err := os.Lstat(name)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return failed(name, "cannot be looked at", err)
	}
	path := beside(name, lockPurpose)
	if _, err := os.Lstat(path); err == nil {
		if fl, err := tryLock(path); fl != nil && err == nil {
			unlock(fl, path)
		}
	}
	return taken(name)
}

func taken(target string) error {
	return &Refusal{Path: target, Says: "exists already and is left as it is", Err: fs.ErrExist,
		Remedy: "choose another name, or move it away first"}
}

func newFolder(target string, fill func(stage string) error) error {
	stage, err := newStage(realDisk{}, target)
	if err != nil {
		return err
	}
	err = fill(stage)
	if err == nil {
		err = syncTree(stage)
	}
	return finish(stage, target, err)
}

// syncTree puts a folder with all that is in it onto the medium.
func syncTree(dir string) error {
	if !syncEachFile {
		return syncAll(dir)
	}
	return filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir():
			return syncDir(name)
		case !e.Type().IsRegular():
			return nil
		}
		f, err := os.OpenFile(name, os.O_RDWR, 0) // Windows flushes only what may be written
		if err != nil {
			return err
		}
		defer f.Close()
		return f.Sync()
	})
}

func newFile(name string, fill func(io.Writer) error) error {
	if err := Free(name); err != nil {
		return err
	}
	f, stage, err := createStage(name)
	if err != nil {
		return failed(name, "cannot be written", err)
	}
	err = fill(f)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return finish(stage, name, err)
}

// createStage opens a hidden file beside the name.
func createStage(name string) (*os.File, string, error) {
	stage := beside(name, stagePurpose) + stageID()
	f, err := os.OpenFile(stage, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	return f, stage, err
}

// finish gives the stage its final name, or removes it where err says that it
// is not whole.
func finish(stage, target string, err error) error {
	if err == nil {
		err = renameNew(stage, target)
	}
	if err == nil {
		return failed(target, "cannot be stored safely", syncDir(filepath.Dir(target)))
	}
	if e := removeAll(realDisk{}, stage); e != nil {
		err = fmt.Errorf("%w (and %s is left)", err, stage)
	}
	if os.IsExist(err) {
		return taken(target)
	}
	return failed(target, "cannot be written", err)
}

// renameUnlessTaken is renameNew for systems that cannot do both in one step: a
// name taken by another program in between would be lost, so it looks last.
func renameUnlessTaken(from, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: fs.ErrExist}
	} else if !os.IsNotExist(err) {
		return err
	}
	return os.Rename(from, to)
}
