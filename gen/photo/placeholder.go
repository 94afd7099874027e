package photo

import (
	"bytes"
	"fmt"
	"image"

	"github.com/disintegration/imaging"
	"github.com/gen2brain/jpegn"
)

// placeholder makes the stand-in for a picture. finish turns light into the
// upright picture that is shown. Colour stays at full size, since at half of 20
// pixels nothing would be left of a lit window.
func placeholder(picture *light, finish func(*light) *image.NRGBA) (Placeholder, error) {
	var hold Placeholder
	for _, edge := range []int{20, 16, 12, 8} {
		small := shrink(picture, picture.fit(min(edge, picture.Long())))
		small.settle()
		upright := imaging.Blur(finish(small), 0.6)
		var b bytes.Buffer
		err := jpegn.Encode(&b, opaque(upright), &jpegn.EncodeOptions{Quality: 70, Subsampling: jpegn.Subsample444, OptimizeCoding: true})
		if err != nil {
			return hold, err
		}
		hold.Size, hold.Blur = Size{upright.Rect.Dx(), upright.Rect.Dy()}, b.Bytes()
		if len(hold.Blur) <= MaxPlaceholder {
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
