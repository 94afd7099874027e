package journal

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"spruelight/gen/source"
)

var (
	ruleOrder = &source.Rule{Name: "after-finish", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A sitting after the day the build was finished points to a wrong date.",
		Keys:   "build: finished"}
	rulePhoto = &source.Rule{Name: "photo-missing", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A page would show a hole where the picture belongs.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo"}
	ruleOutside = &source.Rule{Name: "outside-folder", Severity: source.Stop, Source: "common practice, no source",
		Reason: "Files outside the build's own folder are not part of its record, and may be private.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"sitting photos[]: file, pair; sitting before closing[]: photo"}
)

// checkBuild holds a build's values against the workshop and its own folder.
func (w *Workshop) checkBuild(fsys fs.FS, b *Build) source.Findings {
	var found source.Findings
	stages := w.Settings.StageNames()
	for _, s := range b.Sittings {
		if stage := s.Front.Stage; stage.Set && !slices.Contains(stages, stage.V) {
			found.Add(noSuch(stage, stages, "stage of this workshop", source.Say("write one of: %s", source.Row(stages))))
		}
		if end := b.Front.Finished; end.Set && s.Date.After(end.V.Time) {
			found.Add(ruleOrder.At(s.File.Whole(), "check the sitting's date and finished in build.md",
				"this sitting is dated after the build was finished on %s", end.V).With(end.At, "finished here"))
		}
		found.Add(checkPhotos(fsys, b, s.Front.Photos)...)
		if s.Front.Video != nil {
			found.Add(checkAddress(s.Front.Video.Address)...)
		}
		for _, picture := range s.Body.Pictures() {
			found.Add(checkPhoto(fsys, b, picture.File)...)
		}
	}
	if b.Front.Lead.Set {
		found.Add(checkPhoto(fsys, b, b.Front.Lead)...)
	}
	found.Add(w.checkNames(b)...)
	found.Add(w.checkFinish(fsys, b)...)
	found.Add(w.checkRecord(fsys, b)...)
	found.Add(checkRepair(fsys, b)...)
	return found
}

// checkNames holds every name of a build against the rack and its own areas.
func (w *Workshop) checkNames(b *Build) source.Findings {
	var found source.Findings
	lamps, supplies := w.Rack.Lamps.Names(), w.Rack.Supplies.Names()
	known := func(name Text, names []string, kind, do string) {
		if name.Set && !slices.Contains(names, name.V) {
			found.Add(noSuch(name, names, kind, orOne(do, names)))
		}
	}
	for _, c := range b.Front.Circuits {
		known(c.Supply, supplies, "supply on the rack", "add it to rack/supplies.yaml, or write one that is there")
		for _, branch := range c.Branches {
			for _, l := range branch.Lamps {
				known(l.Lamp, lamps, "lamp on the rack", "add it to rack/lamps.yaml, or write one that is there")
			}
		}
	}
	return found
}

// Inside returns the workshop path of a file named in a build's journals, and
// false where it would lie outside the build's folder.
func (b *Build) Inside(name string) (string, bool) {
	if name == "" || strings.ContainsAny(name, "\\:\x00") || path.IsAbs(name) {
		return "", false
	}
	full := path.Join(b.Dir, name)
	return full, strings.HasPrefix(full, b.Dir+"/")
}

func checkPhoto(fsys fs.FS, b *Build, file Text) source.Findings {
	if !file.Set {
		return nil
	}
	full, inside := b.Inside(file.V)
	if !inside {
		return source.Findings{ruleOutside.At(file.At, source.Say("copy the picture into %s/photos and name it from there", b.Dir),
			"%q lies outside the build's folder", file.V)}
	}
	return CheckPicture(fsys, full, file)
}

// Pictured reports whether pictures are taken from a place of the workshop.
func Pictured(full string) bool {
	return fs.ValidPath(full) && (strings.HasPrefix(full, "builds/") || strings.HasPrefix(full, "wall/"))
}

// CheckPicture reports a picture that is named in a text and is not there.
func CheckPicture(fsys fs.FS, full string, file Text) source.Findings {
	if !Pictured(full) {
		return source.Findings{ruleOutside.At(file.At, "copy the picture into a build's folder or into wall/photos",
			"%q lies outside the builds and the wall", file.V)}
	}
	_, err := fs.Stat(fsys, full)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return source.Findings{rulePhoto.At(file.At, orNear("copy the picture there, or correct the name", fsys, full), "there is no file %s",
			full)}
	case err != nil:
		return source.Findings{ruleUnreadable.At(file.At, "check the file; links may not lead out of the workshop", "%s cannot be read: %v",
			full, err)}
	}
	return nil
}

// orNear says what to do about a file that is not there, and suggests one whose
// name is much like it.
func orNear(do string, fsys fs.FS, name string) source.Message {
	if near, ok := nearFile(fsys, name); ok {
		return source.Say("%s; did you mean %q?", source.Word(do), near)
	}
	return source.Word(do)
}

// nearFile finds a file whose name is much like one that is not there.
func nearFile(fsys fs.FS, name string) (near string, ok bool) {
	entries, err := fs.ReadDir(fsys, path.Dir(name))
	if err != nil {
		return "", false
	}
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if below := path.Join(path.Dir(name), "photos"); path.Base(path.Dir(name)) != "photos" {
		if info, err := fs.Stat(fsys, path.Join(below, path.Base(name))); err == nil && info.Mode().IsRegular() {
			return "photos/" + path.Base(name), true
		}
	}
	return Nearest(path.Base(name), names)
}
