package gen_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"io"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/testdata/outside"
	"spruelight/themes"

	"golang.org/x/net/html"
)

// moment is when the example is assembled in tests.
var moment = time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC)

// example is the example workshop, assembled once for all tests.
var example = sync.OnceValues(func() (site string, err error) {
	dir, err := os.MkdirTemp("", "spruelight-example")
	if err != nil {
		return "", err
	}
	cleanUp = append(cleanUp, dir)
	cache, err := photo.OpenCache(filepath.Join(dir, "cache"), "example", photo.DefaultCacheBytes)
	if err != nil {
		return "", err
	}
	shared = cache
	res, err := gen.Gather(context.Background(), exampleEnv(0))
	if err != nil {
		return "", err
	}
	site = filepath.Join(dir, "site")
	_, err = output.Write(context.Background(), site, res.Files, output.Options{})
	return site, err
})

var (
	cleanUp []string
	shared  *photo.Cache
)

func TestMain(m *testing.M) {
	code := m.Run()
	for _, dir := range cleanUp {
		os.RemoveAll(dir)
	}
	os.Exit(code)
}

func exampleEnv(workers int) gen.Env {
	return gen.Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: moment, Workers: workers, Photos: shared, Version: "test"}
}

func assembled(t *testing.T) string {
	t.Helper()
	site, err := example()
	if err != nil {
		t.Fatal(err)
	}
	return site
}

// files returns the site's files with an ending, relative to it.
func files(t *testing.T, site, ending string) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(site, func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(name, ending) {
			rel, _ := filepath.Rel(site, name)
			list = append(list, filepath.ToSlash(rel))
		}
		return err
	})
	if err != nil || len(list) == 0 {
		t.Fatalf("no %s in the site (%v)", ending, err)
	}
	return list
}

// The example has no finding that stops or warns, beyond those it shows on
// purpose.
func TestExampleIsClean(t *testing.T) {
	assembled(t)
	res, err := gen.Check(context.Background(), exampleEnv(0))
	if err != nil {
		t.Fatal(err)
	}
	if res.Findings.Stops() {
		for _, f := range res.Findings {
			t.Errorf("%s %s:%d %s", f.Rule.Name, f.At.Name(), f.At.Position().Line, f.Says.String())
		}
	}
}

// The same input gives the same bytes, whatever the number of workers.
func TestSameBytesWithOneAndEightWorkers(t *testing.T) {
	assembled(t)
	var runs [2][]output.File
	for i, workers := range []int{1, 8} {
		res, err := gen.Gather(context.Background(), exampleEnv(workers))
		if err != nil || res.Counts.Made != 0 {
			t.Fatalf("%v; %d photos made again", err, res.Counts.Made)
		}
		runs[i] = res.Files
	}
	if len(runs[0]) != len(runs[1]) {
		t.Fatalf("%d and %d files", len(runs[0]), len(runs[1]))
	}
	for i, a := range runs[0] {
		b := runs[1][i]
		if a.Path != b.Path || a.Hash != b.Hash || !bytes.Equal(a.Bytes, b.Bytes) {
			t.Errorf("%s differs from %s", a.Path, b.Path)
		}
	}
}

// A second run makes no photo and rewrites no unchanged file.
func TestSecondRunWritesNothing(t *testing.T) {
	site := assembled(t)
	res, err := gen.Gather(context.Background(), exampleEnv(0))
	if err != nil {
		t.Fatal(err)
	}
	report, err := output.Write(context.Background(), site, res.Files, output.Options{})
	if err != nil || res.Counts.Made != 0 || report.Written != 0 || report.Removed != 0 {
		t.Errorf("%v: %d photos made, %+v", err, res.Counts.Made, report)
	}
}

// Every address on every page leads to a file of the site, and every fragment
// to an id on it.
func TestEveryLinkLeadsSomewhere(t *testing.T) {
	site := assembled(t)
	ids := map[string][]string{}
	docs := map[string]*html.Node{}
	for _, name := range files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		doc, err := html.Parse(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		docs[name] = doc
		eachAttr(doc, func(_ *html.Node, key, value string) {
			if key == "id" {
				if slices.Contains(ids[name], value) {
					t.Errorf("%s: id %q stands twice", name, value)
				}
				ids[name] = append(ids[name], value)
			}
		})
	}
	checked := 0
	for name, doc := range docs {
		eachAttr(doc, func(n *html.Node, key, value string) {
			for _, address := range addresses(n, key, value) {
				checked++
				if fault := follow(site, name, address, ids); fault != "" {
					t.Errorf("%s: %s=%q %s", name, key, address, fault)
				}
			}
		})
	}
	if checked < 500 {
		t.Errorf("only %d addresses were checked", checked)
	}
}

func eachAttr(n *html.Node, do func(n *html.Node, key, value string)) {
	for _, a := range n.Attr {
		do(n, a.Key, a.Val)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		eachAttr(c, do)
	}
}

