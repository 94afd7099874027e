package output

import (
	"strings"
	"testing"

	"spruelight/gen/source"
)

// The list survives its own format, and nothing that is not a list gets through
// with a path that leads out.
func FuzzList(f *testing.F) {
	f.Add(formatList(nil))
	f.Add(formatList([]listed{{"index.html", 12, strings.Repeat("0", 64)}, {"a b/c", 0, strings.Repeat("f", 64)}}))
	f.Add([]byte(listHead + "\n" + strings.Repeat("0", 64) + " 1 ../x\nend 1\n"))
	f.Add([]byte(listHead + "\n" + strings.Repeat("0", 64) + " -1 x\nend 1\n"))
	f.Add([]byte(listHead + "\nend 1\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		files, err := parseList(data)
		if err != nil {
			return
		}
		var lines []listed
		for p, l := range files {
			if p != l.path || source.ValidPath(p) != nil || l.size < 0 {
				t.Errorf("%q got through as %+v", p, l)
			}
			lines = append(lines, l)
		}
		again, err := parseList(formatList(lines))
		if err != nil || len(again) != len(files) {
			t.Errorf("printed again it reads as %v, %v", again, err)
		}
	})
}

func TestDamagedList(t *testing.T) {
	sum := strings.Repeat("0", 64)
	whole := string(formatList([]listed{{"a", 1, sum}, {"b", 2, sum}}))
	cases := map[string]string{
		"":                                      "line 1 is not",
		"something else\n":                      "line 1 is not",
		whole[:len(whole)-6]:                    "is not the closing line",
		strings.Replace(whole, " 1 a", "", 1):   "line 2 is not of the form",
		strings.Replace(whole, " 1 ", " x ", 1): "line 2 has no size",
		strings.Replace(whole, " 2 b", " 2 a", 1): `line 3 names "a" again`,
		strings.Replace(whole, " b", " ../b", 1):  `line 3 file path "../b" has ".." in it`,
	}
	for text, want := range cases {
		if _, err := parseList([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %q", text, err, want)
		}
	}
}
