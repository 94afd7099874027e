package bag

import (
	"crypto/md5"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/sha512"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"
)

// Each kind of bag that the Library of Congress's conformance suite holds for
// valid is valid here, in every version that it is for; its bags are rebuilt by
// their names, small.
func TestValidBagsOfEveryVersion(t *testing.T) {
	all := append(slices.Clone(earlier), "1.0")
	old := earlier
	sums := map[string]func(string) string{
		"md5":    func(s string) string { return fmt.Sprintf("%x", md5.Sum([]byte(s))) },
		"sha1":   func(s string) string { return fmt.Sprintf("%x", sha1.Sum([]byte(s))) },
		"sha224": func(s string) string { return fmt.Sprintf("%x", sha256.Sum224([]byte(s))) },
		"sha256": func(s string) string { return fmt.Sprintf("%x", sha256.Sum256([]byte(s))) },
		"sha512": func(s string) string { return fmt.Sprintf("%x", sha512.Sum512([]byte(s))) },
	}
	declared := func(version, encoding string) string {
		return "BagIt-Version: " + version + "\nTag-File-Character-Encoding: " + encoding + "\n"
	}
	sum := sums["md5"]("alpha")
	type files map[string]string
	for _, c := range []struct {
		name     string
		versions []string
		files    files // beside bagit.txt and, unless it is here, data/a.txt with alpha in it and its manifest
		advice   int
	}{
		{"basic", all, nil, 0},
		{"sha1", all, files{"manifest-sha1.txt": sums["sha1"]("alpha") + "  data/a.txt\n"}, 0},
		{"sha224", all, files{"manifest-sha224.txt": sums["sha224"]("alpha") + "  data/a.txt\n"}, 0},
		{"sha256", all, files{"manifest-sha256.txt": sums["sha256"]("alpha") + "  data/a.txt\n"}, 0},
		{"sha512", all, files{"manifest-sha512.txt": sums["sha512"]("alpha") + "  data/a.txt\n"}, 0},
		{"capital digits", all, files{"manifest-md5.txt": strings.ToUpper(sum) + "  data/a.txt\n"}, 0},
		{"leading dot and slash", all, files{"manifest-md5.txt": sum + "  ./data/a.txt\n"}, 1},
		{"asterisk", old, files{"manifest-md5.txt": sum + " *data/a.txt\n"}, 1},
		{"a space in a name", all, files{"data/a b.txt": "alpha", "manifest-md5.txt": sum + "  data/a b.txt\n"}, 0},
		{"percent sign", old, files{"data/100%.txt": "alpha", "manifest-md5.txt": sum + "  data/100%.txt\n"}, 0},
		{"what looks like a code", old, files{"data/a%0Ab.txt": "alpha", "manifest-md5.txt": sum + "  data/a%0Ab.txt\n"}, 0},
		{"percent sign, encoded", []string{"1.0"}, files{"data/100%.txt": "alpha", "manifest-md5.txt": sum + "  data/100%25.txt\n"}, 0},
		{"metadata twice", all, files{"bag-info.txt": "Contact-Name: A\nContact-Name: B\nExternal-Identifier: 1\nExternal-Identifier: 2\n"}, 0},
		{"date twice", old, files{"bag-info.txt": "Bagging-Date: 2016-02-26\nBagging-Date: 2016-03-10\n"}, 1},
		{"long metadata", all, files{"bag-info.txt": "External-Description: a text\n  that goes on\n\tand on\n"}, 0},
		{"package information", earlier[:3], files{"package-info.txt": "Packing-Date: 2008-01-15\nPayload-Oxum: 5.1\n"}, 0},
		{"Latin letters", all, files{"bagit.txt": "ISO-8859-1", "bag-info.txt": "Contact-Name: Jos\xe9\n"}, 1},
		{"UTF-16", all, files{"bagit.txt": "UTF-16", "bag-info.txt": wide("Contact-Name: José\n"),
			"manifest-md5.txt": wide(sum + "  data/a.txt\n")}, 1},
		{"an empty payload", all, files{"data/": "", "manifest-md5.txt": ""}, 0},
		{"a bag in a bag", all, files{"data/bag/bagit.txt": "alpha", "manifest-md5.txt": sum + "  data/bag/bagit.txt\n"}, 0},
		{"an empty file", all, files{"data/empty": "", "manifest-md5.txt": sums["md5"]("") + "  data/empty\n"}, 0},
		{"tag files of one's own", old, files{"notes/a.txt": "x", "tagmanifest-md5.txt": ""}, 3},
		{"another form of the letters", all, files{"data/n\u0303.txt": "alpha", "manifest-md5.txt": sum + "  data/\u00f1.txt\n"}, 1},
		{"one file in both forms", old, files{"data/n\u0303.txt": "alpha",
			"manifest-md5.txt": sum + "  data/n\u0303.txt\n" + sum + "  data/\u00f1.txt\n"}, 2},
		{"case", all, files{"data/a": "alpha", "data/A": "alpha", "manifest-md5.txt": sum + "  data/a\n" + sum + "  data/A\n"}, 1},
		{"a name of another system", all, files{"data/con": "alpha", "manifest-md5.txt": sum + "  data/con\n"}, 1},
	} {
		for _, version := range c.versions {
			t.Run(c.name+"/"+version, func(t *testing.T) {
				dir := t.TempDir()
				bag := files{"data/a.txt": "alpha", "manifest-md5.txt": sum + "  data/a.txt\n"}
				for name := range c.files {
					if strings.HasPrefix(name, "data/") {
						delete(bag, "data/a.txt")
					}
					if strings.HasPrefix(name, "manifest-") {
						delete(bag, "manifest-md5.txt")
					}
				}
				for name, text := range c.files {
					bag[name] = text
				}
				encoding := bag["bagit.txt"]
				if encoding == "" {
					encoding = "UTF-8"
				}
				bag["bagit.txt"] = declared(version, encoding)
				for name, text := range bag {
					full := filepath.Join(dir, name)
					err := os.MkdirAll(filepath.Dir(full), 0o755)
					if strings.HasSuffix(name, "/") {
						err = os.MkdirAll(full, 0o755)
					} else if err == nil {
						err = os.WriteFile(full, []byte(text), 0o644)
					}
					if err != nil {
						t.Fatal(err)
					}
				}
				rep, err := Check(ctx, dir)
				if err != nil || !rep.Valid || rep.Version != version || len(rep.Advice) != c.advice {
					t.Errorf("%v, %+v", err, rep)
				}
				if _, packed := c.files["package-info.txt"]; packed && len(rep.Info) != 2 {
					t.Errorf("its package-info.txt is not read: %v", rep.Info)
				}
			})
		}
	}
}

// wide is a text in UTF-16 with its mark.
func wide(text string) string {
	b := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(text)) {
		b = append(b, byte(u), byte(u>>8))
	}
	return string(b)
}
