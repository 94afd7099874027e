package svg

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"spruelight/testdata/view"
	"unicode/utf8"
)

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {1, "1"}, {-1, "-1"}, {0.5, "0.5"}, {0.25, "0.25"}, {1.005, "1"}, {1.006, "1.01"},
		{-0.004, "0"}, {math.Copysign(0, -1), "0"}, {-0.005, "-0.01"}, {-0.1, "-0.1"}, {10, "10"}, {100.10, "100.1"},
		{99.999, "100"}, {1e4, "10000"}, {1e300, "100000"}, {-1e300, "-100000"},
		{math.NaN(), "0"}, {math.Inf(1), "100000"}, {math.Inf(-1), "-100000"}, {1e-300, "0"},
	} {
		if got := string(appendNumber(nil, c.v)); got != c.want {
			t.Errorf("%v: %q, want %q", c.v, got, c.want)
		}
	}
}

// TestNumbersReadBack: the printed number is within half a hundredth of the value.
func TestNumbersReadBack(t *testing.T) {
	for i := range 20000 {
		v := (float64(i) - 10000) * 0.7183
		s := string(appendNumber(nil, v))
		got, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Abs(got-v) > 0.005+1e-9 {
			t.Fatalf("%v printed as %q", v, s)
		}
		if strings.Contains(s, ".") && strings.HasSuffix(s, "0") || s == "-0" {
			t.Fatalf("%v printed as %q", v, s)
		}
	}
}

// TestHostileTextEverywhere puts hostile text wherever a caller can put text.
func TestHostileTextEverywhere(t *testing.T) {
	for _, s := range view.Hostile {
		d := New(s, s, s)
		d.Class, d.Lang = s, s
		d.Text(Point{10, 10}, s, TextStyle{Class: s})
		d.Rect(Box{0, 0, 10, 10}, 1, Style{Class: s, Fill: Fill3})
		d.Group(Attrs{ID: s, Class: s, Data: map[string]string{s: s, "ref": s}}, func() {})
		d.Group(Attrs{ID: s}, func() {})
		for _, doc := range []string{string(d.File()), d.Inline()} {
			checkMarkup(t, doc, s)
		}
	}
}

// shapesAllowed are all elements that the writer may print.
var shapesAllowed = " svg title desc style defs pattern rect path circle line polyline polygon g text "

// attributesAllowed are all attributes that the writer may print; data-… besides.
var attributesAllowed = " xmlns class lang width height viewBox role aria-labelledby aria-hidden fill font-family id " +
	"patternUnits d stroke stroke-width stroke-opacity fill-opacity stroke-dasharray x y x1 y1 x2 y2 cx cy r rx points " +
	"font-size font-weight text-anchor transform "

// checkMarkup fails unless a drawing is well-formed, uses only what the writer
// knows, has no id twice, and carries text s unharmed.
func checkMarkup(t testing.TB, doc, s string) {
	t.Helper()
	view.WellFormed(t, []byte(doc))
	if !utf8.ValidString(doc) {
		t.Fatalf("%q: not UTF-8", s)
	}
	ids := map[string]bool{}
	var texts []string
	inText := false
	dec := xml.NewDecoder(strings.NewReader(doc))
	for {
		tok, err := dec.Token()
		if err != nil {
			break
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if !strings.Contains(shapesAllowed, " "+tok.Name.Local+" ") {
				t.Fatalf("%q became element %s", s, tok.Name.Local)
			}
			for _, a := range tok.Attr {
				if !strings.Contains(attributesAllowed, " "+a.Name.Local+" ") && !strings.HasPrefix(a.Name.Local, "data-") {
					t.Fatalf("%q became attribute %s", s, a.Name.Local)
				}
				if a.Name.Local == "id" && (ids[a.Value] || a.Value == "" || strings.ContainsAny(a.Value, " \t\n")) {
					t.Fatalf("%q: id %q is there twice or not valid", s, a.Value)
				} else if a.Name.Local == "id" {
					ids[a.Value] = true
				}
				if a.Name.Local == "class" && (a.Value != identifierList(a.Value) || a.Value == "") {
					t.Fatalf("%q: class %q", s, a.Value)
				}
			}
			if inText = tok.Name.Local == "text"; inText {
				texts = append(texts, "")
			}
		case xml.CharData:
			if inText {
				texts[len(texts)-1] += string(tok)
			}
		case xml.EndElement:
			inText = false
		case xml.Comment, xml.Directive:
			t.Fatalf("%q became a comment or directive", s)
		}
	}
	want := CleanText(s)
	if want == "" && len(texts) > 0 || want != "" && (len(texts) != 1 || texts[0] != want) {
		t.Fatalf("%q was printed as %q", s, texts)
	}
	for _, r := range want {
		if !allowed(r) {
			t.Fatalf("%q keeps the character %U", s, r)
		}
	}
}

func identifierList(s string) string {
	var out []string
	for _, f := range strings.Fields(s) {
		out = append(out, identifier(f))
	}
	return strings.Join(out, " ")
}

func FuzzText(f *testing.F) {
	for _, s := range append(view.Hostile, view.Labels...) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d := New(s, s, s)
		d.Class = s
		box := d.Text(Point{10, 10}, s, TextStyle{Class: s})
		d.Group(Attrs{ID: s, Class: s, Data: map[string]string{s: s}}, func() {})
		checkMarkup(t, string(d.File()), s)
		checkMarkup(t, d.Inline(), s)
		if !box.finite() || box.W < 0 {
			t.Fatalf("%q has the box %+v", s, box)
		}
	})
}

func TestCleanText(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", "  two  words ": "two words", "a\n\tb": "a b", "a\x00b": "ab", "a\u2028b": "a b",
		"no\u00a0break": "no\u00a0break", "\xff": "", "\ufffd": "\ufffd", "a\xffb \xfe c": "ab c", "Größe": "Größe", " Ω ": "Ω",
	} {
		if got := CleanText(in); got != want {
			t.Errorf("CleanText(%q) = %q, want %q", in, got, want)
		}
		if CleanText(CleanText(in)) != CleanText(in) {
			t.Errorf("CleanText(%q) is not clean", in)
		}
	}
}

func TestIdentifier(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "D1": "D1", "lamp D1": "lamp-D1", "1st": "n1st", "--x--": "x", "ÄÖ": "", "a/b?c": "a-b-c", "_x": "_x",
	} {
		if got := identifier(in); got != want {
			t.Errorf("identifier(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestIDsAreUnique(t *testing.T) {
	d := New("x", "Title", "Desc")
	seen := map[string]bool{}
	for _, name := range []string{"a", "a", "a-2", "a b", "a/b", "title", "desc", "hatch1", "hatch", "", "ä"} {
		id := d.Group(Attrs{ID: name}, func() {})
		if name == "" {
			if id != "" {
				t.Errorf("no name gave id %q", id)
			}
			continue
		}
		if seen[id] || id == "x-title" || id == "x-desc" || id == "x-hatch1" || !strings.HasPrefix(id, "x-") {
			t.Errorf("%q gave id %q", name, id)
		}
		seen[id] = true
	}
}
