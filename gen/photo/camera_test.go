package photo

import (
	"image"
	"math"
	"math/rand/v2"
)

// camera makes a picture with the statistics of a photo rather than of a
// drawing: texture whose amplitude falls with its frequency as in natural
// scenes (about 1/f; Field, J. Opt. Soc. Am. A 4 (1987) 2379), hard edges of
// panels, small lamps, and the noise of a sensor. The same seed gives the same
// picture.
func camera(seed uint64, w, h int) *image.RGBA {
	rnd := rand.New(rand.NewPCG(seed, 0x5b3e))
	luma := texture(rnd, w, h)
	tint := texture(rnd, w/8+1, h/8+1)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	noise := make([]float64, 1<<16)
	for i := range noise {
		noise[i] = rnd.NormFloat64() * 5
	}
	at := rnd.IntN(1 << 16)
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(w)
			light := 95 + 60*luma[y*w+x] + 40*math.Sin(3*u+2*v)
			if int(u*23+v*7)%4 == 0 { // panels
				light *= 0.72
			}
			if math.Abs(math.Mod(u*31-v*17, 1)) < 0.03 { // panel lines
				light *= 0.45
			}
			t := 22 * tint[(y/8)*(w/8+1)+x/8]
			at = (at*5 + 0x3619) & 0xffff
			o := img.PixOffset(x, y)
			img.Pix[o] = clip(light + t + noise[at])
			img.Pix[o+1] = clip(light*0.97 + noise[at^0x5555])
			img.Pix[o+2] = clip(light*0.9 - t + noise[at^0xaaaa])
			img.Pix[o+3] = 255
		}
	}
	for range 300 {
		lamp(img, rnd.IntN(w), rnd.IntN(h), 2+rnd.Float64()*8)
	}
	return img
}

func clip(v float64) uint8 { return uint8(min(max(v+0.5, 0), 255)) }

// lamp paints a round white spot.
func lamp(img *image.RGBA, cx, cy int, radius float64) {
	r := int(radius) + 1
	for y := cy - r; y <= cy+r; y++ {
		for x := cx - r; x <= cx+r; x++ {
			if (image.Point{x, y}).In(img.Rect) && math.Hypot(float64(x-cx), float64(y-cy)) <= radius {
				o := img.PixOffset(x, y)
				img.Pix[o], img.Pix[o+1], img.Pix[o+2] = 255, 250, 235
			}
		}
	}
}

// texture sums octaves of smooth noise, each with half the scale and half the
// amplitude of the one before; values lie about -1 to 1.
func texture(rnd *rand.Rand, w, h int) []float64 {
	out := make([]float64, w*h)
	amplitude := 1.0
	for cell := max(w, h) / 3; cell >= 2; cell /= 2 {
		gw, gh := w/cell+2, h/cell+2
		grid := make([]float64, gw*gh)
		for i := range grid {
			grid[i] = (rnd.Float64()*2 - 1) * amplitude
		}
		for y := range h {
			gy, fy := y/cell, smooth(float64(y%cell)/float64(cell))
			for x := range w {
				gx, fx := x/cell, smooth(float64(x%cell)/float64(cell))
				a, b := grid[gy*gw+gx:], grid[(gy+1)*gw+gx:]
				top, bottom := a[0]+(a[1]-a[0])*fx, b[0]+(b[1]-b[0])*fx
				out[y*w+x] += top + (bottom-top)*fy
			}
		}
		amplitude *= 0.7
	}
	return out
}

func smooth(t float64) float64 { return t * t * (3 - 2*t) }
