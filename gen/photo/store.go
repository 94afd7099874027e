package photo

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sync"
	"time"
)

// store holds entries by name.
type store interface {
	open(entry string) (content, int64, error)
	put(entry string, b []byte) error
	remove(entry string)
	touch(entry string, now time.Time)
	// prune removes entries until they take up no more than most bytes: those
	// used longest ago first, and none of those kept.
	prune(most int64, kept map[string]bool, now time.Time) error
}

// content is an entry open for reading.
type content interface {
	io.Reader
	io.ReaderAt
	io.Closer
}

// folderStore keeps each entry as a file; the file's time is that of its last use.
type folderStore string

// cacheTag marks the folder for backup programs (Cache Directory Tagging
// Specification 0.6, bford.info/cachedir).
const cacheTag = "Signature: 8a477f597d28d172789f06886806bc55\n# Renditions of photos; may be deleted at any time.\n"

func openFolder(folder string) (folderStore, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	tag := filepath.Join(folder, "CACHEDIR.TAG")
	if _, err := os.Stat(tag); errors.Is(err, fs.ErrNotExist) {
		if err := writeWhole(tag, []byte(cacheTag)); err != nil {
			return "", err
		}
	}
	return folderStore(folder), nil
}

func (s folderStore) path(entry string) string { return filepath.Join(string(s), entry+".photo") }

func (s folderStore) open(entry string) (content, int64, error) {
	f, err := os.Open(s.path(entry))
	if err != nil {
		return nil, 0, err
	}
	stat, err := f.Stat()
	if err != nil {
		f.Close()
		return nil, 0, err
	}
	return f, stat.Size(), nil
}

func (s folderStore) put(entry string, b []byte) error {
	if err := os.MkdirAll(string(s), 0o755); err != nil { // it may be deleted at any time
		return err
	}
	return writeWhole(s.path(entry), b)
}

func (s folderStore) remove(entry string) { os.Remove(s.path(entry)) }

// touched is how exact the time of last use is kept: writing it on every use
// would cost more than the rest of a run that has nothing to do.
const touched = time.Hour

func (s folderStore) touch(entry string, now time.Time) {
	stat, err := os.Stat(s.path(entry))
	if err == nil && now.Sub(stat.ModTime()) > touched {
		os.Chtimes(s.path(entry), now, now)
	}
}

// ours matches the entries, which prune may remove.
var ours = regexp.MustCompile(`^([0-9a-f]{64})\.photo$`)

func (s folderStore) prune(most int64, kept map[string]bool, now time.Time) error {
	list, err := os.ReadDir(string(s))
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	}
	var files []fs.FileInfo // that may go
	total := int64(0)
	for _, e := range list {
		m := ours.FindStringSubmatch(e.Name())
		info, err := e.Info()
		if m == nil || err != nil {
			continue
		}
		total += info.Size()
		if !kept[m[1]] {
			files = append(files, info)
		}
	}
	slices.SortFunc(files, func(a, b fs.FileInfo) int {
		return cmp.Or(a.ModTime().Compare(b.ModTime()), cmp.Compare(a.Name(), b.Name()))
	})
	for _, f := range files {
		if total <= most {
			break
		}
		if err := os.Remove(filepath.Join(string(s), f.Name())); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		total -= f.Size()
	}
	return nil
}

// memoryStore keeps entries in memory.
type memoryStore struct {
	mu      sync.Mutex
	entries map[string][]byte
}

type memoryContent struct{ *bytes.Reader }

func (memoryContent) Close() error { return nil }

func (s *memoryStore) open(entry string) (content, int64, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	b, ok := s.entries[entry]
	if !ok {
		return nil, 0, fs.ErrNotExist
	}
	return memoryContent{bytes.NewReader(b)}, int64(len(b)), nil
}

func (s *memoryStore) put(entry string, b []byte) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.entries == nil {
		s.entries = map[string][]byte{}
	}
	s.entries[entry] = b
	return nil
}

func (s *memoryStore) remove(entry string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.entries, entry)
}

func (s *memoryStore) touch(string, time.Time) {}

func (s *memoryStore) prune(int64, map[string]bool, time.Time) error { return nil }

// seen is what a photo looked like when it was last read.
type seen struct {
	Size     int64
	Modified int64 // nanoseconds of Unix time
	Content  string
}

// indexForm changes when the meaning of the index does.
const indexForm = 1

type indexFile struct {
	Form   int
	Photos map[string]seen
}

// indexPath returns where the index of a workshop lies. Each workshop has its
// own, since names of photos are only unique within one.
func indexPath(folder, workshop string) string {
	return filepath.Join(folder, "seen-"+hash([]byte(workshop))[:16]+".json")
}

// readIndex returns the photos of an index; one that cannot be read is as good
// as none.
func readIndex(path string) map[string]seen {
	var x indexFile
	b, err := os.ReadFile(path)
	if err != nil || json.Unmarshal(b, &x) != nil || x.Form != indexForm || x.Photos == nil {
		return map[string]seen{}
	}
	return x.Photos
}

func writeIndex(path string, photos map[string]seen) error {
	b, err := json.Marshal(indexFile{indexForm, photos})
	if err != nil {
		return err
	}
	if former, err := os.ReadFile(path); err == nil && bytes.Equal(former, b) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return writeWhole(path, b)
}
