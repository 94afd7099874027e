package journal

import (
	"slices"
	"testing"
	"testing/fstest"

	"spruelight/gen/source"
)

// An excerpt keeps entries as they were written, with their comments, and reads
// again as exactly those.
func TestExcerpt(t *testing.T) {
	const lamps = "# The head of the file.\nred-2mm: {colour: red} # at the end\n\n# A word on the green one,\n# in two lines.\ngreen-2mm:\n  colour: green\n  # inside\n  size: 2 mm\n\n# last\nblue: {colour: blue}\n"
	for _, c := range []struct {
		name, text string
		keep       []string
		want       string
		whole      bool // only the whole file is safe
	}{
		{name: "one in the middle", text: lamps, keep: []string{"green-2mm"}, want: "# The head of the file.\n# A word on the green one,\n# in two lines.\ngreen-2mm:\n  colour: green\n  # inside\n  size: 2 mm\n\n"},
		{name: "the first and the last", text: lamps, keep: []string{"red-2mm", "blue"}, want: "# The head of the file.\nred-2mm: {colour: red} # at the end\n\n# last\nblue: {colour: blue}\n"},
		{name: "all", text: lamps, keep: []string{"red-2mm", "green-2mm", "blue"}, want: lamps},
		{name: "none", text: lamps, want: "# The head of the file.\n"},
		{name: "with carriage returns", text: "a: {colour: red}\r\nb: {colour: blue}\r\n", keep: []string{"b"}, want: "b: {colour: blue}\r\n"},
		{name: "a single entry", text: "a: {colour: red}\n", keep: []string{"a"}, want: "a: {colour: red}\n"},
		{name: "in braces", text: "{a: {colour: red}, b: {colour: blue}}\n", whole: true},
		{name: "empty", text: "", want: ""},
		{name: "broken", text: "a: [\n", whole: true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := Excerpt(source.NewFile("rack/lamps.yaml", c.text), func(name string) bool { return slices.Contains(c.keep, name) })
			if ok == c.whole || got != c.want {
				t.Errorf("got %q, %v; want %q", got, ok, c.want)
			}
		})
	}
}

// The rack may lie in several files of a kind; a name in two of them is reported.
func TestRackInSeveralFiles(t *testing.T) {
	fsys := fstest.MapFS{
		"workshop.yaml":         {Data: []byte("name: Bench\n")},
		"rack/lamps.yaml":       {Data: []byte("red: {colour: red}\n")},
		"rack/lamps-skiff.yaml": {Data: []byte("green: {colour: green}\n")},
	}
	w, found := Open(fsys)
	if len(found) != 0 || len(w.Rack.Lamps) != 2 {
		t.Fatalf("%d lamps, %v", len(w.Rack.Lamps), found)
	}
	fsys["rack/lamps-skiff.yaml"].Data = []byte("red: {colour: green}\n")
	if _, found := Open(fsys); len(found) != 1 || found[0].Rule.Name != ruleTwice.Name {
		t.Errorf("a name in two files: %v", found)
	}
}
