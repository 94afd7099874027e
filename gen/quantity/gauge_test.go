package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// How the trade writes a scale. Gauges: NEM 010 (2011), table 1; NMRA S-1.2.
func TestScaleSpellings(t *testing.T) {
	for text, want := range map[string]float64{
		"1/72nd": 72, "1/48th scale": 48, "1:35 scale": 35, "1/32 Scale": 32, "1:43rd": 43,
		"3 mm/ft": 101.6, "4 mm per foot": 76.2, "7 mm to the foot": 304.8 / 7, "1 in to 4 ft": 48,
		`1/4" = 1'-0"`: 48, `3/8" = 1'`: 32, "1 inch = 12 feet": 144, "1:22.5": 22.5,
		"Z": 220, "N": 160, "TT": 120, "H0": 87, "HO": 87.0857142857, "S": 64, "II NEM": 22.5,
		"0 NEM": 45, "O NMRA": 48, "O gauge (NMRA)": 48, "0 gauge (NEM)": 45, "H0e": 87, "0m NEM": 45, "HO NEM": 87, "N gauge": 160,
	} {
		got, err := read[Scale](text)
		if err != nil || math.Abs(got.Ratio-want) > 1e-9*want {
			t.Errorf("%q: got %v (%v), want %v", text, got.Ratio, err, want)
		}
	}
}

func TestScaleRefusals(t *testing.T) {
	for text, says := range map[string]string{
		"O": "1/48 by NMRA S-1.2 and 1/45 by NEM 010", "0": "1/45 by NEM 010", "28 mm": "height of a figure",
		"Q": "not a scale", "1/72nd-ish": "not a scale", "th": "not a scale", "NEM": "not a scale", "": "not a scale",
	} {
		_, err := read[Scale](text)
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(e.Says.String(), says) {
			t.Errorf("%q: got %v, want one that says %q", text, err, says)
		}
	}
}

// Handbook equivalences of ship modelling: inch to the foot is 12 over the
// ratio (chart of equivalents, shipmodelersdesktop.com/Chart1Equiv.htm; where
// that chart truncates, the exact value).
func TestFraction(t *testing.T) {
	for ratio, want := range map[float64]string{
		12: "1 in to the foot", 24: "1/2 in to the foot", 32: "3/8 in to the foot", 48: "1/4 in to the foot",
		64: "3/16 in to the foot", 72: "1/6 in to the foot", 96: "1/8 in to the foot", 144: "1/12 in to the foot",
		192: "1/16 in to the foot", 35: "0.3429 in to the foot", 16: "3/4 in to the foot", 8: "3/2 in to the foot",
	} {
		got := Scale{Ratio: ratio}.Fraction().String()
		if got != want {
			t.Errorf("1/%v: got %q, want %q", ratio, got, want)
		}
		back, err := read[Scale](got)
		if err != nil || math.Abs(back.Ratio-ratio) > 2e-4*ratio {
			t.Errorf("%q reads back as %v (%v)", got, back.Ratio, err)
		}
	}
}

func TestLastPlace(t *testing.T) {
	for text, want := range map[string]Metres{
		"9.4 m": 0.05, "9.40 m": 0.005, "204 mm": 0.0005, "36.5 mm": 0.00005, "110 m": 0.5,
		"43.5 ft": 0.01524, "7 in": 0.0127, `5' 9"`: 0.0127, "3/8 in": 0.0254 / 16, "2 1/2 in": 0.0254 / 4, "5 ft 9 1/2 in": 0.0254 / 4,
	} {
		got, ok := LastPlace(text)
		if !ok || math.Abs(float64(got-want)) > 1e-15 {
			t.Errorf("%q: got %v (%v), want %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "9.4", "204 mm ± 1 mm", "1e3 m", "1/0 in", "two feet"} {
		if got, ok := LastPlace(text); ok {
			t.Errorf("%q: got %v, want none", text, got)
		}
	}
}
