package journal

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/source"
)

// shop returns a small workshop that reads without a finding.
func shop() fstest.MapFS {
	return fstest.MapFS{
		"workshop.yaml":      plain("name: The Bench\ncurrency: EUR\n"),
		"rack/lamps.yaml":    plain("white-3mm:\n  colour: white\n  forward: [2.75 V @ 2 mA, 3.2 V @ 20 mA]\n"),
		"rack/supplies.yaml": plain("usb: {kind: usb, volts: 5 V}\n"),
		"builds/skiff/build.md": plain("---\nname: Skiff\nstate: bench\nscale: 1/48\nareas:\n  hull inside: {material: styrene}\ncircuits:\n  - name: main\n    supply: usb\n" +
			"    branches:\n      - {name: fore, lamps: [white-3mm], current: 10 mA}\n---\nHello.\n"),
		"builds/skiff/2026-02-14.md": plain("---\nhours: 3 h 20 min\nstage: lighting\nphotos: [{file: photos/a.jpg, alt: a lamp}]\n---\nLit.\n"),
		"builds/skiff/photos/a.jpg":  plain("x"),
		"builds/skiff/.hidden":       plain("x"),
		"wall/about.md":              plain("---\ntitle: About\n---\nUs.\n"),
	}
}

func plain(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

func readAll(fsys fstest.MapFS) (*Workshop, source.Findings) {
	w, found := Open(fsys)
	for _, b := range w.Builds {
		found.Add(w.ReadBuild(fsys, b)...)
	}
	found.Sort()
	return w, found
}

func TestReadsAWorkshop(t *testing.T) {
	w, found := readAll(shop())
	for _, f := range found {
		t.Errorf("unexpected finding: %s %s", f.Rule.Name, f.Says.String())
	}
	b, ok := w.Build("skiff")
	if !ok || len(b.Sittings) != 1 || b.Sittings[0].Front.Hours.V.String() != "3 h 20 min" {
		t.Fatalf("build read as %+v", b)
	}
	current := b.Front.Circuits[0].Branches[0].Current
	if p := current.At.Position(); current.V != 0.01 || p.Line != 11 || p.Column != 51 || current.At.Text() != "10 mA" {
		t.Errorf("current %v stands at %+v as %q", current.V, p, current.At.Text())
	}
	if lamp := b.Front.Circuits[0].Branches[0].Lamps[0].Lamp; lamp.V != "white-3mm" {
		t.Errorf("lamp in short form is %+v", lamp)
	}
	if len(w.Wall) != 1 || w.Wall[0].Front.Title.V != "About" {
		t.Errorf("wall read as %+v", w.Wall)
	}
}

// Each case changes one file and expects one finding: its rule, its place and
// words of its message and remedy.
func TestMistakes(t *testing.T) {
	build := "builds/skiff/build.md"
	sitting := "builds/skiff/2026-02-14.md"
	for _, c := range []struct{ name, file, from, to, rule, place, says, remedy string }{
		{"unknown key", build, "state: bench", "stat: bench", "unknown-key", "3:1", `"stat"`, "write state"},
		{"missing key", build, "state: bench\n", "", "missing-key", "2:1", "no state", "state: bench"},
		{"key twice", build, "state: bench", "name: Twice\nstate: bench", "key-twice", "3:1", "name stands twice", "keep one"},
		{"missing unit", build, "current: 10 mA", "current: 10", "value", "11:51", "no unit", "12 mA"},
		{"wrong unit", build, "current: 10 mA", "current: 10 mV", "value", "11:54", "not a unit of current", "12 mA"},
		{"mapping for value", build, "scale: 1/48", "scale: {a: 1}", "wrong-shape", "4:8", "single value is wanted", ""},
		{"a word of a vocabulary", build, "{material: styrene}", "{material: styren}", "value", "6:27", `"styren" is no word for material; did you mean "styrene"?`, "write one of: styrene, resin, photo-etch"},
		{"a list of them", build, "{material: styrene}", "{material: styrene, treatments: [sanded, scrubbed]}", "value", "6:57", `"scrubbed" is no word for treatments`, "dipped in clear"},
		{"value for mapping", build, "  hull inside: {material: styrene}", "  hull inside: styrene", "wrong-shape", "6:16", "a mapping is wanted", ""},
		{"unknown lamp", build, "[white-3mm]", "[white-5mm]", "unknown-name", "11:30", `did you mean "white-3mm"`, "rack/lamps.yaml"},
		{"unknown supply", build, "supply: usb", "supply: ubs", "unknown-name", "9:13", `did you mean "usb"`, ""},
		{"wrong word", build, "state: bench", "state: bensh", "value", "3:8", `did you mean "bench"`, "stash"},
		{"broken yaml", build, "scale: 1/48", "scale: [1/48", "syntax", "", "not YAML", "close it with ]"},
		{"alias", build, "scale: 1/48", "scale: *x", "wrong-shape", "4:8", "aliases", "write the value out"},
		{"no front matter", build, "---\nname", "name", "syntax", "1:1", "no front matter", "begin the file"},
		{"unclosed front matter", build, "---\nHello.\n", "", "syntax", "1:1", "no front matter", "end the front matter"},
		{"minutes or hours", sitting, "3 h 20 min", "1:30", "value", "2:8", "hours and minutes or minutes and seconds", "1 h 30 min"},
		{"unknown stage", sitting, "stage: lighting", "stage: lightning", "unknown-name", "3:8", `did you mean "lighting"`, "assembly"},
		{"missing photo", sitting, "photos/a.jpg", "photos/b.jpg", "photo-missing", "4:17", "no file", `did you mean "a.jpg"`},
		{"photo outside", sitting, "photos/a.jpg", "../other/a.jpg", "outside-folder", "4:17", "outside", "copy the picture"},
		{"photo absolute", sitting, "photos/a.jpg", "/etc/passwd", "outside-folder", "4:17", "outside", ""},
		{"no alt text", sitting, ", alt: a lamp", "", "alt-missing", "4:17", "no alt text", "add alt:"},
		{"raw html", sitting, "Lit.", "Lit <b>bold</b>.", "raw-html", "6:5", "shown as text", ""},
		{"script link", sitting, "Lit.", "[x](javascript:alert)", "link-scheme", "6:1", "javascript", "http"},
		{"script as the site's address", "workshop.yaml", "currency: EUR", "address: \"java\\tscript:alert(1)\"", "link-scheme", "2:10", "javascript", "https://"},
		{"address without a scheme", "workshop.yaml", "currency: EUR", "address: bench.example", "value", "2:10", "no web address", "in full"},
		{"address that ends in a question", "workshop.yaml", "currency: EUR", "address: https://bench.example/?a", "value", "2:10", "beginning", "leave out"},
		{"address with a name in it", "workshop.yaml", "currency: EUR", "address: https://a@bench.example/", "value", "2:10", "no web address", ""},
		{"data as a film's address", sitting, "stage: lighting", "stage: lighting\nvideo: {address: 'data:text/html,x'}", "link-scheme", "4:18", "data", "https://"},
		{"hidden character", sitting, "Lit.", "L\u202eit.", "hidden-character", "6:2", "U+202E", "delete it"},
		{"hidden character as an escape", sitting, "alt: a lamp", `alt: "a \x1b[31m lamp"`, "hidden-character", "4:36", "U+001B", "delete it"},
		{"hidden character in a name", build, "hull inside", `"hull\u2066 inside"`, "hidden-character", "6:3", "U+2066", "delete it"},
		{"hidden character by number", sitting, "Lit.", "L `&#7;` \\&#7; &#x202E;it.", "hidden-character", "6:16", "U+202E", "delete it"},
		{"remote picture", sitting, "Lit.", "![x](https://other.example/x.jpg)", "outside-folder", "6:1", "another address", ""},
		{"not a sitting", sitting, "hours", "hurs", "unknown-key", "2:1", `"hurs"`, "write hours"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fsys := shop()
			changed := strings.Replace(string(fsys[c.file].Data), c.from, c.to, 1)
			if changed == string(fsys[c.file].Data) {
				t.Fatal("the case changes nothing")
			}
			fsys[c.file] = plain(changed)
			_, found := readAll(fsys)
			for _, f := range found {
				p := f.At.Position()
				place := fmt.Sprintf("%d:%d", p.Line, p.Column)
				if f.Rule.Name == c.rule && (c.place == "" || place == c.place) && strings.Contains(f.Says.String(), c.says) && strings.Contains(f.Do.String(), c.remedy) && f.At.Name() == c.file {
					return
				}
				t.Logf("found %s at %s:%s: %s; %s", f.Rule.Name, f.At.Name(), place, f.Says.String(), f.Do.String())
			}
			t.Errorf("no finding %s at %s:%s with %q and %q", c.rule, c.file, c.place, c.says, c.remedy)
		})
	}
}

