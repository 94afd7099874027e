package photo

import "math"

// curve turns a sample from 0 to 1, as stored, into linear light.
type curve func(float64) float64

// srgbCurve is the transfer function of IEC 61966-2-1:1999, with the threshold
// that its amendment 1 gives.
func srgbCurve(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// srgbEncode is the inverse of srgbCurve.
func srgbEncode(v float64) float64 {
	if v <= 0.0031308 {
		return v * 12.92
	}
	return 1.055*math.Pow(v, 1/2.4) - 0.055
}

// encodeSteps is how finely linear light is told apart when it is stored as 8
// bits: the darkest step of sRGB is 1/3295, five of these.
const encodeSteps = 1 << 14

// encoded holds the 8-bit sRGB value of each step of linear light.
var encoded = func() (t [encodeSteps + 1]uint8) {
	for i := range t {
		t[i] = uint8(srgbEncode(float64(i)/encodeSteps)*255 + 0.5)
	}
	return t
}()

// toSRGB returns the 8-bit sRGB value of linear light.
func toSRGB(v float32) uint8 {
	return encoded[int(min(max(v, 0), 1)*encodeSteps+0.5)]
}

// wide is a curve for 8-bit samples that may lie outside 0 to 255, as those
// worked out of luma and chroma do; they are clipped. The sample v is found at
// v+wideOffset, from -384 to 639.
type wide [1024]float32

const wideOffset = 384

func (c curve) wide() *wide {
	t := new(wide)
	for i := range t {
		t[i] = float32(c(float64(min(max(i-wideOffset, 0), 255)) / 255))
	}
	return t
}

// deep is a curve for 16-bit samples.
type deep [65536]float32

func (c curve) deep() *deep {
	t := new(deep)
	for i := range t {
		t[i] = float32(c(float64(i) / 65535))
	}
	return t
}
