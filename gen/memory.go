package gen

import (
	"bytes"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// memory is a file system of texts in memory and of some files of another one.
type memory struct {
	files   map[string][]byte
	under   fs.FS
	through map[string]bool // files that are read from under
}

// Open opens a file or folder.
func (m *memory) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if data, ok := m.files[name]; ok {
		return &memoryFile{Reader: bytes.NewReader(data), memoryInfo: memoryInfo{path.Base(name), int64(len(data)), 0o444}}, nil
	}
	if m.through[name] {
		return m.under.Open(name)
	}
	if list := m.list(name); list != nil {
		return &memoryDir{memoryInfo: memoryInfo{path.Base(name), 0, fs.ModeDir | 0o555}, list: list}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// list returns what a folder holds, in order; nil where there is no such folder.
func (m *memory) list(dir string) []fs.DirEntry {
	prefix := dir + "/"
	if dir == "." {
		prefix = ""
	}
	kinds := map[string]fs.FileMode{}
	see := func(name string) {
		rest, inside := strings.CutPrefix(name, prefix)
		if first, _, deeper := strings.Cut(rest, "/"); inside && deeper {
			kinds[first] = fs.ModeDir | 0o555
		} else if inside {
			kinds[first] = 0o444
		}
	}
	for name := range m.files {
		see(name)
	}
	for name := range m.through {
		see(name)
	}
	var list []fs.DirEntry
	for name, mode := range kinds {
		list = append(list, fs.FileInfoToDirEntry(memoryInfo{name, int64(len(m.files[prefix+name])), mode}))
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return list
}

// memoryInfo describes a file or folder in memory.
type memoryInfo struct {
	name string
	size int64
	mode fs.FileMode
}

func (i memoryInfo) Name() string       { return i.name }
func (i memoryInfo) Size() int64        { return i.size }
func (i memoryInfo) Mode() fs.FileMode  { return i.mode }
func (i memoryInfo) ModTime() time.Time { return time.Time{} }
func (i memoryInfo) IsDir() bool        { return i.mode.IsDir() }
func (i memoryInfo) Sys() any           { return nil }

type memoryFile struct {
	*bytes.Reader
	memoryInfo
}

func (f *memoryFile) Stat() (fs.FileInfo, error) { return f.memoryInfo, nil }
func (f *memoryFile) Close() error               { return nil }
func (f *memoryFile) Size() int64                { return f.memoryInfo.size }

type memoryDir struct {
	memoryInfo
	list []fs.DirEntry
}

func (d *memoryDir) Stat() (fs.FileInfo, error) { return d.memoryInfo, nil }
func (d *memoryDir) Close() error               { return nil }
func (d *memoryDir) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: d.name, Err: fs.ErrInvalid}
}

// ReadDir returns the next n entries, or all that are left.
func (d *memoryDir) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		list := d.list
		d.list = nil
		return list, nil
	}
	if len(d.list) == 0 {
		return nil, io.EOF
	}
	n = min(n, len(d.list))
	list := d.list[:n]
	d.list = d.list[n:]
	return list, nil
}
