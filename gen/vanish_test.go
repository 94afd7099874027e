package gen_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/themes"
)

// failing is a file system on which step number at goes wrong, and with ever
// set every step after it too: a drive with a bad spot, one that is taken out.
type failing struct {
	fs.FS
	at    int64
	err   error
	ever  bool
	steps atomic.Int64
}

func (f *failing) step(op, name string) error {
	n := f.steps.Add(1)
	if n == f.at || f.ever && f.at > 0 && n > f.at {
		return &fs.PathError{Op: op, Path: name, Err: f.err}
	}
	return nil
}

func (f *failing) Open(name string) (fs.File, error) {
	if err := f.step("open", name); err != nil {
		return nil, err
	}
	file, err := f.FS.Open(name)
	if err != nil {
		return nil, err
	}
	if _, dir := file.(fs.ReadDirFile); dir {
		return failingDir{failingFile{file, f, name}}, nil
	}
	return failingFile{file, f, name}, nil
}

type failingFile struct {
	fs.File
	on   *failing
	name string
}

func (f failingFile) Read(p []byte) (int, error) {
	if err := f.on.step("read", f.name); err != nil {
		return 0, err
	}
	return f.File.Read(p)
}

func (f failingFile) Stat() (fs.FileInfo, error) {
	if err := f.on.step("stat", f.name); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

type failingDir struct{ failingFile }

func (f failingDir) ReadDir(n int) ([]fs.DirEntry, error) {
	if err := f.on.step("list", f.name); err != nil {
		return nil, err
	}
	return f.File.(fs.ReadDirFile).ReadDir(n)
}

// frail is a small workshop with a file of every kind.
func frail(t *testing.T) fstest.MapFS {
	t.Helper()
	picture, err := os.ReadFile("../content-example/builds/dunnock/photos/sprues.jpg")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{
		"workshop.yaml":              "name: The Frail Bench\ntheme: mine\nline-up: [skiff, figure]\n",
		"rack/lamps.yaml":            "warm: {colour: white, size: 3 mm, forward: [2.75 V @ 2 mA, 3.0 V @ 10 mA], rated: 20 mA, limit: 30 mA}\n",
		"shelf.yaml":                 "figure: {name: Figure, scale: 1/48, measured: {length: 12 mm, height: 36 mm}}\n",
		"wall/about.md":              "---\ntitle: About\n---\nWords.\n",
		"builds/skiff/build.md":      "---\nname: Skiff\nstate: shelf\nfinished: 2026-01-18\nscale: 1/48\nkit: {obtained: bought}\nmeasured: {length: 204 mm}\n---\nA skiff.\n",
		"builds/skiff/review.md":     "---\ndate: 2026-01-20\nverdict: Good.\nmarks: {fit: {mark: 4, why: nothing to fill}}\n---\nGood.\n",
		"builds/skiff/outline.svg":   `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 40"><path d="M0 0H100V40H0z"/></svg>`,
		"builds/skiff/2026-01-10.md": "---\nstage: assembly\nhours: 1 h\nphotos: [{file: photos/a.jpg, alt: sprues}]\n---\nBegun.\n",
		"builds/skiff/2026-01-18.md": "---\nstage: painting\nhours: 2 h\n---\nEnded.\n",
		"mine/mine.css":              "body { margin: 0 }\n",
		"mine/mark.svg":              `<svg xmlns="http://www.w3.org/2000/svg"/>`,
	}
	files := fstest.MapFS{"builds/skiff/photos/a.jpg": {Data: picture}}
	for name, text := range texts {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

func contents(t *testing.T, files []output.File) map[string]string {
	t.Helper()
	all := map[string]string{}
	for _, f := range files {
		if f.Open == nil {
			all[f.Path] = string(f.Bytes)
		} else {
			all[f.Path] = f.Hash
		}
	}
	return all
}

// Whatever step of reading the workshop fails, once or from then on, the run
// either makes the whole site all the same or stops with a finding: a site that
// lacks what could not be read would take the place of the whole one.
func TestNoSiteOfHalfAWorkshop(t *testing.T) {
	files := frail(t)
	cache := photo.MemoryCache()
	assemble := func(content fs.FS) (*gen.Gathered, error) {
		return gen.Gather(context.Background(), gen.Env{Content: content, Themes: themes.FS, Moment: moment, Photos: cache, Workers: 1})
	}
	res, err := assemble(files)
	if err != nil || res.Files == nil {
		t.Fatalf("%v, %v", err, res.Findings)
	}
	whole := contents(t, res.Files)
	faults := []failing{{err: errors.New("input/output error")}, {err: errors.New("input/output error"), ever: true}, {err: fs.ErrNotExist}, {err: fs.ErrNotExist, ever: true}, {err: fs.ErrPermission}}
	for i := range faults {
		fault := &faults[i]
		t.Run(fmt.Sprintf("%v ever %v", fault.err, fault.ever), func(t *testing.T) {
			for at := int64(1); ; at++ {
				disk := &failing{FS: files, at: at, err: fault.err, ever: fault.ever}
				res, err := assemble(disk)
				if disk.steps.Load() < at {
					if at < 100 {
						t.Errorf("a whole run takes %d steps only", at)
					}
					break
				}
				if err != nil || res.Findings.Stops() {
					continue
				}
				if got := contents(t, res.Files); !maps.Equal(got, whole) {
					t.Errorf("step %d: a site of its own, %d files of %d, and no finding of severity stop: %v", at, len(got), len(whole), res.Findings)
				}
			}
		})
	}
}

// growing is a file system in which a file is longer every time it is asked
// for its size, until it has been asked often enough.
type growing struct {
	fs.FS
	name  string
	steps int
}

func (g *growing) Open(name string) (fs.File, error) {
	file, err := g.FS.Open(name)
	if name != g.name || err != nil {
		return file, err
	}
	return growingFile{file, g}, nil
}

type growingFile struct {
	fs.File
	g *growing
}

func (f growingFile) Stat() (fs.FileInfo, error) {
	info, err := f.File.Stat()
	f.g.steps--
	return growingInfo{info, max(f.g.steps, 0)}, err
}

type growingInfo struct {
	fs.FileInfo
	n int
}

func (i growingInfo) ModTime() time.Time {
	return i.FileInfo.ModTime().Add(time.Duration(-i.n) * time.Second)
}

// A file that changes while it is read is read again, and where it does not
// come to rest, a finding says so.
func TestFileThatChangesWhileItIsRead(t *testing.T) {
	for _, name := range []string{"workshop.yaml", "rack/lamps.yaml", "wall/about.md", "builds/skiff/2026-01-18.md", "builds/skiff/photos/a.jpg"} {
		for _, c := range []struct {
			steps int
			stops bool
		}{{4, false}, {1000, true}} {
			res, err := gen.Gather(context.Background(), gen.Env{Content: &growing{frail(t), name, c.steps}, Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache(), Workers: 1})
			if err != nil {
				t.Fatal(err)
			}
			said := slices.ContainsFunc(res.Findings, func(f source.Finding) bool {
				return strings.Contains(f.Says.String(), "is being written while it is read") && f.Severity() == source.Stop
			})
			if said != c.stops || res.Findings.Stops() != c.stops {
				t.Errorf("%s, %d changes: %v", name, c.steps, res.Findings)
			}
		}
	}
}

// refusing is a site that takes a number of files and no more.
type refusing struct {
	output.Memory
	left atomic.Int64
}

var errRefused = errors.New("the drive is full")

func (s *refusing) Put(f output.File) error {
	if s.left.Add(-1) < 0 {
		return errRefused
	}
	return s.Memory.Put(f)
}

// Whichever file it is that the site does not take, the run ends and says so.
func TestAnyFileMayBeRefused(t *testing.T) {
	env := gen.Env{Content: frail(t), Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache(), Workers: 2}
	whole, err := gen.Gather(context.Background(), env)
	if err != nil || len(whole.Files) < 20 {
		t.Fatalf("%d files: %v", len(whole.Files), err)
	}
	for n := range len(whole.Files) {
		var site refusing
		site.left.Store(int64(n))
		if _, err := gen.Assemble(context.Background(), env, &site); err != errRefused {
			t.Errorf("after %d files: %v", n, err)
		}
		if got := len(site.Files()); got != n {
			t.Errorf("%d files are taken, want %d", got, n)
		}
	}
}
