package tally

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/testdata/outside"
)

func chapters(pairs ...any) []Chapter {
	var out []Chapter
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, Chapter{Start: val(quantity.Stamp(pairs[i].(int))), Title: pairs[i+1].(string)})
	}
	return out
}

func film() Video {
	return Video{Address: "https://video.example/w/7", Length: val(quantity.Stamp(872)),
		Chapters: chapters(0, "What is on the bench", 160, "First coat of black", 480, "Lamps & leaks")}
}

func TestShowNotes(t *testing.T) {
	n := Notes{
		Title: "Survey skiff “Marram”: light blocking", What: "Sitting 3 of a 1/48 survey skiff, lit from within.",
		Disclosure: Disclosure{Due: true, Sentence: source.Word("Halden Model Works sent this kit free of charge for review.")},
		Video:      film(),
		Lists: []NoteList{{"Paints", []string{"black, for light\nblocking", "silver"}}, {"Tools", nil},
			{"Lamps", []string{"2 × warm white 3 mm with 220 ohm"}}},
		Links: []Link{{"The log", "https://bench.example/builds/marram/2026-02-14/"}},
	}
	want := `Halden Model Works sent this kit free of charge for review.

Survey skiff “Marram”: light blocking
Sitting 3 of a 1/48 survey skiff, lit from within.

Chapters
0:00 What is on the bench
2:40 First coat of black
8:00 Lamps & leaks

Paints
- black, for light blocking
- silver

Lamps
- 2 × warm white 3 mm with 220 ohm

Links
The log: https://bench.example/builds/marram/2026-02-14/
`
	got, findings := ShowNotes(n, 0)
	if got != want || len(findings) > 0 {
		t.Errorf("got\n%s\nfindings %v", got, findings)
	}
	short, findings := ShowNotes(n, len([]rune(want))-10)
	if strings.Contains(short, "Lamps\n") || !strings.Contains(short, "Paints\n") || rules(findings) != "show-notes-shortened" {
		t.Errorf("shortened to\n%s\nfindings %v", short, findings)
	}
	none, findings := ShowNotes(n, 60)
	if !strings.HasPrefix(none, n.Disclosure.Sentence.String()) || !findings.Stops() {
		t.Errorf("a limit must never cut the disclosure:\n%s\nfindings %v", none, findings)
	}
	n.Disclosure.Due = false
	if got, _ = ShowNotes(n, 0); !strings.HasPrefix(got, n.Title) {
		t.Errorf("a bought kit needs no disclosure first:\n%s", got)
	}
}

func TestStampsOfALongVideoAllHaveHours(t *testing.T) {
	n := Notes{Title: "x", Video: Video{Chapters: chapters(0, "a", 65, "b", 754, "c", 3725, "d")}}
	got, _ := ShowNotes(n, 0)
	if !strings.Contains(got, "0:00:00 a\n0:01:05 b\n0:12:34 c\n1:02:05 d") {
		t.Errorf("got\n%s", got)
	}
}

func TestChapterRules(t *testing.T) {
	for name, c := range map[string]struct {
		chapters []Chapter
		rules    string
	}{
		"none at all":     {nil, ""},
		"three, in order": {chapters(0, "a", 10, "b", 20, "c"), ""},
		"late start":      {chapters(5, "a", 20, "b", 40, "c"), "chapter-first"},
		"only two":        {chapters(0, "a", 20, "b"), "chapter-too-few"},
		"nine seconds":    {chapters(0, "a", 9, "b", 40, "c"), "chapter-too-close"},
		"out of order":    {chapters(0, "a", 40, "b", 20, "c"), "chapter-order"},
		"twice":           {chapters(0, "a", 20, "b", 20, "c"), "chapter-order"},
		"after the end":   {chapters(0, "a", 20, "b", 900, "c"), "chapter-after-end"},
		"without a title": {chapters(0, "a", 20, " ", 40, "c"), "chapter-title"},
	} {
		v := Video{Length: val(quantity.Stamp(872)), Chapters: c.chapters}
		if got := rules(CheckChapters(v)); got != c.rules {
			t.Errorf("%s: findings %q, want %q", name, got, c.rules)
		}
	}
}

