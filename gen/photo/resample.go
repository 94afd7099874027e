package photo

import (
	"math"
	"sync"
)

// kernel is the weight of a sample at a distance, in samples of the result.
type kernel struct {
	support float64
	at      func(float64) float64
}

// cubic is that of Mitchell and Netravali (SIGGRAPH 1988) with B = 0 and
// C = 0.7. It dips below zero once a side and does not rise again: in linear
// light the rise of a longer kernel draws a ring of dots around every lamp on
// black, and what its dips lack takes up to 8 % of the light of coloured lamps.
// Of the values of C in use (0.5 to 0.75) this one comes closest to what
// libvips makes of ordinary pictures (see TestAgainstVips).
var cubic = kernel{2, func(x float64) float64 {
	const c = 0.7
	switch x = math.Abs(x); {
	case x < 1:
		return (2-c)*x*x*x - (3-c)*x*x + 1
	case x < 2:
		return -c*x*x*x + 5*c*x*x - 8*c*x + 4*c
	}
	return 0
}}

// unboxed returns the kernel with the loss made good that averaging two samples
// into one of the given width brings to fine detail: the mean over a width h
// weakens a frequency f by 1 − (πfh)²/6, which taking off h²/24 of the second
// difference restores (both series to their second term).
func (k kernel) unboxed(h float64) kernel {
	return kernel{k.support + h, func(x float64) float64 {
		return k.at(x) - (k.at(x-h)-2*k.at(x)+k.at(x+h))/24
	}}
}

// axis says which samples make each sample of a result, along one direction.
type axis struct {
	taps   int
	start  []int
	weight []float32 // taps for each sample of the result
}

// newAxis returns the weights that turn n samples, which stand for a length of
// extent samples, into size samples. boxed says that each of the n is a mean
// over its width.
func newAxis(n int, extent float64, size int, boxed bool) axis {
	scale := extent / float64(size)
	wide := max(scale, 1)
	k := cubic
	if boxed {
		k = k.unboxed(1 / wide)
	}
	reach := k.support * wide
	taps := min(int(math.Floor(2*reach))+1, n)
	a := axis{taps, make([]int, size), make([]float32, size*taps)}
	w := make([]float64, taps)
	for i := range size {
		centre := (float64(i)+0.5)*scale - 0.5
		first, last := int(math.Ceil(centre-reach)), int(math.Floor(centre+reach))
		start := min(max(first, 0), n-taps)
		clear(w)
		sum := 0.0
		for s := first; s <= last; s++ {
			v := k.at((float64(s) - centre) / wide)
			w[min(max(s-start, 0), taps-1)] += v // beyond the edge lies the edge
			sum += v
		}
		a.start[i] = start
		for j, v := range w {
			a.weight[i*taps+j] = float32(v / sum)
		}
	}
	return a
}

// light is a picture in linear light, plane by plane.
type light struct {
	Size
	plane  [3][]float32
	points bool // small lamps on black make up a good part of it (see settle)
	buffer *[]float32
}

// lights keeps the buffers of pictures that are done with: they are large, and
// making one anew means clearing it.
var lights sync.Pool

// newLight returns a picture whose samples are not yet set.
func newLight(s Size) *light {
	n := s.Width * s.Height
	b, _ := lights.Get().(*[]float32)
	if b == nil || cap(*b) < 3*n {
		b = new(make([]float32, 3*n))
	}
	p := (*b)[:3*n]
	return &light{Size: s, plane: [3][]float32{p[:n:n], p[n : 2*n : 2*n], p[2*n:]}, buffer: b}
}

// free gives the picture's buffer back; it must not be used any more.
func (l *light) free() {
	lights.Put(l.buffer)
	l.plane = [3][]float32{}
}

func (l *light) size() Size { return l.Size }

func (l *light) row(y int) [3][]float32 {
	from, to := y*l.Width, (y+1)*l.Width
	return [3][]float32{l.plane[0][from:to], l.plane[1][from:to], l.plane[2][from:to]}
}

// boxFrom is the reduction from which a picture is first halved by taking the
// mean of four samples: that costs a fifth of a proper step, and what it takes
// from fine detail can be made good (see unboxed).
const boxFrom = 3

// shrink returns a picture in another size, no larger than it is.
func shrink(src raster, size Size) *light {
	from := src.size()
	if from == size {
		return copied(src)
	}
	width, height := float64(from.Width), float64(from.Height)
	boxed := width >= boxFrom*float64(size.Width) && height >= boxFrom*float64(size.Height)
	if boxed {
		src, width, height = halve(src), width/2, height/2
	}
	h := newAxis(src.size().Width, width, size.Width, boxed)
	v := newAxis(src.size().Height, height, size.Height, boxed)
	return resample(src, h, v)
}

// copied returns a raster as a picture.
func copied(src raster) *light {
	out := newLight(src.size())
	for y := range out.Height {
		row := src.row(y)
		for c, dst := range out.row(y) {
			copy(dst, row[c])
		}
	}
	return out
}

// resample goes through src once, from top to bottom, and holds no more of its
// rows than one row of the result needs.
func resample(src raster, h, v axis) *light {
	out := newLight(Size{len(h.start), len(v.start)})
	ring := make([][3][]float32, v.taps)
	for i := range ring {
		ring[i] = threeRows(out.Width)
	}
	rows := make([][]float32, v.taps)
	next := 0
	for y, start := range v.start {
		for ; next < start+v.taps; next++ {
			h.apply(ring[next%v.taps], src.row(next))
		}
		for c, dst := range out.row(y) {
			for i := range rows {
				rows[i] = ring[(start+i)%v.taps][c]
			}
			mix(dst, rows, v.weight[y*v.taps:])
		}
	}
	return out
}

// apply resamples one row.
func (a axis) apply(dst, src [3][]float32) {
	n := a.taps
	for x, start := range a.start {
		w := a.weight[x*n:][:n]
		r, g, b := src[0][start:][:n], src[1][start:][:n], src[2][start:][:n]
		var sr, sg, sb float32
		for i, v := range w {
			sr += v * r[i]
			sg += v * g[i]
			sb += v * b[i]
		}
		dst[0][x], dst[1][x], dst[2][x] = sr, sg, sb
	}
}

// mix sets dst to the sum of weighted rows, four at a time because most of the
// cost is in fetching and storing dst.
func mix(dst []float32, rows [][]float32, w []float32) {
	clear(dst)
	for ; len(rows) >= 4; rows, w = rows[4:], w[4:] {
		a, b, c, d := rows[0][:len(dst)], rows[1][:len(dst)], rows[2][:len(dst)], rows[3][:len(dst)]
		wa, wb, wc, wd := w[0], w[1], w[2], w[3]
		for x := range dst {
			dst[x] += wa*a[x] + wb*b[x] + wc*c[x] + wd*d[x]
		}
	}
	for i, row := range rows {
		row, v := row[:len(dst)], w[i]
		for x := range dst {
			dst[x] += v * row[x]
		}
	}
}
