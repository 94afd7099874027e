package bag

import (
	"bytes"
	"context"
	"fmt"
	"hash/crc32"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"spruelight/gen/output"
	"spruelight/gen/source"
)

// Item is one file of the payload.
type Item struct {
	Path string // below data/, forward slashes; see source.ValidPath
	Open func() (io.ReadCloser, error)
	Size int64 // bytes; -1 where it is not known
}

// Bytes returns an item for content in memory.
func Bytes(path string, content []byte) Item {
	return Item{Path: path, Size: int64(len(content)), Open: func() (io.ReadCloser, error) {
		return io.NopCloser(bytes.NewReader(content)), nil
	}}
}

// Options choose the form of a bag.
type Options struct {
	Algorithms []string // of the manifests: sha512, sha256 or both; nil means sha512
}

// Write makes a bag at dst: a zip file where the name ends in .zip, else a
// folder. info becomes bag-info.txt, in its order, followed by Payload-Oxum.
// dst must not exist (then the error is of fs.ErrExist); it appears whole or
// not at all. Every item is opened twice, and must be the same both times.
func Write(ctx context.Context, dst string, payload []Item, info []Tag, opts Options) error {
	names, err := chosen(opts.Algorithms)
	if err != nil {
		return err
	}
	files, err := arrange(payload)
	if err != nil {
		return err
	}
	if err := output.Free(dst); err != nil {
		return err // before all files are read
	}
	if err := measure(ctx, files, names); err != nil {
		return err
	}
	tags, err := tagFiles(files, info, names)
	if err != nil {
		return err
	}
	files = slices.Concat(files, tags)
	slices.SortFunc(files, func(a, b member) int { return strings.Compare(a.path, b.path) })
	if strings.EqualFold(filepath.Ext(dst), zipSuffix) {
		base := strings.TrimSuffix(filepath.Base(dst), filepath.Ext(dst))
		if err := source.ValidPath(base); err != nil {
			return fmt.Errorf("%s: the folder in the zip would bear a name that not every system can store: %w", dst, err)
		}
		return output.NewFileFrom(ctx, dst, func(w io.Writer) error { return writeZip(ctx, w, base, files) })
	}
	return output.Folder(ctx, dst, func(stage string) error { return writeFolder(ctx, stage, files) })
}

// member is one file of the bag to be written.
type member struct {
	path string // in the bag
	open func() (io.ReadCloser, error)
	size int64
	crc  uint32            // for the zip
	sums map[string]string // by algorithm
}

func chosen(names []string) ([]string, error) {
	if len(names) == 0 {
		return []string{"sha512"}, nil // section 2.4 recommends it
	}
	for _, name := range names {
		if !writable(name) {
			return nil, fmt.Errorf("new bags are made with sha512 or sha256, not %q", name)
		}
	}
	names = slices.Clone(names)
	slices.Sort(names)
	return slices.Compact(names), nil
}

func arrange(payload []Item) ([]member, error) {
	paths := make([]string, len(payload))
	files := make([]member, len(payload))
	for i, item := range payload {
		paths[i] = item.Path
		files[i] = member{path: dataFolder + item.Path, open: item.Open, size: item.Size}
	}
	return files, source.CheckPaths(paths)
}

// measure reads every file once, for its checksums and, for the zip, its CRC.
func measure(ctx context.Context, files []member, names []string) error {
	for i := range files {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		if err := files[i].measure(names); err != nil {
			return fmt.Errorf("reading %s for the bag: %w", files[i].path, err)
		}
	}
	return nil
}

func (m *member) measure(names []string) error {
	r, err := m.open()
	if err != nil {
		return err
	}
	defer r.Close()
	crc := crc32.NewIEEE()
	n, sums, err := sumAll(io.TeeReader(r, crc), names)
	if err != nil {
		return err
	}
	if m.size >= 0 && n != m.size {
		return fmt.Errorf("it has %d bytes, not the %d expected", n, m.size)
	}
	m.size, m.sums, m.crc = n, sums, crc.Sum32()
	return nil
}

// copyTo writes the file and checks that it is still the one measured.
func (m *member) copyTo(w io.Writer) error {
	r, err := m.open()
	if err != nil {
		return fmt.Errorf("reading %s for the bag: %w", m.path, err)
	}
	defer r.Close()
	name := sortedKeys(m.sums)[0]
	n, sums, err := sumAll(io.TeeReader(r, w), []string{name})
	if err != nil {
		return err
	}
	if n != m.size || sums[name] != m.sums[name] {
		return &output.Refusal{Path: m.path, Says: "changed while the bag was being written", Remedy: "run again"}
	}
	return nil
}

// tagFiles makes the tag files of a bag with the given payload.
func tagFiles(payload []member, info []Tag, names []string) ([]member, error) {
	var octets int64
	for _, m := range payload {
		octets += m.size
	}
	for _, t := range info {
		if strings.EqualFold(t.Label, oxumLabel) {
			return nil, fmt.Errorf("%s: %s is worked out, not given", infoFile, oxumLabel)
		}
	}
	text, err := formatInfo(append(slices.Clone(info), Tag{oxumLabel, formatOxum(octets, len(payload))}))
	if err != nil {
		return nil, err
	}
	tags := []member{made(declarationFile, []byte(declared)), made(infoFile, text)}
	for _, name := range names {
		tags = append(tags, made("manifest-"+name+".txt", manifestOf(payload, name)))
	}
	if err := measure(context.Background(), tags, names); err != nil {
		return nil, err
	}
	lists := make([]member, len(names))
	for i, name := range names {
		lists[i] = made("tagmanifest-"+name+".txt", manifestOf(tags, name))
	}
	if err := measure(context.Background(), lists, names); err != nil {
		return nil, err
	}
	return append(tags, lists...), nil
}

func made(path string, text []byte) member {
	item := Bytes(path, text)
	return member{path: path, open: item.Open, size: item.Size}
}

func manifestOf(files []member, algorithm string) []byte {
	entries := make([]entry, len(files))
	for i, m := range files {
		entries[i] = entry{sum: m.sums[algorithm], path: m.path}
	}
	slices.SortFunc(entries, func(a, b entry) int { return strings.Compare(a.path, b.path) })
	return formatManifest(entries)
}
