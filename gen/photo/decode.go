package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/webp"
)

// decode returns the picture in data. Decoders are named one by one, never
// looked up among those registered, so that no TIFF or BMP reader can be
// reached, whichever package registered one.
func decode(data []byte, h *header) (img image.Image, err error) {
	defer func() {
		if r := recover(); r != nil {
			img, err = nil, problem(RuleDamaged, remedyExport, "cannot be decoded (%v)", r)
		}
	}()
	switch h.format {
	case JPEG:
		if err := checkEnd(data); err != nil {
			return nil, err
		}
		img, err = jpeg.Decode(bytes.NewReader(data))
	case PNG:
		img, err = png.Decode(bytes.NewReader(data))
	case WebP:
		img, err = webp.Decode(bytes.NewReader(data))
	}
	if err != nil {
		return nil, undecodable(err)
	}
	if size := (Size{img.Bounds().Dx(), img.Bounds().Dy()}); size != h.size {
		return nil, undecodable(fmt.Errorf("header says %s, picture has %s", h.size, size))
	}
	return img, nil
}

func undecodable(err error) error {
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		return truncated()
	}
	return problem(RuleDamaged, remedyExport, "cannot be decoded").because(err)
}
