package bag

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"unicode/utf8"
)

// Limits on what a bag may ask of the machine that checks it. Files are read in
// pieces, so that their size matters for time only; tag files are held whole.
const (
	maxTagFile  = 32 << 20 // bytes of one tag file: a manifest of some 150,000 files
	maxLists    = 16       // manifests of each kind
	maxEntries  = 1 << 20  // files and folders in a bag
	maxGrowth   = 200      // times its own size that a zip may unpack to, after
	freeGrowth  = 64 << 20 // bytes that any zip may unpack to
	zipSuffix   = ".zip"
	dataFolder  = "data/"
	maxZipDepth = 200 // folders in one another
)

// store is a bag that is read, whatever holds it. Paths are relative to the
// bag's base folder and known to be safe.
type store struct {
	files  map[string]int64 // path to size
	data   bool             // there is a payload folder
	open   func(path string) (io.ReadCloser, error)
	close  func() error
	faults []Fault
}

func (s *store) fault(kind Kind, file, format string, args ...any) {
	s.faults = append(s.faults, Fault{Kind: kind, File: file, Says: fmt.Sprintf(format, args...)})
}

// openStore opens a folder, or a zip of whatever name.
func openStore(name string) (*store, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return openFolder(name)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: is neither a folder nor a file", name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	s := readZip(f, info.Size())
	s.close = f.Close
	return s, nil
}

// openFolder lists a folder. Files are opened through an os.Root, so that a
// link that appears while the bag is being read leads nowhere outside either.
func openFolder(name string) (*store, error) {
	root, err := os.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	s := &store{files: map[string]int64{}, close: root.Close}
	s.open = func(p string) (io.ReadCloser, error) { return root.Open(filepath.FromSlash(p)) }
	err = fs.WalkDir(root.FS(), ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || p == "." {
			return err
		}
		if len(s.files) >= maxEntries {
			s.fault(Limit, "", "has more than %d files", maxEntries)
			return fs.SkipAll
		}
		return s.addFromFolder(p, e)
	})
	if err != nil {
		root.Close()
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return s, nil
}

func (s *store) addFromFolder(p string, e fs.DirEntry) error {
	switch {
	case !utf8.ValidString(p):
		s.fault(Encoding, p, "the name is not UTF-8")
		if e.IsDir() {
			return fs.SkipDir
		}
	case e.IsDir():
		s.data = s.data || p+"/" == dataFolder
	case !e.Type().IsRegular():
		s.fault(Irregular, p, "is %s, not a file; it is not followed", kindOf(e.Type()))
	default:
		info, err := e.Info()
		if err != nil {
			return err
		}
		s.files[p] = info.Size()
	}
	return nil
}

func kindOf(m fs.FileMode) string {
	if m&fs.ModeSymlink != 0 {
		return "a link"
	}
	return "a device, pipe or socket"
}

// readZip lists a zip. Everything odd becomes a fault; what is left is safe to
// open by its path.
func readZip(r io.ReaderAt, size int64) *store {
	s := &store{files: map[string]int64{}, close: func() error { return nil }}
	s.open = func(p string) (io.ReadCloser, error) { return nil, fs.ErrNotExist }
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		s.fault(Container, "", "is neither a folder nor a whole zip file: %v", err)
		return s
	}
	if !s.fits(z.File, size) {
		return s
	}
	found := map[string]*zip.File{}
	var folders []string
	for _, f := range z.File {
		switch p := withoutDot(strings.TrimSuffix(f.Name, "/")); {
		case p == "" || p == ".": // the folder itself
		case !s.isSafe(f, p):
		case strings.HasSuffix(f.Name, "/"):
			folders = append(folders, p)
		case found[p] != nil:
			s.fault(Duplicate, p, "is stored twice in the zip")
		default:
			found[p] = f
		}
	}
	base := s.findBase(found)
	byPath := map[string]*zip.File{}
	for p, f := range found {
		inside, ok := strings.CutPrefix(p, base)
		switch why := leadsOut(inside); {
		case !ok:
			s.fault(Extra, p, "lies beside the bag in the zip")
		case why != "": // which the folder before it has hidden
			s.fault(Outside, shorten(p), "the path in the bag %s; it is not unpacked", why)
		default:
			byPath[inside] = f
			s.files[inside] = int64(f.UncompressedSize64)
			s.data = s.data || strings.HasPrefix(inside, dataFolder)
		}
	}
	for _, p := range folders {
		s.data = s.data || p+"/" == base+dataFolder
	}
	s.filesAsFolders()
	s.open = func(p string) (io.ReadCloser, error) { return openZipped(byPath[p]) }
	return s
}

