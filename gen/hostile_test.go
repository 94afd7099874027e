package gen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"
	"unicode/utf8"

	"spruelight/gen"
	"spruelight/gen/desk"
	"spruelight/gen/journal"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/example"
	"spruelight/testdata/hostile"
)

// afterAll is when nothing of the example is under embargo any more.
var afterAll = time.Date(2026, 12, 1, 12, 0, 0, 0, time.UTC)

// word is a text of the example that its writer chose freely: a value or the
// name of an entry, and where it stands.
type word struct {
	key        string // "builds.circuits.name": kind of file and keys, as they nest
	file       string
	start, end int
	text       string
}

// exampleWords lists every free text of the example workshop. Every key of
// every kind of file stands in the example at least once, so that a new key is
// filled as soon as it is there.
func exampleWords(t *testing.T, content fs.FS) []word {
	t.Helper()
	shop, found := journal.Open(content)
	for _, b := range shop.Builds {
		found.Add(shop.ReadBuild(content, b)...)
	}
	if found.Stops() {
		t.Fatal(found)
	}
	var words []word
	add := func(kind string, v any) { collectWords(reflect.ValueOf(v).Elem(), kind, false, &words) }
	add("workshop", &shop.Settings)
	add("rack", &shop.Rack)
	add("shelf", &shop.Shelf)
	for _, leaf := range shop.Wall {
		add("wall", &leaf.Front)
	}
	for _, b := range shop.Builds {
		add("build", &b.Front)
		for _, s := range b.Sittings {
			add("sitting", &s.Front)
		}
		if b.Review != nil {
			add("review", &b.Review.Front)
		}
	}
	seen := map[string]bool{}
	return slices.DeleteFunc(words, func(w word) bool { // a short form is reached twice
		place := fmt.Sprint(w.file, w.start)
		twice := seen[place]
		seen[place] = true
		return twice
	})
}

