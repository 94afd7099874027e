package journal

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

func TestSpots(t *testing.T) {
	for text, want := range map[string]Spot{"42 % 31 %": {0.42, 0.31}, "0 100": {0, 1}, "12.5%, 3%": {0.125, 0.03}} {
		var s Spot
		if err := s.UnmarshalText([]byte(text)); err != nil || math.Hypot(s.X-want.X, s.Y-want.Y) > 1e-12 {
			t.Errorf("%q: %v, %v", text, s, err)
		}
	}
	for _, text := range []string{"", "42 %", "42 % 31 % 5 %", "-1 % 5 %", "101 % 5 %", "NaN 5", "left top"} {
		var s Spot
		if err := s.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q is read as %v", text, s)
		}
	}
}

func TestPhotoEntries(t *testing.T) {
	cases := []struct{ name, photos, want string }{
		{"one picture", `[{file: photos/a.jpg, alt: a}]`, ""},
		{"in short", `[photos/a.jpg]`, "no alt text"},
		{"a pair", `[{pair: [photos/a.jpg, photos/b.jpg], names: [off, on], alt: both}]`, ""},
		{"neither", `[{alt: a}]`, "without file or pair"},
		{"both", `[{file: photos/a.jpg, pair: [photos/a.jpg, photos/b.jpg], alt: a}]`, "both file and pair"},
		{"half a pair", `[{pair: [photos/a.jpg], alt: a}]`, "two pictures are wanted"},
		{"names without a pair", `[{file: photos/a.jpg, names: [off, on], alt: a}]`, "names for 0 pictures"},
		{"second of a pair not there", `[{pair: [photos/a.jpg, photos/c.jpg], alt: a}]`, "no file builds/skiff/photos/c.jpg"},
		{"marks", `[{file: photos/a.jpg, alt: a, marks: [{at: 42 % 31 %, says: the jack}]}]`, ""},
		{"mark outside", `[{file: photos/a.jpg, alt: a, marks: [{at: 142 % 31 %, says: the jack}]}]`, "outside the picture"},
		{"marks on a pair", `[{pair: [photos/a.jpg, photos/b.jpg], alt: a, marks: [{at: 1 % 1 %, says: x}]}]`, "marks on a pair"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			fsys := fstest.MapFS{
				"workshop.yaml":              {Data: []byte("name: Bench\n")},
				"builds/skiff/build.md":      {Data: []byte("---\nname: Skiff\nstate: bench\n---\n")},
				"builds/skiff/2026-02-14.md": {Data: []byte("---\nstage: assembly\nphotos: " + c.photos + "\n---\n")},
				"builds/skiff/photos/a.jpg":  {Data: []byte("a")},
				"builds/skiff/photos/b.jpg":  {Data: []byte("b")},
			}
			shop, found := Open(fsys)
			for _, b := range shop.Builds {
				found.Add(shop.ReadBuild(fsys, b)...)
			}
			var says []string
			for _, f := range found {
				says = append(says, f.Says.String())
			}
			all := strings.Join(says, "; ")
			if c.want == "" && all != "" || !strings.Contains(all, c.want) {
				t.Errorf("says %q, want %q", all, c.want)
			}
		})
	}
}
