package output

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"spruelight/testdata/outside"
)

// faultyDisk is a real file system on which step number at goes wrong: it fails
// with err, half done where it writes. With dead set nothing works from then
// on, as if the process had been killed.
type faultyDisk struct {
	realDisk
	at         int // first step is 1; 0 never
	err        error
	dead       bool
	noExchange bool // as on Windows
	noLinks    bool // as on FAT
	steps      int
	last       string // what the failed step was
}

var errKilled = errors.New("killed")

func (d *faultyDisk) step(what string) error {
	d.steps++
	if d.steps == d.at || d.dead && d.at > 0 && d.steps > d.at {
		if d.steps == d.at {
			d.last = what
		}
		return d.err
	}
	return nil
}

func (d *faultyDisk) Lstat(p string) (fs.FileInfo, error) {
	if err := d.step("lstat " + p); err != nil {
		return nil, err
	}
	return d.realDisk.Lstat(p)
}

func (d *faultyDisk) ReadDir(p string) ([]fs.DirEntry, error) {
	if err := d.step("list " + p); err != nil {
		return nil, err
	}
	return d.realDisk.ReadDir(p)
}

func (d *faultyDisk) ReadFile(p string) ([]byte, error) {
	if err := d.step("read " + p); err != nil {
		return nil, err
	}
	return d.realDisk.ReadFile(p)
}

func (d *faultyDisk) Open(p string) (io.ReadCloser, error) {
	if err := d.step("open " + p); err != nil {
		return nil, err
	}
	return d.realDisk.Open(p)
}

func (d *faultyDisk) Create(p string) (io.WriteCloser, error) {
	if err := d.step("create " + p); err != nil {
		return nil, err
	}
	f, err := d.realDisk.Create(p)
	return faultyFile{f, d, p}, err
}

type faultyFile struct {
	io.WriteCloser
	d    *faultyDisk
	path string
}

func (f faultyFile) Write(data []byte) (int, error) {
	if err := f.d.step("write " + f.path); err != nil {
		n, _ := f.WriteCloser.Write(data[:len(data)/2])
		return n, err
	}
	return f.WriteCloser.Write(data)
}

func (f faultyFile) Close() error {
	if err := f.d.step("close " + f.path); err != nil {
		f.WriteCloser.Close()
		return err
	}
	return f.WriteCloser.Close()
}

func (d *faultyDisk) Mkdir(p string) error {
	return d.do("mkdir "+p, func() error { return d.realDisk.Mkdir(p) })
}

func (d *faultyDisk) Link(from, to string) error {
	if d.noLinks {
		return syscall.EPERM
	}
	return d.do("link "+to, func() error { return d.realDisk.Link(from, to) })
}

func (d *faultyDisk) Rename(from, to string) error {
	return d.do("rename "+from+" "+to, func() error { return d.realDisk.Rename(from, to) })
}

func (d *faultyDisk) Exchange(a, b string) error {
	if d.noExchange {
		return errors.ErrUnsupported
	}
	return d.do("exchange "+a+" "+b, func() error { return d.realDisk.Exchange(a, b) })
}

func (d *faultyDisk) Remove(p string) error {
	if d.err == fs.ErrNotExist {
		return d.realDisk.Remove(p) // no system says so of what it then keeps
	}
	return d.do("remove "+p, func() error { return d.realDisk.Remove(p) })
}

func (d *faultyDisk) Chmod(p string, m fs.FileMode) error {
	return d.do("chmod "+p, func() error { return d.realDisk.Chmod(p, m) })
}

func (d *faultyDisk) Chtimes(p string, m time.Time) error {
	return d.do("times "+p, func() error { return d.realDisk.Chtimes(p, m) })
}

// Sync syncs nothing: what these tests are about is the order of steps, and
// hundreds of runs should not keep the drive busy.
func (d *faultyDisk) Sync(p string) error    { return d.step("sync " + p) }
func (d *faultyDisk) SyncDir(p string) error { return d.step("sync names " + p) }

func (d *faultyDisk) do(what string, f func() error) error {
	if err := d.step(what); err != nil {
		return err
	}
	return f()
}

// guests are what others put into the output folder: beside our files, in
// folders that come and go, in folders of their own, and a link.
var guests = tree{"CNAME": "bench.example", "builds/marram/mine.txt": "mine", "old/kept.txt": "kept",
	".git/HEAD": "ref", ".git/objects/aa/bb": "blob", "new/theirs.txt": "theirs", "logs/1.txt": "log"}

