package output

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// note is what a run leaves beside the output folder before it swaps, so that
// the next one can tell how far it came.
type note struct {
	Stage  string `json:"stage"`  // name of the folder with the new site
	Former string `json:"former"` // name for the former site where two renames are needed
	New    string `json:"new"`    // fingerprint of the folder with the new site
	Old    string `json:"old"`    // fingerprint of the folder with the former site
}

const (
	notePurpose   = "swap"
	freshNote     = "-new" // ends the name of a note that is being written
	formerPurpose = "former-"
)

// swap puts the staged site in the place of the former one and clears that
// away. Up to the exchange a failure leaves the former site in place.
func (w *writer) swap(stage string) error {
	old, err := w.disk.Lstat(w.home)
	if os.IsNotExist(err) {
		return w.firstTime(stage)
	}
	var fresh fs.FileInfo
	if err == nil {
		fresh, err = w.disk.Lstat(stage)
	}
	if err == nil {
		err = w.leaveNote(stage, fingerprint(fresh), fingerprint(old))
	}
	if err != nil {
		w.discard(stage)
		return failed(w.home, "cannot put the new site in place", err)
	}
	aside, err := w.change(stage)
	if err != nil {
		w.giveUp(stage, fresh)
		return failed(w.home, "cannot put the new site in place", err)
	}
	return w.clearAway(aside)
}

// firstTime gives the stage its name where nothing has it yet.
func (w *writer) firstTime(stage string) error {
	above := filepath.Dir(w.home)
	err := w.disk.Sync(above)
	if err == nil {
		err = w.disk.Rename(stage, w.home)
	}
	if err != nil {
		w.discard(stage)
		return failed(w.home, "cannot put the new site in place", err)
	}
	return failed(above, "cannot store the new site safely", w.disk.SyncDir(above))
}

// giveUp clears up after a swap that failed. The stage goes only while it is the
// folder that was staged: should a file system report an exchange as failed
// that took place, the former site bears that name.
func (w *writer) giveUp(stage string, fresh fs.FileInfo) {
	if ok, err := exists(w.disk, w.home); err != nil || !ok {
		return // between two renames: the next run needs all of it
	}
	info, err := w.disk.Lstat(stage)
	if err == nil && fingerprint(info) == fingerprint(fresh) {
		w.discard(stage)
	}
}

// discard removes a stage and the note about it. What fails here the next run
// does.
func (w *writer) discard(stage string) {
	_ = w.disk.Remove(beside(w.home, notePurpose) + freshNote)
	if removeAll(w.disk, stage) == nil {
		_ = w.disk.Remove(beside(w.home, notePurpose))
	}
}

// leaveNote writes the note, and puts it and the whole stage onto the medium
// before anything changes its name: a power cut must not show a site whose
// files are still empty.
func (w *writer) leaveNote(stage, fresh, old string) error {
	id := strings.TrimPrefix(stage, beside(w.home, stagePurpose))
	data, err := json.Marshal(note{Stage: filepath.Base(stage), Former: filepath.Base(beside(w.home, formerPurpose)) + id,
		New: fresh, Old: old})
	if err != nil {
		return err
	}
	name := beside(w.home, notePurpose)
	if err := w.writeFile(name+freshNote, append(data, '\n')); err != nil {
		return err
	}
	if err := w.disk.Rename(name+freshNote, name); err != nil {
		return err
	}
	return w.disk.Sync(filepath.Dir(w.home))
}

// change exchanges the folders, or renames twice where the system cannot, and
// returns where the former site is now.
func (w *writer) change(stage string) (aside string, err error) {
	err = w.disk.Exchange(stage, w.home)
	if errors.Is(err, errors.ErrUnsupported) {
		id := strings.TrimPrefix(stage, beside(w.home, stagePurpose))
		aside = beside(w.home, formerPurpose) + id
		return aside, w.renameTwice(stage, aside)
	}
	if isBusy(err) {
		return "", rootOfDrive(w.home, err)
	}
	return stage, err
}

func (w *writer) renameTwice(stage, aside string) error {
	if err := w.disk.Rename(w.home, aside); err != nil {
		switch {
		case isBusy(err):
			return rootOfDrive(w.home, err)
		case isInUse(err):
			return &Refusal{Path: w.home, Says: "cannot be set aside for the new site", Remedy: "close the programs that have a file or a window open in it, and run again", Err: bare(err)}
		}
		return err
	}
	err := w.disk.Rename(stage, w.home)
	if err == nil {
		return nil
	}
	if back := w.disk.Rename(aside, w.home); back != nil {
		return &Refusal{Path: w.home, Says: "was interrupted while the new site took its place; the former one is whole in " + aside, Remedy: "run again: that finishes it", Err: err}
	}
	return err
}
