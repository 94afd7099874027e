package bag

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

var ctx = context.Background()

func items(files map[string]string) []Item {
	var list []Item
	for _, p := range sortedKeys(files) {
		list = append(list, Bytes(p, []byte(files[p])))
	}
	return list
}

var marram = map[string]string{
	"site/index.html":             "<h1>Marram</h1>",
	"site/photos/first light.jpg": "\xff\xd8\xff", "source/builds/marram/build.md": "---\nname: Marram\n---\n",
	"source/100% grey.txt": "mix", "repair/größe.txt": "plug", "empty": "",
}

var marramInfo = []Tag{
	{"Source-Organization", "The Saltmarsh Bench"},
	{"External-Description", "Survey skiff \"Marram\":\nlit from inside"},
	{"Bagging-Date", "2026-02-14"},
}

func mustCheck(t testing.TB, name string) Report {
	t.Helper()
	rep, err := Check(ctx, name)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func mustBeAlone(t testing.TB, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !slices.Contains(names, e.Name()) {
			t.Errorf("%s was left in the folder", e.Name())
		}
	}
}

func readFolder(t testing.TB, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		got[filepath.ToSlash(rel)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestWriteFolderAndZip(t *testing.T) {
	for _, name := range []string{"marram-2026", "marram-2026.zip"} {
		for _, algorithms := range [][]string{nil, {"sha256"}, {"sha512", "sha256"}} {
			t.Run(fmt.Sprint(name, algorithms), func(t *testing.T) {
				dir := t.TempDir()
				dst := filepath.Join(dir, name)
				if err := Write(ctx, dst, items(marram), marramInfo, Options{Algorithms: algorithms}); err != nil {
					t.Fatal(err)
				}
				rep := mustCheck(t, dst)
				if !rep.Valid || !rep.Complete || rep.Faults != nil || rep.Advice != nil ||
					rep.Version != "1.0" || rep.Files != len(marram) || rep.Bytes != 46 {
					t.Errorf("%+v", rep)
				}
				if want := append(slices.Clone(marramInfo), Tag{"Payload-Oxum", "46.6"}); !slices.Equal(rep.Info, want) {
					t.Errorf("info %v, want %v", rep.Info, want)
				}
				mustBeAlone(t, dir, name)
				if info, err := Info(dst); err != nil || !slices.Equal(info, rep.Info) {
					t.Errorf("without a check it says %v, %v", info, err)
				}
			})
		}
	}
}

// The layout of a bag, file by file.
func TestLayout(t *testing.T) {
	dst := filepath.Join(t.TempDir(), "bag")
	if err := Write(ctx, dst, []Item{Bytes("100%.txt", []byte("abc"))}, marramInfo, Options{}); err != nil {
		t.Fatal(err)
	}
	// SHA-512 of "abc": FIPS 180-4, example of NIST's "SHA512.pdf".
	const abc = "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a" +
		"2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f"
	got := readFolder(t, dst)
	want := map[string]string{
		"bagit.txt":           "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
		"bag-info.txt":        "Source-Organization: The Saltmarsh Bench\nExternal-Description: Survey skiff \"Marram\":\n  lit from inside\nBagging-Date: 2026-02-14\nPayload-Oxum: 3.1\n",
		"manifest-sha512.txt": abc + "  data/100%25.txt\n",
		"data/100%.txt":       "abc",
	}
	for p, text := range want {
		if got[p] != text {
			t.Errorf("%s holds\n%q\nwant\n%q", p, got[p], text)
		}
	}
	if list := got["tagmanifest-sha512.txt"]; len(got) != 5 || strings.Count(list, "\n") != 3 {
		t.Errorf("%d files, tag manifest\n%s", len(got), list)
	}
}

// Coreutils' own checker agrees with every line of both manifests.
func TestManifestsAgreeWithSha512sum(t *testing.T) {
	tool := outside.Tool(t, "sha512sum")
	files := maps.Clone(marram)
	delete(files, "source/100% grey.txt") // its code in the manifest is not theirs to undo
	dst := filepath.Join(t.TempDir(), "bag")
	if err := Write(ctx, dst, items(files), marramInfo, Options{}); err != nil {
		t.Fatal(err)
	}
	for _, manifest := range []string{"manifest-sha512.txt", "tagmanifest-sha512.txt"} {
		cmd := exec.Command(tool, "--strict", "--check", manifest)
		cmd.Dir = dst
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", manifest, err, out)
		}
	}
}

// And the manifests that coreutils writes are read by us.
func TestChecksumsOfOtherTools(t *testing.T) {
	for _, algorithm := range []string{"md5", "sha1", "sha224", "sha256", "sha384", "sha512"} {
		t.Run(algorithm, func(t *testing.T) {
			tool := outside.Tool(t, algorithm+"sum")
			c := bagCase{files: map[string]string{"bagit.txt": declared, "data/a.txt": "alpha\n", "data/b/c.txt": "gamma\n"}}
			dir := c.asFolder(t)
			cmd := exec.Command(tool, "data/a.txt", "data/b/c.txt")
			cmd.Dir = dir
			out, err := cmd.Output()
			if err == nil {
				err = os.WriteFile(filepath.Join(dir, "manifest-"+algorithm+".txt"), out, 0o666)
			}
			if err != nil {
				t.Fatal(err)
			}
			if rep := mustCheck(t, dir); !rep.Valid {
				t.Errorf("%v", rep.Faults)
			}
		})
	}
}

// testdata/other is a bag made by a program of others; see its bag-info.txt.
func TestBagOfAnotherProgram(t *testing.T) {
	rep := mustCheck(t, "testdata/other")
	if !rep.Valid || rep.Files != 2 || rep.Faults != nil {
		t.Errorf("%+v", rep)
	}
}

// An independent unzip finds the files of the zip and nothing wrong with it.
func TestZipAgreesWithUnzip(t *testing.T) {
	tool := outside.Tool(t, "unzip")
	dir := t.TempDir()
	dst := filepath.Join(dir, "marram.zip")
	if err := Write(ctx, dst, items(marram), marramInfo, Options{}); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"-tq", dst}, {"-q", dst, "-d", filepath.Join(dir, "out")}} {
		if out, err := exec.Command(tool, args...).CombinedOutput(); err != nil {
			t.Fatalf("unzip %v: %v\n%s", args, err, out)
		}
	}
	if rep := mustCheck(t, filepath.Join(dir, "out", "marram")); !rep.Valid {
		t.Errorf("%v", rep.Faults)
	}
}

