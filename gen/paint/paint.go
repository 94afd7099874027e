// Package paint judges the finish of a model: what stands on each area in what
// order, whether it will hold, when it may be handled, masked or painted over,
// whether light stays in, and whether an area may be glued shut.
//
// It serves the modeller at the bench before each point of no return, and the
// one who must repair the model years later. It is pure: times come in as
// time.Time values, the moment by which clocks are judged comes in with them,
// and there is no clock here. Durations are hours, volumes litres, illuminance
// lux, temperatures degrees Celsius, colours 8-bit sRGB or CIE L*a*b* for D65.
//
// Check is the one door for a whole build; Mix, Difference, Lighten and
// Density are sums of their own.
//
// # Sources
//
//   - G. Sharma, W. Wu, E. N. Dalal, The CIEDE2000 color-difference formula:
//     implementation notes, supplementary test data, and mathematical
//     observations, Color Res. Appl. 30 (2005) 21-30
//   - IEC 61966-2-1:1999 with amendment 1 (2003): the sRGB colour space
//   - ISO 5-2:2009 and ISO 5-1:2009: optical density of transmission
//   - R. D. Paravina and others, Color difference thresholds in dentistry,
//     J. Esthet. Restor. Dent. 27 S1 (2015) S1-S9: what half of all eyes see
//   - Hempel, Explanatory notes to product data sheets: drying and temperature
//   - USP 32, chapter 1101: the size of a drop
//
// The order of paints and most waiting times are rules of the trade. They say
// "common practice, no source" where nothing better stands behind them; a
// maker's data sheet and the builder's own measured times override them all.
package paint

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// practice is the source of a rule that the trade holds and nobody published.
const practice = "common practice, no source"

// Build is what is known about the finish of one build.
type Build struct {
	Moment time.Time                      // the moment that clocks are judged by, in the workshop's time zone
	Room   source.Value[quantity.Celsius] // the bench's temperature, where the workshop gives one
	Paints []Paint                        // those of the rack and of the build's own mixes that are used
	Areas  []Area
	Events []Event                   // masking and handling that the sittings recorded
	Leaks  []Leak                    // those of no named area
	Sheets source.Entries[[]Marking] // decal sheets
	Placed []MarkingWork
}

// Shelf is paints by their names.
type Shelf map[string]*Paint

// Bar returns the air pressure in bar.
func (c *Coat) Bar() float64 { return float64(c.Pressure.V) / 1e5 }

// Laid is one layer as a sitting recorded it.
type Laid struct {
	Coat
	At          source.Span // the sitting's entry
	When        time.Time   // when the last pass was done
	Assumed     bool        // no time of day was written: the end of the day stands for it
	Temperature source.Value[quantity.Celsius]
	Sitting     string // for pages: where the sitting is found
}

// Treatment is what was done to the bare plastic.
type Treatment struct {
	What source.Value[Work]
	Part string    // the part that was treated; "" for the whole area
	When time.Time // zero where build.md lists it without a date
}

// Event is something done to an area that a coat had to be ready for.
type Event struct {
	Area    source.Value[string]
	Stage   Stage // Handle or Mask
	When    time.Time
	Assumed bool // no time of day was written: the end of the day stands for it
}

// isLampSide reports whether the area lies inside the shell, towards the lamps.
func (a *Area) isLampSide() bool {
	if a.Side.Set {
		return a.Side.V == LampSide
	}
	return len(a.Encloses) > 0
}