func TestFileNamesAndEncodings(t *testing.T) {
	for _, c := range []struct{ name, file, data, rule, says string }{
		{"no such day", "builds/skiff/2026-02-30.md", "---\nstage: lighting\n---\n", "date", "no day 2026-02-30"},
		{"no date", "builds/skiff/first-try.md", "---\nstage: lighting\n---\n", "stray-file", "its name is no date"},
		{"upper case folder", "builds/Skiff Two/build.md", "---\nname: x\n---\n", "unread-journal", "cannot be part of an address"},
		{"latin 1", "builds/skiff/2026-02-15.md", "---\nstage: lighting\n---\nfa\xe7ade\n", "not-utf-8", "byte 27"},
		{"bom and latin 1", "builds/skiff/2026-02-15.md", "\ufeff---\nstage: lighting\n---\nfa\xe7ade\n", "not-utf-8", "byte 30"},
		{"nul", "builds/skiff/2026-02-15.md", "---\nstage: lighting\n---\n\x00", "not-utf-8", "NUL"},
		{"after the finish", "builds/skiff/build.md", "---\nname: x\nstate: shelf\nfinished: 2026-01-01\n---\n", "after-finish", "after the build was finished"},
		{"unknown rack file", "rack/tools.yaml", "a: b\n", "stray-file", "rack/tools.yaml"},
	} {
		fsys := shop()
		fsys[c.file] = plain(c.data)
		_, found := readAll(fsys)
		ok := false
		for _, f := range found {
			ok = ok || f.Rule.Name == c.rule && strings.Contains(f.Says.String(), c.says)
		}
		if !ok {
			t.Errorf("%s: no finding %s with %q in %v", c.name, c.rule, c.says, found)
		}
	}
}

