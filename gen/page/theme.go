package page

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"spruelight/gen/source"

	"github.com/goccy/go-yaml"
)

// Look is a theme's look.yaml.
type Look struct {
	From   string `yaml:"from"`   // theme that stands behind it: files that it has not are taken from there
	Scheme string `yaml:"scheme"` // "light dark" (by the reader's setting), "light" or "dark"
}

// mostLayers bounds how many themes may stand behind one another.
const mostLayers = 8

// Theme is a theme's files, laid over those of the themes behind it. It is a
// file system of its own: a file comes from the first layer that has it.
type Theme struct {
	Look   Look
	layers []layer
}

type layer struct {
	name  string
	where string // folder as findings name it
	files fs.FS
}

// Shelf finds themes by name: a folder's files, and how findings name it. The
// error is of fs.ErrNotExist where there is no such theme.
type Shelf func(name string) (files fs.FS, where string, err error)

// RuleTheme is broken when a theme is not there.
var RuleTheme = &source.Rule{Name: "theme-missing", Severity: source.Stop, Source: "common practice, no source",
	Reason: "Without its theme no page can be printed.",
	Keys:   "workshop: theme"}

// OpenTheme opens a theme and those behind it. at is where its name is written.
func OpenTheme(shelf Shelf, name string, at source.Span) (*Theme, source.Findings) {
	t := &Theme{}
	for len(t.layers) < mostLayers {
		files, where, err := shelf(name)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, source.Findings{RuleTheme.At(at, "check its files and their permissions", "the theme %q cannot be read: %v", name, err)}
		}
		if err != nil {
			return nil, source.Findings{RuleTheme.At(at, "write sheet or lamplight, or the name of a folder of the workshop with a theme's files",
				"there is no theme %q", name)}
		}
		t.layers = append(t.layers, layer{name, where, files})
		look, place, err := readLook(files, where)
		if err != nil {
			return nil, source.Findings{RuleTemplate.At(place, "write from: and scheme: as the guide shows them", "%v", err)}
		}
		if t.Look.Scheme == "" {
			t.Look.Scheme = look.Scheme
		}
		if look.From == "" || look.From == name {
			break
		}
		name, at = look.From, place
	}
	if t.Look.Scheme == "" {
		t.Look.Scheme = "light dark"
	}
	return t, nil
}

// readLook reads a theme's look.yaml. A folder without one, and without a page
// template of its own, overrides single files of sheet.
func readLook(files fs.FS, where string) (look Look, at source.Span, err error) {
	text, err := fs.ReadFile(files, "look.yaml")
	at = source.NewFile(path.Join(where, "look.yaml"), string(text)).Whole()
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := fs.Stat(files, "_page.html"); err != nil {
			look.From = "sheet"
		}
		return look, at, nil
	}
	if err != nil {
		return look, at, err
	}
	if err := yaml.UnmarshalWithOptions(text, &look, yaml.Strict()); err != nil {
		return look, at, errors.New(strings.Split(yaml.FormatError(err, false, false), "\n")[0])
	}
	if !slices.Contains([]string{"", "light", "dark", "light dark"}, look.Scheme) {
		return look, at, fmt.Errorf("scheme %q; light, dark or light dark is wanted", look.Scheme)
	}
	return look, at, nil
}

// Open opens a file of the first layer that has it.
func (t *Theme) Open(name string) (fs.File, error) {
	for _, l := range t.layers {
		if f, err := l.files.Open(name); err == nil || !errors.Is(err, fs.ErrNotExist) {
			return f, err
		}
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// ReadDir lists a folder of all layers, each name once.
func (t *Theme) ReadDir(name string) ([]fs.DirEntry, error) {
	var all []fs.DirEntry
	for _, l := range t.layers {
		entries, _ := fs.ReadDir(l.files, name)
		for _, e := range entries {
			if !slices.ContainsFunc(all, func(x fs.DirEntry) bool { return x.Name() == e.Name() }) {
				all = append(all, e)
			}
		}
	}
	slices.SortFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return all, nil
}

// Where returns the path by which findings name a file.
func (t *Theme) Where(name string) string {
	for _, l := range t.layers {
		if _, err := fs.Stat(l.files, name); err == nil {
			return path.Join(l.where, name)
		}
	}
	return path.Join(t.layers[0].where, name)
}

// PrintStyle is the file of a theme that holds its styles for paper: browsers
// fetch it apart and apply it in print alone.
const PrintStyle = "print.css"

// RepairStyle holds the styles of the repair sheet, which no other page loads.
const RepairStyle = "repair.css"

// Joined returns all files with an ending as one: those of the theme furthest
// behind first; within a theme the file that bears its name, then by name. Styles
// for paper are joined by themselves.
func (t *Theme) Joined(ending string) string {
	var names []string
	for _, l := range slices.Backward(t.layers) {
		own, _ := fs.Glob(l.files, "*"+ending)
		slices.SortStableFunc(own, func(a, b string) int {
			return first(b == l.name+ending) - first(a == l.name+ending)
		})
		for _, name := range own {
			if !slices.Contains(names, name) && (name != PrintStyle && name != RepairStyle || ending == name) {
				names = append(names, name)
			}
		}
	}
	var out strings.Builder
	for _, name := range names {
		text, _ := fs.ReadFile(t, name)
		out.Write(text)
		out.WriteByte('\n')
	}
	return out.String()
}

func first(is bool) int {
	if is {
		return 1
	}
	return 0
}

// SlimScript takes comment lines and indentation out of a script of ours. Only
// lines that are wholly comment are dropped, so that no text is touched.
func SlimScript(text string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "//") {
			out.WriteString(line)
			out.WriteByte('\n')
		}
	}
	return out.String()
}

// SlimStyle takes comments, the white space and the noughts before a decimal
// point that say nothing out of a style sheet. Quoted texts stay as they are.
func SlimStyle(text string) string {
	var out []byte
	last := byte('}')
	put := func(c byte) {
		out = append(out, c)
		last = c
	}
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case c == '"' || c == '\'':
			end := i + 1
			for end < len(text) && text[end] != c {
				if text[end] == '\\' {
					end++
				}
				end++
			}
			end = min(end, len(text)-1)
			out = append(out, text[i:end+1]...)
			last, i = c, end
		case strings.HasPrefix(text[i:], "/*"):
			_, after, ends := strings.Cut(text[i:], "*/")
			if !ends {
				return string(out)
			}
			i = len(text) - len(after) - 1
		case c == ' ' || c == '\n' || c == '\t' || c == '\r':
			rest := strings.TrimLeft(text[i:], " \n\t\r")
			i = len(text) - len(rest) - 1
			if rest != "" && !strings.ContainsRune("{};,:>", rune(last)) && !strings.ContainsRune("{}>", rune(rest[0])) {
				put(' ')
			}
		case c == '0' && strings.ContainsRune(" :,(-", rune(last)) && i+1 < len(text) && text[i+1] == '.':
		case c == '}' && last == ';':
			out = out[:len(out)-1]
			put(c)
		default:
			put(c)
		}
	}
	return string(out)
}
