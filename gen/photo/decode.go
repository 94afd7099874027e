package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"github.com/gen2brain/jpegn"
	"golang.org/x/image/webp"
)

// decode returns the picture in data. Decoders are named one by one, never
// looked up among those registered, so that no TIFF or BMP reader can be
// reached, whichever package registered one.
func decode(data []byte, h *header) (image.RGBA64Image, error) {
	if h.hollow(int64(len(data))) {
		return nil, problem(RuleDamaged, remedyExport, "claims %s pixels in a file of %d bytes, which cannot hold them", h.size, len(data))
	}
	var img image.Image
	var err error
	switch h.format {
	case JPEG:
		// Decoders differ in whether they say that the end is missing.
		if _, whole := pictureEnd(data, 2); !whole {
			return nil, truncated()
		}
		img, err = decodeJPEG(data, h)
	case PNG:
		img, err = guarded(png.Decode, data)
	case WebP:
		img, err = guarded(webp.Decode, data)
		img = fromStudio(img)
	}
	if err != nil {
		return nil, undecodable(err)
	}
	if size := (Size{img.Bounds().Dx(), img.Bounds().Dy()}); size != h.size {
		return nil, undecodable(fmt.Errorf("the header says %s, the picture has %s", h.size, size))
	}
	deep, ok := img.(image.RGBA64Image)
	if !ok {
		return nil, undecodable(fmt.Errorf("pixels of an unknown kind %T", img))
	}
	return deep, nil
}

// hollow reports whether a file is too small for the pixels that its header
// claims, so that nothing is set aside for them. A JPEG spends a bit or more on
// each block of 8 × 8 samples, and zlib packs at most 1032 bytes into one (RFC
// 1951: a match of 258 bytes in two bits). A WebP of one colour may be tiny.
func (h *header) hollow(bytes int64) bool {
	switch h.format {
	case JPEG:
		return bytes*8 < h.size.Pixels()/64
	case PNG:
		return bytes*1032 < h.size.Pixels()*int64(h.png.bits)/8
	}
	return false
}

// guarded runs a decoder on what may be made to crash it.
func guarded(decoder func(io.Reader) (image.Image, error), data []byte) (img image.Image, err error) {
	defer func() {
		if r := recover(); r != nil {
			img, err = nil, fmt.Errorf("the decoder gave up: %v", r)
		}
	}()
	return decoder(bytes.NewReader(data))
}

// decodeJPEG decodes with the fast decoder what that is known to read well, and
// with the standard library's everything else and whatever looks broken.
func decodeJPEG(data []byte, h *header) (image.Image, error) {
	if h.jpeg.ordinary() {
		img, err := guarded(func(r io.Reader) (image.Image, error) { return jpegn.Decode(r) }, data)
		if err == nil && img.Bounds().Size() == (image.Point{h.size.Width, h.size.Height}) && !doubtful(img) {
			return img, nil
		}
	}
	return guarded(jpeg.Decode, data)
}

// doubtful reports whether the fast decoder may have given up part way, which
// it does not say: it leaves the rest at zero, which is no colour (luma 0 with
// the strongest green), or goes on with one flat tone to the end. The standard
// library's decoder, which refuses broken files, then decides.
func doubtful(img image.Image) bool {
	switch img := img.(type) {
	case *image.YCbCr:
		return blank(img) || flatEnd(img.Y, img.YStride, img.Rect)
	case *image.Gray:
		return flatEnd(img.Pix, img.Stride, img.Rect)
	}
	return false
}

// blank reports whether any block was never written.
func blank(img *image.YCbCr) bool {
	for y := 4; y < img.Rect.Dy(); y += 8 {
		for x := 4; x < img.Rect.Dx(); x += 8 {
			c := img.COffset(x, y)
			if img.Cb[c] == 0 && img.Cr[c] == 0 && img.Y[img.YOffset(x, y)] == 0 {
				return true
			}
		}
	}
	return false
}

// flatEnd reports whether the last rows, as many as a JPEG codes at a time, are
// all of one value.
func flatEnd(pix []uint8, stride int, r image.Rectangle) bool {
	first := pix[(r.Dy()-1)*stride]
	for y := max(r.Dy()-8, 0); y < r.Dy(); y++ {
		for _, v := range pix[y*stride:][:r.Dx()] {
			if v != first {
				return false
			}
		}
	}
	return true
}

func undecodable(err error) error {
	var rare jpeg.UnsupportedError
	if errors.As(err, &rare) {
		return rareJPEG(string(rare))
	}
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		return truncated()
	}
	return problem(RuleDamaged, remedyExport, "cannot be decoded").because(err)
}

// fromStudio turns the luma and chroma of a lossy WebP, which run from 16 to
// 235 and 240 (RFC 6386 9.2: ITU-R BT.601), into the pixels they stand for: the
// decoder hands them out as if they were those of a JPEG.
func fromStudio(img image.Image) image.Image {
	var p *image.YCbCr
	var alpha *image.NYCbCrA
	switch img := img.(type) {
	case *image.YCbCr:
		p = img
	case *image.NYCbCrA:
		p, alpha = &img.YCbCr, img
	default:
		return img
	}
	out := image.NewNRGBA(p.Rect)
	for y := p.Rect.Min.Y; y < p.Rect.Max.Y; y++ {
		for x := p.Rect.Min.X; x < p.Rect.Max.X; x++ {
			c := p.COffset(x, y)
			l, u, v := 76309*(int(p.Y[p.YOffset(x, y)])-16), int(p.Cb[c])-128, int(p.Cr[c])-128
			pix := out.Pix[out.PixOffset(x, y):][:4:4]
			pix[0], pix[1], pix[2], pix[3] = byteOf(l+104597*v), byteOf(l-25675*u-53279*v), byteOf(l+132201*u), 255
			if alpha != nil {
				pix[3] = alpha.A[alpha.AOffset(x, y)]
			}
		}
	}
	return out
}

// byteOf rounds a value in 1/65536 steps.
func byteOf(v int) uint8 { return uint8(min(max((v+1<<15)>>16, 0), 255)) }