func TestWebVTT(t *testing.T) {
	got, findings := WebVTT(film())
	want := "WEBVTT\n\n1\n00:00:00.000 --> 00:02:40.000\nWhat is on the bench\n\n2\n00:02:40.000 --> 00:08:00.000\nFirst coat of black\n\n3\n00:08:00.000 --> 00:14:32.000\nLamps &amp; leaks\n"
	if got != want || len(findings) > 0 {
		t.Errorf("got %q\nfindings %v", got, findings)
	}
	for name, v := range map[string]Video{
		"no length":    {Chapters: chapters(0, "a", 20, "b", 40, "c")},
		"out of order": {Length: val(quantity.Stamp(100)), Chapters: chapters(0, "a", 40, "b", 20, "c")},
		"past the end": {Length: val(quantity.Stamp(30)), Chapters: chapters(0, "a", 20, "b", 40, "c")},
	} {
		if got, findings := WebVTT(v); got != "" || len(findings) == 0 {
			t.Errorf("%s: wrote %q without a word", name, got)
		}
	}
}

// A browser reads back what was written, markup, arrows and blank lines in
// titles included.
func TestWebVTTIsReadByABrowser(t *testing.T) {
	chromium := outside.Tool(t, "chromium")
	video := Video{Length: val(quantity.Stamp(40000)), Chapters: chapters(0, "Lamps & leaks", 15, "5 < 6 --> light", 30, "two\n\nlines", 7265, "“Marram” <b>lit</b>", 39000, "the end")}
	vtt, findings := WebVTT(video)
	if len(findings) > 0 {
		t.Fatal(findings)
	}
	page := `<!doctype html><video><track default kind="chapters" src="/c.vtt"></video><pre></pre><script>
const track = document.querySelector("track");
track.track.mode = "hidden";
track.onload = () => { document.querySelector("pre").textContent = JSON.stringify([...track.track.cues].map(c => [c.startTime, c.endTime, c.getCueAsHTML().textContent])); };
track.onerror = () => { document.querySelector("pre").textContent = "refused"; };
</script>`
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/c.vtt" {
			w.Header().Set("Content-Type", "text/vtt")
			fmt.Fprint(w, vtt)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, page)
	}))
	defer server.Close()
	out, err := exec.Command(chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir="+t.TempDir(), "--virtual-time-budget=5000", "--dump-dom", server.URL).Output()
	if err != nil {
		outside.Missing(t, "chromium did not run: "+err.Error())
	}
	_, rest, _ := strings.Cut(string(out), "<pre>")
	text, _, _ := strings.Cut(rest, "</pre>")
	text = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(text)
	var cues [][]any
	if err := json.Unmarshal([]byte(text), &cues); err != nil {
		t.Fatalf("the browser says %q", text)
	}
	want := "[[0 15 Lamps & leaks] [15 30 5 < 6 --> light] [30 7265 two lines] [7265 39000 “Marram” <b>lit</b>] [39000 40000 the end]]"
	if got := fmt.Sprint(cues); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func FuzzWebVTTKeepsItsForm(f *testing.F) {
	f.Add("a", "b --> c", "d\n\nWEBVTT")
	f.Fuzz(func(t *testing.T, a, b, c string) {
		vtt, findings := WebVTT(Video{Length: val(quantity.Stamp(60)), Chapters: chapters(0, a, 20, b, 40, c)})
		if len(findings) > 0 {
			return
		}
		if strings.Count(vtt, "-->") != 3 || len(strings.Split(strings.TrimSpace(vtt), "\n\n")) != 4 {
			t.Fatalf("%q", vtt)
		}
		text, _ := ShowNotes(Notes{Title: a, What: b, Lists: []NoteList{{"Paints", []string{c}}}, At: source.Span{}}, 0)
		if strings.Contains(text, "\r") {
			t.Fatalf("%q", text)
		}
	})
}
