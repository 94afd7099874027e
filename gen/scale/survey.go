package scale

import "gonum.org/v1/gonum/stat/distuv"

// Posture says how a figure is held, and so what its height is compared with.
type Posture int

const (
	Standing Posture = iota // sole to crown: stature
	Seated                  // seat to crown: sitting height
)

// String returns the word for a posture: standing or seated.
func (p Posture) String() string { return [...]string{"standing", "seated"}[p] }

// percentiles are the 5th, 50th and 95th percentile of one measure, in metres.
type percentiles struct{ p5, p50, p95 float64 }

// SurveySource is the survey that figures are compared with.
const SurveySource = "ANSUR II, NATICK/TR-15/007 (2014), 4082 men and 1986 women, percentiles computed from the public data"

// men and women hold the survey's percentiles by posture; SurveySource.
var (
	men   = [...]percentiles{Standing: {1.648, 1.755, 1.870}, Seated: {0.860, 0.918, 0.977}}
	women = [...]percentiles{Standing: {1.525, 1.626, 1.740}, Seated: {0.803, 0.857, 0.912}}
)

// z5 is the 5th percentile of the normal distribution, in standard deviations.
var z5 = distuv.UnitNormal.Quantile(0.05)

// percentile returns the share of people, in percent, who are no taller than a
// height in metres. The three published percentiles are met exactly; between
// and beyond them heights follow a normal distribution's shape, its halves each
// with a width of their own.
func (p percentiles) percentile(height float64) float64 {
	return 100 * distuv.UnitNormal.CDF(p.z(height))
}

// z returns how many standard deviations a height lies from the median.
func (p percentiles) z(height float64) float64 {
	if height < p.p50 {
		return (height - p.p50) / (p.p5 - p.p50) * z5
	}
	return -(height - p.p50) / (p.p95 - p.p50) * z5
}

// StandingAdult is the height in metres of the figure that drawings show:
// midway between the medians of women and men. SurveySource.
var StandingAdult = (men[Standing].p50 + women[Standing].p50) / 2
