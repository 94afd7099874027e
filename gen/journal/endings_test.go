package journal

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// A file says the same, in the same places, however its lines end and whether
// or not it begins with a byte-order mark.
func TestPlacesWithOtherLineEndings(t *testing.T) {
	sittings := []string{
		"---\nstage: sailing\n---\n",
		"---\nhours: 2 hx\nstage: lighting # so\n---\n",
		"---\nhours: 2 hx  # so\nstage: lighting\n---\n",
		"---\nhours: \"2 hx\"\nstage: 'x'\n---\n",
		"---\nphotos: [{file: a.jpg, alt: x}, {fiel: b.jpg}]\n---\n",
		"---\nphotos:\n  - file: ä.jpg\n    alt: ö\n  - {file: b.jpg,\n     alt: c}\n---\n",
		"---\nunknown:\nlit: [D1, X9]\n---\n",
		"---\ntitle: |\n  one\n  two\nclosed: [hull\n  inside]\n---\n",
		"---\ntitle: >-\n  one\n  two\nhours: soon\n---\n",
		"---\nstage: lighting\nstage: painting\n---\n",
		"---\nstage: {\n---\n",
		"---\n\tstage: lighting\n---\n",
		"---\ncoats: [{area: hull inside, coat: blakc, at: \"19:30\"}]\nreadings: [{at: saloon, current: 9.6 mX}]\n---\n",
		"---\nspent: [{on: wire, price: 6.50 EURO}]\n---\nSee [here](gopher://x) and ![no words](a.jpg).\n\n| a | b |\n| --- | --- |\n| <b>x</b> | y |\n",
		"---\nvideo: {address: \"https://video.example/w/7\", length: \"14:99\", chapters: {\"0:00\": a, \"2:40\": b}}\n---\n",
		"---\nstage: lighting\n---\n```\ncode\n```\n\n<script>x</script>\n",
		"stage: lighting\n",
		"---\nstage: lighting\n",
	}
	for _, text := range sittings {
		want := findingsOf(t, text)
		crlf := strings.ReplaceAll(text, "\n", "\r\n")
		for name, other := range map[string]string{"blanks": strings.ReplaceAll(text, "\n", "  \n"), "CRLF": crlf, "mark": "\ufeff" + text, "CRLF and mark": "\ufeff" + crlf} {
			if got := findingsOf(t, other); !slices.Equal(got, want) {
				t.Errorf("%q with %s\n got %q\nwant %q", text, name, got, want)
			}
		}
		if len(want) == 0 && !strings.Contains(text, "```") {
			t.Errorf("%q: nothing is found, so nothing is compared", text)
		}
	}
}

// findingsOf reads a sitting and returns what is said of it, with its places.
func findingsOf(t *testing.T, text string) (all []string) {
	t.Helper()
	fsys := fstest.MapFS{
		"workshop.yaml":              {Data: []byte("name: Bench\n")},
		"builds/skiff/build.md":      {Data: []byte("---\nname: Skiff\nstate: bench\n---\n")},
		"builds/skiff/2026-02-14.md": {Data: []byte(text)},
	}
	w, found := Open(fsys)
	for _, b := range w.Builds {
		found = append(found, w.ReadBuild(fsys, b)...)
	}
	for _, f := range found {
		at := f.At.Position()
		all = append(all, fmt.Sprintf("%s:%d:%d %q %s %s", f.At.Name(), at.Line, at.Column, strings.TrimRight(f.At.Text(), " \r\n"), f.Says.String(), f.Do.String()))
	}
	return all
}
