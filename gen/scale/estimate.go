package scale

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Implied is the scale that one length of the model and one of the subject lead to.
type Implied struct {
	Name         string            // "length"
	Model, Real  quantity.Measured // with their limits
	ModelAssumed bool              // the limits are the last written place
	RealAssumed  bool
	Ratio        float64
	Span         Interval // of the ratio: every one that both limits allow
	At           source.Span

	standard float64 // relative standard uncertainty
}

// Estimate is a ratio and the range in which it is to be looked for.
type Estimate struct {
	Ratio float64
	Span  Interval
	From  int // how many lengths it rests on

	standard float64 // relative standard uncertainty
}

// Agreement is the test whether several lengths may follow one scale.
type Agreement struct {
	ChiSquare float64 // sum of squared deviations from the mean, each over its own uncertainty
	Freedom   int     // degrees of freedom: lengths less one; 0: nothing to test
	Chance    float64 // how often lengths of one scale would lie at least so far apart
	Agree     bool
}

// AgreementMethod names the test and its source, for the page.
const AgreementMethod = "Chi-square test of the weighted mean at 5 % (Birge, Physical Review 40 (1932) 207), " +
	"limits taken as rectangular (JCGM 100:2008, 4.3.7)"

// rejectBelow is the chance under which lengths count as disagreeing: the
// customary 5 %.
const rejectBelow = 0.05

// coverage is the k of an expanded uncertainty that holds the value in about
// 95 of 100 cases (JCGM 100:2008, 6.3.3).
const coverage = 2

// limits returns a length with limits: its own, or half its last written place.
func limits(l Length) (m quantity.Measured, assumed bool) {
	m = l.V
	if m.Low != m.High {
		return m, false
	}
	half, ok := quantity.LastPlace(l.At.Text())
	if !ok {
		if half, ok = quantity.LastPlace(m.Value.String()); !ok {
			half = 0.0005 // a millimetre's mark, assumed
		}
	}
	half = min(half, m.Value/2) // a limit at zero would allow any scale
	return quantity.Measured{Value: m.Value, Low: m.Value - half, High: m.Value + half}, true
}

// imply works out the scale of one pair of lengths, both above zero.
func imply(name string, model, real Length) Implied {
	i := Implied{Name: name, At: model.At}
	i.Model, i.ModelAssumed = limits(model)
	i.Real, i.RealAssumed = limits(real)
	i.Ratio = impliedScale.Of(quantity.Let{"L": i.Real.Value, "l": i.Model.Value})
	m, r := spanOf(i.Model), spanOf(i.Real)
	i.Span = r.Over(m)
	i.standard = math.Hypot(m.standard(), r.standard()) // JCGM 100:2008, 5.1.6
	return i
}

// Combine returns the weighted mean of several implied scales and whether they
// agree. Means are taken of the logarithms, as a scale twice too large is as
// far off as one twice too small. One length alone keeps its limits; several
// give ± 2 standard uncertainties, widened by the Birge ratio where they
// scatter more than their limits explain.
func Combine(implied []Implied) (Estimate, Agreement) {
	if len(implied) == 0 {
		return Estimate{}, Agreement{Agree: true, Chance: 1}
	}
	if len(implied) == 1 {
		only := implied[0]
		return Estimate{only.Ratio, only.Span, 1, only.standard}, Agreement{Agree: true, Chance: 1}
	}
	parts := make([]Estimate, len(implied))
	for i, p := range implied {
		parts[i] = Estimate{Ratio: p.Ratio, From: 1, standard: p.standard}
	}
	best := mean(parts)
	a := Agreement{ChiSquare: chiSquare(parts, best.Ratio), Freedom: len(parts) - 1}
	a.Chance = distuv.ChiSquared{K: float64(a.Freedom)}.Survival(a.ChiSquare)
	a.Agree = a.Chance >= rejectBelow
	if birge := math.Sqrt(a.ChiSquare / float64(a.Freedom)); birge > 1 {
		best.standard *= birge
		best.expand()
	}
	return best, a
}

// mean returns the mean of the logarithms, each weighted by the inverse square
// of its uncertainty.
func mean(parts []Estimate) Estimate {
	if len(parts) == 1 {
		return parts[0]
	}
	var sum, weights float64
	from := 0
	for _, p := range parts {
		w := 1 / (p.standard * p.standard)
		sum += w * math.Log(p.Ratio)
		weights += w
		from += p.From
	}
	best := Estimate{Ratio: math.Exp(sum / weights), From: from, standard: math.Sqrt(1 / weights)}
	best.expand()
	return best
}

func (e *Estimate) expand() {
	by := math.Exp(coverage * e.standard)
	e.Span = Interval{e.Ratio / by, e.Ratio * by}
}

func chiSquare(parts []Estimate, ratio float64) float64 {
	sum := 0.0
	for _, p := range parts {
		d := math.Log(p.Ratio/ratio) / p.standard
		sum += d * d
	}
	return sum
}

// Text prints the estimate as the trade reads it, "1/458 ± 1": the ± to one
// figure and never finer than a tenth, the ratio to the same place.
func (e Estimate) Text() source.Message {
	switch {
	case e.Ratio == 0:
		return source.Word("not known")
	case e.Span.Low == e.Span.High: // stated, not measured
		return source.Say("%s", quantity.Scale{Ratio: e.Ratio})
	}
	return ratioText(e.Ratio, e.Span.Half())
}

// Text prints the implied scale in the same way.
func (i Implied) Text() source.Message { return ratioText(i.Ratio, i.Span.Half()) }

func ratioText(ratio, half float64) source.Message {
	step := 0.1
	if half >= 0.95 {
		step = math.Pow10(int(math.Floor(math.Log10(half / 0.95))))
	}
	ratio, half = math.Round(ratio/step)*step, math.Round(max(half, step)/step)*step
	if step < 1 {
		return source.Say("1/%.1f ± %.1f", ratio, half)
	}
	return source.Say("1/%.0f ± %.0f", ratio, half)
}

// Figures are the ratio and its limits, with their working.
func (i Implied) Figures() []quantity.Figure {
	return []quantity.Figure{impliedScale.Figure("scale", quantity.Let{"L": i.Real.Value, "l": i.Model.Value}),
		lowScale.Figure("at least", quantity.Let{"L_low": i.Real.Low, "l_high": i.Model.High}),
		highScale.Figure("at most", quantity.Let{"L_high": i.Real.High, "l_low": i.Model.Low})}
}

// OnModel is the model's length with its limits, "204 ± 0.5 mm".
func (i Implied) OnModel() quantity.Reading { return quantity.Reading(i.Model) }

// InTruth is the real length with its limits.
func (i Implied) InTruth() quantity.Reading { return quantity.Reading(i.Real) }
