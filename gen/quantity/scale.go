package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Scale is a model's scale: one of the model is Ratio of the real thing.
type Scale struct {
	Ratio float64 // 48 for 1/48
	Text  string  // as it was written
}

// UnmarshalText reads "1/48", "1:48", "1/48th scale", "1/4 in to the foot",
// "1/4 inch = 1 foot", "4 mm/ft", and the railway sizes of NEM 010 and NMRA
// S-1.2 ("N", "H0", "O NMRA"). A scale above life size, as "2:1", is refused.
func (s *Scale) UnmarshalText(text []byte) error {
	t := tidyScale(string(text))
	if ratio, known, err := gaugeRatio(t); err != nil {
		return err
	} else if known {
		return s.store(text, ratio)
	}
	if model, real, ok := splitToThe(t); ok {
		var m, r Metres
		if err := m.UnmarshalText([]byte(model)); err != nil {
			return fault(string(text), model, "write it like 3/8 in to the foot", "%s is not a length", quote(model))
		}
		if err := r.UnmarshalText([]byte(real)); err != nil {
			return fault(string(text), real, "write it like 3/8 in to the foot", "%s is not a length", quote(real))
		}
		return s.store(text, float64(r)/float64(m))
	}
	for _, mark := range []string{"/", ":", "∶"} {
		one, ratio, ok := strings.Cut(t, mark)
		if !ok {
			continue
		}
		n, err := number(strings.TrimSpace(one), 0)
		d, err2 := number(strings.TrimSpace(ratio), 0)
		if err == nil && err2 == nil {
			return s.store(text, d/n)
		}
	}
	if err := figureHeight(t); err != nil {
		return err
	}
	return fault(string(text), t, "write it like 1/48 or 3/8 in to the foot", "%s is not a scale", quote(t))
}

// largestRatio is far beyond any display model, and keeps sums finite.
const largestRatio = 1e6

func (s *Scale) store(text []byte, ratio float64) error {
	t := strings.TrimSpace(string(text))
	if math.IsNaN(ratio) || ratio < 1 || ratio > largestRatio {
		return fault(string(text), t, "write it like 1/48", "%s is not a scale between 1/1 and 1/1000000", quote(t))
	}
	*s = Scale{ratio, t}
	return nil
}

// splitToThe parts "3/8 in to the foot" and "1/4 in = 1 ft".
func splitToThe(text string) (model, real string, ok bool) {
	for _, mark := range []string{" to the ", " to a ", " to ", "="} {
		model, real, ok := strings.Cut(text, mark)
		if !ok {
			continue
		}
		model, real = strings.TrimSpace(model), strings.TrimSpace(real)
		if digits, _ := splitNumber(real); digits == "" {
			real = "1 " + real
		}
		return model, real, true
	}
	return "", "", false
}

// String prints "1/48", with decimals only where the ratio has some.
func (s Scale) String() string {
	if s.Ratio == 0 {
		return ""
	}
	return "1/" + decimal(roundTo(s.Ratio, 6), 0)
}

// InchesToTheFoot returns how many inches on the model stand for one foot.
func (s Scale) InchesToTheFoot() float64 { return 12 / s.Ratio }

// Model returns a real length at the scale.
func (s Scale) Model(real Metres) Metres { return Metres(float64(real) / s.Ratio) }

// Real returns the real length that a length on the model stands for.
func (s Scale) Real(model Metres) Metres { return Metres(float64(model) * s.Ratio) }

// Ratio is a mix in parts: "1:1.5", "2:1:0.5".
type Mix []float64

// UnmarshalText reads two to six parts with colons between them.
func (m *Mix) UnmarshalText(text []byte) error {
	t := strings.TrimSpace(string(text))
	fields := strings.Split(t, ":")
	mix, sum := make(Mix, 0, len(fields)), 0.0
	for _, field := range fields {
		v, err := number(strings.TrimSpace(field), 0)
		if err != nil || v < 0 || len(fields) < 2 || len(fields) > 6 {
			return fault(string(text), t, "write the parts like 1:1.5", "%s is not a mix", quote(t))
		}
		mix, sum = append(mix, v), sum+v
	}
	if sum <= 0 || math.IsInf(sum, 0) {
		return fault(string(text), t, "write the parts like 1:1.5", "%s mixes nothing", quote(t))
	}
	*m = mix
	return nil
}

// String prints the parts as they are written.
func (m Mix) String() string {
	parts := make([]string, len(m))
	for i, v := range m {
		parts[i] = decimal(v, 0)
	}
	return strings.Join(parts, ":")
}

// Colour is an sRGB colour, each channel 0 to 255.
type Colour struct{ R, G, B uint8 }

// UnmarshalText reads "#8a9095".
func (c *Colour) UnmarshalText(text []byte) error {
	t := strings.TrimSpace(string(text))
	var r, g, b uint8
	if len(t) != 7 || t[0] != '#' || strings.Trim(strings.ToLower(t[1:]), "0123456789abcdef") != "" {
		return fault(string(text), t, `write the colour in quotes, like "#8a9095"`, "%s is not a colour", quote(t))
	}
	fmt.Sscanf(t, "#%02x%02x%02x", &r, &g, &b)
	*c = Colour{r, g, b}
	return nil
}

// String prints "#8a9095".
func (c Colour) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
