package gen_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/page"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/bigshop"
	"spruelight/testdata/effort"
	"spruelight/themes"
)

// shopDir is a workshop on disk that a test edits.
type shopDir struct {
	t    testing.TB
	dir  string
	rand *rand.Rand

	moment time.Time
}

func (d *shopDir) path(name string) string { return filepath.Join(d.dir, filepath.FromSlash(name)) }

func (d *shopDir) read(name string) string {
	text, err := os.ReadFile(d.path(name))
	if err != nil {
		d.t.Fatal(err)
	}
	return string(text)
}

func (d *shopDir) write(name, text string) {
	os.MkdirAll(filepath.Dir(d.path(name)), 0o755)
	if err := os.WriteFile(d.path(name), []byte(text), 0o644); err != nil {
		d.t.Fatal(err)
	}
}

// glob returns the workshop paths that match a pattern.
func (d *shopDir) glob(pattern string) []string {
	names, err := filepath.Glob(d.path(pattern))
	if err != nil || len(names) == 0 {
		d.t.Fatalf("nothing matches %s (%v)", pattern, err)
	}
	for i, n := range names {
		rel, _ := filepath.Rel(d.dir, n)
		names[i] = filepath.ToSlash(rel)
	}
	return names
}

func (d *shopDir) any(pattern string) string {
	names := d.glob(pattern)
	return names[d.rand.IntN(len(names))]
}

const (
	sittingFiles = "builds/*/2*.md"
	photoFiles   = "builds/*/photos/*.jpg"
)

// edit changes the workshop at random and returns the paths it touched.
func (d *shopDir) edit(step int) []string {
	switch d.rand.IntN(26) {
	case 0: // add a sitting
		build := filepath.ToSlash(filepath.Dir(d.any("builds/*/build.md")))
		name := fmt.Sprintf("%s/%s-step-%d.md", build, time.Date(2022, 1, 1+step, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), step)
		d.write(name, fmt.Sprintf("---\nhours: %d min\nstage: painting\n---\nAdded in step %d. See [the build](build.md).\n", 30+step%90, step))
		return []string{name}
	case 1, 2, 3: // change a sitting's words
		name := d.any(sittingFiles)
		d.write(name, d.read(name)+fmt.Sprintf("\nOne more thing in step %d, and a [link](build.md#what-was-done).\n", step))
		return []string{name}
	case 4: // change a sitting's hours
		name := d.any(sittingFiles)
		lines := strings.Split(d.read(name), "\n")
		for i, line := range lines {
			if strings.HasPrefix(line, "hours: ") {
				lines[i] = fmt.Sprintf("hours: %d min", 20+d.rand.IntN(300))
			}
		}
		d.write(name, strings.Join(lines, "\n"))
		return []string{name}
	case 5, 12, 13: // rename a sitting
		name := d.any(sittingFiles)
		to := strings.TrimSuffix(name, ".md")
		to = to[:strings.LastIndex(to, "/")+11] + fmt.Sprintf("-renamed-%d.md", step)
		os.Rename(d.path(name), d.path(to))
		return []string{name, to}
	case 6: // remove a sitting
		name := d.any(sittingFiles)
		os.Remove(d.path(name))
		return []string{name}
	case 7: // change a photo
		from, to := d.any("builds/*/photos/*.jpg"), d.any("builds/*/photos/*.jpg")
		data := d.read(from)
		os.Remove(d.path(to))
		d.write(to, data)
		return []string{to}
	case 8: // change a lamp
		name := "rack/lamps.yaml"
		d.write(name, strings.Replace(d.read(name), "colour: white", fmt.Sprintf("source: sheet %d, colour: white", step), 1))
		if strings.Count(d.read(name), "source:") > 1 {
			d.write(name, lampFile)
		}
		return []string{name}
	case 9: // change a build's own text, or its name
		name := d.any("builds/*/build.md")
		text := d.read(name)
		if step%2 == 0 {
			text = strings.Replace(text, "name: Build", fmt.Sprintf("name: Step %d, build", step), 1)
		}
		d.write(name, text+fmt.Sprintf("\n\nEdited in step %d.\n", step))
		return []string{name}
	case 10: // break a file, or mend what was broken
		name := d.any(sittingFiles)
		text := d.read(name)
		if strings.Contains(text, "stge:") {
			text = strings.ReplaceAll(text, "stge:", "stage:")
		} else if step%3 == 0 {
			text = strings.Replace(text, "stage:", "stge:", 1)
		}
		d.write(name, text)
		return []string{name}
	case 16: // add a photo, with the sitting that shows it
		build := filepath.ToSlash(filepath.Dir(d.any("builds/*/build.md")))
		name := fmt.Sprintf("%s/photos/added-%d.jpg", build, step)
		d.write(name, d.read(d.any(photoFiles)))
		sitting := d.any(build + "/2*.md")
		d.write(sitting, d.read(sitting)+fmt.Sprintf("\n![added in step %d](photos/added-%d.jpg)\n", step, step))
		return []string{name, sitting}
	case 17: // rename a photo, and its name where it is shown
		name := d.any(photoFiles)
		to := strings.TrimSuffix(name, ".jpg")
		to = to[:strings.LastIndex(to, "/")+1] + fmt.Sprintf("renamed-%d.jpg", step)
		os.Rename(d.path(name), d.path(to))
		return append(d.rewrite(filepath.Dir(filepath.Dir(name)), filepath.Base(name), filepath.Base(to)), name, to)
	case 18: // remove a photo that is shown, or put one back
		if gone := d.gone(); len(gone) > 0 {
			d.write(gone[0], d.read(d.any(photoFiles)))
			return gone[:1]
		}
		name := d.any(photoFiles)
		os.Remove(d.path(name))
		return []string{name}
	case 19, 20, 21: // add, change, break or remove a file of the theme
		return d.editTheme(step)
	case 22: // add a lamp to the rack, or take the added one away
		name := "rack/lamps.yaml"
		text, added, _ := strings.Cut(d.read(name), "added-")
		if added == "" {
			text += fmt.Sprintf("added-%d: {colour: green, size: 5 mm, forward: [2.1 V @ 20 mA]}\n", step)
		}
		d.write(name, text)
		return []string{name}
	case 23: // time passes; a sitting may be dated in the days to come
		d.moment = d.moment.Add(time.Duration(d.rand.IntN(40)) * time.Hour)
		name := fmt.Sprintf("%s/%s-late-%d.md", filepath.ToSlash(filepath.Dir(d.any("builds/*/build.md"))), d.moment.AddDate(0, 0, d.rand.IntN(3)-1).Format(time.DateOnly), step)
		d.write(name, "---\nhours: 1 h\nstage: painting\ncoats: [{area: hull, coat: grey}]\n---\nGrey again.\n")
		return []string{name}
	case 24, 25: // put something under embargo, or take its embargo away
		name := d.any([]string{"builds/*/build.md", sittingFiles}[d.rand.IntN(2)])
		text := d.read(name)
		if line := embargoLine.FindString(text); line != "" {
			text = strings.Replace(text, line, "", 1)
		} else {
			until := d.moment.Add(time.Duration(d.rand.IntN(60)) * time.Hour)
			text = strings.Replace(text, "---\n", "---\nembargo: "+until.Format("2006-01-02 15:04")+"\n", 1)
		}
		d.write(name, text)
		return []string{name}
	default: // a free page, or a link from one build to another
		if step%4 == 0 {
			d.write("wall/about.md", fmt.Sprintf("---\ntitle: About %d\n---\nStep %d.\n", step%3, step))
			return []string{"wall/about.md"}
		}
		name, to := d.any("builds/*/build.md"), d.any(sittingFiles)
		d.write(name, d.read(name)+fmt.Sprintf("\n\nAs in [another](../../%s).\n", to))
		return []string{name}
	}
}

