package output

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

// locate turns the folder named by the user into the one to be swapped: an
// absolute path with symbolic links followed. The folder need not exist.
func locate(dir string) (string, error) {
	if dir == "" {
		return "", &Refusal{Path: "output folder", Says: "has no name", Remedy: "name one with --out"}
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", failed(dir, "cannot be found", err)
	}
	real, err := realPath(abs)
	if err != nil {
		return "", failed(dir, "cannot be found", err)
	}
	if real == filepath.Dir(real) {
		return "", rootOfDrive(real, nil)
	}
	if isHome(real) {
		return "", &Refusal{Path: dir, Says: "is your home folder",
			Remedy: "choose a folder inside it, such as " + filepath.Join(dir, "www")}
	}
	info, err := os.Lstat(real)
	switch {
	case os.IsNotExist(err):
		return real, nil
	case err != nil:
		return "", failed(dir, "cannot be looked at", err)
	case !info.IsDir():
		return "", &Refusal{Path: dir, Says: "is a file, not a folder", Remedy: "choose another folder with --out"}
	// On Windows the mark says nothing about a folder: it is set on some that
	// anybody may write in.
	case info.Mode().Perm()&0o200 == 0 && runtime.GOOS != "windows":
		return "", &Refusal{Path: dir, Says: "is read-only", Remedy: "make the folder writable, or choose another with --out"}
	}
	parent, err := os.Lstat(filepath.Dir(real))
	if err != nil {
		return "", failed(dir, "cannot be looked at", err)
	}
	if otherDrive(info, parent) {
		return "", rootOfDrive(dir, nil)
	}
	return real, nil
}

// isHome reports whether a folder is the user's own, which even when it is empty
// is no site's to replace.
func isHome(real string) bool {
	home, err := os.UserHomeDir()
	if err != nil {
		return false
	}
	info, err := os.Stat(real)
	there, e := os.Stat(home)
	return err == nil && e == nil && os.SameFile(info, there)
}

func rootOfDrive(dir string, err error) error {
	return &Refusal{Path: dir, Err: err,
		Says:   "is the top of a drive or mount, which cannot change its name, so a new site cannot take its place in one step",
		Remedy: "choose a folder inside it, such as " + filepath.Join(dir, "www")}
}

// realPath follows the links of the part of a path that exists.
func realPath(abs string) (string, error) {
	real, err := filepath.EvalSymlinks(abs)
	if err == nil || !os.IsNotExist(err) {
		return real, err
	}
	if info, e := os.Lstat(abs); e == nil && info.Mode()&os.ModeSymlink != 0 {
		to, _ := os.Readlink(abs)
		return "", &Refusal{Path: abs, Says: fmt.Sprintf("is a link to %s, which does not exist", to),
			Remedy: "make that folder, or remove the link"}
	}
	parent := filepath.Dir(abs)
	if parent == abs {
		return "", err
	}
	above, err := realPath(parent)
	return filepath.Join(above, filepath.Base(abs)), err
}

// keepApart refuses an output folder that is, holds or lies in one of the
// folders that must stay apart, or that is or holds the workshop.
func keepApart(dir, real string, opts Options) error {
	for _, f := range opts.Forbid {
		other, err := forbiddenPath(f)
		if err != nil {
			return err
		}
		switch {
		case liesIn(other, real):
			return overlap(dir, "is or holds", f)
		case liesIn(real, other):
			return overlap(dir, "lies inside", f)
		}
	}
	if opts.Workshop == "" {
		return nil
	}
	other, err := forbiddenPath(opts.Workshop)
	if err == nil && liesIn(other, real) {
		return overlap(dir, "is or holds", opts.Workshop)
	}
	return err
}

func forbiddenPath(f string) (string, error) {
	abs, err := filepath.Abs(f)
	if err != nil {
		return "", failed(f, "cannot be found", err)
	}
	return realPath(abs)
}

func overlap(dir, how, other string) error {
	return &Refusal{Path: dir, Says: fmt.Sprintf("the output %s %s, whose files must not be touched", how, other),
		Remedy: "choose another folder with --out"}
}

// liesIn reports whether path is folder or lies somewhere below it. Names are
// compared first; then the folders themselves, which also catches spellings
// that differ in case and folders mounted twice.
func liesIn(path, folder string) bool {
	want, err := os.Stat(folder)
	for p := path; ; p = filepath.Dir(p) {
		if p == folder {
			return true
		}
		if err == nil {
			if info, e := os.Stat(p); e == nil && os.SameFile(info, want) {
				return true
			}
		}
		if p == filepath.Dir(p) {
			return false
		}
	}
}