// writeOn is Write on a file system of the test's own.
func writeOn(d disk, dir string, site tree) (Report, error) {
	w := New(context.Background(), dir, Options{})
	w.disk = d
	return w.write(site.files())
}

// keepOn is writeOn that keeps whatever the former site has.
func keepOn(d disk, dir string, site tree) (Report, error) {
	w := New(context.Background(), dir, Options{})
	w.disk = d
	defer w.Close()
	for _, f := range site.files() {
		_, sum, _ := sumOf(strings.NewReader(string(f.Bytes)))
		err := w.Keep(f.Path, sum)
		if errors.Is(err, ErrNotKept) {
			err = w.Put(f)
		}
		if err != nil {
			return w.rep, err
		}
	}
	return w.Swap()
}

// prepare returns a folder with site A and guests.
func prepare(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(outside.QuickDir(t), "site")
	if _, err := writeOn(&faultyDisk{}, dir, siteA); err != nil {
		t.Fatal(err)
	}
	put(t, dir, guests)
	return dir
}

// systems are the kinds of file system that a site may lie on.
var systems = map[string]faultyDisk{
	"exchange and links": {},
	"no exchange":        {noExchange: true},
	"no links":           {noLinks: true},
	"neither":            {noExchange: true, noLinks: true},
}

func TestGuestsAreCarriedOver(t *testing.T) {
	for name, disk := range systems {
		t.Run(name, func(t *testing.T) {
			dir := prepare(t)
			before := stamps(t, dir)
			rep, err := writeOn(&disk, dir, siteB)
			if err != nil {
				t.Fatal(err)
			}
			if rep.Written != 3 || rep.Kept != 2 || rep.Removed != 1 {
				t.Errorf("report: %+v", rep)
			}
			mustHold(t, dir, siteB.with(guests))
			mustBeAlone(t, dir)
			after := stamps(t, dir)
			for p := range guests {
				if !same(before[p], after[p]) {
					t.Errorf("%s of somebody else is not the same file any more", p)
				}
			}
			for _, p := range []string{"style.css", "builds/marram/p.jpg"} {
				if !before[p].ModTime().Equal(after[p].ModTime()) {
					t.Errorf("%s was kept but has another time", p)
				}
			}
		})
	}
}

// isWhole reports whether the folder holds site exactly, besides guests.
func isWhole(got, site tree) bool {
	for p, text := range site {
		if got[p] != text {
			return false
		}
	}
	for p := range got {
		_, ours := site[p]
		_, theirs := guests[p]
		if !ours && !theirs {
			return false
		}
	}
	return true
}

// checkCut looks at what a run that was cut off left: whole A or whole B, and
// every guest somewhere.
func checkCut(t *testing.T, dir string, twoRenames bool) {
	t.Helper()
	all := tree{}
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		t.Fatal(err)
	}
	home := false
	for _, e := range entries {
		if e.IsDir() {
			maps.Copy(all, read(t, filepath.Join(filepath.Dir(dir), e.Name())))
		}
		home = home || e.Name() == filepath.Base(dir)
	}
	for p, text := range guests {
		if all[p] != text {
			t.Errorf("%s of somebody else is lost", p)
		}
	}
	if !home {
		if !twoRenames {
			t.Error("the site is missing")
		}
		return
	}
	if got := read(t, dir); !isWhole(got, siteA) && !isWhole(got, siteB) {
		t.Errorf("a mixture: %v", got)
	}
}

// Cut off after every single step, a run leaves the whole former or the whole
// new site, and the next run puts everything right. So does a next run that is
// cut off in turn.
func TestCutOffAtEveryStep(t *testing.T) {
	stride := 5
	if os.Getenv("SPRUELIGHT_LONG") == "1" {
		stride = 1
	}
	for name, system := range systems {
		t.Run(name, func(t *testing.T) {
			for at := 1; ; at++ {
				dir := prepare(t)
				first := system
				first.at, first.err, first.dead = at, errKilled, true
				_, err := writeOn(&first, dir, siteB)
				if first.steps < at {
					if err != nil || at < 50 {
						t.Fatalf("an undisturbed run of %d steps ends with %v", first.steps, err)
					}
					return
				}
				checkCut(t, dir, system.noExchange)
				if at%stride == 0 {
					// Each second cut is one step further than the last.
					second := system
					second.at, second.err, second.dead = at/stride*3%70+1, errKilled, true
					_, _ = writeOn(&second, dir, siteB)
					checkCut(t, dir, system.noExchange)
				}
				third := system
				if _, err := writeOn(&third, dir, siteB); err != nil {
					t.Fatalf("step %d (%s): the next run ends with %v", at, first.last, err)
				}
				mustHold(t, dir, siteB.with(guests))
				mustBeAlone(t, dir)
				if t.Failed() {
					t.Fatalf("after step %d, %s", at, first.last)
				}
			}
		})
	}
}