// fits refuses zips made to choke whoever unpacks them: too many entries, out
// of all proportion, or entries that share their bytes.
func (s *store) fits(files []*zip.File, size int64) bool {
	var packed, unpacked uint64
	most := uint64(size)*maxGrowth + freeGrowth
	for _, f := range files {
		// Each is held against the limit before it is added: sums wrap around.
		packed += min(f.CompressedSize64, uint64(size)+1)
		unpacked += min(f.UncompressedSize64, most+1)
		if packed > uint64(size) {
			s.fault(Limit, "", "the entries of the zip overlap or claim more bytes than the file has; it is not unpacked")
			return false
		}
		if unpacked > most {
			s.fault(Limit, "", "a zip of %d bytes would unpack to more than %d times that; it is not unpacked", size, maxGrowth)
			return false
		}
	}
	if len(files) > maxEntries {
		s.fault(Limit, "", "has more than %d files", maxEntries)
		return false
	}
	return true
}

func (s *store) isSafe(f *zip.File, p string) bool {
	const encrypted = 1 // bit 0 of the general purpose flags (PKWARE APPNOTE 4.4.4)
	why := leadsOut(p)
	switch {
	case !utf8.ValidString(f.Name):
		s.fault(Encoding, p, "the name in the zip is not UTF-8")
	case why != "":
		s.fault(Outside, shorten(f.Name), "the path in the zip %s; it is not unpacked", why)
	case strings.Count(p, "/") > maxZipDepth:
		s.fault(Limit, shorten(p), "lies more than %d folders deep", maxZipDepth)
	case !f.Mode().IsDir() && !f.Mode().IsRegular():
		s.fault(Irregular, p, "is %s in the zip, not a file; it is not unpacked", kindOf(f.Mode()))
	case f.Flags&encrypted != 0:
		s.fault(Container, p, "is encrypted in the zip")
	default:
		return true
	}
	return false
}

// findBase returns the folder of the zip that the bag lies in, with its slash:
// the one with a declaration, else the only one there is; "" for the top.
func (s *store) findBase(files map[string]*zip.File) string {
	if files[declarationFile] != nil {
		return ""
	}
	tops, bases := map[string]bool{}, map[string]bool{}
	for p := range files {
		top, inside, deep := strings.Cut(p, "/")
		tops[top+"/"] = true
		if deep && inside == declarationFile {
			bases[top+"/"] = true
		}
	}
	if len(bases) > 1 {
		s.fault(Container, "", "the zip holds %d bags, not one", len(bases))
		return ""
	}
	for _, found := range []map[string]bool{bases, tops} {
		if len(found) != 1 {
			continue
		}
		for base := range found {
			if base != dataFolder && files[strings.TrimSuffix(base, "/")] == nil {
				return base
			}
		}
	}
	return ""
}

// filesAsFolders finds files whose path is the folder of others, which no
// folder on a drive could hold.
func (s *store) filesAsFolders() {
	for dir := range s.folders() {
		if _, file := s.files[dir]; file {
			s.fault(Duplicate, dir, "is a file and a folder in the zip")
		}
	}
}

// folders returns every folder that has a file in it.
func (s *store) folders() map[string]bool {
	dirs := map[string]bool{}
	for p := range s.files {
		for dir := path.Dir(p); dir != "." && !dirs[dir]; dir = path.Dir(dir) {
			dirs[dir] = true
		}
	}
	return dirs
}

// openZipped bounds what an entry gives by what it declared, which fits has
// added up.
func openZipped(f *zip.File) (io.ReadCloser, error) {
	if f == nil {
		return nil, fs.ErrNotExist
	}
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	return bounded{io.LimitReader(r, int64(f.UncompressedSize64)+1), r}, nil
}

type bounded struct {
	io.Reader
	io.Closer
}
