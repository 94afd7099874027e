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

// swap puts a whole new site in the place of the former one.
type swap struct {
	disk  disk
	home  string
	stage string // the folder with the new site
}

// run makes the swap and clears the former site away. Up to the exchange a
// failure leaves the former site in place.
func (s *swap) run() error {
	old, err := s.disk.Lstat(s.home)
	if os.IsNotExist(err) {
		return s.firstTime()
	}
	var fresh fs.FileInfo
	if err == nil {
		fresh, err = s.disk.Lstat(s.stage)
	}
	if err == nil {
		err = s.leaveNote(fingerprint(fresh), fingerprint(old))
	}
	if err != nil {
		s.discard()
		return failed(s.home, "cannot put the new site in place", err)
	}
	aside, err := s.change()
	if err != nil {
		s.giveUp(fresh)
		return failed(s.home, "cannot put the new site in place", err)
	}
	return clearAway(s.disk, s.home, aside)
}

// firstTime gives the stage its name where nothing has it yet.
func (s *swap) firstTime() error {
	above := filepath.Dir(s.home)
	err := s.disk.Sync(above)
	if err == nil {
		err = s.disk.Rename(s.stage, s.home)
	}
	if err != nil {
		s.discard()
		return failed(s.home, "cannot put the new site in place", err)
	}
	return failed(above, "cannot store the new site safely", s.disk.SyncDir(above))
}

// giveUp clears up after a swap that failed. The stage goes only while it is the
// folder that was staged: should a file system report an exchange as failed
// that took place, the former site bears that name.
func (s *swap) giveUp(fresh fs.FileInfo) {
	if ok, err := exists(s.disk, s.home); err != nil || !ok {
		return // between two renames: the next run needs all of it
	}
	info, err := s.disk.Lstat(s.stage)
	if err == nil && fingerprint(info) == fingerprint(fresh) {
		s.discard()
	}
}

// discard removes a stage and the note about it. What fails here the next run
// does.
func (s *swap) discard() {
	_ = s.disk.Remove(beside(s.home, notePurpose) + freshNote)
	if removeAll(s.disk, s.stage) == nil {
		_ = s.disk.Remove(beside(s.home, notePurpose))
	}
}

// leaveNote writes the note, and puts it and the whole stage onto the medium
// before anything changes its name: a power cut must not show a site whose
// files are still empty.
func (s *swap) leaveNote(fresh, old string) error {
	id := strings.TrimPrefix(s.stage, beside(s.home, stagePurpose))
	data, err := json.Marshal(note{Stage: filepath.Base(s.stage), Former: filepath.Base(beside(s.home, formerPurpose)) + id,
		New: fresh, Old: old})
	if err != nil {
		return err
	}
	name := beside(s.home, notePurpose)
	if err := writeFile(s.disk, name+freshNote, append(data, '\n')); err != nil {
		return err
	}
	if err := s.disk.Rename(name+freshNote, name); err != nil {
		return err
	}
	return s.disk.Sync(filepath.Dir(s.home))
}

// change exchanges the folders, or renames twice where the system cannot, and
// returns where the former site is now.
func (s *swap) change() (aside string, err error) {
	err = s.disk.Exchange(s.stage, s.home)
	if errors.Is(err, errors.ErrUnsupported) {
		id := strings.TrimPrefix(s.stage, beside(s.home, stagePurpose))
		aside = beside(s.home, formerPurpose) + id
		return aside, s.renameTwice(aside)
	}
	if isBusy(err) {
		return "", rootOfDrive(s.home, err)
	}
	return s.stage, err
}

func (s *swap) renameTwice(aside string) error {
	if err := s.disk.Rename(s.home, aside); err != nil {
		switch {
		case isBusy(err):
			return rootOfDrive(s.home, err)
		case isInUse(err):
			return &Refusal{Path: s.home, Says: "cannot be set aside for the new site", Err: bare(err),
				Remedy: "close the programs that have a file or a window open in it, and run again"}
		}
		return err
	}
	err := s.disk.Rename(s.stage, s.home)
	if err == nil {
		return nil
	}
	if back := s.disk.Rename(aside, s.home); back != nil {
		return &Refusal{Path: s.home, Remedy: "run again: that finishes it", Err: err,
			Says: "was interrupted while the new site took its place; the former one is whole in " + aside}
	}
	return err
}
