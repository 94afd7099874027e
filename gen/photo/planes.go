package photo

import (
	"image"
	"math"
)

// chroma holds what chroma samples add to luma, in 8-bit steps (ITU-T T.871,
// clause 7), as an offset into a wide curve.
type chroma struct {
	red, blue        [256]int32
	greenCb, greenCr [256]int32 // in 1/65536 steps
}

var fullRange = func() *chroma {
	c := new(chroma)
	for i := range 256 {
		v := float64(i - 128)
		c.red[i] = int32(math.Round(1.402*v)) + wideOffset
		c.blue[i] = int32(math.Round(1.772*v)) + wideOffset
		c.greenCb[i] = int32(math.Round(-0.344136286*v*65536)) + wideOffset<<16 + 1<<15
		c.greenCr[i] = int32(math.Round(-0.714136286 * v * 65536))
	}
	return c
}()

// planes is a picture in luma and chroma, as a JPEG holds it.
type planes struct {
	pixels
	img    *image.YCbCr
	curves [3]*wide
	hs, vs uint // shift from luma to chroma samples
	cb, cr []uint8
	column []int32 // three parts of the nearer chroma row and one of the farther
}

func newPlanes(img *image.YCbCr, s *space) *planes {
	whole := Size{img.Rect.Dx(), img.Rect.Dy()}
	p := &planes{pixels: pixels{whole, threeRows(whole.Width)}, img: img, curves: wides(s)}
	switch img.SubsampleRatio {
	case image.YCbCrSubsampleRatio422:
		p.hs = 1
	case image.YCbCrSubsampleRatio420:
		p.hs, p.vs = 1, 1
	case image.YCbCrSubsampleRatio440:
		p.vs = 1
	case image.YCbCrSubsampleRatio411:
		p.hs = 2
	case image.YCbCrSubsampleRatio410:
		p.hs, p.vs = 2, 1
	}
	p.cb, p.cr = make([]uint8, whole.Width), make([]uint8, whole.Width)
	p.column = make([]int32, p.chromaWidth())
	return p
}

func (p *planes) chromaWidth() int  { return (p.whole.Width + 1<<p.hs - 1) >> p.hs }
func (p *planes) chromaHeight() int { return (p.whole.Height + 1<<p.vs - 1) >> p.vs }

func (p *planes) row(y int) [3][]float32 {
	luma := p.img.Y[y*p.img.YStride:][:p.whole.Width]
	p.widen(p.cb, p.img.Cb, y)
	p.widen(p.cr, p.img.Cr, y)
	c, cb, cr := fullRange, p.cb[:len(luma)], p.cr[:len(luma)]
	r, g, b := p.out[0][:len(luma)], p.out[1][:len(luma)], p.out[2][:len(luma)]
	lr, lg, lb := p.curves[0], p.curves[1], p.curves[2]
	for x, y := range luma {
		u, v := cb[x], cr[x]
		r[x] = lr[(int32(y)+c.red[v])&1023]
		g[x] = lg[(int32(y)+(c.greenCb[u]+c.greenCr[v])>>16)&1023]
		b[x] = lb[(int32(y)+c.blue[u])&1023]
	}
	return p.out
}

// widen gives the chroma of a row a sample for each pixel. Where there is one
// for two, the nearer counts three parts and the next one part, along rows and
// columns: so do the decoders of browsers, and a modeller chose the picture by
// what one of them showed.
func (p *planes) widen(dst, plane []uint8, y int) {
	near := y >> p.vs
	far := near
	if p.vs == 1 {
		far = min(max(near+2*(y&1)-1, 0), p.chromaHeight()-1)
	}
	n := p.chromaWidth()
	a, b := plane[near*p.img.CStride:][:n], plane[far*p.img.CStride:][:n]
	if p.hs == 0 && p.vs == 0 {
		copy(dst, a)
		return
	}
	column := p.column[:n]
	for i := range column {
		column[i] = 3*int32(a[i]) + int32(b[i])
	}
	for x := range dst {
		i := x >> p.hs
		other := i
		if p.hs == 1 {
			other = min(max(i+2*(x&1)-1, 0), n-1)
		}
		dst[x] = uint8((3*column[i] + column[other] + 8) >> 4)
	}
}

// quads halves a picture whose chroma has half its width and height: the four
// luma samples that share a chroma sample become one sample of light.
type quads struct {
	*planes
	out [3][]float32
}

func newQuads(p *planes) *quads { return &quads{p, threeRows((p.whole.Width + 1) / 2)} }

func (q *quads) size() Size { return Size{(q.whole.Width + 1) / 2, (q.whole.Height + 1) / 2} }

func (q *quads) row(y int) [3][]float32 {
	img, width := q.img, q.whole.Width
	top := img.Y[2*y*img.YStride:][:width]
	bottom := img.Y[min(2*y+1, q.whole.Height-1)*img.YStride:][:width]
	cb, cr := img.Cb[y*img.CStride:], img.Cr[y*img.CStride:]
	q.blend(top, bottom, cb, cr, 0, width/2)
	if width%2 == 1 { // the last column stands alone
		last := []uint8{top[width-1], top[width-1]}
		low := []uint8{bottom[width-1], bottom[width-1]}
		q.blend(last, low, cb[width/2:], cr[width/2:], width/2, 1)
	}
	return q.out
}

// blend makes n samples from position at on.
func (q *quads) blend(top, bottom, cb, cr []uint8, at, n int) {
	c, lr, lg, lb := fullRange, q.curves[0], q.curves[1], q.curves[2]
	r, g, b := q.out[0][at:][:n], q.out[1][at:][:n], q.out[2][at:][:n]
	top, bottom, cb, cr = top[:2*n], bottom[:2*n], cb[:n], cr[:n]
	for x := range r {
		i := 2 * x
		y0, y1, y2, y3 := int32(top[i]), int32(top[i+1]), int32(bottom[i]), int32(bottom[i+1])
		u, v := cb[x], cr[x]
		dr, dg, db := c.red[v], (c.greenCb[u]+c.greenCr[v])>>16, c.blue[u]
		r[x] = 0.25 * (lr[(y0+dr)&1023] + lr[(y1+dr)&1023] + lr[(y2+dr)&1023] + lr[(y3+dr)&1023])
		g[x] = 0.25 * (lg[(y0+dg)&1023] + lg[(y1+dg)&1023] + lg[(y2+dg)&1023] + lg[(y3+dg)&1023])
		b[x] = 0.25 * (lb[(y0+db)&1023] + lb[(y1+db)&1023] + lb[(y2+db)&1023] + lb[(y3+db)&1023])
	}
}
