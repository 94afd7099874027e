package preview

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// quiet is how long files must lie still before a rebuild: editors write in
// several steps.
const quiet = 25 * time.Millisecond

// patience is the longest that changes may be held back while files keep
// changing.
const patience = 500 * time.Millisecond

// Watch calls changed once all folders are watched, with nil, and then with the
// workshop paths of changed files until the context ends. Folders to skip (the site, the cache) are full paths.
func Watch(ctx context.Context, dir string, skip []string, changed func([]string)) error {
	watcher, err := fsnotify.NewWatcher()
	if err != nil {
		return fmt.Errorf("changes cannot be watched: %w", err)
	}
	defer watcher.Close()
	w := &watch{dir: dir, skip: skip, watcher: watcher}
	if err := w.add(dir); err != nil {
		return err
	}
	changed(nil) // what is saved while this is worked on is heard of afterwards
	return w.run(ctx, changed)
}

type watch struct {
	dir     string
	skip    []string
	watcher *fsnotify.Watcher
}

// add watches a folder and all below it.
func (w *watch) add(dir string) error {
	return filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return nil // what vanished meanwhile is reported by its own event
		}
		if w.ignored(name) && name != w.dir {
			return fs.SkipDir
		}
		if err := w.watcher.Add(name); err != nil {
			return fmt.Errorf("%s cannot be watched: %w; the system may allow too few watches", name, err)
		}
		return nil
	})
}

// ignored reports whether a path is none of the workshop's texts and pictures:
// hidden files, editors' leavings, the site itself.
func (w *watch) ignored(name string) bool {
	base := filepath.Base(name)
	return strings.HasPrefix(base, ".") || strings.HasSuffix(base, "~") || strings.HasPrefix(base, "#") || slices.Contains(w.skip, name)
}

func (w *watch) run(ctx context.Context, changed func([]string)) error {
	var names, fresh []string
	var since time.Time
	still := time.NewTimer(time.Hour)
	defer still.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case err := <-w.watcher.Errors:
			if err != nil { // events were lost: anything may have changed
				names, since = []string{}, time.Now()
				changed(nil)
			}
		case event := <-w.watcher.Events:
			if event.Name == "" || w.ignored(event.Name) || event.Op == fsnotify.Chmod {
				continue
			}
			if event.Has(fsnotify.Create) {
				w.add(event.Name) // a new folder; of a file this does nothing
				fresh = append(fresh, event.Name)
			}
			if len(names) == 0 {
				since = time.Now()
			}
			if rel, err := filepath.Rel(w.dir, event.Name); err == nil && !slices.Contains(names, filepath.ToSlash(rel)) {
				names = append(names, filepath.ToSlash(rel))
			}
			still.Reset(min(quiet, max(0, patience-time.Since(since))))
		case <-still.C:
			if len(names) > 0 {
				for _, name := range fresh { // the end of a folder's old name takes the watch off its new one
					w.add(name)
				}
				slices.Sort(names)
				changed(names)
				names, fresh = nil, nil
			}
		}
	}
}
