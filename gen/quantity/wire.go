package quantity

import (
	"math"
	"strconv"
	"strings"
)

// WireSize is the bare copper diameter of a wire and how it was written.
type WireSize struct {
	Copper Metres // bare diameter
	Text   string // "34 AWG", "0.2 mm"
}

// AWG returns the bare diameter of a gauge: 0.127 mm · 92^((36−n)/39) (ASTM
// B258). Gauges 0, 00, 000 and 0000 are n = 0, −1, −2, −3.
func AWG(n int) Metres { return Metres(0.127e-3 * math.Pow(92, float64(36-n)/39)) }

// Area returns the copper's cross-section in mm².
func (w WireSize) Area() float64 {
	d := w.Copper.Millimetres()
	return math.Pi / 4 * d * d
}

// String prints the gauge, or the copper's diameter where that was written.
func (w WireSize) String() string { return text(w) }

// gauge is the size as AWG, "" where it is a diameter.
func (w WireSize) gauge() string {
	if strings.HasSuffix(w.Text, "AWG") {
		return w.Text
	}
	return ""
}

// UnmarshalText reads "34 AWG", "AWG 34", "36 SWG" is refused; "0.2 mm" is the
// copper's diameter.
func (w *WireSize) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	upper := strings.ToUpper(s)
	if rest, ok := strings.CutSuffix(upper, "AWG"); ok || strings.HasPrefix(upper, "AWG") {
		if !ok {
			rest = strings.TrimPrefix(upper, "AWG")
		}
		n, err := strconv.Atoi(strings.TrimSpace(rest))
		if err != nil || n < -3 || n > 56 {
			return fault(string(text), s, "write a gauge from 0 to 56, like 34 AWG", "%s is not an AWG size", quote(s))
		}
		*w = WireSize{AWG(n), strconv.Itoa(n) + " AWG"}
		return nil
	}
	if strings.HasSuffix(upper, "SWG") {
		return fault(string(text), s, "write the copper's diameter, like 0.2 mm", "%s: SWG is not read, since it is easily taken for AWG",
			quote(s))
	}
	var d Metres
	if err := d.UnmarshalText(text); err != nil {
		return fault(string(text), s, "write it like 34 AWG or 0.2 mm", "%s is not a wire size", quote(s))
	}
	if d <= 0 || d > 0.02 {
		return fault(string(text), s, "write the copper's diameter, like 0.2 mm", "%s is no diameter of a wire", quote(s))
	}
	*w = WireSize{d, s}
	return nil
}
