package output

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// recover puts right what a run left that was cut off. It holds the lock, so
// nothing beside the output folder that bears our names belongs to a live run.
//
//   - No note: the run was still staging. The stages go.
//   - A note, and the former site set aside: the second of two renames may be
//     missing. It is made up for, and the former site cleared away.
//   - A note, and a stage: its fingerprint tells whether it holds the new site
//     still (it goes) or the former one already (it is cleared away).
func (w *writer) recover() error {
	if err := w.finishSwap(); err != nil {
		return err
	}
	left, err := leftovers(w.disk, w.home)
	if err != nil {
		return failed(filepath.Dir(w.home), "cannot be listed", err)
	}
	for _, name := range left {
		w.rep.Recovered = true
		if err := removeAll(w.disk, name); err != nil {
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

func (w *writer) finishSwap() error {
	name := beside(w.home, notePurpose)
	data, err := w.disk.ReadFile(name)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return failed(name, "cannot be read", err)
	}
	w.rep.Recovered = true
	stage, aside, n, err := w.readNote(data)
	if err != nil {
		return &Refusal{Path: name, Says: "this note of an interrupted run is damaged", Remedy: "remove it and every " + beside(w.home, stagePurpose) + "* after looking into them", Err: err}
	}
	if err := w.resume(stage, aside, n); err != nil {
		return err
	}
	return failed(name, "cannot be removed", ignoreMissing(w.disk.Remove(name)))
}

// readNote checks that the names in the note are ours before anything is done
// to them.
func (w *writer) readNote(data []byte) (stage, aside string, n note, err error) {
	if err := json.Unmarshal(data, &n); err != nil {
		return "", "", n, err
	}
	id, ok := strings.CutPrefix(n.Stage, filepath.Base(beside(w.home, stagePurpose)))
	if !ok || !isStageID(id) || n.Former != filepath.Base(beside(w.home, formerPurpose))+id {
		return "", "", n, fmt.Errorf("it names %q and %q", n.Stage, n.Former)
	}
	dir := filepath.Dir(w.home)
	return filepath.Join(dir, n.Stage), filepath.Join(dir, n.Former), n, nil
}

func (w *writer) resume(stage, aside string, n note) error {
	setAside, err := exists(w.disk, aside)
	if err != nil {
		return failed(aside, "cannot be looked at", err)
	}
	if setAside {
		return w.resumeRenames(stage, aside)
	}
	info, err := w.disk.Lstat(stage)
	switch {
	case os.IsNotExist(err):
		return nil // all was cleared away but the note
	case err != nil:
		return failed(stage, "cannot be looked at", err)
	case n.New == "" || fingerprint(info) == n.New:
		return failed(stage, "cannot remove what an interrupted run left", removeAll(w.disk, stage))
	case fingerprint(info) == n.Old:
		return w.clearAway(stage)
	}
	return &Refusal{Path: stage, Says: "an interrupted run left this folder, and it has been exchanged since", Remedy: "move it away after looking into it, and run again"}
}

// resumeRenames makes up for the second rename: the new site was whole before
// the first, so it takes its place.
func (w *writer) resumeRenames(stage, aside string) error {
	home, err := exists(w.disk, w.home)
	if err != nil {
		return failed(w.home, "cannot be looked at", err)
	}
	if home {
		return w.clearAway(aside)
	}
	staged, err := exists(w.disk, stage)
	if err == nil && staged {
		if err = w.disk.Rename(stage, w.home); err == nil {
			return w.clearAway(aside)
		}
	} else if err == nil {
		err = w.disk.Rename(aside, w.home)
	}
	return failed(w.home, "cannot finish the swap that an interrupted run began", err)
}
