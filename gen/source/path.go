package source

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Limits on a path below the folder it is written to. Windows programs that do
// not ask for more stop at 260 UTF-16 units for the whole path (Microsoft,
// "Maximum Path Length Limitation"); 200 leaves 60 for the folder. Common file
// systems hold 255 bytes or units in one name.
const (
	MaxPath = 200 // UTF-16 units of a path
	MaxName = 255 // bytes of one name in it
)

// forbidden are the characters that Windows allows in no file name
// ("Naming Files, Paths, and Namespaces"). The slash separates.
const forbidden = `<>:"|?*\`

// devices are the names that Windows keeps for devices, with or without an
// extension; the superscript digits count as digits (same source).
var devices = []string{"CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$",
	"COM0", "COM1", "COM2", "COM3", "COM4", "COM5", "COM6", "COM7", "COM8", "COM9", "COM¹", "COM²", "COM³",
	"LPT0", "LPT1", "LPT2", "LPT3", "LPT4", "LPT5", "LPT6", "LPT7", "LPT8", "LPT9", "LPT¹", "LPT²", "LPT³"}

// ValidPath reports why a relative path with forward slashes cannot be written
// safely on every common system, or nil. The error quotes the path.
func ValidPath(p string) error {
	why := pathFault(p)
	if why == "" {
		return nil
	}
	return fmt.Errorf("file path %q %s", shorten(p), why)
}

func pathFault(p string) string {
	switch {
	case p == "":
		return "is empty"
	case !utf8.ValidString(p):
		return "is not UTF-8"
	case strings.HasPrefix(p, "/"):
		return "is absolute; paths are relative to the folder written to"
	case strings.HasPrefix(p, "~"):
		return "begins with ~, which some systems read as a home folder"
	case len(utf16.Encode([]rune(p))) > MaxPath:
		return fmt.Sprintf("is longer than %d characters, which some systems cannot store", MaxPath)
	}
	for name := range strings.SplitSeq(p, "/") {
		if why := nameFault(name); why != "" {
			return why
		}
	}
	return ""
}

func nameFault(name string) string {
	switch {
	case name == "":
		return "has an empty folder or file name in it"
	case name == "." || name == "..":
		return fmt.Sprintf("has %q in it", name)
	case len(name) > MaxName:
		return fmt.Sprintf("has a name of more than %d bytes in it", MaxName)
	case strings.ContainsAny(name, forbidden):
		return fmt.Sprintf("has one of the characters %s in it, which Windows does not allow", forbidden)
	case strings.HasSuffix(name, ".") || strings.HasSuffix(name, " "):
		return "has a name that ends in a dot or space, which Windows cuts off"
	case strings.HasPrefix(name, " "):
		return "has a name that begins with a space"
	case isDevice(name):
		return fmt.Sprintf("has the name %q in it, which Windows keeps for a device", name)
	}
	for _, r := range name {
		if unicode.IsControl(r) {
			return fmt.Sprintf("has the control character %U in it", r)
		}
		if isInvisible(r) {
			return fmt.Sprintf("has the invisible character %U in it", r)
		}
	}
	return ""
}

// isInvisible finds what makes two names look alike or read backwards. The
// zero-width joiners stay allowed: Persian, Indic scripts and emoji need them.
func isInvisible(r rune) bool {
	const nonJoiner, joiner = 0x200C, 0x200D
	return r != nonJoiner && r != joiner && unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
}

func isDevice(name string) bool {
	stem, _, _ := strings.Cut(name, ".")
	stem = strings.ToUpper(strings.TrimRight(stem, " "))
	return slices.Contains(devices, stem)
}

// shorten keeps a hostile path from filling the screen.
func shorten(p string) string {
	const most = 120
	if r := []rune(p); len(r) > most {
		return string(r[:most]) + "…"
	}
	return p
}

// Fold returns the form under which two paths count as the same file on
// systems that ignore case or compose accents (macOS, Windows): NFC, case
// folded, NFC again since folding may decompose.
func Fold(p string) string {
	plain := true
	for i := range len(p) {
		if c := p[i]; c >= utf8.RuneSelf || 'A' <= c && c <= 'Z' {
			plain = false
			break
		}
	}
	if plain {
		return p
	}
	return norm.NFC.String(cases.Fold().String(norm.NFC.String(p)))
}

// Compose returns the composed form (Unicode NFC) of a path, in which the same
// name typed on two systems is the same bytes.
func Compose(p string) string { return norm.NFC.String(p) }

// CheckPaths reports every path that is not valid, every two that would be one
// file on a system that ignores case or composes accents, and every file that
// is also a folder of another.
func CheckPaths(paths []string) error {
	var all Paths
	var faults []error
	for _, p := range paths {
		faults = append(faults, all.Add(p))
	}
	return errors.Join(faults...)
}

// Paths are files of one folder. The zero value has none.
type Paths struct {
	files   map[string]string // folded path: the path
	folders map[string]branch // folded path of a folder
}

// branch is a folder above some paths.
type branch struct {
	path string
	of   string // one of the paths
}

// Add adds a path and reports what CheckPaths would find wrong with it beside
// those that are there already.
func (p *Paths) Add(file string) error {
	if err := ValidPath(file); err != nil {
		return err
	}
	if p.files == nil {
		p.files, p.folders = map[string]string{}, map[string]branch{}
	}
	key := Fold(file)
	if other, ok := p.files[key]; ok {
		return twins(other, file)
	}
	p.files[key] = file
	var faults []error
	if dir, ok := p.folders[key]; ok {
		faults = append(faults, alsoFolder(file, dir.of))
	}
	return errors.Join(append(faults, p.addFolders(file)...)...)
}

// addFolders adds the folders above a path. It finds files that stand where the
// path needs a folder, and folders spelled in two ways.
func (p *Paths) addFolders(file string) []error {
	var faults []error
	for dir := path.Dir(file); dir != "."; dir = path.Dir(dir) {
		key := Fold(dir)
		if was, ok := p.folders[key]; ok {
			if was.path != dir {
				faults = append(faults, fmt.Errorf("folders %q and %q differ only in case or accents, and are one folder on some systems",
					min(was.path, dir), max(was.path, dir)))
			}
			break // its parents have been looked at
		}
		p.folders[key] = branch{dir, file}
		if other, ok := p.files[key]; ok {
			faults = append(faults, alsoFolder(other, file))
		}
	}
	return faults
}

func alsoFolder(file, of string) error {
	return fmt.Errorf("file path %q is also the folder of %q", file, of)
}

// twins names the two in the order of their bytes, whichever came first.
func twins(a, b string) error {
	if a == b {
		return fmt.Errorf("file path %q occurs twice", a)
	}
	return fmt.Errorf("file paths %q and %q differ only in case or accents, and are one file on some systems", min(a, b), max(a, b))
}