// addresses returns what an attribute points to.
func addresses(n *html.Node, key, value string) []string {
	switch {
	case key == "href" || key == "src":
		return []string{value}
	case key == "srcset":
		var list []string
		for _, part := range strings.Split(value, ",") {
			list = append(list, strings.Fields(part)[0])
		}
		return list
	}
	return nil
}

func follow(site, from, address string, ids map[string][]string) string {
	u, err := url.Parse(address)
	switch {
	case err != nil:
		return err.Error()
	case u.Scheme != "":
		return ""
	case strings.HasPrefix(u.Path, "/"):
		return "is not relative"
	}
	to := from
	if u.Path != "" {
		to = path.Join(path.Dir(from), u.Path)
	}
	if _, err := os.Stat(filepath.Join(site, to)); err != nil {
		return "leads nowhere"
	}
	if u.Fragment != "" && !slices.Contains(ids[to], u.Fragment) {
		return "has no such place"
	}
	return ""
}

// HTML, styles and drawings by the Nu checker (validator.github.io/validator),
// errors and warnings alike.
func TestNuChecker(t *testing.T) {
	java, jar := outside.Tool(t, "java"), outside.File(t, "VNU_JAR")
	site := assembled(t)
	for _, kind := range []string{"html", "css", "svg"} {
		args := []string{"-Xss4m", "-jar", jar, "--" + kind, "--Werror", "--filterpattern",
			// From disk there is no 'self', so the checker cannot know that the policy is kept.
			`Resource violates Content Security Policy.*(external stylesheet|external script|image) .* blocked by.*`}
		for _, name := range files(t, site, "."+kind) {
			args = append(args, filepath.Join(site, name))
		}
		if out, err := exec.Command(java, args...).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", kind, err, out)
		}
	}
}

// The feed by the RELAX NG schema of RFC 4287, appendix B, and by the rules
// the schema cannot say: an author, and content or an alternate link.
func TestAtomFeed(t *testing.T) {
	site := assembled(t)
	text, err := os.ReadFile(filepath.Join(site, "atom.xml"))
	if err != nil {
		t.Fatal(err)
	}
	var feed struct {
		Author struct {
			Name string `xml:"name"`
		} `xml:"author"`
		Entry []struct {
			ID      string `xml:"id"`
			Content string `xml:"content"`
		} `xml:"entry"`
	}
	if err := xml.Unmarshal(text, &feed); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, e := range feed.Entry {
		if seen[e.ID] || e.ID == "" || e.Content == "" {
			t.Errorf("entry %q: no id of its own, or no content", e.ID)
		}
		seen[e.ID] = true
	}
	if feed.Author.Name == "" || len(feed.Entry) < 10 {
		t.Errorf("author %q, %d entries", feed.Author.Name, len(feed.Entry))
	}
	jing := outside.Tool(t, "jing")
	if out, err := exec.Command(jing, "-c", "../testdata/atom.rnc", filepath.Join(site, "atom.xml")).CombinedOutput(); err != nil {
		t.Errorf("jing: %v\n%s", err, out)
	}
}

// No rendition carries anything but its size: exiftool reads all of them. The
// originals do carry cameras and positions, or the check would prove nothing.
func TestPicturesCarryNoMetadata(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	site := assembled(t)
	read := func(dir string) string {
		out, err := exec.Command(exiftool, "-q", "-r", "-m", "-ee", "-a", "-G1", "-s", "-ext", "jpg", "-ext", "png", "-ext", "webp",
			"-EXIF:all", "-GPS:all", "-MakerNotes:all", "-XMP:all", "-IPTC:all", "-Photoshop:all", "-File:Comment", "-ICC_Profile:all", "-Error", dir).CombinedOutput()
		if err != nil && !bytes.Contains(out, []byte("=")) {
			t.Fatalf("exiftool: %v\n%s", err, out)
		}
		var lines []string
		for _, line := range strings.Split(string(out), "\n") {
			if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "====") {
				lines = append(lines, line)
			}
		}
		return strings.Join(lines, "\n")
	}
	if found := read(site); found != "" {
		t.Errorf("metadata in the site:\n%s", found)
	}
	if found := read("../content-example/builds"); !strings.Contains(found, "GPSLatitude") || !strings.Contains(found, "Model") {
		t.Errorf("the example's originals carry no position or camera:\n%.400s", found)
	}
}

// Every rendition opens and has the size that the page states.
func TestRenditionsAreWhole(t *testing.T) {
	assembled(t)
	res, err := gen.Gather(context.Background(), exampleEnv(0))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range res.Files {
		if f.Open == nil {
			continue
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		n, err := io.Copy(io.Discard, r)
		r.Close()
		if err != nil || n != f.Size {
			t.Errorf("%s: %d bytes of %d (%v)", f.Path, n, f.Size, err)
		}
	}
}
