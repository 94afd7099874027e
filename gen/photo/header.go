package photo

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"strings"

	"spruelight/gen/source"
)

// header is what stands in a photo before its pixels.
type header struct {
	format Format
	size   Size
	exif   []byte // the TIFF structure of the EXIF block, or nil
	icc    []byte // the colour profile as stored, or nil
	short  bool   // the file ends before its blocks do
	camera exif   // what exif says

	jpeg jpegHeader
	png  pngHeader
}

// The most that is kept of a block from a header: a JPEG segment holds no more
// than 64 KiB of EXIF, and the largest colour profiles in use some 2 MiB.
const (
	maxEXIF    = 1 << 20
	maxProfile = 4 << 20
	maxBlocks  = 1 << 14 // segments or chunks before a file counts as damaged
)

// Inspect reads the header of a photo and says what it is. Nothing is decoded.
// An error is a *Problem.
func Inspect(fsys fs.FS, name string, limits Limits) (Info, error) {
	stat, err := fs.Stat(fsys, name) // before it is opened: a pipe would wait for ever
	if err != nil {
		return Info{}, unopened(err)
	}
	if err := checkFile(stat, limits); err != nil {
		return Info{}, err
	}
	f, err := fsys.Open(name)
	if err != nil {
		return Info{}, unopened(err)
	}
	defer f.Close()
	r, err := seekable(f, limits)
	if err != nil {
		return Info{}, unopened(err)
	}
	h, err := readHeader(r, stat.Size(), limits)
	if err != nil {
		return Info{}, err
	}
	return h.info(stat.Size()), nil
}

func (h *header) info(bytes int64) Info {
	info := Info{Format: h.format, Bytes: bytes, Stored: h.size, Shown: h.size,
		Orientation: h.camera.orientation, Taken: h.camera.taken}
	if info.Orientation >= 5 { // 5 to 8 lie on their side
		info.Shown = Size{h.size.Height, h.size.Width}
	}
	return info
}

// unopened turns an error of the file system into a problem.
func unopened(err error) error {
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrInvalid) {
		p := problem(RuleMissing, "check the name, capitals included, or copy the photo there", "is not there")
		p.Cause = err
		return p
	}
	return problem(RuleUnreadable, "check that you may read the file", "cannot be read").because(err)
}

func checkFile(stat fs.FileInfo, limits Limits) error {
	most := limits.filled().Bytes
	switch {
	case stat.IsDir():
		return problem(RuleFormat, "name a file in it", "is a folder")
	case !stat.Mode().IsRegular():
		return problem(RuleFormat, "name an ordinary file", "is not an ordinary file")
	case stat.Size() == 0:
		return problem(RuleTruncated, "copy the photo from the camera again", "is empty")
	case stat.Size() > most:
		return problem(RuleTooLarge, "export it smaller", "is a file of %d MiB; at most %d MiB are read", stat.Size()>>20, most>>20)
	}
	return nil
}

// seekable returns the file as one that can be sought, read whole where its
// file system cannot do so.
func seekable(f fs.File, limits Limits) (io.ReadSeeker, error) {
	if r, ok := f.(io.ReadSeeker); ok {
		return r, nil
	}
	data, err := io.ReadAll(io.LimitReader(f, limits.filled().Bytes))
	return bytes.NewReader(data), err
}

// readHeader reads up to the pixels, and past them where a format keeps its
// EXIF there. size is that of the file.
func readHeader(r io.ReadSeeker, size int64, limits Limits) (*header, error) {
	w := &walker{r: r, buf: bufio.NewReaderSize(r, 16<<10), size: size}
	start, err := w.peek(32)
	if err != nil {
		return nil, problem(RuleUnreadable, "check the disk that holds it", "cannot be read").because(err)
	}
	h := &header{}
	switch {
	case bytes.HasPrefix(start, []byte("\xff\xd8\xff")):
		h.format, err = JPEG, h.readJPEG(w)
	case bytes.HasPrefix(start, []byte(pngSignature)):
		h.format, err = PNG, h.readPNG(w)
	case len(start) >= 12 && string(start[:4]) == "RIFF" && string(start[8:12]) == "WEBP":
		h.format, err = WebP, h.readWebP(w)
	default:
		return nil, foreign(start)
	}
	if err != nil {
		return nil, walkProblem(h.format, err)
	}
	if err := h.checkSize(limits); err != nil {
		return nil, err
	}
	if h.short {
		return nil, truncated()
	}
	h.camera = readEXIF(h.exif)
	return h, nil
}

