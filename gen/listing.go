package gen

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

	"spruelight/gen/source"
	"spruelight/gen/topic"
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
	var mu sync.Mutex
	var failed error
	for level := []string{dir}; len(level) > 0; {
		var next []string
		var none source.Findings
		each(ctx, workers, level, func(dir string) source.Findings {
			below, err := l.add(dir, skip)
			mu.Lock()
			defer mu.Unlock()
			next = append(next, below...)
			failed = errors.Join(failed, err)
			return nil
		}, &none)
		if err := errors.Join(failed, ctx.Err()); err != nil {
			return nil, err
		}
		level = next
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
		for _, n := range []uint64{uint64(e.Type()), uint64(info.Mode()), uint64(info.Size()), uint64(info.ModTime().UnixNano()), uint64(changed.UnixNano()), inode} {
			line = binary.LittleEndian.AppendUint64(line, n)
		}
		h.Write(line)
		newest = topic.Later(newest, topic.Later(info.ModTime(), changed))
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.folder[dir] = [sha256.Size]byte(h.Sum(nil))
	l.newest = topic.Later(l.newest, newest)
	return below, nil
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
