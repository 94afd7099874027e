package gen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/source"
)

// heldBuilds are the example's builds that the tests put under embargo. Between
// them they hold every key of a build, a sitting and a review.
var heldBuilds = []string{"cairnhead", "marram"}

// canary is what every planted word begins with.
const canary = "zqcanary"

// underEmbargo is the example with two builds under embargo, which bear canaries
// in the names of their folders, sittings and photos.
func underEmbargo(t *testing.T) fstest.MapFS {
	t.Helper()
	base := loadExample(t)
	names := map[string]string{}
	for _, slug := range heldBuilds {
		names[slug] = canary + "-" + slug
	}
	n := 0
	for name := range base {
		if slug, file, ok := strings.Cut(strings.TrimPrefix(name, "builds/"), "/"); ok && names[slug] != "" {
			stem := strings.TrimSuffix(path.Base(file), path.Ext(file))
			if strings.Contains(file, "photos/") || len(stem) > len("2026-02-14") && stem[4] == '-' {
				n++
				names[stem] = fmt.Sprintf("%s-%s%d", stem, canary, n)
			}
		}
	}
	out := fstest.MapFS{}
	stems := slices.Collect(maps.Keys(names))
	slices.SortFunc(stems, func(a, b string) int { return len(b) - len(a) })
	held := `(` + strings.Join(heldBuilds, "|") + `)`
	file := `(` + strings.Join(stems, "|") + `)(\.(?:md|jpg|png|webp))`
	inside := regexp.MustCompile(`\b()((?:photos/)?)` + file)                      // as a held build names its files
	outside := regexp.MustCompile(held + `(/(?:photos/)?)` + file)                 // as others do
	slug := regexp.MustCompile(`(/|line-up: \[|to: )` + held + `([/,}\]]|/build)`) // wherever a build is named
	renamed := func(text string, file *regexp.Regexp) string {
		text = file.ReplaceAllStringFunc(text, func(m string) string {
			g := file.FindStringSubmatch(m)
			return g[1] + g[2] + names[g[3]] + g[4]
		})
		return slug.ReplaceAllString(text, "${1}"+canary+"-${2}${3}")
	}
	isHeld := regexp.MustCompile(`^builds/` + held + `/`)
	for name, file := range base {
		data := file.Data
		switch ext := path.Ext(name); {
		case ext != ".md" && ext != ".yaml" || strings.HasPrefix(name, "wall/reference"): // those show the example's words
		case isHeld.MatchString(name):
			data = []byte(renamed(string(data), inside))
		default:
			data = []byte(renamed(string(data), outside))
		}
		to := renamed("/"+name, outside)[1:]
		if path.Base(to) == "build.md" && strings.Contains(to, canary) {
			data = bytes.Replace(data, []byte("---\n"), []byte("---\nembargo: 2031-01-01 09:00\n"), 1)
		}
		out[to] = &fstest.MapFile{Data: data}
	}
	if n < 20 {
		t.Fatalf("%d names bear canaries", n)
	}
	return out
}

// ofTheRack are the keys whose words name what is not under embargo: stock and
// stages.
var ofTheRack = []string{"sitting.stage", "build.stages done", "build.circuits.branches.lead.wire", "build.circuits.supply",
	"build.circuits.branches.lamps.lamp", "sitting.light tests.readings.after", "sitting.coats.coat"}

// A canary stands in every word of a build under embargo, in its name, and in
// those of its sittings and photos: none of it is in pages, feeds, search files,
// drawings, nor in what machines are given.
func TestEmbargoedBuildLeavesNoTrace(t *testing.T) {
	assembled(t) // opens the shared cache of photos
	base := underEmbargo(t)
	words := slices.DeleteFunc(exampleWords(t, base), func(w word) bool { return !strings.Contains(w.file, canary) })
	list := make([]string, len(words))
	for i := range list {
		list[i] = fmt.Sprintf("%s word %d", canary, i)
	}
	f := fill(t, base, words, list, "", 0)
	planted := map[string]bool{}
	for _, w := range words {
		planted[w.key] = planted[w.key] || !f.kept[w.text]
	}
	for key, is := range planted {
		if !is && !slices.Contains(stay, key) && !slices.Contains(ofTheRack, key) {
			t.Errorf("no canary stands in %s", key)
		}
	}
	if len(planted) < 100 {
		t.Errorf("canaries stand in %d keys", len(planted))
	}
	seen := 0
	for _, file := range f.res.Files {
		seen++
		if at := bytes.Index(bytes.ToLower(file.Bytes), []byte(canary)); at >= 0 {
			t.Errorf("%s: …%s…", file.Path, file.Bytes[max(0, at-60):min(len(file.Bytes), at+60)])
		}
		if strings.Contains(file.Path, canary) {
			t.Errorf("the site holds %s", file.Path)
		}
	}
	if seen < 50 {
		t.Errorf("the site has %d files", seen)
	}
	for _, x := range f.res.Findings.Veiled() {
		if text, err := json.Marshal(x); err != nil || bytes.Contains(text, []byte(canary)) {
			t.Errorf("a finding for machines (%v): %s", err, text)
		}
	}
	if text := fmt.Sprint(f.res.Counts); text != fmt.Sprint(withoutHeld(t, base).Counts) {
		t.Errorf("counts %s", text)
	}
}

