package shelving

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
var pictureColumns = []string{"picture", "kept as", "what is to be seen", "caption", "credit", "shown in", "taken out of it"}

// pictures takes the originals, or only lists which rendition stands for each.
func (p *packing) pictures() error {
	var table bytes.Buffer
	out := csv.NewWriter(&table)
	out.Write(pictureColumns)
	for _, name := range p.bundle.photos {
		kept, gone := "", "the original is left out"
		if p.opts.Renditions {
			if at, ok := p.site.Largest(name); ok && at != "" {
				kept = path.Join("site", at)
			}
		} else {
			kept = pictureItem(p.bundle.slug, name)
			var err error
			if gone, err = p.original(name, kept); err != nil {
				return err
			}
		}
		row := append([]string{strings.TrimPrefix(name, "builds/"+p.bundle.slug+"/"), kept}, p.wordsFor(name)...)
		out.Write(append(row, gone))
	}
	out.Flush()
	p.add(bag.Bytes(picturesFile, table.Bytes()))
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

// original takes one picture, without its place and its camera's number unless
// they are kept, and says what was taken out.
func (p *packing) original(name, kept string) (string, error) {
	info, err := fs.Stat(p.env.Content, name)
	if err != nil {
		return "", err
	}
	if p.opts.keepsAll() {
		p.add(bag.Item{Path: kept, Size: info.Size(), Open: func() (io.ReadCloser, error) { return p.env.Content.Open(name) }})
		return "kept as it was", nil
	}
	clean, gone, err := p.private(name)
	if err != nil {
		return "", fmt.Errorf("%s: %w; or keep all pictures as they are with --keep-location --keep-camera", name, err)
	}
	p.gone = append(p.gone, gone)
	if gone != (photo.Removed{}) {
		p.archive.Cleaned = append(p.archive.Cleaned, name+": "+gone.String())
	}
	p.add(bag.Item{Path: kept, Size: int64(len(clean)), Open: func() (io.ReadCloser, error) {
		data, _, err := p.private(name) // read again: all originals at once would not fit into memory
		return io.NopCloser(bytes.NewReader(data)), err
	}})
	return gone.String(), nil
}

func (p *packing) private(name string) ([]byte, photo.Removed, error) {
	data, err := fs.ReadFile(p.env.Content, name)
	if err != nil {
		return nil, photo.Removed{}, err
	}
	return photo.Private(data, p.opts.keep())
}

// wordsFor returns what the journals say of a picture: what is to be seen, the
// caption, who took it, and the journal that shows it.
func (p *packing) wordsFor(name string) []string {
	b := p.site.Build
	for _, sitting := range b.Sittings {
		for _, shown := range sitting.Front.Photos {
			for _, file := range shown.Files() {
				if full, ok := b.Inside(file.V); ok && full == name {
					return []string{shown.Alt.V, shown.Caption.V, shown.Credit.V, path.Base(sitting.File.Name)}
				}
			}
		}
		for _, shown := range sitting.Body.Pictures() {
			if full, ok := b.Inside(shown.File.V); ok && full == name {
				return []string{shown.Alt, shown.Title, "", path.Base(sitting.File.Name)}
			}
		}
	}
	for _, shown := range b.Body.Pictures() {
		if full, ok := b.Inside(shown.File.V); ok && full == name {
			return []string{shown.Alt, shown.Title, "", "build.md"}
		}
	}
	return []string{"", "", "", ""}
}
