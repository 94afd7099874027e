package photo

import (
	"bytes"
	"fmt"
	"image"

	"github.com/disintegration/imaging"
	"github.com/gen2brain/jpegn"
)

// placeholder makes the stand-in from the smallest rendition.
func placeholder(img *image.NRGBA) (Placeholder, error) {
	hold := Placeholder{Colour: dominant(img)}
	whole := Size{img.Rect.Dx(), img.Rect.Dy()}
	for _, edge := range []int{24, 20, 16, 12, 8} {
		hold.Size = whole.fit(min(edge, whole.Long()))
		small := imaging.Blur(imaging.Resize(img, hold.Size.Width, hold.Size.Height, imaging.Box), 0.6)
		var b bytes.Buffer
		err := jpegn.Encode(&b, opaque(small), &jpegn.EncodeOptions{Quality: 50, Subsampling: jpegn.Subsample420, OptimizeCoding: true})
		if err != nil {
			return hold, err
		}
		if hold.Blur = b.Bytes(); len(hold.Blur) <= MaxPlaceholder {
			break
		}
	}
	return hold, nil
}

// dominant returns the colour that most of a picture has: the mean of the
// fullest of 4096 equal boxes of the colour cube.
func dominant(img *image.NRGBA) string {
	var boxes [4096]struct{ n, r, g, b int }
	best := 0
	for i := 0; i+3 < len(img.Pix); i += 4 {
		r, g, b := int(img.Pix[i]), int(img.Pix[i+1]), int(img.Pix[i+2])
		at := r>>4<<8 | g>>4<<4 | b>>4
		box := &boxes[at]
		box.n, box.r, box.g, box.b = box.n+1, box.r+r, box.g+g, box.b+b
		if box.n > boxes[best].n {
			best = at
		}
	}
	box := boxes[best]
	n := max(box.n, 1)
	return fmt.Sprintf("#%02x%02x%02x", box.r/n, box.g/n, box.b/n)
}
