package bag

import (
	"archive/zip"
	"context"
	"io"
	"os"
	"path/filepath"
	"unicode/utf8"
)

// writeFolder writes the files of a bag into an empty folder.
func writeFolder(ctx context.Context, stage string, files []member) error {
	if err := os.Mkdir(filepath.Join(stage, "data"), 0o777); err != nil {
		return err
	}
	for i := range files {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		name := filepath.Join(stage, filepath.FromSlash(files[i].path))
		if err := writeFile(name, files[i].copyTo); err != nil {
			return err
		}
	}
	return nil
}

// writeFile makes a file that does not exist yet, with the folders above it.
func writeFile(name string, fill func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	err = fill(f)
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// firstDate is 1 January 1980, the earliest date of a zip entry, in its own
// form: year since 1980, month and day in 7, 4 and 5 bits (PKWARE APPNOTE 4.4.6).
const firstDate = 1<<5 | 1

// writeZip writes the files of a bag below one folder, stored as they are.
func writeZip(ctx context.Context, w io.Writer, base string, files []member) error {
	z := zip.NewWriter(w)
	if _, err := z.CreateRaw(zipHeader(base+"/"+dataFolder, member{}, os.ModeDir|0o755)); err != nil {
		return err
	}
	for i := range files {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		to, err := z.CreateRaw(zipHeader(base+"/"+files[i].path, files[i], 0o644))
		if err == nil {
			err = files[i].copyTo(to)
		}
		if err != nil {
			return err
		}
	}
	return z.Close()
}

// zipHeader describes an entry whose size and CRC are known, so that it needs
// no descriptor after its bytes: some programs cannot read those of stored
// entries.
func zipHeader(name string, m member, mode os.FileMode) *zip.FileHeader {
	h := &zip.FileHeader{Name: name, Method: zip.Store, CRC32: m.crc,
		CompressedSize64: uint64(m.size), UncompressedSize64: uint64(m.size), ReaderVersion: 20}
	//lint:ignore SA1019 CreateRaw writes this field, and takes no notice of Modified
	h.ModifiedDate = firstDate
	h.SetMode(mode)
	const utf8Name = 0x800 // bit 11 of the flags (PKWARE APPNOTE 4.4.4)
	if len(name) != utf8.RuneCountInString(name) {
		h.Flags |= utf8Name
	}
	return h
}
