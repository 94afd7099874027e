package photo

import (
	"bytes"
	"context"
	"image"

	"github.com/disintegration/imaging"
	"github.com/gen2brain/jpegn"
)

// made is a rendition with its bytes.
type made struct {
	size   Size
	format Format
	bytes  []byte
}

// render makes the renditions of a photo, smallest first, and its placeholder.
func render(ctx context.Context, data []byte, h *header, info Info, recipe Recipe) ([]made, Placeholder, error) {
	img, err := decode(data, h)
	if err != nil {
		return nil, Placeholder{}, err
	}
	sizes := recipe.Sizes(info.Shown)
	out := make([]made, len(sizes))
	upright := turn(img, info.Orientation)
	for i := len(sizes) - 1; i >= 0; i-- {
		if err := ctx.Err(); err != nil {
			return nil, Placeholder{}, err
		}
		upright = imaging.Resize(upright, sizes[i].Width, sizes[i].Height, imaging.Lanczos)
		b, err := encode(upright, recipe.Quality)
		if err != nil {
			return nil, Placeholder{}, err
		}
		out[i] = made{sizes[i], JPEG, b}
	}
	hold, err := placeholder(upright)
	return out, hold, err
}

// turn makes a picture upright (CIPA DC-008, tag 0x0112). The library counts
// its angles counter-clockwise.
func turn(img image.Image, orientation int) *image.NRGBA {
	switch orientation {
	case 2:
		return imaging.FlipH(img)
	case 3:
		return imaging.Rotate180(img)
	case 4:
		return imaging.FlipV(img)
	case 5:
		return imaging.Transpose(img)
	case 6:
		return imaging.Rotate270(img)
	case 7:
		return imaging.Transverse(img)
	case 8:
		return imaging.Rotate90(img)
	}
	return imaging.Clone(img)
}

// encode writes an opaque picture as a JPEG that holds nothing but the picture.
func encode(img *image.NRGBA, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := jpegn.Encode(&b, opaque(img), &jpegn.EncodeOptions{
		Quality: quality, Subsampling: jpegn.Subsample420,
		Progressive: true, OptimizeCoding: true, AdaptiveQuantization: true,
	})
	return b.Bytes(), err
}

// opaque returns the same pixels as a picture without alpha, which the encoder
// reads faster.
func opaque(img *image.NRGBA) *image.RGBA {
	return &image.RGBA{Pix: img.Pix, Stride: img.Stride, Rect: img.Rect}
}
