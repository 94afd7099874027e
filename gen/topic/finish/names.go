package finish

import (
	"slices"

	"spruelight/gen/journal"
	"spruelight/gen/topic"
)

// PaintNames lists the coats of the model, each once, in the order in which
// they were laid, then those planned.
func PaintNames(f topic.Facts) []string {
	var names []string
	add := func(coat string) {
		name := PaintName(f.Rack, coat)
		if coat != "" && coat != journal.DecalCoat && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, s := range f.Sittings {
		for _, c := range s.Front.Coats {
			add(c.Coat.V)
		}
	}
	for _, area := range f.Front.Paint {
		for _, c := range area.Value {
			add(c.Paint.V)
		}
	}
	return names
}

// PaintName is what is written on a paint's pot, else its name on the rack.
func PaintName(rack *journal.Rack, coat string) string {
	if paint, ok := rack.Paints.Get(coat); ok {
		return paint.Label.Or(topic.Readable(coat))
	}
	return topic.Readable(coat)
}
