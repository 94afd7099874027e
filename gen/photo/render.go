package photo

import (
	"bytes"
	"context"
	"image"
	"slices"

	"github.com/disintegration/imaging"
	"github.com/gen2brain/jpegn"
)

// made is a rendition with its bytes.
type made struct {
	size   Size
	format Format
	bytes  []byte
}

// produce makes everything of a photo's bytes. Whatever a hostile file may
// make a library do, the run goes on.
func produce(ctx context.Context, data []byte, recipe Recipe) (set Set, renditions []made, err error) {
	defer func() {
		if r := recover(); r != nil {
			set, renditions, err = Set{}, nil, problem(RuleDamaged, remedyExport, "cannot be worked on (%v)", r)
		}
	}()
	return work(ctx, data, recipe)
}

func work(ctx context.Context, data []byte, recipe Recipe) (Set, []made, error) {
	h, err := readHeader(bytes.NewReader(data), int64(len(data)), recipe.Limits)
	if err != nil {
		return Set{}, nil, err
	}
	set := Set{Info: h.info(int64(len(data)))}
	s, note := h.space()
	if note != nil {
		set.Notes = append(set.Notes, note)
	}
	img, err := decode(data, h)
	if err != nil {
		return Set{}, nil, err
	}
	if o, ok := img.(interface{ Opaque() bool }); ok && !o.Opaque() {
		set.Notes = append(set.Notes, problem(RuleTransparent,
			"fill its background in an image editor if white is not wanted", "is transparent in parts; they are shown white"))
	}
	pictures, err := cascade(ctx, rasterOf(img, s), recipe.Sizes(set.Info.Stored))
	if err != nil {
		return Set{}, nil, err
	}
	finish := func(l *light) *image.NRGBA {
		defer l.free()
		return turn(l.store(s.matrix), set.Info.Orientation)
	}
	if set.Placeholder, err = placeholder(pictures[0], finish); err != nil {
		return Set{}, nil, err
	}
	var renditions []made
	renditions, set.Placeholder.Colour, err = code(ctx, pictures, finish, recipe)
	return set, renditions, err
}

// code writes the renditions, and returns them with the dominant colour of the
// smallest. WebP has colour at half size only, which small lamps do not bear; a
// photo has it in every size or in none, so that a browser can choose by size.
func code(
	ctx context.Context, pictures []*light, finish func(*light) *image.NRGBA, recipe Recipe,
) (renditions []made, colour string, err error) {
	also := recipe.Also == WebP && !slices.ContainsFunc(pictures, func(p *light) bool { return p.points })
	for i, p := range pictures {
		upright := finish(p)
		if i == 0 {
			colour = dominant(upright)
		}
		m, err := encode(ctx, upright, recipe.coding(p.Size, p.points))
		if err != nil {
			return nil, "", err
		}
		renditions = append(renditions, m)
		if also {
			if m, err = encodeWebP(ctx, upright, recipe.Quality); err != nil {
				return nil, "", err
			}
			renditions = append(renditions, m)
		}
	}
	return renditions, colour, nil
}

// cascade makes each size from the next larger one, in linear light. The sizes
// come smallest first and so do the pictures.
func cascade(ctx context.Context, src raster, sizes []Size) ([]*light, error) {
	pictures := make([]*light, len(sizes))
	for i := len(sizes) - 1; i >= 0; i-- {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		pictures[i] = shrink(src, sizes[i])
		pictures[i].settle()
		src = pictures[i]
	}
	return pictures, nil
}

// store returns the picture in 8-bit sRGB. The matrix to linear sRGB may be
// applied only now, since resizing treats all channels alike.
func (l *light) store(m *matrix) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, l.Width, l.Height))
	r, g, b := l.plane[0], l.plane[1], l.plane[2]
	if m != nil {
		l.convert(m)
	}
	for i, pix := 0, img.Pix; i < len(r) && len(pix) >= 4; i, pix = i+1, pix[4:] {
		pix[0], pix[1], pix[2], pix[3] = toSRGB(r[i]), toSRGB(g[i]), toSRGB(b[i]), 255
	}
	return img
}

// convert changes the picture's primaries. Colours outside sRGB are cut off at
// its edge when they are stored.
func (l *light) convert(m *matrix) {
	var k [9]float32
	for i, v := range m {
		k[i] = float32(v)
	}
	for i, r := range l.plane[0] {
		g, b := l.plane[1][i], l.plane[2][i]
		l.plane[0][i] = k[0]*r + k[1]*g + k[2]*b
		l.plane[1][i] = k[3]*r + k[4]*g + k[5]*b
		l.plane[2][i] = k[6]*r + k[7]*g + k[8]*b
	}
}

// turn makes a picture upright (CIPA DC-008, tag 0x0112). The library counts
// its angles counter-clockwise.
func turn(img *image.NRGBA, orientation int) *image.NRGBA {
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
	return img
}

// smallEdge is the longest edge of a small picture, in pixels.
const smallEdge = 400

// coding says how a picture is written as JPEG. Where small lamps on black are
// what it shows, colour is kept at full size and the quality is at least 90:
// else coding takes a tenth of the light of white lamps and a fifth of that of
// coloured ones, whose colour is spread over the black around them and cut off
// there. Such pictures are small files even so. Small pictures, which have more
// detail to each pixel, lose more by the same quality and get two steps more, for
// a kilobyte.
func (r Recipe) coding(size Size, points bool) *jpegn.EncodeOptions {
	o := &jpegn.EncodeOptions{Quality: r.Quality, Subsampling: jpegn.Subsample420,
		Progressive: true, OptimizeCoding: true, AdaptiveQuantization: true}
	if size.Long() <= smallEdge {
		o.Quality = min(r.Quality+2, 100)
	}
	if points {
		o.Quality, o.Subsampling = max(r.Quality, 90), jpegn.Subsample444
	}
	return o
}

// encode writes an opaque picture as a JPEG that holds nothing but the picture.
func encode(ctx context.Context, img *image.NRGBA, coding *jpegn.EncodeOptions) (made, error) {
	if err := ctx.Err(); err != nil {
		return made{}, err
	}
	var b bytes.Buffer
	err := jpegn.Encode(&b, opaque(img), coding)
	return made{Size{img.Rect.Dx(), img.Rect.Dy()}, JPEG, b.Bytes()}, err
}

// opaque returns the same pixels as a picture without alpha, which the encoder
// reads faster.
func opaque(img *image.NRGBA) *image.RGBA {
	return &image.RGBA{Pix: img.Pix, Stride: img.Stride, Rect: img.Rect}
}