// Lines end in LF or CRLF, and a byte order mark may come first: the same
// values are read, at the same lines and columns.
func TestLineEndings(t *testing.T) {
	fsys := shop()
	for name, file := range fsys {
		if strings.HasSuffix(name, ".md") || strings.HasSuffix(name, ".yaml") {
			fsys[name] = plain("\ufeff" + strings.ReplaceAll(string(file.Data), "\n", "\r\n"))
		}
	}
	w, found := readAll(fsys)
	for _, f := range found {
		t.Errorf("unexpected finding: %s %s", f.Rule.Name, f.Says.String())
	}
	b, _ := w.Build("skiff")
	current := b.Front.Circuits[0].Branches[0].Current
	if p := current.At.Position(); p.Line != 11 || p.Column != 51 || current.At.Text() != "10 mA" {
		t.Errorf("current stands at %+v as %q", p, current.At.Text())
	}
}

func TestAllMistakesAreReportedInOneRun(t *testing.T) {
	fsys := shop()
	fsys["builds/skiff/build.md"] = plain("---\nname: Skiff\nstat: bench\nscale: 48\nareas: [a]\ncircuits:\n  - name: main\n    suply: usb\n    branches: []\n---\n")
	_, found := readAll(fsys)
	if len(found) < 5 {
		t.Errorf("only %d findings: %v", len(found), found)
	}
}

func TestMarkdown(t *testing.T) {
	into := Into{Link: func(dest string) (string, bool) { return "to/" + dest, dest != "gone.md" },
		Picture: func(p Picture) string { return "<img alt=\"" + p.Alt + "\">" }}
	for _, c := range []struct{ from, want string }{
		{"# A\n\n## B", "<h2 id=\"a\">A</h2>\n<h3 id=\"b\">B</h3>\n"},
		{"## A\n\n# B\n\n#### C", "<h2 id=\"a\">A</h2>\n<h2 id=\"b\">B</h2>\n<h3 id=\"c\">C</h3>\n"},
		{"[x](a.md)", "<p><a href=\"to/a.md\">x</a></p>\n"},
		{"[x](gone.md)", "<p>x</p>\n"},
		{"[x](javascript:alert)", "<p>x</p>\n"},
		{"<https://a.example/>", "<p><a href=\"https://a.example/\">https://a.example/</a></p>\n"},
		{"a <b>c</b>", "<p>a &lt;b&gt;c&lt;/b&gt;</p>\n"},
		{"<script>x</script>", "<p>&lt;script&gt;x&lt;/script&gt;</p>\n"},
		{"![lamp](a.jpg)", "<img alt=\"lamp\">\n"},
		{"see ![lamp](a.jpg)", "<p>see <img alt=\"lamp\"></p>\n"},
		{"- [x] done\n- [ ] open", "<ul>\n<li>☑ done</li>\n<li>☐ open</li>\n</ul>\n"},
		{"|a|b|\n|-|-:|\n|1|2|", "<table>\n<thead>\n<tr>\n<th>a</th>\n<th class=\"right\">b</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<td>1</td>\n<td class=\"right\">2</td>\n</tr>\n</tbody>\n</table>\n"},
		{"|a|b &amp; c \\* \\| <br>|d|\n|-|-|-|\n|1|2|3|\n", "<table class=\"folds\">\n<thead>\n<tr>\n<th>a</th>\n<th>b &amp; c * | &lt;br&gt;</th>\n<th>d</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<td>1</td>\n<td data-th=\"b &amp; c * | &lt;br&gt;\">2</td>\n<td data-th=\"d\">3</td>\n</tr>\n</tbody>\n</table>\n"},
		{"|a|b & *c*|d|\n|-|-:|-|\n|1|2|\n", "<table class=\"folds\">\n<thead>\n<tr>\n<th>a</th>\n<th class=\"right\">b &amp; <em>c</em></th>\n<th>d</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<td>1</td>\n<td class=\"right\" data-th=\"b &amp; c\">2</td>\n<td data-th=\"d\"></td>\n</tr>\n</tbody>\n</table>\n"},
		{"~~old~~ \"new\"", "<p><del>old</del> &ldquo;new&rdquo;</p>\n"},
		{"```c\nint led = 9;\n```", "<pre class=\"code\" tabindex=\"0\"><code><span class=\"c-kt\">int</span>"},
		{"```nolang\n<b>\n```", "<pre class=\"code\" tabindex=\"0\"><code>&lt;b&gt;\n</code></pre>\n"},
	} {
		b, _ := parseBody(source.NewFile("a.md", c.from), 0)
		if got := b.HTML(into); !strings.HasPrefix(got, c.want) {
			t.Errorf("%q renders\n%s\nwant\n%s", c.from, got, c.want)
		}
	}
}
