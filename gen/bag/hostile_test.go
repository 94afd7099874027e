package bag

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// zipOf makes a zip of the given entries and returns its bytes.
func zipOf(t testing.TB, entries ...*zip.FileHeader) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, h := range entries {
		var w io.Writer
		var err error
		if h.UncompressedSize64 > 0 {
			w, err = z.CreateRaw(h) // claims a size of its own
		} else {
			w, err = z.CreateHeader(h)
		}
		if err == nil && !strings.HasSuffix(h.Name, "/") {
			_, err = w.Write([]byte(h.Comment)) // the comment carries the content
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func file(name, text string) *zip.FileHeader { return &zip.FileHeader{Name: name, Comment: text} }

// huge claims a size that it does not have.
func huge(name string, size uint64) *zip.FileHeader {
	return &zip.FileHeader{Name: name, UncompressedSize64: size}
}

func link(name, to string) *zip.FileHeader {
	h := file(name, to)
	h.SetMode(0o777 | fs.ModeSymlink)
	return h
}

// basic are the entries of a valid bag with data/a.txt.
func basic(t testing.TB) []*zip.FileHeader {
	c := bagCase{files: map[string]string{"data/a.txt": "alpha"}}
	c.complete("")
	sum := algorithms["sha512"]()
	sum.Write([]byte("alpha"))
	return []*zip.FileHeader{file("bag/bagit.txt", declared), file("bag/data/a.txt", "alpha"),
		file("bag/manifest-sha512.txt", fmt.Sprintf("%x  data/a.txt\n", sum.Sum(nil)))}
}

func TestHostileZips(t *testing.T) {
	valid := zipOf(t, basic(t)...)
	with := func(more ...*zip.FileHeader) []byte { return zipOf(t, append(basic(t), more...)...) }
	cases := []struct {
		name string
		data []byte
		want string // the fault; "" for none
	}{
		{"nothing wrong", valid, ""},
		{"at the top of the zip", zipOf(t, strip(basic(t))...), ""},
		{"not a zip", []byte("hello"), "is neither a folder nor a whole zip file"},
		{"empty file", nil, "is neither a folder nor a whole zip file"},
		{"cut in half", valid[:len(valid)/2], "is neither a folder nor a whole zip file"},
		{"without its end", valid[:len(valid)-10], "is neither a folder nor a whole zip file"},
		{"path upwards", with(file("bag/../../evil", "x")), "bag/../../evil: the path in the zip leads upwards with ..; it is not unpacked"},
		{"path upwards at once", with(file("../evil", "x")), "../evil: the path in the zip leads upwards"},
		{"absolute path", with(file("/etc/evil", "x")), "/etc/evil: the path in the zip is absolute"},
		{"drive letter", with(file("c:/evil", "x")), "c:/evil: the path in the zip begins with a drive letter"},
		{"backslashes", with(file(`bag\..\..\evil`, "x")), "the path in the zip leads upwards"},
		{"link", with(link("bag/data/link", "/etc/passwd")), "bag/data/link: is a link in the zip, not a file"},
		{"link as payload folder", zipOf(t, file("bag/bagit.txt", declared), link("bag/data", "/etc"), file("bag/data/passwd", "x")), "is a link in the zip"},
		{"same file twice", with(file("bag/data/a.txt", "other")), "bag/data/a.txt: is stored twice in the zip"},
		{"file as folder", with(file("bag/data/a.txt/b", "x")), "data/a.txt: is a file and a folder in the zip"},
		{"two bags", with(file("other/bagit.txt", declared)), "the zip holds 2 bags, not one"},
		{"file beside the bag", with(file("readme", "x")), "readme: lies beside the bag in the zip"},
		{"name not UTF-8", with(&zip.FileHeader{Name: "bag/\xff", NonUTF8: true}), "the name in the zip is not UTF-8"},
		{"checksum of the zip wrong", flip(valid, "alpha"), "data/a.txt: cannot be read to its end: zip: checksum error"},
		{"encrypted", encrypt(t, basic(t)), "is encrypted in the zip"},
		{"bomb", bomb(t), "would unpack to more than 200 times that"},
		{"overlapping entries", overlapping(valid), "the entries of the zip overlap"},
		{"sizes that wrap around", with(huge("bag/x", math.MaxUint64-50), file("bag/y", "x")), "would unpack to more than 200 times that"},
		{"size below nothing", with(huge("bag/x", 1<<63)), "would unpack to more than 200 times that"},
		{"deep folders", with(file("bag/data/"+strings.Repeat("d/", 300)+"x", "x")), "lies more than 200 folders deep"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			name := filepath.Join(t.TempDir(), "bag.zip")
			if err := os.WriteFile(name, c.data, 0o666); err != nil {
				t.Fatal(err)
			}
			rep := mustCheck(t, name)
			told := fmt.Sprint(rep.Faults)
			if (c.want == "") != rep.Valid || !strings.Contains(told, c.want) {
				t.Errorf("valid %v, %s\nwant %q", rep.Valid, told, c.want)
			}
			out := filepath.Join(t.TempDir(), "deep", "out")
			if _, err := Restore(ctx, name, out, nil); c.want != "" && err == nil {
				if _, err := os.Lstat(out); !errors.Is(err, fs.ErrNotExist) {
					t.Errorf("a bad bag was restored: %v", err)
				}
			}
		})
	}
}

func strip(entries []*zip.FileHeader) []*zip.FileHeader {
	for _, h := range entries {
		h.Name = strings.TrimPrefix(h.Name, "bag/")
	}
	return entries
}

// flip damages one byte of the stored content.
func flip(data []byte, content string) []byte {
	data = bytes.Clone(data)
	data[bytes.Index(data, []byte(content))] ^= 1
	return data
}

// encrypt claims that the entries are encrypted.
func encrypt(t *testing.T, entries []*zip.FileHeader) []byte {
	t.Helper()
	for _, h := range entries {
		h.Flags |= 1
	}
	return zipOf(t, entries...)
}

// bomb is a small zip of a very large file of zeros.
func bomb(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.CreateHeader(&zip.FileHeader{Name: "bag/data/zeros", Method: zip.Deflate})
	zeros := make([]byte, 1<<20)
	for i := 0; i < 130 && err == nil; i++ {
		_, err = w.Write(zeros)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// overlapping lets every entry of the directory claim most of the file, as the
// bombs of D. Fifield do.
func overlapping(valid []byte) []byte {
	data := bytes.Clone(valid)
	for at := 0; ; at += 4 {
		next := bytes.Index(data[at:], []byte("PK\x01\x02"))
		if next < 0 {
			return data
		}
		at += next
		binary.LittleEndian.PutUint32(data[at+20:], uint32(len(data)*2/3)) // compressed size (APPNOTE 4.3.12)
	}
}

func TestLinksInAFolderAreNotFollowed(t *testing.T) {
	dir := t.TempDir()
	secret := filepath.Join(dir, "secret")
	bag := filepath.Join(dir, "bag")
	if err := os.Mkdir(secret, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(secret, "passwords"), []byte("x"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := Write(ctx, bag, items(marram), nil, Options{}); err != nil {
		t.Fatal(err)
	}
	links := map[string]string{"data/folder": secret, "data/file": filepath.Join(secret, "passwords"), "tag": "bagit.txt"}
	for name, to := range links {
		if err := os.Symlink(to, filepath.Join(bag, name)); err != nil {
			t.Skip("no symbolic links here: ", err)
		}
	}
	rep := mustCheck(t, bag)
	var got []string
	for _, f := range rep.Faults {
		got = append(got, f.String())
	}
	want := []string{"data/file: is a link, not a file; it is not followed",
		"data/folder: is a link, not a file; it is not followed", "tag: is a link, not a file; it is not followed"}
	if rep.Complete || !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	through := filepath.Join(dir, "through")
	if err := os.Symlink(bag, through); err != nil {
		t.Fatal(err)
	}
	if rep := mustCheck(t, through); rep.Files != len(marram) {
		t.Errorf("a link to the bag itself is not followed: %+v", rep)
	}
}

func TestFilesThatCannotBeReached(t *testing.T) {
	if _, err := Check(ctx, filepath.Join(t.TempDir(), "nowhere")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if _, err := Check(ctx, os.DevNull); err == nil || !strings.Contains(err.Error(), "neither a folder nor a file") {
		t.Errorf("%v", err)
	}
}

// Tag files made to keep a program busy are dealt with in bounded time and told
// in a bounded report: a test that takes minutes has failed.
func TestPathologicalTagFiles(t *testing.T) {
	began := time.Now()
	big := map[string]string{
		"blank lines":       strings.Repeat("\n", 8<<20),
		"carriage returns":  strings.Repeat("\r", 8<<20),
		"continuations":     "Label: x\n" + strings.Repeat(" y\n", 2<<20),
		"one long line":     strings.Repeat("x", 16<<20),
		"percent signs":     strings.Repeat("0", 128) + "  data/" + strings.Repeat("%25", 4<<20),
		"missing files":     manyMissing(100_000),
		"slashes":           strings.Repeat("0", 128) + "  data" + strings.Repeat("/x", 4<<20),
		"combining accents": strings.Repeat("0", 128) + "  data/" + strings.Repeat("\u0301", 1<<20),
	}
	for name, text := range big {
		for _, at := range []string{"bag-info.txt", "manifest-sha512.txt", "tagmanifest-sha512.txt", "fetch.txt", "bagit.txt"} {
			files := map[string]string{"bagit.txt": declared, "data/a.txt": "alpha", at: text}
			c, err := examine(ctx, inMemory(files))
			if err != nil {
				t.Fatal(err)
			}
			rep := c.rep
			if n := len(rep.Faults); rep.Valid && at != "bag-info.txt" || n > 10_001 {
				t.Errorf("%s in %s: valid %v, %d faults", name, at, rep.Valid, n)
			}
		}
	}
	t.Logf("took %v", time.Since(began))
}

// inMemory is a store of files that stand on no drive.
func inMemory(files map[string]string) *store {
	s := &store{files: map[string]int64{}, data: true, close: func() error { return nil }}
	for p, text := range files {
		s.files[p] = int64(len(text))
	}
	s.open = func(p string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(files[p])), nil }
	return s
}

func manyMissing(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%0128x  data/%d/x\n", i, i)
	}
	return b.String()
}

func TestTagFileTooLarge(t *testing.T) {
	c := bagCase{files: map[string]string{"data/a.txt": "alpha"}}
	c.complete("")
	c.fillIn(t)
	dir := c.asFolder(t)
	name := filepath.Join(dir, "bag-info.txt")
	for size, want := range map[int64]string{maxTagFile: "is not of the form", maxTagFile + 1: "more than the 33554432 that a tag file may have"} {
		if err := os.WriteFile(name, nil, 0o666); err != nil {
			t.Fatal(err)
		}
		if err := os.Truncate(name, size); err != nil {
			t.Fatal(err)
		}
		if rep := mustCheck(t, dir); !strings.Contains(fmt.Sprint(rep.Faults), want) {
			t.Errorf("%d bytes: %v", size, rep.Faults)
		}
	}
}

func TestTooManyManifests(t *testing.T) {
	for n, valid := range map[int]bool{maxLists - 1: true, maxLists: false} {
		files := map[string]string{"data/a.txt": "alpha"}
		c := bagCase{files: files}
		c.complete("")
		c.fillIn(t)
		for i := range n {
			files[fmt.Sprintf("manifest-x%02d.txt", i)] = "00  data/a.txt\n"
		}
		rep := mustCheck(t, c.asFolder(t))
		if told := strings.Contains(fmt.Sprint(rep.Faults), "one manifest too many"); told == valid || rep.Valid {
			t.Errorf("%d: %v", n, rep.Faults)
		}
	}
}