func TestZipIsDeterministic(t *testing.T) {
	one, two := filepath.Join(t.TempDir(), "marram.zip"), filepath.Join(t.TempDir(), "marram.zip")
	list := items(marram)
	if err := Write(ctx, one, list, marramInfo, Options{}); err != nil {
		t.Fatal(err)
	}
	slices.Reverse(list)
	if err := Write(ctx, two, list, marramInfo, Options{}); err != nil {
		t.Fatal(err)
	}
	a, errA := os.ReadFile(one)
	b, errB := os.ReadFile(two)
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		t.Errorf("the same input gave other bytes: %v, %v", errA, errB)
	}
	z, err := zip.NewReader(bytes.NewReader(a), int64(len(a)))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		if f.Method != zip.Store || f.Flags&8 != 0 || f.Modified.Year() != 1980 || !strings.HasPrefix(f.Name, "marram/") {
			t.Errorf("%s: method %d, flags %x, %v", f.Name, f.Method, f.Flags, f.Modified)
		}
	}
}

func TestEmptyBag(t *testing.T) {
	for _, name := range []string{"bag", "bag.zip"} {
		dst := filepath.Join(t.TempDir(), name)
		if err := Write(ctx, dst, nil, nil, Options{}); err != nil {
			t.Fatal(err)
		}
		if rep := mustCheck(t, dst); !rep.Valid {
			t.Errorf("%s: %v", name, rep.Faults)
		}
	}
}

