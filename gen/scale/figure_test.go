package scale

import (
	"math"
	"strings"
	"testing"

	"spruelight/gen/quantity"
)

// The survey's percentiles at usual scales: NATICK/TR-15/007 (2014), ANSUR II,
// percentiles from the public data divided by the ratio; millimetres.
func TestSurveyPercentilesAtUsualScales(t *testing.T) {
	for _, c := range []struct {
		posture      Posture
		women        bool
		ratio        float64
		p5, p50, p95 float64
	}{
		{Standing, false, 24, 68.67, 73.13, 77.92}, {Standing, false, 32, 51.50, 54.84, 58.44}, {Standing, false, 35, 47.09, 50.14, 53.43},
		{Standing, false, 48, 34.33, 36.56, 38.96}, {Standing, false, 72, 22.89, 24.38, 25.97}, {Standing, false, 144, 11.44, 12.19, 12.99},
		{Standing, true, 32, 47.66, 50.81, 54.38}, {Standing, true, 72, 21.18, 22.58, 24.17},
		{Seated, false, 32, 26.88, 28.69, 30.53}, {Seated, false, 72, 11.94, 12.75, 13.57},
		{Seated, true, 32, 25.09, 26.78, 28.50}, {Seated, true, 72, 11.15, 11.90, 12.67},
	} {
		for percentile, mm := range map[float64]float64{5: c.p5, 50: c.p50, 95: c.p95} {
			f := Figure{Posture: c.posture, Height: Length{V: quantity.Measured{Value: quantity.Metres(mm / 1000),
				Low: quantity.Metres(mm / 1000), High: quantity.Metres(mm / 1000)}, Set: true}}
			check, _ := CheckFigure(f, quantity.Scale{Ratio: c.ratio})
			got := check.Men
			if c.women {
				got = check.Women
			}
			// A hundredth of a millimetre at 1/144 is 1.4 mm of 100: under half a percentile at the median.
			if math.Abs(got-percentile) > 0.9 {
				t.Errorf("%v at 1/%v, %v mm: %.2f, want %v", c.posture, c.ratio, mm, got, percentile)
			}
		}
	}
}

// The survey's means and standard deviations (same source) were not used to
// build the percentiles, and a normal distribution of them must come out alike.
func TestPercentilesAgreeWithMeanAndDeviation(t *testing.T) {
	for _, c := range []struct {
		p        percentiles
		mean, sd float64
	}{
		{men[Standing], 1.7562, 0.0686}, {women[Standing], 1.6285, 0.0642}, {men[Seated], 0.9183, 0.0357}, {women[Seated], 0.8566, 0.0331},
	} {
		for z := -2.0; z <= 2; z += 0.25 {
			if got := c.p.z(c.mean + z*c.sd); math.Abs(got-z) > 0.12 {
				t.Errorf("mean %v, z %v: got %v", c.mean, z, got)
			}
		}
	}
}

func TestFigureVerdicts(t *testing.T) {
	for _, c := range []struct {
		posture              Posture
		height, at, sentence string
		fits                 bool
	}{
		{Standing, "36.5 mm", "1/48", "At 1/48 the standing figure is 1.75 m: the 48th percentile of men, the 97th of women.", true},
		{Standing, "54 mm", "1/48", "2.59 m, taller than 99 of 100 men; it suits 1/32 better", false},
		{Standing, "20 mm", "1/72", "1.44 m, shorter than 99 of 100 women; it suits 1/87 better", false},
		{Seated, "12.5 mm", "1/72", "At 1/72 the seated figure is 900 mm", true},
	} {
		check, found := CheckFigure(Figure{Posture: c.posture, Height: measured(t, c.height)}, written[quantity.Scale](t, c.at).V)
		if !strings.Contains(check.Sentence.String(), c.sentence) || check.Fits != c.fits || (len(found) == 0) != c.fits {
			t.Errorf("%s %s at %s: %q, fits %v, findings %s", c.posture, c.height, c.at, check.Sentence, check.Fits, rules(found))
		}
	}
	check, _ := CheckFigure(Figure{Height: measured(t, "54 mm")}, quantity.Scale{})
	if check.Sentence.String() != "As a man of median height the standing figure is 1/32.5, as a woman 1/30.1." {
		t.Error(check.Sentence)
	}
	if _, found := CheckFigure(Figure{Height: measured(t, "0 mm")}, quantity.Scale{Ratio: 72}); rules(found) != "scale-length-zero" {
		t.Errorf("zero height: %s", rules(found))
	}
}
