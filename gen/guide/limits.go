package guide

import (
	"slices"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/photo"
	"spruelight/gen/scale"
	"spruelight/gen/source"
)

// Limits lists every bound on what a workshop may ask of the machine, for the
// guide. Each has a finding that says so when it is passed.
func Limits() []source.Limit {
	return slices.Concat(journal.Limits, photo.Bounds, scale.Limits, circuit.Limits)
}