func TestRefused(t *testing.T) {
	dir := t.TempDir()
	a := []Item{Bytes("a", nil)}
	broken := errors.New("the drive has gone")
	opened := 0
	changing := Item{Path: "a", Size: -1, Open: func() (io.ReadCloser, error) {
		opened++
		return io.NopCloser(strings.NewReader(strings.Repeat("x", opened))), nil
	}}
	cases := []struct {
		name    string
		payload []Item
		info    []Tag
		opts    Options
		want    string
	}{
		{"path upwards", []Item{Bytes("../a", nil)}, nil, Options{}, `file path "../a" has ".." in it`},
		{"twice", []Item{Bytes("a", nil), Bytes("a", nil)}, nil, Options{}, `file path "a" occurs twice`},
		{"twins", []Item{Bytes("\u00f1", nil), Bytes("n\u0303", nil)}, nil, Options{}, "differ only in case or accents"},
		{"weak algorithm", a, nil, Options{Algorithms: []string{"md5"}}, `sha512 or sha256, not "md5"`},
		{"oxum given", a, []Tag{{"payload-oxum", "1.1"}}, Options{}, "Payload-Oxum is worked out, not given"},
		{"label with a colon", a, []Tag{{"a:b", "c"}}, Options{}, `the label "a:b" has a colon`},
		{"no label", a, []Tag{{"", "c"}}, Options{}, `the label "" is empty`},
		{"label with space", a, []Tag{{" a", "c"}}, Options{}, "begins or ends with white space"},
		{"no value", a, []Tag{{"Glue", " \n "}}, Options{}, "the value of Glue is empty"},
		{"control character", a, []Tag{{"Glue", "a\x00b"}}, Options{}, "the value of Glue has a control character"},
		{"size wrong", []Item{{Path: "a", Size: 2, Open: a[0].Open}}, nil, Options{}, "reading data/a for the bag: it has 0 bytes, not the 2 expected"},
		{"cannot be opened", []Item{{Path: "a", Open: func() (io.ReadCloser, error) { return nil, broken }}}, nil, Options{}, "reading data/a for the bag: the drive has gone"},
		{"changes meanwhile", []Item{changing}, nil, Options{}, "data/a: changed while the bag was being written; run again"},
	}
	for _, c := range cases {
		for _, name := range []string{"bag", "bag.zip"} {
			err := Write(ctx, filepath.Join(dir, name), c.payload, c.info, c.opts)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: got %v, want %q", c.name, err, c.want)
			}
			mustBeAlone(t, dir)
		}
	}
	err := Write(ctx, filepath.Join(dir, "nul.zip"), a, nil, Options{})
	if err == nil || !strings.Contains(err.Error(), "keeps for a device") {
		t.Errorf("a zip named for a device: %v", err)
	}
}

func TestNeverReplaces(t *testing.T) {
	for _, name := range []string{"bag", "bag.zip"} {
		dst := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(dst, []byte("precious"), 0o666); err != nil {
			t.Fatal(err)
		}
		err := Write(ctx, dst, items(marram), nil, Options{})
		if !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), "left as it is") {
			t.Errorf("%s: %v", name, err)
		}
		if data, _ := os.ReadFile(dst); string(data) != "precious" {
			t.Errorf("%s was overwritten", name)
		}
	}
}

func TestCancelled(t *testing.T) {
	for _, name := range []string{"bag", "bag.zip"} {
		dir := t.TempDir()
		stop, cancel := context.WithCancelCause(ctx)
		list := items(marram)
		inner, opened := list[2].Open, 0
		list[2].Open = func() (io.ReadCloser, error) {
			if opened++; opened == 2 { // while the bag is being written
				cancel(errors.New("enough"))
			}
			return inner()
		}
		if err := Write(stop, filepath.Join(dir, name), list, nil, Options{}); err == nil || !strings.Contains(err.Error(), "enough") {
			t.Errorf("%s: %v", name, err)
		}
		mustBeAlone(t, dir)
	}
}

// Whatever goes into a bag comes out again, as folder and as zip.
func TestRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(8493, 1))
	for i := range 60 {
		files := map[string]string{}
		for range random.IntN(12) {
			files[anyPath(random)] = anyText(random)
		}
		var info []Tag
		for n := range random.IntN(4) {
			info = append(info, Tag{fmt.Sprintf("Label %d", n), strings.TrimSpace("v" + anyValue(random))})
		}
		dir := t.TempDir()
		dst := filepath.Join(dir, "bag"+[]string{"", ".zip"}[i%2])
		if err := Write(ctx, dst, items(files), info, Options{}); err != nil {
			t.Fatalf("%q: %v", files, err)
		}
		rep, err := Restore(ctx, dst, filepath.Join(dir, "out"), nil)
		if err != nil || !rep.Valid {
			t.Fatalf("%v %+v", err, rep)
		}
		if got := readFolder(t, filepath.Join(dir, "out")); !maps.Equal(got, files) {
			t.Errorf("went in as %q, came out as %q", files, got)
		}
		if got := rep.Info[:len(rep.Info)-1]; !slices.Equal(got, info) {
			t.Errorf("went in as %q, came out as %q", info, got)
		}
	}
}

func anyPath(r *rand.Rand) string {
	parts := []string{"a", "b c", "50%", "%0A", "größe", "写真", "x.y", "(1)", "é", "'q'", "+", "#1", "&"}
	p := fmt.Sprintf("%d", r.IntN(1000)) // keeps paths apart from folders
	for range r.IntN(3) {
		p = parts[r.IntN(len(parts))] + "/" + p
	}
	return p + parts[r.IntN(len(parts))]
}

func anyText(r *rand.Rand) string {
	b := make([]byte, r.IntN(3000))
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return string(b)
}

func anyValue(r *rand.Rand) string {
	return []string{"", "alue", "alue: with colon", "alue\nsecond line", "alue\nsecond\nthird: line", " α β"}[r.IntN(6)]
}
