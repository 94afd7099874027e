package output

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"spruelight/gen/source"
)

// Writer is a Site that is written into a folder. What changes is staged as it
// is put; until Swap the former site stands as it was. Nothing is looked at or
// made, and no other run waits, before the first file comes.
type Writer struct {
	ctx   context.Context // heeded until the swap
	dir   string          // as it was named
	opts  Options
	disk  disk
	begin func() error // start, once

	home    string // the output folder, absolute, links followed
	old     former
	started time.Time
	release func() // gives the lock back

	mu     sync.Mutex // held for what follows
	names  source.Paths
	lines  []line
	stage  *stage // nil until something changes
	rep    Report
	failed error // why there will be no swap
}

// line is a file of the new site.
type line struct {
	listed
	keep  bool // stands unchanged in the former site
	later bool // and looks younger there than the list
}

// New returns a site that becomes the content of dir. It must be closed.
func New(ctx context.Context, dir string, opts Options) *Writer {
	w := &Writer{ctx: ctx, dir: dir, opts: opts, disk: realDisk{}}
	w.begin = sync.OnceValue(w.start)
	return w
}

// start looks at the folder and takes its lock.
func (w *Writer) start() error {
	var err error
	if w.home, err = locate(w.dir); err != nil {
		return err
	}
	if err := keepApart(w.dir, w.home, w.opts); err != nil {
		return err
	}
	above := filepath.Dir(w.home)
	if err := os.MkdirAll(above, 0o777); err != nil {
		return failed(above, "cannot make this folder", err)
	}
	w.release, err = lock(w.ctx, w.home, waiting{w.opts.Wait, w.opts.Waiting})
	if err != nil {
		return err
	}
	w.started = time.Now()
	r := recovery{disk: w.disk, home: w.home}
	err = r.run()
	w.rep.Recovered = r.found
	if err == nil {
		w.old, err = readFormer(w.disk, w.home)
	}
	return err
}

// ready reports why no file can be taken, nil where one can.
func (w *Writer) ready() error {
	if w.ctx.Err() != nil {
		return context.Cause(w.ctx)
	}
	w.mu.Lock()
	err := w.failed
	w.mu.Unlock()
	if err != nil {
		return err
	}
	return w.begin()
}

// fail notes the first error, after which there is no swap.
func (w *Writer) fail(err error) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.failed == nil {
		w.failed = err
	}
	return err
}

// Put adds a file, which is written now if the former site does not have it.
func (w *Writer) Put(f File) error { return w.fail(w.put(&f)) }

func (w *Writer) put(f *File) error {
	if err := f.check(); err != nil {
		return err
	}
	if err := w.name(f.Path); err != nil {
		return err
	}
	if err := w.ready(); err != nil {
		return err
	}
	if err := f.sum(); err != nil {
		return err
	}
	l := line{listed: listed{f.Path, f.Size, f.Hash}}
	was, known := w.old.files[f.Path]
	replaced := false
	if known {
		now, later, err := w.old.state(was)
		if err != nil {
			return err
		}
		replaced = now != stands
		l.keep = !replaced && was == l.listed
		l.later = l.keep && later
	}
	stage, err := w.take(l, replaced)
	if err != nil || l.keep {
		return err
	}
	return stage.write(f)
}

// Had reports whether the site has a file before the swap. A folder that takes
// no files has none.
func (w *Writer) Had(path string) bool {
	if w.ready() != nil {
		return false
	}
	_, ok := w.old.files[path]
	return ok
}

// Keep adds a file of the former site.
func (w *Writer) Keep(path, hash string) error {
	err := w.keep(path, hash)
	if errors.Is(err, ErrNotKept) {
		return err
	}
	return w.fail(err)
}

func (w *Writer) keep(path, hash string) error {
	if err := w.ready(); err != nil {
		return err
	}
	was, known := w.old.files[path]
	if !known || was.sum != hash {
		return fmt.Errorf("%s: %w", path, ErrNotKept)
	}
	now, later, err := w.old.state(was)
	if err != nil {
		return err
	}
	if now != stands {
		return fmt.Errorf("%s: %w", path, ErrNotKept)
	}
	if err := w.name(path); err != nil {
		return err
	}
	_, err = w.take(line{listed: was, keep: true, later: later}, false)
	return err
}

// name checks that a path can stand beside those that came before.
func (w *Writer) name(path string) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if err := w.names.Add(path); err != nil {
		return err
	}
	if strings.HasPrefix(source.Fold(path), ListName) {
		return fmt.Errorf("file path %q begins with %s, which is kept for the list of written files", path, ListName)
	}
	return nil
}

// take notes a file, and returns the stage where it must be written.
func (w *Writer) take(l line, replaced bool) (*stage, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.lines = append(w.lines, l)
	if replaced {
		w.rep.Replaced = append(w.rep.Replaced, l.path)
	}
	if l.keep {
		w.rep.Kept++
		return nil, nil
	}
	w.rep.Written++
	w.rep.Bytes += l.size
	return w.open()
}

// open returns the stage, which is made when it is first wanted. mu is held.
func (w *Writer) open() (*stage, error) {
	var err error
	if w.stage == nil {
		w.stage, err = openStage(w.disk, w.home, &w.old)
	}
	return w.stage, err
}

// Swap puts the site in the place of the former one. Where all is as it should
// be, it writes nothing. On an error before the swap the former site stands as
// it was.
func (w *Writer) Swap() (Report, error) {
	defer w.Close()
	err := w.ready()
	if err == nil {
		err = w.finish()
	}
	return w.rep, w.fail(err)
}

func (w *Writer) finish() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	slices.SortFunc(w.lines, func(a, b line) int { return strings.Compare(a.path, b.path) })
	slices.Sort(w.rep.Replaced)
	files := make([]listed, len(w.lines))
	for i, l := range w.lines {
		files[i] = l.listed
	}
	w.rep.Removed = w.old.without(files)
	list := formatList(files)
	if w.old.exists && w.rep.Written == 0 && w.rep.Removed == 0 && string(list) == string(w.old.list) {
		w.refresh()
		return nil
	}
	guests, err := guestsOf(&w.old, files)
	if err != nil {
		return err
	}
	stage, err := w.open()
	if err == nil {
		err = stage.complete(w.ctx, &w.old, w.lines, guests, list)
	}
	if err != nil {
		return err
	}
	w.stage = nil // from here on the swap sees to it
	s := swap{disk: w.disk, home: w.home, stage: stage.dir}
	return s.run()
}

// refresh makes the list younger where files were copied here and look younger
// than it. They have just been compared byte for byte; a younger list spares
// the next run that. The second leaves room for coarse clocks.
func (w *Writer) refresh() {
	if slices.ContainsFunc(w.lines, func(l line) bool { return l.later }) {
		_ = w.disk.Chtimes(filepath.Join(w.home, ListName), w.started.Add(-time.Second))
	}
}

// Close gives up what was not swapped, and lets the next run begin. It must not
// be called while files are put; a second time it does nothing.
func (w *Writer) Close() {
	_ = w.fail(errors.New("the site takes no more files"))
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.stage != nil {
		_ = removeAll(w.disk, w.stage.dir) // else the next run does
		w.stage = nil
	}
	if w.release != nil {
		w.release()
		w.release = nil
	}
}
