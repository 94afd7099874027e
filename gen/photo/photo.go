// Package photo makes the renditions of a modeller's photos: the sizes a page
// needs, upright, in sRGB, with nothing left of what the camera wrote about the
// place, the time and itself.
//
// It serves the pipeline in package gen, which calls it from several workers at
// once: every function here may be called concurrently, starts no goroutine of
// its own and holds at most one decoded photo per call. Photos are read through
// an fs.FS; the only thing written is the cache (see Cache).
//
// Sizes are in pixels, files in bytes, light in linear units from 0 (black) to
// 1 (white). Colours leave as sRGB (IEC 61966-2-1:1999).
//
// Sources: ITU-T T.81 and T.871 (JPEG), W3C PNG third edition, RFC 9649 and RFC
// 6386 (WebP), CIPA DC-008 (EXIF), JEITA CP-3461B (DCF, the mark of Adobe RGB),
// ICC.1:2022 (profiles), ITU-T H.273 (code points of colours), Mitchell and
// Netravali, SIGGRAPH 1988 (kernels).
package photo

import (
	"encoding/base64"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"spruelight/gen/source"
)

// Format is how a picture is stored.
type Format string

const (
	JPEG Format = "jpeg"
	PNG  Format = "png"
	WebP Format = "webp"
)

// MediaType returns the media type of the format, such as "image/jpeg".
func (f Format) MediaType() string { return "image/" + string(f) }

// Suffix returns the ending of a file name for the format, such as ".jpg".
func (f Format) Suffix() string {
	if f == JPEG {
		return ".jpg"
	}
	return "." + string(f)
}

// IsPhoto reports whether a file's name ends like that of a picture that is read.
func IsPhoto(name string) bool {
	return slices.Contains([]string{".jpg", ".jpeg", ".png", ".webp"}, strings.ToLower(path.Ext(name)))
}

// IsKept reports whether a file's name is that of a picture that an archive
// keeps: those that are read, and HEIC as phones take it.
func IsKept(name string) bool {
	return IsPhoto(name) || slices.Contains([]string{".heic", ".heif"}, strings.ToLower(path.Ext(name)))
}

// Size is a width and a height in pixels.
type Size struct {
	Width, Height int
}

// Pixels returns the number of pixels.
func (s Size) Pixels() int64 { return int64(s.Width) * int64(s.Height) }

// Long returns the longer edge.
func (s Size) Long() int { return max(s.Width, s.Height) }

// String returns the size as people write it, such as "6000 × 4000".
func (s Size) String() string { return fmt.Sprintf("%d × %d", s.Width, s.Height) }

// Limits bound what is accepted as a photo. A zero field takes its default.
type Limits struct {
	Pixels int64 // most pixels; DefaultPixels where zero
	Bytes  int64 // largest file; DefaultBytes where zero
}

const (
	// DefaultPixels is 100 megapixels, above any camera that photographs models.
	DefaultPixels = 100_000_000
	// DefaultBytes is 256 MiB, above any still of DefaultPixels in a format read here.
	DefaultBytes = 256 << 20
)

func (l Limits) filled() Limits {
	if l.Pixels <= 0 {
		l.Pixels = DefaultPixels
	}
	if l.Bytes <= 0 {
		l.Bytes = DefaultBytes
	}
	return l
}

// Info is what the header of a photo says.
type Info struct {
	Format      Format
	Bytes       int64     // size of the file
	Stored      Size      // as the file holds it
	Shown       Size      // upright, with the orientation applied
	Orientation int       // EXIF orientation (CIPA DC-008), 1 to 8; 1 where none is given
	Taken       time.Time // when it was taken by the camera's own clock, in UTC for want of a zone; zero where unknown
}

// Recipe says what is made of a photo.
type Recipe struct {
	Edges   []int  // long edges wanted, in pixels; none is made larger than the photo
	Quality int    // JPEG quality, 1 to 100
	Also    Format // WebP: a smaller file beside each JPEG, at three times the work; else ""
	Limits  Limits // what is refused; no part of ID
}

// DefaultRecipe returns renditions of 320, 800 and 1600 px as JPEG. The quality
// gives pictures as like the resized photo (SSIM within 0.003, see
// TestCodingAgainstVips) as those that libvips codes at 82, in fewer bytes.
func DefaultRecipe() Recipe { return Recipe{Edges: []int{320, 800, 1600}, Quality: 84} }

// encoderVersion changes whenever the same recipe gives other bytes, so that
// what an older program cached is made again.
const encoderVersion = 3

