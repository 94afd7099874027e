package source

import (
	"strings"
	"testing"
)

// Names that Windows refuses: Microsoft, "Naming Files, Paths, and Namespaces".
func TestValidPath(t *testing.T) {
	good := []string{"index.html", "builds/marram/2026-02-14/index.html", ".nojekyll", ".well-known/security.txt", "a b.jpg",
		"50% grey.jpg", "größe.jpg", "写真/灯.jpg", "می\u200cخواهم.jpg", "console.html", "com.html", "com10.html", "auxiliary/x", "null", "a..b", "...a",
		"a~b", strings.Repeat("a", MaxPath), strings.Repeat("ab/", 66) + "c"}
	for _, p := range good {
		if err := ValidPath(p); err != nil {
			t.Errorf("%q is refused: %v", p, err)
		}
	}
	bad := map[string]string{
		"":                               "is empty",
		"/etc/passwd":                    "is absolute",
		"~/notes":                        "begins with ~",
		"..":                             `has ".." in it`,
		"../x":                           `has ".." in it`,
		"a/../x":                         `has ".." in it`,
		"a/..":                           `has ".." in it`,
		"./a":                            `has "." in it`,
		"a/./b":                          `has "." in it`,
		"a//b":                           "empty folder or file name",
		"a/":                             "empty folder or file name",
		`a\b`:                            "Windows does not allow",
		`..\x`:                           "Windows does not allow",
		"C:/x":                           "Windows does not allow",
		"C:x":                            "Windows does not allow",
		`\\?\C:\x`:                       "Windows does not allow",
		"a:stream":                       "Windows does not allow",
		"what?.jpg":                      "Windows does not allow",
		"a*b":                            "Windows does not allow",
		"a|b":                            "Windows does not allow",
		`a"b`:                            "Windows does not allow",
		"a<b":                            "Windows does not allow",
		"a\x00b":                         "control character U+0000",
		"a\nb":                           "control character U+000A",
		"a\x7fb":                         "control character U+007F",
		"a\u0085b":                       "control character U+0085",
		"a\u202egpj.exe":                 "invisible character U+202E",
		"\ufeffa":                        "invisible character U+FEFF",
		"a\u200bb":                       "invisible character U+200B",
		"a\u2028b":                       "invisible character U+2028",
		"con":                            "keeps for a device",
		"AUX.html":                       "keeps for a device",
		"a/nul.tar.gz/b":                 "keeps for a device",
		"Com1.txt":                       "keeps for a device",
		"lpt9":                           "keeps for a device",
		"COM¹.txt":                       "keeps for a device",
		"conin$":                         "keeps for a device",
		"con .txt":                       "keeps for a device",
		"a.":                             "ends in a dot or space",
		"a./b":                           "ends in a dot or space",
		"a ":                             "ends in a dot or space",
		" a":                             "begins with a space",
		"a\xffb":                         "is not UTF-8",
		strings.Repeat("a", MaxPath+1):   "longer than 200 characters",
		strings.Repeat("𝄞", MaxPath/2+1): "longer than 200 characters", // two UTF-16 units each
		strings.Repeat("é", 128):         "more than 255 bytes",
	}
	for p, why := range bad {
		err := ValidPath(p)
		if err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%q: got %v, want %q", p, err, why)
		}
	}
}

func TestCheckPaths(t *testing.T) {
	cases := []struct {
		name  string
		paths []string
		want  string // "" for none
	}{
		{"apart", []string{"a", "b/a", "b/b", "ab"}, ""},
		{"twice", []string{"a", "b", "a"}, `file path "a" occurs twice`},
		{"case", []string{"About.html", "about.html"}, `file paths "About.html" and "about.html" differ only in case or accents`},
		{"sharp s", []string{"straße", "STRASSE"}, "differ only in case or accents"},
		{"composed", []string{"n\u0303", "\u00f1"}, "differ only in case or accents"}, // RFC 8493 section 6.1.1.2 has this pair
		{"folder case", []string{"A/x", "a/y"}, `folders "A" and "a" differ only in case or accents`},
		{"file and folder", []string{"a", "a/b"}, `file path "a" is also the folder of "a/b"`},
		{"file and deep folder", []string{"A/b/c", "a"}, `file path "a" is also the folder of "A/b/c"`},
		{"all are named", []string{"../x", "con"}, "device"},
	}
	for _, c := range cases {
		err := CheckPaths(c.paths)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}
