package gen

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"spruelight/gen/bag"
	"spruelight/gen/photo"
)

// picturesFile ties the pictures to their words, for readers without this
// program and for restoring.
const picturesFile = "photos.csv"

// pictureColumns head that file.
var pictureColumns = []string{"picture", "kept as", "what is to be seen", "caption", "credit", "told in"}

// pictures takes the originals, or only lists which rendition stands for each.
func (s *shelving) pictures() error {
	var table bytes.Buffer
	out := csv.NewWriter(&table)
	out.Write(pictureColumns)
	for _, name := range s.bundle.photos {
		kept := ""
		if s.opts.Renditions {
			if at, ok := s.run.photos.Largest(name); ok && at != "" {
				kept = path.Join("site", at)
			}
		} else {
			kept = pictureItem(s.bundle.slug, name)
			if err := s.original(name, kept); err != nil {
				return err
			}
		}
		row := append([]string{strings.TrimPrefix(name, "builds/"+s.bundle.slug+"/"), kept}, s.wordsFor(name)...)
		out.Write(row)
	}
	out.Flush()
	s.add(bag.Bytes(picturesFile, table.Bytes()))
	return out.Error()
}

// pictureItem says where an original lies in the archive: those of the build's
// folder photos under photos, others beside the journals.
func pictureItem(slug, name string) string {
	if rest, ok := strings.CutPrefix(name, path.Join("builds", slug, "photos")+"/"); ok {
		return "photos/" + rest
	}
	return path.Join("sources", name)
}

// original takes one picture, without its place unless that is kept.
func (s *shelving) original(name, kept string) error {
	info, err := fs.Stat(s.env.Content, name)
	if err != nil {
		return err
	}
	if s.opts.KeepLocation {
		s.add(bag.Item{Path: kept, Size: info.Size(), Open: func() (io.ReadCloser, error) { return s.env.Content.Open(name) }})
		return nil
	}
	clean, gone, err := s.withoutPlace(name)
	if err != nil {
		return fmt.Errorf("%s: %w; or keep all pictures as they are with --keep-location", name, err)
	}
	if len(gone) > 0 {
		s.archive.Cleaned = append(s.archive.Cleaned, name+": "+strings.Join(gone, ", "))
	}
	s.add(bag.Item{Path: kept, Size: int64(len(clean)), Open: func() (io.ReadCloser, error) {
		data, _, err := s.withoutPlace(name) // read again: all originals at once would not fit into memory
		return io.NopCloser(bytes.NewReader(data)), err
	}})
	return nil
}

func (s *shelving) withoutPlace(name string) ([]byte, []string, error) {
	data, err := fs.ReadFile(s.env.Content, name)
	if err != nil {
		return nil, nil, err
	}
	return photo.WithoutPlace(data)
}

// wordsFor returns what the journals say of a picture: what is to be seen, the
// caption, who took it, and the journal that tells of it.
func (s *shelving) wordsFor(name string) []string {
	b := s.work.build
	for _, sitting := range b.Sittings {
		for _, p := range sitting.Front.Photos {
			for _, file := range p.Files() {
				if full, ok := b.Inside(file.V); ok && full == name {
					return []string{p.Alt.V, p.Caption.V, p.Credit.V, path.Base(sitting.File.Name)}
				}
			}
		}
		for _, p := range sitting.Body.Pictures() {
			if full, ok := b.Inside(p.File.V); ok && full == name {
				return []string{p.Alt, p.Title, "", path.Base(sitting.File.Name)}
			}
		}
	}
	for _, p := range b.Body.Pictures() {
		if full, ok := b.Inside(p.File.V); ok && full == name {
			return []string{p.Alt, p.Title, "", "build.md"}
		}
	}
	return []string{"", "", "", ""}
}
