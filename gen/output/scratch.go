package output

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// scratchPrefix begins the names of our folders among those for temporary files.
const scratchPrefix = "spruelight-"

// scratchPurposes are what such a folder is for.
var scratchPurposes = []string{"restore", "catalogue"}

// Scratch makes an empty folder among the system's for temporary files. remove
// takes it away. Its lock is a file beside it, held from before the folder is
// there, so that Sweep of another run leaves it alone for as long as this run
// lives, whatever numbers processes have.
func Scratch(purpose string) (dir string, remove func(), err error) {
	dir = filepath.Join(os.TempDir(), scratchPrefix+purpose+"-"+stageID())
	path := dir + "." + lockPurpose
	fl, err := tryLock(path)
	for fl == nil && err == nil { // a run that sweeps was faster; it goes on at once
		fl, err = tryLock(path)
	}
	if err == nil {
		if err = os.Mkdir(dir, 0o700); err != nil {
			unlock(fl, path)
		}
	}
	if err != nil {
		return "", nil, failed(os.TempDir(), "cannot make a folder for temporary files here", err)
	}
	return dir, func() {
		os.RemoveAll(dir)
		unlock(fl, path)
	}, nil
}

// Sweep removes the scratch folders of runs that no longer live: those whose
// lock nobody holds. What cannot be removed, such as another user's, stays.
func Sweep() {
	entries, err := os.ReadDir(os.TempDir())
	if err != nil {
		return
	}
	for _, e := range entries {
		rest, ours := strings.CutPrefix(e.Name(), scratchPrefix)
		purpose, id, _ := strings.Cut(rest, "-")
		if !ours || id == "" || !slices.Contains(scratchPurposes, purpose) {
			continue
		}
		name := filepath.Join(os.TempDir(), e.Name())
		dir, isLock := strings.CutSuffix(name, "."+lockPurpose)
		if !isLock && !e.IsDir() {
			continue
		}
		fl, err := tryLock(dir + "." + lockPurpose)
		if err != nil || fl == nil {
			continue
		}
		_ = removeAll(realDisk{}, dir)
		unlock(fl, dir+"."+lockPurpose)
	}
}

// Tidy removes what runs that were cut off left in a folder of ours while they
// staged something in it: of all targets, or of those named. What a live run
// works on stays, and so does a site half exchanged, which only its own next
// run can finish.
func Tidy(dir string, names ...string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	seen := map[string]bool{}
	for _, e := range entries {
		target := stagedFor(e)
		if target == "" || seen[target] || len(names) > 0 && !slices.Contains(names, target) {
			continue
		}
		seen[target] = true
		target = filepath.Join(dir, target)
		if swapping, err := exists(realDisk{}, beside(target, notePurpose)); swapping || err != nil {
			continue
		}
		path := beside(target, lockPurpose)
		fl, err := tryLock(path)
		if err != nil || fl == nil {
			continue
		}
		left, _ := leftovers(realDisk{}, target)
		for _, l := range left {
			_ = removeAll(realDisk{}, l)
		}
		unlock(fl, path)
	}
}

// stagedFor returns the target that a stage or an empty lock is for, "" for
// other files.
func stagedFor(e os.DirEntry) string {
	name, hidden := strings.CutPrefix(e.Name(), ".")
	if !hidden {
		return ""
	}
	if i := strings.LastIndex(name, "."+stagePurpose); i > 0 && isStageID(name[i+1+len(stagePurpose):]) {
		return name[:i]
	}
	if target, ok := strings.CutSuffix(name, "."+filepath.Base(holderFile(lockPurpose))); ok {
		return target
	}
	if target, ok := strings.CutSuffix(name, "."+lockPurpose); ok {
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && info.Size() == 0 {
			return target
		}
	}
	return ""
}
