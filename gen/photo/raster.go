package photo

import "image"

// raster gives a picture row by row, in linear light.
type raster interface {
	// size returns the number of samples in a row, and of rows.
	size() Size
	// row returns row y as red, green and blue, valid until the next call.
	row(y int) [3][]float32
}

// rasterOf returns a decoded picture in linear light. Transparent parts are
// laid on white, in stored values, as browsers and editors do.
func rasterOf(img image.RGBA64Image, s *space) raster {
	size := Size{img.Bounds().Dx(), img.Bounds().Dy()}
	if p, ok := img.(*image.YCbCr); ok {
		return newPlanes(p, s)
	}
	px := pixels{whole: size, out: threeRows(size.Width)}
	switch img := img.(type) {
	case *image.Gray:
		return &bytewise{px, wides(s), img.Pix, img.Stride, 1}
	case *image.NRGBA:
		return &bytewise{px, wides(s), img.Pix, img.Stride, 4}
	case *image.RGBA:
		if img.Opaque() { // else premultiplied, which is not what bytewise reads
			return &bytewise{px, wides(s), img.Pix, img.Stride, 4}
		}
	}
	return &deepwise{px, [3]*deep{s.curves[0].deep(), s.curves[1].deep(), s.curves[2].deep()}, img, img.Bounds().Min}
}

// halve returns a picture of half the width and height, every sample the mean
// light of four; of an odd last column or row, of two.
func halve(r raster) raster {
	if p, ok := r.(*planes); ok && p.hs == 1 && p.vs == 1 {
		return newQuads(p)
	}
	s := r.size()
	return &halved{r, threeRows((s.Width + 1) / 2)}
}

func wides(s *space) [3]*wide {
	return [3]*wide{s.curves[0].wide(), s.curves[1].wide(), s.curves[2].wide()}
}

// threeRows returns one buffer for each channel.
func threeRows(width int) [3][]float32 {
	b := make([]float32, 3*width)
	return [3][]float32{b[:width:width], b[width : 2*width : 2*width], b[2*width:]}
}

// pixels is what rasters of whole pixels share.
type pixels struct {
	whole Size
	out   [3][]float32
}

func (p *pixels) size() Size { return p.whole }

// bytewise reads pixels of one byte (grey) or four (red, green, blue, alpha,
// not premultiplied).
type bytewise struct {
	pixels
	curves [3]*wide
	pix    []uint8
	stride int
	bytes  int
}

func (p *bytewise) row(y int) [3][]float32 {
	src := p.pix[y*p.stride:]
	for x := range p.out[0] {
		at := src[x*p.bytes:]
		if p.bytes == 1 {
			at = []uint8{at[0], at[0], at[0], 255}
		}
		for c, curve := range p.curves {
			v := int(at[c])
			if a := int(at[3]); a != 255 {
				v = (v*a + 255*(255-a) + 127) / 255
			}
			p.out[c][x] = curve[v+wideOffset]
		}
	}
	return p.out
}

// deepwise reads pixels of any other kind.
type deepwise struct {
	pixels
	curves [3]*deep
	img    image.RGBA64Image
	min    image.Point
}

func (p *deepwise) row(y int) [3][]float32 {
	for x := range p.out[0] {
		c := p.img.RGBA64At(p.min.X+x, p.min.Y+y)
		white := 65535 - uint32(c.A)
		p.out[0][x] = p.curves[0][min(uint32(c.R)+white, 65535)]
		p.out[1][x] = p.curves[1][min(uint32(c.G)+white, 65535)]
		p.out[2][x] = p.curves[2][min(uint32(c.B)+white, 65535)]
	}
	return p.out
}

// halved averages two by two.
type halved struct {
	raster
	out [3][]float32
}

func (h *halved) size() Size {
	s := h.raster.size()
	return Size{(s.Width + 1) / 2, (s.Height + 1) / 2}
}

func (h *halved) row(y int) [3][]float32 {
	rows := min(2, h.raster.size().Height-2*y)
	for i := range rows {
		for c, src := range h.raster.row(2*y + i) {
			pairs(h.out[c], src, 0.5/float32(rows), i > 0)
		}
	}
	return h.out
}

// pairs sets dst to the weighted sums of pairs of src, or adds them to it.
func pairs(dst, src []float32, weight float32, add bool) {
	for x := range dst {
		v := weight * (src[2*x] + src[min(2*x+1, len(src)-1)])
		if add {
			v += dst[x]
		}
		dst[x] = v
	}
}