// withoutHeld assembles a workshop from which the folders under embargo are gone.
func withoutHeld(t *testing.T, shop fstest.MapFS) *gen.Gathered {
	t.Helper()
	out := fstest.MapFS{}
	for name, file := range shop {
		if !strings.Contains(name, canary) {
			out[name] = file
		}
	}
	settings := strings.Replace(string(out["workshop.yaml"].Data), "line-up: ["+canary+"-marram, ", "line-up: [", 1)
	out["workshop.yaml"] = &fstest.MapFile{Data: []byte(settings)}
	return gathered(t, out)
}

func gathered(t *testing.T, shop fstest.MapFS) *gen.Gathered {
	t.Helper()
	res, err := gen.Gather(context.Background(), (&filled{}).env(t, shop))
	if err != nil {
		t.Fatal(err)
	}
	if res.Files == nil {
		t.Fatal(onlyStops(res.Findings))
	}
	return res
}

func onlyStops(found source.Findings) []string {
	var out []string
	for _, f := range found {
		if f.Severity() == source.Stop {
			out = append(out, fmt.Sprintf("%s:%d [%s] %s", f.At.Name(), f.At.Position().Line, f.Rule.Name, f.Says))
		}
	}
	slices.Sort(out)
	return out
}

// The site with builds under embargo is, byte for byte, the site of a workshop
// in which their folders are not: no count, total, order or drawing knows of
// them.
func TestEmbargoedBuildIsAsIfItWereNotThere(t *testing.T) {
	assembled(t)
	shop := underEmbargo(t)
	for name := range shop { // free pages and builds that show drawings or photos of the others would miss them
		if strings.HasPrefix(name, "wall/") {
			delete(shop, name)
		}
	}
	want := map[string][]byte{}
	for _, f := range withoutHeld(t, shop).Files {
		want[f.Path] = f.Bytes
	}
	for _, f := range gathered(t, shop).Files {
		text, ok := want[f.Path]
		if !ok || !bytes.Equal(text, f.Bytes) {
			t.Errorf("%s differs, or is only there with the embargo (%v)", f.Path, ok)
		}
		delete(want, f.Path)
	}
	for name := range want {
		t.Errorf("%s is missing", name)
	}
}

// What is under embargo, or a draft, stops a run today by what would stop it
// then, and neither time puts any of it into the site.
func TestWithheldIsCheckedToday(t *testing.T) {
	shop := func() fstest.MapFS {
		return fstest.MapFS{
			"workshop.yaml":              {Data: []byte("name: Bench\n")},
			"builds/skiff/build.md":      {Data: []byte("---\nname: Skiff\nstate: bench\nkit: {title: Coastal Skiff, obtained: review sample}\n---\n")},
			"builds/skiff/2026-02-10.md": {Data: []byte("---\nstage: assembly\nhours: 1 h\n---\nOpen.\n")},
			"wall/about.md":              {Data: []byte("---\ntitle: About\n---\nHello.\n")},
		}
	}
	const embargo = "embargo: 2031-01-01 09:00\n"
	for name, c := range map[string]struct{ file, front, rule string }{
		"a review's marks":                         {"builds/skiff/review.md", "date: 2026-02-28\n" + embargo + "marks: {fit: {mark: 12, why: tight}}\nverdict: Sound.\n", "mark-range"},
		"a review without its disclosure":          {"builds/skiff/review.md", "date: 2026-02-28\n" + embargo + "verdict: Sound.\n", "review-undisclosed"},
		"a lamp that a sitting names":              {"builds/skiff/2026-02-14.md", "stage: lighting\n" + embargo + "lit: [D9]\n", "lamp-reference"},
		"a photo of a sitting":                     {"builds/skiff/2026-02-14.md", "stage: lighting\n" + embargo + "photos: [{file: photos/none.jpg, alt: x}]\n", "photo-missing"},
		"an unreadable value of a draft":           {"builds/skiff/2026-02-14.md", "stage: lighting\ndraft: yes\nhours: 3 volts\n", "value"},
		"a stage of a draft":                       {"builds/skiff/2026-02-14.md", "stage: lightning\ndraft: yes\n", "unknown-name"},
		"a supply of a build":                      {"builds/other/build.md", "name: Other\nstate: bench\n" + embargo + "circuits: [{name: c, supply: none, branches: [{name: b, lamps: [x]}]}]\n", "unknown-name"},
		"an unknown key of a draft on the wall":    {"wall/plan.md", "title: Plan\ndraft: yes\nodrer: 3\n", "unknown-key"},
		"a lamp of a sitting of a build held back": {"builds/other/2026-02-14.md", "stage: lighting\nlit: [D7]\n", "lamp-reference"},
	} {
		t.Run(name, func(t *testing.T) {
			files := shop()
			files[c.file] = &fstest.MapFile{Data: []byte("---\n" + c.front + "---\nText.\n")}
			if strings.Contains(c.file, "other/20") {
				files["builds/other/build.md"] = &fstest.MapFile{Data: []byte("---\nname: Other\nstate: bench\n" + embargo + "---\n")}
			}
			if c.rule == "review-undisclosed" {
				files["builds/skiff/build.md"] = &fstest.MapFile{Data: []byte("---\nname: Skiff\nstate: bench\nkit: {title: Coastal Skiff}\n---\n")}
			}
			env := (&filled{}).env(t, files)
			check := func() (source.Findings, []string) {
				res, err := gen.Check(context.Background(), env)
				if err != nil {
					t.Fatal(err)
				}
				return res.Findings, onlyStops(res.Findings)
			}
			found, today := check()
			if !slices.ContainsFunc(found, func(f source.Finding) bool { return f.Rule.Name == c.rule && f.At.Name() == c.file }) {
				t.Errorf("no %s in %s; stops are %v", c.rule, c.file, today)
			}
			env.Moment = env.Moment.AddDate(10, 0, 0)
			if _, later := check(); !slices.Equal(today, later) {
				t.Errorf("stops today %v\nlater %v", today, later)
			}
		})
	}
}