// collectWords walks a value that was read from a file. fixed values are those
// whose words the program itself names.
func collectWords(v reflect.Value, key string, fixed bool, words *[]word) {
	if v.CanAddr() {
		switch text := v.Addr().Interface().(type) {
		case *source.Value[string]:
			if written := text.At.Text(); !fixed && text.Set && text.V != "" && strings.Trim(written, `"'`) == text.V {
				*words = append(*words, word{key, text.At.Name(), text.At.Start, text.At.End, text.V})
			}
			return
		case *source.Span:
			return
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			tag, keyed := f.Tag.Lookup("key")
			name, _, _ := strings.Cut(tag, ",")
			if f.IsExported() && (keyed || f.Anonymous || f.Name == "Name" || f.Name == "Value" || f.Name == "V") || v.Type() == reflect.TypeFor[journal.Rack]() {
				at := key
				if name != "" {
					at += "." + name
				}
				collectWords(v.Field(i), at, f.Tag.Get("one") != "", words)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			collectWords(v.Index(i), key, fixed, words)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			collectWords(v.Elem(), key, fixed, words)
		}
	}
}

// filled is the example workshop with hostile words.
type filled struct {
	base    fstest.MapFS
	words   []word
	bodies  string            // Markdown added to every text
	instead map[string]string // by the word of the example, so that names still fit one another
	kept    map[string]bool   // words that stay: what stood in their place was refused
	refused map[string]string // keys whose words stay, with the rule that said so
	res     *gen.Gathered
	spots   map[string][]word // words as they stand now, by file
}

func loadExample(t *testing.T) fstest.MapFS {
	t.Helper()
	base := fstest.MapFS{}
	err := fs.WalkDir(os.DirFS("../content-example"), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if strings.HasPrefix(name, "scenes/") {
			return nil
		}
		data, err := os.ReadFile("../content-example/" + name)
		base[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, more := range []struct{ file, before, after string }{ // words that the example leaves out
		{"workshop.yaml", "clearance: 20 mm", "line-up: [marram, harbour-crane]\nclearance: 20 mm"},
		{"builds/cairnhead/2025-09-06-box-and-parts.md", "caption: \"Three", "credit: a guest, caption: \"Three"},
		{"builds/cairnhead/2026-01-04-bands-and-decals.md", `{marking: "1", count: 2`, `{marking: "1", sheet: station sheet, count: 2`},
	} {
		text := string(base[more.file].Data)
		if !strings.Contains(text, more.before) {
			t.Fatalf("%s: no %s", more.file, more.before)
		}
		base[more.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, more.before, more.after, 1))}
	}
	return base
}

// fill puts the strings, from a different one on in each round, in place of
// the words, and takes back those that a finding refuses.
func fill(t *testing.T, base fstest.MapFS, words []word, list []string, bodies string, round int) *filled {
	t.Helper()
	f := &filled{base: base, words: words, bodies: bodies, instead: map[string]string{}, kept: map[string]bool{}, refused: map[string]string{}}
	for _, w := range words {
		if _, known := f.instead[w.text]; !known {
			f.instead[w.text] = list[(len(f.instead)+round)%len(list)]
		}
	}
	for range 40 {
		res, err := gen.Check(context.Background(), f.env(t, f.shop()))
		if err != nil {
			t.Fatal(err)
		}
		if !res.Findings.Stops() {
			break
		}
		if !f.takeBack(t, res.Findings) {
			for _, x := range res.Findings {
				if x.Severity() == source.Stop {
					t.Fatalf("no word to take back: %s:%v [%s] %s", x.At.Name(), x.At.Position(), x.Rule.Name, x.Says.String())
				}
			}
		}
	}
	var err error
	if f.res, err = gen.Gather(context.Background(), f.env(t, f.shop())); err != nil {
		t.Fatal(err)
	}
	if f.res.Files == nil {
		for _, x := range f.res.Findings {
			if x.Severity() == source.Stop {
				t.Errorf("%s:%v [%s] %s", x.At.Name(), x.At.Position(), x.Rule.Name, x.Says.String())
			}
		}
		t.Fatal("no site")
	}
	return f
}

func (f *filled) env(t *testing.T, content fs.FS) gen.Env {
	env := example.Env(t, 0)
	env.Content, env.Moment = content, afterAll
	return env
}

// shop writes the workshop with its words exchanged.
func (f *filled) shop() fstest.MapFS {
	shop, byFile := fstest.MapFS{}, map[string][]word{}
	for name, file := range f.base {
		shop[name] = file
	}
	for _, w := range f.words {
		byFile[w.file] = append(byFile[w.file], w)
	}
	f.spots = map[string][]word{}
	for name, words := range byFile {
		slices.SortFunc(words, func(a, b word) int { return a.start - b.start })
		text := strings.TrimPrefix(string(f.base[name].Data), "\ufeff")
		var out strings.Builder
		at := 0
		for _, w := range words {
			out.WriteString(text[at:w.start])
			start := out.Len()
			if f.kept[w.text] {
				out.WriteString(text[w.start:w.end])
			} else {
				out.WriteString(inQuotes(f.instead[w.text]))
			}
			f.spots[name] = append(f.spots[name], word{w.key, name, start, out.Len(), w.text})
			at = w.end
		}
		out.WriteString(text[at:])
		if path.Ext(name) == ".md" {
			out.WriteString("\n\n" + f.bodies)
		}
		shop[name] = &fstest.MapFile{Data: []byte(out.String())}
	}
	return shop
}

// inQuotes writes a text as YAML's double-quoted style, of which JSON is a part.
func inQuotes(text string) string {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.Encode(text)
	return strings.TrimSpace(out.String())
}

// takeBack restores the words that findings stop at. It reports whether any
// word is restored.
func (f *filled) takeBack(t *testing.T, found source.Findings) bool {
	any := false
	for _, x := range found {
		if x.Severity() != source.Stop {
			continue
		}
		places := []source.Span{x.At}
		for _, r := range x.Related {
			places = append(places, r.At)
		}
		for _, at := range places {
			for _, w := range f.spots[at.Name()] {
				if w.start <= at.End && at.Start <= w.end && !f.kept[w.text] {
					f.kept[w.text], any = true, true
					f.refused[w.key] = x.Rule.Name
				}
			}
		}
	}
	return any
}

// fits keeps the strings that may stand in a text at all: what is left out
// here is refused with a finding, as TestHiddenCharactersAreRefused shows.
func fits(s string) bool {
	return utf8.ValidString(s) && !hiddenPattern.MatchString(s) && strings.TrimSpace(s) != ""
}

var hiddenPattern = regexp.MustCompile(`[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x{9f}\x{202a}-\x{202e}\x{2066}-\x{2069}\x{fdd0}-\x{fdef}\x{fffe}\x{ffff}\x{1fffe}\x{1ffff}]`)

// markdownThatFits are the strings that may stand in a body, one a paragraph.
func markdownThatFits(t *testing.T, list []string) string {
	t.Helper()
	var out strings.Builder
	for _, s := range list {
		shop := smallShop()
		shop["wall/about.md"] = &fstest.MapFile{Data: []byte("---\ntitle: About\n---\n" + s + "\n")}
		w, found := journal.Open(shop)
		if !found.Stops() && len(w.Wall) == 1 && !strings.Contains(s, "![x](x") && !strings.Contains(s, ".jpg") {
			out.WriteString(s + "\n\n")
			if strings.HasPrefix(s, "<!") || strings.HasPrefix(s, "<?") || strings.Contains(s, "```") {
				out.WriteString("--> ?> ]]>\n\n```\n```\n\n") // HTML and code that would swallow what follows end here
			}
		}
	}
	return out.String()
}

// stay are the keys whose words no text can take the place of: they name a
// file, a word that the program knows, or something by its reference.
var stay = []string{
	"build.areas.encloses", "build.choices.options.photo", "build.circuits.feed.wire", "build.circuits.fibres.from", "build.circuits.junctions.wire",
	"build.lead", "build.outline.file", "build.repair.photo", "build.silence.on", "rack.kind", "shelf.outline.file", "sitting.before closing.photo",
	"sitting.lit", "sitting.parts.to", "sitting.photos.file", "sitting.photos.pair", "sitting.video.address", "workshop.address", "workshop.currency", "workshop.theme", "workshop.time zone",
}

// hostileFill is what the tests below share: the words, and the strings that
// may take their place.
func hostileFill(t *testing.T) (base fstest.MapFS, words []word, list []string, bodies string) {
	t.Helper()
	base = loadExample(t)
	list = slices.DeleteFunc(hostile.Strings(), func(s string) bool { return !fits(s) })
	return base, exampleWords(t, base), list, markdownThatFits(t, list)
}

var filledBy = map[string]*filled{}

// filledFrom is the example filled with the strings, from the part-th of so many
// parts on. It is made once and only read.
func filledFrom(t *testing.T, part, parts int) *filled {
	t.Helper()
	key := fmt.Sprint(part, "/", parts)
	if part == 0 {
		key = "0"
	}
	if filledBy[key] == nil {
		base, words, list, bodies := hostileFill(t)
		filledBy[key] = fill(t, base, words, list, bodies, part*len(list)/parts)
	}
	return filledBy[key]
}

// TestNoWordRuns fills every free word of every kind of file with hostile
// strings and reads the finished site: pages, feeds, drawings, structured
// data, search files, show notes.
func TestNoWordRuns(t *testing.T) {
	rounds := 1                                   // the browser test does another
	if os.Getenv("SPRUELIGHT_HOSTILE") == "all" { // every string in every place
		rounds = len(slices.DeleteFunc(hostile.Strings(), func(s string) bool { return !fits(s) }))
	}
	taken := map[string]bool{}
	var words []word
	for round := range rounds {
		f := filledFrom(t, round, rounds)
		words = f.words
		checkSite(t, f.res.Files)
		f.checkNotes(t)
		for _, spots := range f.spots {
			for _, w := range spots {
				taken[w.key] = taken[w.key] || !f.kept[w.text]
			}
		}
		if t.Failed() {
			t.Fatalf("in round %d", round)
		}
		if rounds > 1 { // or all of them would stay in memory
			clear(filledBy)
		}
	}
	for key, any := range taken {
		if !any && !slices.Contains(stay, key) {
			t.Errorf("no string took the place of a word of %s", key)
		}
	}
	for _, kind := range journal.FileKinds() {
		for _, k := range kind.Keys() {
			name := k.Path[strings.LastIndexByte(k.Path, '.')+1:]
			if known := slices.ContainsFunc(words, func(w word) bool { return strings.HasSuffix(w.key, "."+name) }); !known && strings.HasSuffix(k.Value, "text") {
				t.Errorf("%s: no word of %s stands in the example", kind.Name, k.Path)
			}
		}
	}
}

// checkNotes holds the text for each film: as many chapters as were declared,
// and no character that a form or a terminal would not show.
func (f *filled) checkNotes(t *testing.T) {
	t.Helper()
	shop, films := f.shop(), 0
	for name, file := range f.base {
		dir, sitting := path.Split(name)
		if !strings.Contains(string(file.Data), "\nvideo:") || path.Ext(name) != ".md" {
			continue
		}
		films++
		notes, err := desk.NotesFor(context.Background(), f.env(t, shop), path.Base(dir)+"/"+strings.TrimSuffix(sitting, ".md"), desk.NotesOptions{})
		if err != nil || notes.Text == "" {
			t.Errorf("%s: no show notes (%v)", name, err)
			continue
		}
		stamps := regexp.MustCompile(`(?m)^[0-9]+:[0-9]{2}(:[0-9]{2})? `).FindAllString(notes.Text, -1)
		if want := strings.Count(string(file.Data), `": `); hiddenPattern.MatchString(notes.Text) || len(stamps) > want {
			t.Errorf("%s: %d chapters, and at most %d declared:\n%s", name, len(stamps), want, notes.Text)
		}
	}
	if films == 0 {
		t.Error("no sitting has a film")
	}
}

// What cannot be seen, and what is no text, is refused wherever it stands, raw
// or as an escape, and its finding shows none of it to the terminal.
func TestHiddenCharactersAreRefused(t *testing.T) {
	tried, cache := 0, photo.MemoryCache()
	for _, s := range hostile.Strings() {
		if fits(s) || strings.TrimSpace(s) == "" {
			continue
		}
		tried++
		places := map[string]string{"wall/about.md": "---\ntitle: About\n---\n" + s + "\n"}
		if utf8.ValidString(s) {
			places["builds/skiff/build.md"] = strings.Replace(skiffBuild, "entry: the keel", "entry: "+inQuotes(s), 1)
			places["rack/paints.yaml"] = inQuotes("grey"+s) + ": {kind: enamel}\n"
		}
		for name, text := range places {
			shop := smallShop()
			shop[name] = &fstest.MapFile{Data: []byte(text)}
			res := assembleShop(t, shop, cache) // holds the findings' print against control characters
			refused := slices.ContainsFunc(res.Findings, func(f source.Finding) bool {
				return f.At.Name() == name && f.Severity() == source.Stop && (f.Rule.Name == "hidden-character" || f.Rule.Name == "not-utf-8") && !f.Do.Empty()
			})
			if !refused || res.Files != nil {
				t.Errorf("%q in %s: %v", s, name, res.Findings)
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d strings", tried)
	}
}
