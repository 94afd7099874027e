package output

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"spruelight/gen/source"
)

// Memory is a Site that holds its files and is written nowhere. The zero value
// is ready; it has no former site, so that it keeps no file.
type Memory struct {
	mu    sync.Mutex
	names source.Paths
	files []File
}

// Put adds a file.
func (m *Memory) Put(f File) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.files = append(m.files, f)
	return m.names.Add(f.Path)
}

// Keep returns an error of ErrNotKept.
func (m *Memory) Keep(path, _ string) error { return fmt.Errorf("%s: %w", path, ErrNotKept) }

// Swap counts the files.
func (m *Memory) Swap() (Report, error) { return Report{Written: len(m.Files())}, nil }

// Files returns the files, in the order of their paths.
func (m *Memory) Files() []File {
	m.mu.Lock()
	defer m.mu.Unlock()
	slices.SortFunc(m.files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return slices.Clone(m.files)
}
