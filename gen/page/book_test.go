package page

import (
	"bytes"
	"html/template"
	"io/fs"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/themes"
)

// Words stand in text, in attributes and in scripts as html/template writes them
// there, and a kind of page that a stencil cannot be cut of is printed by it.
func TestWordsOfAPage(t *testing.T) {
	folder, err := fs.Sub(themes.FS, "words")
	if err != nil {
		t.Fatal(err)
	}
	words, err := LoadWords(folder, "en")
	if err != nil {
		t.Fatal(err)
	}
	const text = `{{define "page"}}<p title="{{say "tom & 'jerry' <x>"}}" data-n="{{say "a+b"}}">{{say "Next"}}, {{say "%d of %d" 1 2}}, {{say .Sheet.Title}}` +
		`{{if .Sheet.Aside}}{{say "no"}}{{else}}{{say "a \"b\""}}{{end}}{{range .Nav}}{{say "each"}} {{.Name}}{{end}}{{with .Keeper}}{{say "by"}}{{end}}` +
		`<a href="{{say "x y"}}">{{template "part" .}}</a><script>let a = {{say "js </script>"}}</script><textarea>{{say "t & u"}}</textarea></p>{{end}}` +
		`{{define "part"}}{{say "part"}} {{"say"}}{{end}}`
	const style = `<style>p { color: {{say "red"}} }</style>`
	site := &Site{Name: "n", Keeper: "k", Nav: []Link{{Name: "one"}, {Name: "two"}}}
	sheet := &Sheet{Path: "x.html", Kind: "x", Title: "Title & more"}
	for _, c := range []struct {
		text string
		cut  bool
	}{{text, true}, {strings.Replace(text, "<script>", style+"<script>", 1), false}} {
		b, found := NewBook(fstest.MapFS{"x.html": {Data: []byte(c.text)}}, words)
		if len(found) > 0 {
			t.Fatal(found)
		}
		got, found := b.Print(site, sheet)
		if len(found) > 0 {
			t.Fatal(found)
		}
		var want bytes.Buffer
		plain := template.Must(template.New("x").Funcs(b.funcs()).Parse(c.text))
		if err := plain.ExecuteTemplate(&want, "page", &View{Site: site, Sheet: sheet, book: b}); err != nil {
			t.Fatal(err)
		}
		if string(got) != want.String() {
			t.Errorf("printed:\n%s\nby html/template:\n%s", got, want.String())
		}
		if spare := cap(got) - len(got); spare > len(got)/8+16 { // memory comes in sizes of such steps
			t.Errorf("%d bytes are held by %d more", len(got), spare)
		}
		if cut := b.kinds["x"].uncut == nil; cut != c.cut {
			t.Errorf("cut: %v, want %v (%v)", cut, c.cut, b.kinds["x"].uncut)
		}
	}
}

// The relative address leads where it should, and is the shortest.
func TestRelative(t *testing.T) {
	places := []string{"index.html", "a/index.html", "a/b.html", "ab/index.html", "a/photos/x.jpg", "a/photos/y/z.jpg", "wall/about.html", "b/a/index.html"}
	for _, from := range places {
		for _, to := range places {
			got := Relative(from, to)
			if back := path.Join(path.Dir(from), got); back != to || strings.HasPrefix(got, "/") {
				t.Errorf("from %s to %s: %s leads to %s", from, to, got, back)
			}
			if down := strings.TrimLeft(got, "./"); strings.HasPrefix(got, "../") && strings.HasPrefix(to, path.Dir(from)+"/") {
				t.Errorf("from %s to %s: %s is not the shortest (%s)", from, to, got, down)
			}
			if from != to && Relative(from, to+"#x") != got+"#x" {
				t.Errorf("from %s to %s#x: %s", from, to, Relative(from, to+"#x"))
			}
		}
		if got := Relative(from, from+"#x"); got != "#x" {
			t.Errorf("from %s to its own part: %s", from, got)
		}
	}
}
