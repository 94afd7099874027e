package bag

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/rogpeppe/go-internal/txtar"
)

// bagCase is one case of testdata/rfc8493; the form is told at the head of
// 2.1.1-declaration.txt.
type bagCase struct {
	name    string
	verdict string
	expect  []string // "fault kind file:line" or "advice file:line"
	files   map[string]string
	folders []string
	utf16   string // the file to be stored so
}

func TestRFC8493(t *testing.T) {
	names, err := filepath.Glob("testdata/rfc8493/*.txt")
	if err != nil || len(names) < 8 {
		t.Fatalf("the cases are missing: %d files, %v", len(names), err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			_, text, _ := strings.Cut("\n"+string(data), "\n=== ")
			for _, part := range strings.Split(text, "\n=== ") {
				c := readCase(t, part)
				t.Run(c.name+"/folder", func(t *testing.T) { c.check(t, c.asFolder(t)) })
				t.Run(c.name+"/zip", func(t *testing.T) { c.check(t, c.asZip(t)) })
			}
		})
	}
}

func (c *bagCase) check(t *testing.T, name string) {
	rep, err := Check(context.Background(), name)
	if err != nil {
		t.Fatal(err)
	}
	verdict := "incomplete"
	if rep.Complete {
		verdict = "complete"
	}
	if rep.Valid {
		verdict = "valid"
	}
	var got []string
	for _, f := range rep.Faults {
		got = append(got, "fault "+string(f.Kind)+place(f))
	}
	for _, f := range rep.Advice {
		got = append(got, "advice"+place(f))
	}
	slices.Sort(got)
	slices.Sort(c.expect)
	if verdict != c.verdict || !slices.Equal(got, c.expect) {
		t.Errorf("verdict %s, want %s\n got %q\nwant %q\n%v\n%v", verdict, c.verdict, got, c.expect, rep.Faults, rep.Advice)
	}
}

func place(f Fault) string {
	file := f.File
	if strings.ContainsAny(file, " \r\n") {
		file = strconv.Quote(file)
	}
	if f.Line > 0 {
		file += ":" + strconv.Itoa(f.Line)
	}
	if file == "" {
		return ""
	}
	return " " + file
}

func readCase(t *testing.T, text string) *bagCase {
	t.Helper()
	archive := txtar.Parse([]byte(text))
	lines := strings.Split(strings.TrimSpace(string(archive.Comment)), "\n")
	c := &bagCase{name: lines[0], files: map[string]string{}}
	without := ""
	for _, line := range lines[1:] {
		word, rest, _ := strings.Cut(line, " ")
		switch word {
		case "verdict":
			c.verdict = rest
		case "fault", "advice":
			c.expect = append(c.expect, line)
		case "without":
			without = rest
		case "utf16":
			c.utf16 = rest
		case "folder":
			c.folders = append(c.folders, rest)
		}
	}
	for _, f := range archive.Files {
		name, content := f.Name, strings.TrimSuffix(string(f.Data), "\n")
		if content != "" {
			content += "\n"
		}
		if n, quoted := strings.CutSuffix(name, " (quoted)"); quoted {
			name, content = n, unquoteLines(t, content)
		}
		c.files[unquote(t, name)] = content
	}
	c.complete(without)
	c.fillIn(t)
	return c
}

// complete adds what a case does not mention.
func (c *bagCase) complete(without string) {
	if _, there := c.files["bagit.txt"]; !there && without != "bagit.txt" {
		c.files["bagit.txt"] = declared
	}
	manifest := ""
	for _, name := range sortedKeys(c.files) {
		if nearManifest.MatchString(name) && !strings.HasPrefix(name, "tag") {
			return
		}
		if strings.HasPrefix(name, "data/") {
			manifest += "{{sha512 " + strconv.Quote(name) + "}}  " + name + "\n"
		}
	}
	if without != "manifest" {
		c.files["manifest-sha512.txt"] = manifest
	}
}

var sumMark = regexp.MustCompile(`\{\{(\w+) ([^}]+)\}\}`)

// fillIn puts the checksums in: first those of files without any, then those of
// manifests, then those of tag manifests.
func (c *bagCase) fillIn(t *testing.T) {
	t.Helper()
	for range 3 {
		for _, name := range sortedKeys(c.files) {
			ready := true
			for _, m := range sumMark.FindAllStringSubmatch(c.files[name], -1) {
				ready = ready && !sumMark.MatchString(c.files[unquote(t, m[2])])
			}
			if ready {
				c.files[name] = c.sums(t, c.files[name])
			}
		}
	}
	if c.utf16 != "" {
		c.files[c.utf16] = toUTF16(c.files[c.utf16])
	}
	for name, text := range c.files {
		if sumMark.MatchString(text) {
			t.Fatalf("%s: checksums in %s go round in a circle", c.name, name)
		}
	}
}

func (c *bagCase) sums(t *testing.T, text string) string {
	return sumMark.ReplaceAllStringFunc(text, func(mark string) string {
		m := sumMark.FindStringSubmatch(mark)
		content, there := c.files[unquote(t, m[2])]
		if !there {
			t.Fatalf("%s: no file %s to take the checksum of", c.name, m[2])
		}
		h := algorithms[strings.ToLower(m[1])]()
		h.Write([]byte(content))
		sum := fmt.Sprintf("%x", h.Sum(nil))
		if m[1] == strings.ToUpper(m[1]) {
			sum = strings.ToUpper(sum)
		}
		return sum
	})
}

func unquoteLines(t *testing.T, text string) string {
	t.Helper()
	out := ""
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		out += unquote(t, line)
	}
	return out
}

func unquote(t *testing.T, s string) string {
	t.Helper()
	if !strings.HasPrefix(s, `"`) {
		return s
	}
	u, err := strconv.Unquote(s)
	if err != nil && strings.HasSuffix(s, `"`) {
		return strings.Trim(s, `"`) // in content that was quoted as a whole
	}
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return u
}

func toUTF16(text string) string {
	out := []byte{0xFE, 0xFF}
	for _, u := range utf16.Encode([]rune(text)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return string(out)
}

func (c *bagCase) asFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "bag")
	for _, folder := range append(c.folders, ".") {
		if err := os.MkdirAll(filepath.Join(dir, folder), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for p, text := range c.files {
		name := filepath.Join(dir, filepath.FromSlash(p))
		err := os.MkdirAll(filepath.Dir(name), 0o777)
		if err == nil {
			err = os.WriteFile(name, []byte(text), 0o666)
		}
		if err != nil {
			t.Skipf("this system cannot store %q: %v", p, err)
		}
	}
	return dir
}

func (c *bagCase) asZip(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, folder := range c.folders {
		if _, err := z.Create("bag/" + folder + "/"); err != nil {
			t.Fatal(err)
		}
	}
	for _, p := range sortedKeys(c.files) {
		w, err := z.Create("bag/" + p)
		if err == nil {
			_, err = w.Write([]byte(c.files[p]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "bag.zip")
	if err := os.WriteFile(name, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}