// The bench shows drafts on pages of their own, marked, and counts them nowhere;
// once the key is taken away they are like any other.
func TestBenchShowsDrafts(t *testing.T) {
	assembled(t) // opens the shared cache of photos
	shop := func(draft string) fstest.MapFS {
		return fstest.MapFS{
			"workshop.yaml":              {Data: []byte("name: Bench\n")},
			"builds/skiff/build.md":      {Data: []byte("---\nname: Skiff\nstate: bench\nkit: {title: Coastal Skiff, obtained: bought}\n---\n")},
			"builds/skiff/2026-02-10.md": {Data: []byte("---\nstage: assembly\nhours: 1 h\n---\nOpen.\n")},
			"builds/skiff/2026-02-14.md": {Data: []byte("---\ntitle: Lamps\nstage: lighting\nhours: 4 h\n" + draft + "---\nSee [the first](2026-02-10.md).\n")},
			"builds/skiff/review.md":     {Data: []byte("---\ndate: 2026-02-28\n" + draft + "verdict: Sound.\n---\n")},
			"wall/plans.md":              {Data: []byte("---\ntitle: Plans\n" + draft + "---\nMore.\n")},
		}
	}
	drafts := []string{"skiff/2026-02-14.html", "skiff/review.html", "wall/plans.html"}
	const mark = ">Draft</strong>"
	for _, c := range []struct {
		draft, hours, sittings string
		marked                 bool
	}{
		{"draft: yes\n", "1\u00a0h", "1\u00a0sitting", true},
		{"draft: no\n", "5\u00a0h", "2\u00a0sittings", false},
		{"", "5\u00a0h", "2\u00a0sittings", false},
	} {
		env := (&filled{}).env(t, shop(c.draft))
		shown, found, err := gen.NewSession(env).Update(context.Background(), nil)
		if err != nil || shown == nil {
			t.Fatal(err, found)
		}
		for _, name := range drafts {
			text, ok := shown.File(name)
			if !ok || bytes.Contains(text, []byte(mark)) != c.marked {
				t.Errorf("%q: %s is shown (%v), and marked is not %v", c.draft, name, ok, c.marked)
			}
		}
		index, _ := shown.File("skiff/index.html")
		for _, want := range []string{"<strong>" + c.hours + "</strong>", c.sittings, "2026-02-14.html"} {
			if !bytes.Contains(index, []byte(want)) {
				t.Errorf("%q: the build's page lacks %q", c.draft, want)
			}
		}
		res := gathered(t, shop(c.draft))
		for _, f := range res.Files {
			if slices.Contains(drafts, f.Path) == c.marked && slices.Contains(drafts, f.Path) {
				t.Errorf("%q: %s is in the site", c.draft, f.Path)
			}
			if c.marked && (bytes.Contains(f.Bytes, []byte(mark)) || bytes.Contains(f.Bytes, []byte("2026-02-14.html"))) {
				t.Errorf("%s knows of a draft", f.Path)
			}
		}
	}
}