// ID names everything that decides the bytes of a rendition, apart from the photo.
func (r Recipe) ID() string {
	return fmt.Sprintf("v%d edges=%v quality=%d also=%s", encoderVersion, r.edges(), r.Quality, r.Also)
}

// edges returns the wanted edges in ascending order without repeats.
func (r Recipe) edges() []int {
	edges := slices.Clone(r.Edges)
	slices.Sort(edges)
	return slices.Compact(edges)
}

// Check reports a recipe that cannot be followed.
func (r Recipe) Check() error {
	switch {
	case len(r.Edges) == 0:
		return errors.New("recipe asks for no size")
	case slices.Min(r.Edges) < 1 || slices.Max(r.Edges) > 16_383:
		return fmt.Errorf("recipe asks for edges of %v px; 1 to 16383 can be made", r.Edges)
	case r.Quality < 1 || r.Quality > 100:
		return fmt.Errorf("recipe asks for quality %d; it goes from 1 to 100", r.Quality)
	case r.Also != "" && r.Also != WebP:
		return fmt.Errorf("recipe asks for %s, which is not written", r.Also)
	}
	return nil
}

// Sizes returns the sizes made of a photo, smallest first: each edge that fits,
// and where the photo is smaller than an edge, its own size once. Both sides are
// rounded from the photo's own size, so that no error adds up from step to step.
func (r Recipe) Sizes(photo Size) []Size {
	var sizes []Size
	for _, edge := range r.edges() {
		if edge >= photo.Long() {
			return append(sizes, photo)
		}
		sizes = append(sizes, photo.fit(edge))
	}
	return sizes
}

// fit returns the size scaled so that its longer side is edge, rounded half up
// and never less than a pixel.
func (s Size) fit(edge int) Size {
	long := int64(s.Long())
	side := func(v int) int { return int(max(1, (2*int64(v)*int64(edge)+long)/(2*long))) }
	return Size{side(s.Width), side(s.Height)}
}

// Set is what was made of one photo.
type Set struct {
	Info        Info
	Content     string // SHA-256 of the photo's bytes, in hexadecimal
	Renditions  []Rendition
	Placeholder Placeholder
	Notes       []*Problem // what is worth saying though the photo could be used
	Reused      bool       // taken from the cache
}

// Rendition is a photo in one size and format.
type Rendition struct {
	Size
	Format Format
	Bytes  int64
	Hash   string // SHA-256 of its bytes, in hexadecimal

	read func() ([]byte, error)
}

// Read returns the bytes of the rendition, checked against Hash.
func (r Rendition) Read() ([]byte, error) { return r.read() }

// Placeholder stands in for a photo until it has loaded.
type Placeholder struct {
	Colour string // dominant colour, "#rrggbb"
	Blur   []byte // a blurred JPEG of some 16 px, at most MaxPlaceholder bytes
	Size   Size   // of Blur
}

// MaxPlaceholder is the most bytes that a placeholder adds to a page, before base64.
const MaxPlaceholder = 500

// DataURI returns the blurred picture as a data: address (RFC 2397).
func (p Placeholder) DataURI() string {
	return "data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(p.Blur)
}

// Problem is what is wrong with a photo. It is an error; package gen turns it
// into a finding at the place where the journal names the photo.
type Problem struct {
	Rule   *source.Rule
	Says   source.Message // what was found, in lower case, without the photo's name
	Remedy source.Message
	Cause  error // what the system or a decoder said, or nil
	aloud  bool  // the cause is worth printing
}

// Error returns what was found, with the cause.
func (p *Problem) Error() string { return p.found().String() }

func (p *Problem) found() source.Message {
	if !p.aloud {
		return p.Says
	}
	return source.Say("%s (%s)", p.Says, strings.TrimSpace(p.Cause.Error()))
}

// Unwrap returns the cause.
func (p *Problem) Unwrap() error { return p.Cause }

// At returns the problem as a finding about the named photo.
func (p *Problem) At(at source.Span, name string) source.Finding {
	return p.Rule.At(at, p.Remedy, "photo %q: %s", name, p.found())
}

func problem(rule *source.Rule, remedy, form string, args ...any) *Problem {
	if false { // has go vet hold the values against the form
		return &Problem{Cause: fmt.Errorf(form, args...)}
	}
	return &Problem{Rule: rule, Says: source.Say(form, args...), Remedy: source.Word(remedy)}
}

// because returns the problem with its cause, whose words are appended.
func (p *Problem) because(err error) *Problem {
	if err != nil {
		p.Cause, p.aloud = err, true
	}
	return p
}
