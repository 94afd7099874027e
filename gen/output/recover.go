package output

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// recovery puts right what a run left that was cut off.
type recovery struct {
	disk  disk
	home  string
	found bool // there was something
}

// run works under the lock, so nothing beside the output folder that bears our
// names belongs to a live run.
//
//   - No note: the run was still staging. The stages go.
//   - A note, and the former site set aside: the second of two renames may be
//     missing. It is made up for, and the former site cleared away.
//   - A note, and a stage: its fingerprint tells whether it holds the new site
//     still (it goes) or the former one already (it is cleared away).
func (r *recovery) run() error {
	if err := r.finishSwap(); err != nil {
		return err
	}
	left, err := leftovers(r.disk, r.home)
	if err != nil {
		return failed(filepath.Dir(r.home), "cannot be listed", err)
	}
	for _, name := range left {
		r.found = true
		if err := removeAll(r.disk, name); err != nil {
			return failed(name, "cannot remove what an interrupted run left", err)
		}
	}
	return nil
}

// leftovers finds stages and half-written notes beside the target.
func leftovers(d disk, target string) ([]string, error) {
	dir := filepath.Dir(target)
	entries, err := d.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	stage := filepath.Base(beside(target, stagePurpose))
	fresh := filepath.Base(beside(target, notePurpose)) + freshNote
	var left []string
	for _, e := range entries {
		id, found := strings.CutPrefix(e.Name(), stage)
		if found && isStageID(id) || e.Name() == fresh {
			left = append(left, filepath.Join(dir, e.Name()))
		}
	}
	return left, nil
}

// isStageID reports whether a name ends as newStage ends it.
func isStageID(id string) bool {
	return len(id) == 16 && strings.Trim(id, "0123456789abcdef") == ""
}

func (r *recovery) finishSwap() error {
	name := beside(r.home, notePurpose)
	data, err := r.disk.ReadFile(name)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return failed(name, "cannot be read", err)
	}
	r.found = true
	stage, aside, n, err := r.readNote(data)
	if err != nil {
		return &Refusal{Path: name, Says: "this note of an interrupted run is damaged", Err: err,
			Remedy: "remove it and every " + beside(r.home, stagePurpose) + "* after looking into them"}
	}
	if err := r.resume(stage, aside, n); err != nil {
		return err
	}
	return failed(name, "cannot be removed", ignoreMissing(r.disk.Remove(name)))
}

// readNote checks that the names in the note are ours before anything is done
// to them.
func (r *recovery) readNote(data []byte) (stage, aside string, n note, err error) {
	if err := json.Unmarshal(data, &n); err != nil {
		return "", "", n, err
	}
	id, ok := strings.CutPrefix(n.Stage, filepath.Base(beside(r.home, stagePurpose)))
	if !ok || !isStageID(id) || n.Former != filepath.Base(beside(r.home, formerPurpose))+id {
		return "", "", n, fmt.Errorf("it names %q and %q", n.Stage, n.Former)
	}
	dir := filepath.Dir(r.home)
	return filepath.Join(dir, n.Stage), filepath.Join(dir, n.Former), n, nil
}

func (r *recovery) resume(stage, aside string, n note) error {
	setAside, err := exists(r.disk, aside)
	if err != nil {
		return failed(aside, "cannot be looked at", err)
	}
	if setAside {
		return r.resumeRenames(stage, aside)
	}
	info, err := r.disk.Lstat(stage)
	switch {
	case os.IsNotExist(err):
		return nil // all was cleared away but the note
	case err != nil:
		return failed(stage, "cannot be looked at", err)
	case n.New == "" || fingerprint(info) == n.New:
		return failed(stage, "cannot remove what an interrupted run left", removeAll(r.disk, stage))
	case fingerprint(info) == n.Old:
		return clearAway(r.disk, r.home, stage)
	}
	return &Refusal{Path: stage, Says: "an interrupted run left this folder, and it has been exchanged since",
		Remedy: "move it away after looking into it, and run again"}
}

// resumeRenames makes up for the second rename: the new site was whole before
// the first, so it takes its place.
func (r *recovery) resumeRenames(stage, aside string) error {
	home, err := exists(r.disk, r.home)
	if err != nil {
		return failed(r.home, "cannot be looked at", err)
	}
	if home {
		return clearAway(r.disk, r.home, aside)
	}
	staged, err := exists(r.disk, stage)
	if err == nil && staged {
		if err = r.disk.Rename(stage, r.home); err == nil {
			return clearAway(r.disk, r.home, aside)
		}
	} else if err == nil {
		err = r.disk.Rename(aside, r.home)
	}
	return failed(r.home, "cannot finish the swap that an interrupted run began", err)
}