// pastEnd notes that a file ends within its blocks, which is a finding of its
// own once the size in the header has been judged.
func (h *header) pastEnd(err error) error {
	if h.size != (Size{}) && (errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)) {
		h.short = true
		return nil
	}
	return err
}

func (h *header) checkSize(limits Limits) error {
	most := limits.filled().Pixels
	switch {
	case h.size.Width < 1 || h.size.Height < 1:
		return problem(RuleDamaged, remedyExport, "has a header that gives its size as %s pixels", h.size)
	case h.size.Pixels() > most:
		return problem(RuleTooLarge, "export it smaller, or raise the workshop's limit",
			"has %s pixels, %.3g megapixels; at most %.3g are read", h.size, float64(h.size.Pixels())/1e6, float64(most)/1e6)
	}
	return nil
}

const remedyExport = "copy it from the camera again, or open it in an image editor and export it as JPEG"

// walkProblem says what an error of a header's reader means to the author.
func walkProblem(format Format, err error) error {
	var p *Problem
	switch {
	case errors.As(err, &p):
		return p
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return problem(RuleTruncated, "copy the photo from the camera again", "breaks off within its header")
	case errors.Is(err, errBroken):
		return problem(RuleDamaged, remedyExport, "begins as %s but does not go on as one", strings.ToUpper(string(format))).because(err)
	}
	return problem(RuleUnreadable, "check the disk that holds it", "cannot be read").because(err)
}

// foreign says what a file is that is no photo this package reads.
func foreign(start []byte) error {
	for _, k := range foreignKinds {
		if len(start) >= k.at+len(k.magic) && string(start[k.at:k.at+len(k.magic)]) == k.magic {
			return problem(k.rule, k.remedy, "is %s; JPEG, PNG and WebP are read", k.name)
		}
	}
	return problem(RuleFormat, remedyExport, "is not a JPEG, PNG or WebP picture, whatever its name says")
}

const (
	remedyConvert = "open it in an image editor and export it as JPEG"
	remedyHEIC    = "convert it to JPEG: set the camera to its most compatible format, " +
		"or run `heif-convert -q 95 photo.heic photo.jpg` (libheif), or export it from the phone's photo program"
)

// foreignKinds are pictures that people try, known by their first bytes.
var foreignKinds = []struct {
	at           int
	magic        string
	name, remedy string
	rule         *source.Rule
}{
	{4, "ftypheic", "a HEIC picture", remedyHEIC, RuleHEIC},
	{4, "ftypheix", "a HEIC picture", remedyHEIC, RuleHEIC},
	{4, "ftyphevc", "a HEIC sequence", remedyHEIC, RuleHEIC},
	{4, "ftyphevx", "a HEIC sequence", remedyHEIC, RuleHEIC},
	{4, "ftypmif1", "a HEIF picture", remedyHEIC, RuleHEIC},
	{4, "ftypmsf1", "a HEIF sequence", remedyHEIC, RuleHEIC},
	{4, "ftypavif", "an AVIF picture", remedyConvert, RuleFormat},
	{4, "ftypavis", "an AVIF sequence", remedyConvert, RuleFormat},
	{4, "ftypcrx ", "a raw camera file", remedyConvert, RuleFormat},
	{4, "ftyp", "a video", "give its address under video, or name a still from it", RuleFormat},
	{0, "II*\x00", "a TIFF or raw camera file", remedyConvert, RuleFormat},
	{0, "MM\x00*", "a TIFF or raw camera file", remedyConvert, RuleFormat},
	{0, "II+\x00", "a TIFF file", remedyConvert, RuleFormat},
	{0, "MM\x00+", "a TIFF file", remedyConvert, RuleFormat},
	{0, "FUJIFILMCCD-RAW", "a raw camera file", remedyConvert, RuleFormat},
	{0, "GIF8", "a GIF picture", remedyConvert, RuleFormat},
	{0, "BM", "a BMP picture", remedyConvert, RuleFormat},
	{0, "8BPS", "a layered picture of an image editor", remedyConvert, RuleFormat},
	{0, "gimp xcf", "a layered picture of an image editor", remedyConvert, RuleFormat},
	{0, "\xff\x0a", "a JPEG XL picture", remedyConvert, RuleFormat},
	{0, "\x00\x00\x00\x0cJXL ", "a JPEG XL picture", remedyConvert, RuleFormat},
	{0, "\x00\x00\x00\x0cjP  ", "a JPEG 2000 picture", remedyConvert, RuleFormat},
	{0, "%PDF", "a PDF document", remedyConvert, RuleFormat},
	{0, "<svg", "an SVG drawing", remedyConvert, RuleFormat},
	{0, "<?xml", "an XML file, perhaps an SVG drawing", remedyConvert, RuleFormat},
}
