package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

	"spruelight/gen/source"
)

// tries is how often a file is read that an editor or a copying program is
// still writing.
const tries = 3

var (
	errNoFile  = errors.New("is a folder or a device, not a file")
	errChanges = errors.New("is being written while it is read")
)

// tooLong says that a file has more bytes than maxFile.
type tooLong int64

func (n tooLong) Error() string {
	return fmt.Sprintf("%d KiB long; at most %d KiB are read", int64(n)>>10, maxFile>>10)
}

// readSteady reads a file whole, as it was at one moment: one whose size or
// time changes meanwhile is read again.
func readSteady(fsys fs.FS, name string) (data []byte, err error) {
	for range tries {
		if data, err = readOnce(fsys, name); !errors.Is(err, errChanges) {
			return data, err
		}
	}
	return nil, err
}

func readOnce(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name) // before it is opened: a pipe would wait for ever
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNoFile
	case info.Size() > maxFile:
		return nil, tooLong(info.Size())
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	before, err := f.Stat()
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err != nil {
		return nil, err
	}
	after, err := f.Stat()
	switch {
	case err != nil:
		return nil, err
	case after.Size() != int64(len(data)), before.Size() != after.Size(), !before.ModTime().Equal(after.ModTime()):
		return nil, errChanges
	}
	return data, nil
}

// readListed is readFile for a file that its folder lists: that it is not
// there is a finding too.
func readListed(fsys fs.FS, name string, found *source.Findings) (*source.File, bool) {
	before := len(*found)
	file, ok := readFile(fsys, name, found)
	if !ok && len(*found) == before {
		found.Add(ruleUnreadable.At(source.NewFile(name, "").Whole(), "run again; if it is a link, mend or remove it",
			"is listed in its folder, yet not there: it has just vanished, or is a link that leads nowhere"))
	}
	return file, ok
}

// Present gives a finding where the workshop is no longer there: a drive that
// is taken out looks, to what is read afterwards, like folders that were
// emptied.
func Present(fsys fs.FS) source.Findings {
	if _, err := fs.Stat(fsys, "workshop.yaml"); err == nil {
		return nil
	}
	return source.Findings{ruleUnreadable.At(source.Span{}, "see that its folder or drive is back, and run again",
		"the workshop has vanished while it was read")}
}
