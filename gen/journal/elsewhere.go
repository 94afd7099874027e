package journal

import (
	"errors"
	"io/fs"
	"path"
	"strings"
	"unicode/utf16"

	"spruelight/gen/source"
)

// The workshop will be copied, cloned and archived to other systems. What one
// of them cannot store, or would take for another file, is found while it can
// still be renamed without loss.

var (
	ruleElsewhere = &source.Rule{Name: "name-elsewhere", Severity: source.Warn, Source: `Microsoft, "Naming Files, Paths, and Namespaces"`,
		Reason: "A workshop is copied to other systems sooner or later; a file whose name one of them cannot store is lost there.",
		Keys:   source.NoKey}
	ruleSpelling = &source.Rule{Name: "name-spelling", Severity: source.Warn,
		Source: "Unicode Standard Annex #15; Unicode 3.13 (case folding)",
		Reason: "Some systems take names that differ in case or in the form of accents for one file, others do not; the same " +
			"text then finds another file, or none.",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo"}
)

// roomForSite is how much longer a file's path may become in the site or in an
// archive than it is in the workshop.
const roomForSite = 24

// CheckFileNames checks the names of all files of the build's folder, and that
// its photos are named as they are stored: where capitals do not count a wrong
// name is found all the same.
func (b *Build) CheckFileNames(content fs.FS) source.Findings {
	found, stored := checkFileNames(content, b.Dir)
	for _, name := range b.PhotoNames() {
		full, inside := b.Inside(name.V)
		if is, ok := stored[source.Fold(full)]; inside && ok && is != full {
			found.Add(ruleSpelling.At(name.At, "write the name as it is stored, or rename the file",
				"the file is stored as %s, which differs in %s", strings.TrimPrefix(is, b.Dir+"/"), difference(is, full)))
		}
	}
	return found
}

// CheckFileNames checks the names of what all builds share. Themes are those
// that came with the program.
func (w *Workshop) CheckFileNames(content, themes fs.FS) source.Findings {
	var found source.Findings
	dirs := []string{"rack", "wall"}
	if name := w.Settings.Theme.V; fs.ValidPath(name) && name != "." {
		if _, err := fs.Stat(themes, name); err != nil {
			dirs = append(dirs, name)
		}
	}
	for _, dir := range dirs {
		bad, _ := checkFileNames(content, dir)
		found.Add(bad...)
	}
	return found
}

// checkFileNames checks the names of all files below a folder of the workshop, and
// returns them by their folded form.
func checkFileNames(content fs.FS, dir string) (found source.Findings, byFold map[string]string) {
	byFold = map[string]string{}
	err := fs.WalkDir(content, dir, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil || name == dir:
			return err
		case strings.HasPrefix(d.Name(), ".") && d.IsDir():
			return fs.SkipDir
		case strings.HasPrefix(d.Name(), "."):
			return nil
		}
		at := source.NewFile(name, "").Whole()
		if says := nameFault(name); !says.Empty() {
			found.Add(ruleElsewhere.At(at, "rename it, here and where it is named", "%s", says))
		}
		key := source.Fold(name)
		if other, twice := byFold[key]; twice {
			found.Add(ruleSpelling.At(at, "rename one of them",
				"%s and %s are one file on some systems: they differ only in %s", path.Base(other), path.Base(name), difference(other, name)))
		}
		byFold[key] = name
		return nil
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		found.Add(ruleElsewhere.At(source.Span{}, "check the folder's permissions", "the names in %s could not be checked: %v", dir, err))
	}
	return found, byFold
}

// nameFault says why a file's own name cannot be stored everywhere, nothing
// where it can. The folders above are reported by themselves.
func nameFault(name string) source.Message {
	if long := len(utf16.Encode([]rune(name))); long > source.MaxPath-roomForSite {
		return source.Say("the path is %d characters long; some systems store no more than %d", long, source.MaxPath-roomForSite)
	}
	if err := source.ValidPath(path.Base(name)); err != nil {
		return source.Say("%s", strings.TrimPrefix(err.Error(), "file "))
	}
	return source.Message{}
}

// difference names in what two spellings of one name differ.
func difference(a, b string) source.Message {
	if source.Compose(a) == source.Compose(b) {
		return source.Word("how accents are stored (Unicode NFC and NFD)")
	}
	return source.Word("capitals or accents")
}
