package photo

import "math"

// space returns the colour space that the header gives, and a note
// where it cannot be followed; then it is taken for sRGB, as a photo without
// any is.
func (h *header) space() (*space, *Problem) {
	if h.format == PNG && len(h.png.cicp) == 4 {
		return h.png.codePoints()
	}
	if h.format == JPEG && h.jpeg.components == 4 {
		return srgb, problem(RuleProfile, remedyProfile,
			"is in printing colours (CMYK); they are turned into screen colours by rule of thumb")
	}
	if h.icc != nil {
		s, err := readProfile(h.icc)
		if err != nil {
			return srgb, problem(RuleProfile, remedyProfile,
				"has a colour profile that cannot be followed; it is shown as sRGB").because(err)
		}
		return s, nil
	}
	switch {
	case h.format == PNG && !h.png.srgb && h.png.gamma != 0:
		return h.png.declared(), nil
	case h.camera.adobe:
		return spaceOf(adobePrimaries, gamma(adobeGamma)), nil
	}
	return srgb, nil
}

const remedyProfile = "export the photo as sRGB if its colours look wrong"

// codePoints reads cICP (W3C PNG third edition 11.3.2.6; ITU-T H.273 tables 2
// and 3).
func (p *pngHeader) codePoints() (*space, *Problem) {
	from := map[byte]primaries{1: srgbPrimaries, 9: bt2020Primaries, 12: p3Primaries}
	curves := map[byte]curve{8: straight, 13: srgbCurve}
	primary, ok1 := from[p.cicp[0]]
	c, ok2 := curves[p.cicp[1]]
	if !ok1 || !ok2 || p.cicp[2] != 0 || p.cicp[3] != 1 {
		return srgb, problem(RuleProfile, remedyProfile, "has colours of a kind (cICP %v) that cannot be followed; it is shown as sRGB", p.cicp)
	}
	return spaceOf(primary, c), nil
}

// declared reads gAMA and cHRM (11.3.2.1 and 11.3.2.2). The gamma of sRGB
// stands for the curve of sRGB.
func (p *pngHeader) declared() *space {
	c := curve(srgbCurve)
	if g := float64(p.gamma) / 100000; math.Abs(g-0.45455) > 0.001 {
		c = gamma(1 / g)
	}
	from := srgbPrimaries
	if p.chroma != [8]uint32{} {
		for i, v := range p.chroma {
			from[i] = float64(v) / 100000
		}
	}
	if s := spaceOf(from, c); s != nil {
		return s
	}
	return srgb
}
