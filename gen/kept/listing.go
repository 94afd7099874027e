package kept

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"
)

// listing is what a folder holds by names, sizes and times, without any content.
type listing struct {
	mu     sync.Mutex
	folder map[string][sha256.Size]byte // by path
	newest time.Time                    // of all times of files
}

// errLink is a link to a folder: what lies behind it is not looked at.
var errLink = errors.New("a link to a folder")

// list looks at a folder and all below it, folder by folder on several workers.
// Folders to skip are absolute paths; so is the repository's own, .git.
func list(ctx context.Context, workers int, dir string, skip ...string) (*listing, error) {
	l := &listing{folder: map[string][sha256.Size]byte{}}
	skip = append(skip, filepath.Join(dir, ".git"))
	for level := []string{dir}; len(level) > 0; {
		group, ctx := errgroup.WithContext(ctx)
		group.SetLimit(max(workers, 1))
		below := make([][]string, len(level))
		for i, dir := range level {
			group.Go(func() (err error) {
				if err := ctx.Err(); err != nil {
					return err
				}
				below[i], err = l.add(dir, skip)
				return err
			})
		}
		if err := group.Wait(); err != nil {
			return nil, err
		}
		level = slices.Concat(below...)
	}
	return l, nil
}

// add lists one folder and returns those in it.
func (l *listing) add(dir string, skip []string) (below []string, err error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	h := sha256.New()
	var newest time.Time
	var line []byte
	for _, e := range entries {
		name := filepath.Join(dir, e.Name())
		if slices.Contains(skip, name) {
			continue
		}
		if e.IsDir() {
			below = append(below, name)
			line = append(append(line[:0], e.Name()...), "\x00folder\n"...)
			h.Write(line)
			continue
		}
		info, err := e.Info()
		if err == nil && info.Mode()&fs.ModeSymlink != 0 {
			info, err = os.Stat(name)
			if err == nil && info.IsDir() {
				err = errLink
			}
		}
		if err != nil {
			return nil, err
		}
		inode, changed := identity(info)
		line = append(append(line[:0], e.Name()...), 0)
		written := uint64(info.ModTime().UnixNano())
		for _, n := range []uint64{uint64(e.Type()), uint64(info.Mode()), uint64(info.Size()), written, uint64(changed.UnixNano()), inode} {
			line = binary.LittleEndian.AppendUint64(line, n)
		}
		h.Write(line)
		newest = later(newest, later(info.ModTime(), changed))
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.folder[dir] = [sha256.Size]byte(h.Sum(nil))
	l.newest = later(l.newest, newest)
	return below, nil
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// digest sums the listing up.
func (l *listing) digest() string {
	var dirs []string
	for dir := range l.folder {
		dirs = append(dirs, dir)
	}
	slices.Sort(dirs)
	h := sha256.New()
	for _, dir := range dirs {
		sum := l.folder[dir]
		h.Write(append([]byte(dir+"\x00"), sum[:]...))
	}
	return hex.EncodeToString(h.Sum(nil))
}
