package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// readControl fills in what a control leaves open.
func readControl(v source.Value[Control]) Control {
	c := v.V
	if c.Kind == "" {
		c.Kind = Steady
	}
	if c.Kind == Blink && c.Duty == 0 {
		c.Duty = 0.5
	}
	if c.Kind == PWM && c.Duty == 0 {
		c.Duty = 1
	}
	return c
}

// Mean returns the share of its peak current that a controlled branch takes on
// average. A fade runs from dark to full and back with lightness that changes
// evenly, so its mean is that of the CIE curve.
func (c Control) Mean() quantity.Share {
	switch c.Kind {
	case Blink, PWM:
		return min(max(c.Duty, 0), 1)
	case Fade:
		return fadeMean
	}
	return 1
}

// Luminance returns the share of full light that has lightness L* from 0 to
// 100 (CIE 15): Y = ((L+16)/116)³, and L/903.3 for L up to 8.
func Luminance(lightness float64) float64 {
	switch {
	case lightness <= 0:
		return 0
	case lightness <= 8:
		return lightness * 27 / 24389
	}
	f := (lightness + 16) / 116
	return f * f * f
}

// fadeMean is the mean of Luminance over lightness from 0 to 100:
// (8²·27/24389/2 + 29·(1 − (24/116)⁴)) / 100, by integrating both parts.
const fadeMean = (32.0*27/24389 + 29*(1-(24.0/116)*(24.0/116)*(24.0/116)*(24.0/116))) / 100

// FadeStep is one step of a fade.
type FadeStep struct {
	Seconds   float64
	Lightness float64        // L*, 0 to 100
	Duty      quantity.Share // of full light
	Level     int            // of 255, for an eight-bit output
}

// FadeTable returns the steps of a fade from dark to full whose lightness
// rises evenly over the time given. steps is at least 2.
func FadeTable(seconds float64, steps int) []FadeStep {
	steps = max(steps, 2)
	table := make([]FadeStep, steps)
	for i := range table {
		share := float64(i) / float64(steps-1)
		y := Luminance(100 * share)
		table[i] = FadeStep{seconds * share, 100 * share, quantity.Share(y), int(y*255 + 0.5)}
	}
	return table
}

// Ripple returns by how much of its mean the light in one exposure may differ
// from the next when a lamp is dimmed by pulses: one pulse over the number of
// pulse periods in the exposure. frequency in Hz, exposure in seconds.
func Ripple(frequency, exposure float64) quantity.Share {
	if !(frequency > 0) || !(exposure > 0) {
		return 0
	}
	return quantity.Share(ripple.Of(quantity.Let{"f": frequency, "t": exposure}))
}

// MostRipple is the ripple from which a camera shows bands (common practice, no
// source).
const MostRipple = 0.05

var ruleBanding = &source.Rule{Name: "pwm-banding", Severity: source.Warn,
	Source: "ripple about one over the pulses in an exposure; threshold: " + practice,
	Reason: "Few pulses in one exposure show as bands or flicker in the film; below 5 % they rarely do.",
	Keys:   "build circuits[].branches[]: control; workshop: camera"}

// checkBanding holds pulse dimming against the camera.
func checkBanding(in *Input, b *BranchResult) source.Findings {
	exposure := float64(in.Camera.V) * 3600
	if b.Control.Kind != PWM || !in.Camera.Set || b.Control.Frequency <= 0 || b.Control.Duty >= 1 {
		return nil
	}
	r := Ripple(float64(b.Control.Frequency), exposure)
	if r <= MostRipple {
		return nil
	}
	remedy := source.Say("dim with %s or more, with a larger resistor, or expose longer",
		quantity.Amount{Value: 1 / (MostRipple * exposure), Unit: "Hz", Digits: 2})
	return source.Findings{ruleBanding.At(b.Declared.Control.At, remedy,
		"branch %q is dimmed at %v: %s pulses in an exposure of 1/%s s, a ripple of about %s",
		b.Name, b.Control.Frequency, bare(1/float64(r), 2), bare(1/exposure, 3), quantity.About(r))}
}
