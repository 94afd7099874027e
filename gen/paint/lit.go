package paint

import (
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// LitColour is an estimate of how a lamp looks through clear paint.
type LitColour struct {
	Colour   Colour          // at the brightness of the lamp's brightest channel, for a swatch
	Passing  quantity.Figure // light that passes, in per cent of the lamp's
	Estimate string          // why it is only an estimate
}

const litEstimate = "An estimate: swatches say how a paint looks on white, not which wavelengths it passes, " +
	"and an LED has few of them; try it on a scrap of clear plastic"

// Lit estimates a lamp's colour through coats of clear paint. A clear paint's
// swatch is seen on white, so light has passed the paint twice: once through
// is the square root of it, for each channel of linear light.
func Lit(lamp, clear Colour, coats int) LitColour {
	l, c := LinearOf(lamp), LinearOf(clear)
	through := func(v, t float64) float64 { return v * math.Pow(t, float64(coats)/2) }
	out := Linear{through(l.R, c.R), through(l.G, c.G), through(l.B, c.B)}
	passing := 0.0
	if y := l.Luminance(); y > 0 {
		passing = out.Luminance() / y
	}
	if most := max(out.R, out.G, out.B); most > 0 {
		scale := max(l.R, l.G, l.B) / most
		out = Linear{out.R * scale, out.G * scale, out.B * scale}
	}
	share := quantity.Figure{Symbol: "T", Name: "light passing, roughly", Value: 100 * passing, Unit: "%", Digits: 1,
		Source:  "estimate, no source",
		Working: source.Say("%s through %d × the square root of %s, channel by channel in linear light", lamp, coats, clear)}
	return LitColour{Colour: out.Colour(), Estimate: litEstimate, Passing: share}
}