// A step that fails once, the run going on, is either made up for or reported;
// before the swap nothing is left behind.
func TestEveryStepFailsOnce(t *testing.T) {
	faults := map[string]error{"full": syscall.ENOSPC, "read-only": syscall.EROFS, "broken": syscall.EIO, "vanished": fs.ErrNotExist}
	for name, fault := range faults {
		t.Run(name, func(t *testing.T) {
			for at := 1; ; at++ {
				dir := prepare(t)
				disk := faultyDisk{at: at, err: fault}
				_, err := writeOn(&disk, dir, siteB)
				if disk.steps < at {
					return
				}
				checkCut(t, dir, false)
				got := read(t, dir)
				if err == nil && !isWhole(got, siteB) {
					t.Errorf("reports success, yet holds %v", got)
				}
				if err != nil {
					checkRefusal(t, err)
				}
				if err != nil && isWhole(got, siteA) && !strings.HasPrefix(disk.last, "remove") {
					mustBeAlone(t, dir)
				}
				if _, err := writeOn(&faultyDisk{}, dir, siteB); err != nil {
					t.Errorf("the next run ends with %v", err)
				}
				mustHold(t, dir, siteB.with(guests))
				mustBeAlone(t, dir)
				if t.Failed() {
					t.Fatalf("step %d, %s: %v", at, disk.last, err)
				}
			}
		})
	}
}

// checkRefusal checks that an error names a place and tells what is the matter.
func checkRefusal(t *testing.T, err error) {
	t.Helper()
	var r *Refusal
	if !errors.As(err, &r) || r.Path == "" || r.Says == "" {
		t.Errorf("%v does not say what is the matter", err)
	}
}

func TestMessagesOfFailures(t *testing.T) {
	dir := prepare(t)
	cases := []struct {
		step string // the step that fails begins so
		err  error
		want string // {dir} stands for the folder above the site
	}{
		{"write {dir}/.site.staging-", syscall.ENOSPC, "{dir}/site/builds/marram/index.html: cannot be written: the drive is full: no space left on device; free some space and run again; what was there before is untouched"},
		{"mkdir {dir}/.site.staging-", syscall.EROFS, "{dir}: cannot prepare site in this folder: the drive is read-only: read-only file system; choose another folder with --out"},
		{"mkdir {dir}/.site.staging-", syscall.EACCES, "{dir}: cannot prepare site in this folder: not permitted: permission denied; change the permissions of that folder, or choose another with --out"},
		{"exchange", syscall.EBUSY, "{dir}/site: is the top of a drive or mount, which cannot change its name, so a new site cannot take its place in one step: device or resource busy; choose a folder inside it, such as {dir}/site/www"},
	}
	for _, c := range cases {
		parent := filepath.Dir(dir)
		step := strings.ReplaceAll(c.step, "{dir}", parent)
		disk := &namedFault{step: step, err: c.err}
		_, err := writeOn(disk, dir, siteB)
		if want := strings.ReplaceAll(c.want, "{dir}", parent); err == nil || err.Error() != want {
			t.Errorf("%s\n got %v\nwant %s", c.step, err, want)
		}
		mustHold(t, dir, siteA.with(guests))
		mustBeAlone(t, dir)
	}
}

// namedFault fails the first step whose description begins with step.
type namedFault struct {
	faultyDisk
	step string
	err  error
}

func (d *namedFault) fails(what string) error {
	if d.step != "" && strings.HasPrefix(what, d.step) {
		d.step = ""
		return d.err
	}
	return nil
}

func (d *namedFault) Mkdir(p string) error {
	if err := d.fails("mkdir " + p); err != nil {
		return &fs.PathError{Op: "mkdir", Path: p, Err: err}
	}
	return d.faultyDisk.Mkdir(p)
}

func (d *namedFault) Exchange(a, b string) error {
	if err := d.fails("exchange " + a); err != nil {
		return err
	}
	return d.faultyDisk.Exchange(a, b)
}

func (d *namedFault) Create(p string) (io.WriteCloser, error) {
	f, err := d.faultyDisk.Create(p)
	return &namedFile{f, d, p}, err
}

type namedFile struct {
	io.WriteCloser
	d    *namedFault
	path string
}

func (f *namedFile) Write(data []byte) (int, error) {
	if err := f.d.fails("write " + f.path); err != nil {
		return 0, err
	}
	return f.WriteCloser.Write(data)
}
