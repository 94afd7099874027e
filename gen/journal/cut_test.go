package journal

import (
	"strings"
	"testing"

	"spruelight/gen/source"
)

// What a # ends is said where it looks like a part of the text, and left alone
// where it is a comment: two blanks away, or with a blank and words behind it.
func TestCutByHash(t *testing.T) {
	for _, c := range []struct{ written, kept, lost string }{
		{"title: Lamp #3 at last", "Lamp", "#3 at last"},
		{"title: Lamp\t#3", "Lamp", "#3"},
		{"title: No. # 3 of the row", "No.", "# 3 of the row"},
		{"title: Lamp and\n  port #3 at last", "Lamp and port", "#3 at last"},
		{"title: Lamp #drei", "Lamp", "#drei"},
		{"went wrong: paint lifted #sadly\nhours: 1 h", "paint lifted", "#sadly"},
		{"tools:\n  - file #2\n  - tweezers", "file", "#2"},
		{"treated:\n  washed:\n    - part #7", "part", "#7"},
		{"photos: [{file: a.jpg, alt: x,\n  caption: The lamp #3\n  }]", "The lamp", "#3"},
		{"title: Lamp  #3 at last", "", ""},
		{"title: Lamp # the third", "", ""},
		{"title: Lamp # or first light", "", ""},
		{`title: "Lamp #3 at last"`, "", ""},
		{"title: 'Lamp #3'", "", ""},
		{"title: Lamp#3", "", ""},
		{"title: |\n  Lamp #3", "", ""},
		{"title: # nothing yet\n  Lamp", "", ""},
		{"hours: 3 h #by the clock", "", ""},
		{"parts: [{part: A1,\n  event: broken #twice\n  }]", "", ""}, // a word that the program knows
		{"title: Lamp\n#3 at last", "", ""},
	} {
		text := "stage: lighting\n" + c.written + "\n"
		var front SittingFront
		found := decode(source.NewFile("x.md", text), 0, len(text), &front)
		var said []source.Finding
		for _, f := range found {
			if f.Rule == ruleCut {
				said = append(said, f)
			} else {
				t.Errorf("%q: %s", c.written, f.Says)
			}
		}
		switch {
		case c.lost == "" && len(said) == 0:
		case c.lost == "" || len(said) != 1:
			t.Errorf("%q: %v", c.written, said)
		case said[0].At.Text() != c.lost || !strings.Contains(said[0].Says.String(), `"`+c.kept+`" is read, and "`+c.lost+`"`) ||
			!strings.Contains(said[0].Do.String(), `"`+c.kept+" "+c.lost+`"`):
			t.Errorf("%q: at %q: %s; %s", c.written, said[0].At.Text(), said[0].Says, said[0].Do)
		}
	}
}

// Within brackets the bracket that closes is lost too, and nothing can be read.
func TestCutWithinBrackets(t *testing.T) {
	text := "stage: lighting\ntools: [pin vice, file #2]\n"
	var front SittingFront
	found := decode(source.NewFile("x.md", text), 0, len(text), &front)
	if len(found) != 1 || found[0].Rule != ruleSyntax || !strings.Contains(found[0].Do.String(), `"file #2"`) {
		t.Errorf("%v: %s; %s", len(found), found[0].Says, found[0].Do)
	}
}
