//go:build !windows

package output

import (
	"path/filepath"

	"github.com/google/renameio/v2"
)

func replaceFile(name string, data []byte) error {
	// Beside the file, since the usual folder for temporary files may be
	// smaller, or emptied by somebody else.
	return renameio.WriteFile(name, data, 0o666, renameio.WithTempDir(filepath.Dir(name)))
}
