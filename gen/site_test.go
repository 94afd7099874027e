package gen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"io"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/testdata/example"
	"spruelight/testdata/outside"
	"spruelight/testdata/view"

	"golang.org/x/net/html"
)

// moment is when the example is assembled in tests.
var moment = example.Moment

func TestMain(m *testing.M) { example.Main(m, view.Close) }

func assembled(t *testing.T) string { return example.Site(t) }

func files(t *testing.T, site, ending string) []string { return example.Files(t, site, ending) }

// The example has no finding that stops or warns, beyond those it shows on
// purpose.
func TestExampleIsClean(t *testing.T) {
	assembled(t)
	res, err := gen.Check(context.Background(), example.Env(t, 0))
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
		res, err := gen.Gather(context.Background(), example.Env(t, workers))
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
	res, err := gen.Gather(context.Background(), example.Env(t, 0))
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
	outside.File(t, "VNU_JAR")
	site := assembled(t)
	for _, kind := range []string{"html", "css", "svg"} {
		var names []string
		for _, name := range files(t, site, "."+kind) {
			names = append(names, filepath.Join(site, name))
		}
		// From disk there is no 'self', so the checker cannot know that the policy is kept.
		out, err := view.Nu(t, kind, names, "--Werror",
			"--filterpattern", `Resource violates Content Security Policy.*(external stylesheet|external script|image) .* blocked by.*`)
		if err != nil {
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
	res, err := gen.Gather(context.Background(), example.Env(t, 0))
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

// The index of the example stays under 150 kB, the script under 15 kB, a build's
// page with style and drawings, photos aside, under 60 kB, and any page with drawings under 200 kB.
func TestWeights(t *testing.T) {
	site := assembled(t)
	size := func(names ...string) (sum int64) {
		for _, name := range names {
			info, err := os.Stat(filepath.Join(site, name))
			if err != nil {
				t.Fatal(err)
			}
			sum += info.Size()
		}
		return sum
	}
	index, _ := filepath.Glob(filepath.Join(site, "search", "*.js"))
	sum := int64(0)
	for _, name := range index {
		rel, _ := filepath.Rel(site, name)
		sum += size(rel)
	}
	if sum == 0 || sum > 150_000 {
		t.Errorf("the search index is %d bytes", sum)
	}
	if n := size("script.js"); n > 15_000 {
		t.Errorf("the script is %d bytes", n)
	}
	for _, build := range []string{"marram", "cairnhead", "pumphouse", "lanternhouse", "dunnock"} {
		text, err := os.ReadFile(filepath.Join(site, build, "index.html"))
		if err != nil {
			t.Fatal(err)
		}
		if n := int64(len(text)) + size("style.css"); n > 60_000 {
			t.Errorf("%s weighs %d bytes", build, n)
		}
	}
	for _, name := range files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if n := len(text); err != nil || n > 200_000 && strings.Contains(string(text), `class="drawing"`) {
			t.Errorf("%s weighs %d bytes (%v)", name, n, err)
		}
	}
}

// The JSON feed is one by JSON Feed 1.1, newest first, with whole addresses,
// and a disclosure before all else where one is due.
func TestJSONFeed(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(assembled(t), "feed.json"))
	if err != nil {
		t.Fatal(err)
	}
	var feed struct {
		Version, Title, Home_Page_URL, Feed_URL string
		Items                                   []struct {
			ID, URL, Title, Content_HTML, Summary, Date_Published string
		}
	}
	if err := json.Unmarshal(text, &feed); err != nil {
		t.Fatal(err)
	}
	if feed.Version != "https://jsonfeed.org/version/1.1" || feed.Title == "" || feed.Feed_URL != "https://bench.example/feed.json" || len(feed.Items) == 0 {
		t.Errorf("%+v", feed)
	}
	if !slices.IsSortedFunc(feed.Items, func(a, b struct {
		ID, URL, Title, Content_HTML, Summary, Date_Published string
	}) int {
		return strings.Compare(b.Date_Published, a.Date_Published)
	}) {
		t.Error("the newest entry does not stand first")
	}
	relative := regexp.MustCompile(`(?:src|href)="(?:[^h#]|h[^t])`)
	for _, item := range feed.Items {
		if item.ID == "" || item.Content_HTML == "" || !strings.HasPrefix(item.URL, "https://bench.example/") {
			t.Errorf("%s: id, url or content is missing", item.Title)
		}
		if _, err := time.Parse(time.RFC3339, item.Date_Published); err != nil {
			t.Error(err)
		}
		if m := relative.FindString(item.Content_HTML); m != "" {
			t.Errorf("%s: relative address %s", item.Title, m)
		}
		if strings.Contains(item.URL, "/marram/") && !strings.HasPrefix(item.Content_HTML, "<p><strong>") {
			t.Errorf("%s: a review sample, and the disclosure does not come first: %.60s", item.Title, item.Content_HTML)
		}
	}
}