var embargoLine = regexp.MustCompile(`(?m)^embargo: .*\n`)

// rewrite replaces a name in every text of a build and returns those it changed.
func (d *shopDir) rewrite(build, from, to string) []string {
	var touched []string
	for _, name := range d.glob(build + "/*.md") {
		if text := d.read(name); strings.Contains(text, from) {
			d.write(name, strings.ReplaceAll(text, from, to))
			touched = append(touched, name)
		}
	}
	return touched
}

// gone lists photos that sittings show and that are not there.
func (d *shopDir) gone() []string {
	var gone []string
	for _, name := range d.glob(sittingFiles) {
		for _, m := range shownPhoto.FindAllString(d.read(name), -1) {
			file := path.Join(path.Dir(name), m)
			if _, err := os.Stat(d.path(file)); err != nil {
				gone = append(gone, file)
			}
		}
	}
	return gone
}

var shownPhoto = regexp.MustCompile(`photos/[\w-]+\.jpg`)

// editTheme adds, changes, breaks or removes one file that the workshop's theme
// has of its own, in place of that of the theme behind it.
func (d *shopDir) editTheme(step int) []string {
	files := []string{"sitting.html", "_picture.html", "front.html", "own.css", "hours.html"}
	name := files[d.rand.IntN(len(files))]
	own := "looks/" + name
	if _, err := os.Stat(d.path(own)); err == nil && d.rand.IntN(3) == 0 {
		os.Remove(d.path(own))
		return []string{own}
	}
	behind, err := fs.ReadFile(themes.FS, "sheet/"+name)
	text := string(behind)
	switch {
	case err != nil:
		text = fmt.Sprintf(".step { order: %d }\n", step)
	case d.rand.IntN(6) == 0:
		text = strings.Replace(text, "{{", "{{.Nowhere}}{{", 1)
	case strings.HasPrefix(name, "_"):
		text = strings.Replace(text, "<figure", fmt.Sprintf("<figure data-step=\"%d\"", step), 1)
	default:
		text = strings.Replace(text, "<h1>", fmt.Sprintf("<h1 data-step=\"%d\">", step), 1)
	}
	d.write(own, text)
	return []string{own}
}

