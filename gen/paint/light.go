package paint

import (
	"spruelight/gen/source"
)

var (
	ruleLightOrder = &source.Rule{Name: "light-blocking-order", Severity: source.Warn, Source: practice,
		Reason: "Black against the plastic stops the light; the brighter coats over it throw light back into the room. A dark " +
			"coat last swallows what the lamps give.",
		Keys: "build paint.<name>[]: coat, for; sitting coats[]: coat, for"}
	ruleLightLate = &source.Rule{Name: "light-blocking-late", Severity: source.Warn, Source: practice,
		Reason: "Light-blocking coats go next to the plastic; over the colour they hide it.",
		Keys:   "build paint.<name>[]: coat, for; sitting coats[]: coat, for"}
	ruleLit = &source.Rule{Name: "lit-without-blocking", Severity: source.Warn, Source: practice,
		Reason: "Styrene lets light through: without opaque coats the shell glows where no window is.",
		Keys:   "build areas.<name>: encloses; build paint.<name>[]: for"}
	ruleClearInside = &source.Rule{Name: "clear-painted-inside", Severity: source.Warn, Source: practice,
		Reason: "Paint on the lamp side of a clear part sits in the lamp's heat and cannot be scraped or tinted again once the " +
			"shell is closed.",
		Keys: "build areas.<name>: material, side; build paint.<name>[]: coat; sitting coats[]: coat"}
)

// lighterBy is how much darker, in L*, a coat must be before it counts as
// darker than the one below.
const lighterBy = 5

// lightRules judges light blocking: that it is there, its order and its place.
// elsewhere says that the other face of the plastic is blocked.
func lightRules(a *Area, all []layer, elsewhere bool) []source.Finding {
	var found []source.Finding
	var last, cover *layer
	blocked, said := false, false
	for i := range all {
		l := &all[i]
		if l.row.For != LightBlocking {
			if l.row.For > LightBlocking && cover == nil {
				cover = l
			}
			continue
		}
		blocked = true
		if cover != nil && !said {
			said = true
			found = append(found, ruleLightLate.At(l.coat.Paint.At, source.Say("lay light blocking before %s", cover.row.Name),
				"%s: %s for light blocking goes over %s for %s", a.Name.V, l.row.Name, cover.row.Name, source.Word(cover.row.For.String())).
				With(cover.coat.Paint.At, "the coat below"))
		}
		if last != nil && darker(l, last) {
			found = append(found, ruleLightOrder.At(l.coat.Paint.At, "lay the darkest coat first and the brightest last",
				"%s: %s (%s) goes over the brighter %s (%s)",
				a.Name.V, l.row.Name, l.row.Paint.Colour.V, last.row.Name, last.row.Paint.Colour.V).
				With(last.coat.Paint.At, "the coat below"))
		}
		if l.row.Paint != nil && l.row.Paint.Colour.Set {
			last = l
		}
	}
	if !blocked && !elsewhere && len(a.Encloses) > 0 && a.Material.V != Clear {
		found = append(found, ruleLit.At(a.Encloses[0].At, "plan coats for light blocking, commonly black, then silver, then white",
			"%s encloses %s and has no coat for light blocking", a.Name.V, source.And(names(a.Encloses))))
	}
	return append(found, clearRules(a, all)...)
}

func darker(l, than *layer) bool {
	return l.row.Paint != nil && l.row.Paint.Colour.Set && l.row.Paint.Colour.V.Lab().L < than.row.Paint.Colour.V.Lab().L-lighterBy
}

// clearRules finds paint other than light blocking on the lamp side of a clear part.
func clearRules(a *Area, all []layer) []source.Finding {
	if a.Material.V != Clear || !a.isLampSide() {
		return nil
	}
	for _, l := range all {
		if l.row.For != LightBlocking && l.row.For != Decals {
			return []source.Finding{ruleClearInside.At(l.coat.Paint.At, "paint the outside, or silence the rule with the reason",
				"%s: %s is painted on the lamp side of a clear part", a.Name.V, l.row.Name)}
		}
	}
	return nil
}

func names(values []source.Value[string]) []string {
	out := make([]string, len(values))
	for i, v := range values {
		out[i] = v.V
	}
	return out
}