// mend puts right whatever edit broke, so that a run does not stop for good.
func (d *shopDir) mend() []string {
	var touched []string
	for _, name := range d.gone() {
		d.write(name, d.read(d.any(photoFiles)))
		touched = append(touched, name)
	}
	if own, err := filepath.Glob(d.path("looks/*.html")); err == nil {
		for _, full := range own {
			name := "looks/" + filepath.Base(full)
			if strings.Contains(d.read(name), "Nowhere") {
				os.Remove(full)
				touched = append(touched, name)
			}
		}
	}
	for _, name := range d.glob(sittingFiles) {
		if text := d.read(name); strings.Contains(text, "stge:") {
			d.write(name, strings.ReplaceAll(text, "stge:", "stage:"))
			touched = append(touched, name)
		}
	}
	return touched
}

const lampFile = "white-3mm: {colour: white, size: 3 mm, forward: [2.75 V @ 2 mA, 3.0 V @ 10 mA]}\namber-3mm: {colour: amber, size: 3 mm, forward: [1.9 V @ 2 mA, 2.1 V @ 20 mA]}\n"

// What a session shows after any row of edits is what a run from scratch
// makes, to the byte, for every file of the site.
func TestIncrementalEqualsFromScratch(t *testing.T) {
	edits := effort.Of(25, 300)
	d := &shopDir{t: t, dir: t.TempDir(), rand: rand.New(rand.NewPCG(9, 9)), moment: moment}
	if err := bigshop.Write(d.dir, bigshop.Size{Builds: 6, Sittings: 4, Photos: 1, Alike: true}); err != nil {
		t.Fatal(err)
	}
	d.write("workshop.yaml", d.read("workshop.yaml")+"theme: looks\n")
	d.write("looks/own.css", "")
	env := gen.Env{Content: os.DirFS(d.dir), Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache(), Version: "test"}
	session := gen.NewSession(env)
	if _, _, err := session.Update(context.Background(), nil); err != nil {
		t.Fatal(err)
	}
	compared, stopped := 0, 0
	for step := range edits {
		changed := d.edit(step)
		env.Moment = d.moment
		session.At(d.moment)
		shown, found, err := session.Update(context.Background(), changed)
		if err != nil {
			t.Fatal(err)
		}
		scratch, err := gen.Gather(context.Background(), env)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := summed(found), summed(scratch.Findings); a != b {
			t.Fatalf("step %d (%v): findings %s, from scratch %s", step, changed, a, b)
		}
		if shown == nil {
			stopped++
			if d.rand.IntN(2) == 0 {
				session.Update(context.Background(), d.mend())
			}
			continue
		}
		var paths []string
		for _, f := range scratch.Files {
			paths = append(paths, f.Path)
			want := f.Bytes
			if f.Open != nil {
				continue // a rendition: its path carries its hash
			}
			got, ok := shown.File(f.Path)
			if !ok || !bytes.Equal(got, want) {
				t.Fatalf("step %d (%v): %s differs (%v)\n%s", step, changed, f.Path, ok, firstDifference(got, want))
			}
			compared++
		}
		have := shown.Paths()
		slices.Sort(have)
		slices.Sort(paths)
		if !slices.Equal(have, paths) {
			t.Fatalf("step %d (%v): %d paths, from scratch %d", step, changed, len(have), len(paths))
		}
	}
	t.Logf("%d edits, %d of them stopped by a finding, %d files compared", edits, stopped, compared)
	if compared < 16*edits {
		t.Errorf("only %d files were compared", compared)
	}
}

// summed says how many findings there are, those of templates left out: from
// scratch every page tells of its template, in a session one page of each kind.
func summed(found source.Findings) string {
	n, theme := 0, false
	for _, f := range found {
		if f.Rule.Name == page.RuleTemplate.Name {
			theme = true
		} else {
			n++
		}
	}
	return fmt.Sprintf("%d, of templates: %v, stop: %v", n, theme, found.Stops())
}

func firstDifference(a, b []byte) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	cut := func(s []byte) string { return string(s[max(0, min(i-80, len(s))):min(len(s), i+120)]) }
	return "have …" + cut(a) + "\nwant …" + cut(b)
}
