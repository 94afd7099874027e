package paint

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// layering is the source of what may go over what.
const layering = "common practice, no source: lacquer first, then enamel, waterborne last; lacquer softens what lies under it"

var (
	ruleHot = &source.Rule{Name: "lacquer-over-enamel", Severity: source.Warn, Source: layering,
		Reason: "Lacquer thinner softens enamel and oil paint from beneath however old they are, and the surface crazes.",
		Keys:   "sitting coats[]: coat; build paint.<name>[]: coat; paints <name>: kind"}
	ruleUncured = &source.Rule{Name: "family-over-uncured", Severity: source.Warn, Source: layering,
		Reason: "Another family's solvent gets into a coat that has not cured: it wrinkles or crazes, even in the right order.",
		Keys:   "sitting coats[]: at; paints <name>: kind, other paint after, cured"}
	ruleOverWaterborne = &source.Rule{Name: "lacquer-over-waterborne", Severity: source.Note, Source: layering,
		Reason: "Lacquer over waterborne paint holds only over a fully cured coat, in mist coats some minutes apart.",
		Keys:   "sitting coats[]: coat; build paint.<name>[]: coat; paints <name>: kind"}
	ruleSoon = &source.Rule{Name: "recoat-too-soon", Severity: source.Warn, Source: "the paint's own recoat time",
		Reason: "A second coat seals solvent in: the paint stays soft and sinks or wrinkles.",
		Keys:   "sitting coats[]: at; paints <name>: recoat"}
	ruleGap = &source.Rule{Name: "recoat-in-gap", Severity: source.Warn, Source: "the paint's own recoat windows",
		Reason: "Some paints may be recoated early or late but not between: half dry, the coat below swells and wrinkles.",
		Keys:   "sitting coats[]: at; paints <name>: recoat within, recoat again"}
	ruleLate = &source.Rule{Name: "recoat-too-late", Severity: source.Warn, Source: "the paint's own recoat window",
		Reason: "After its window a coat is so hard that the next one does not grip unless it is sanded.",
		Keys:   "sitting coats[]: at; paints <name>: recoat within"}
	ruleWashEnamel = &source.Rule{Name: "wash-over-bare-enamel", Severity: source.Warn, Source: practice,
		Reason: "White spirit in an enamel or oil wash takes bare enamel off; a clear coat of another family keeps it out.",
		Keys:   "sitting coats[]: coat, for; build paint.<name>[]: coat, for; paints <name>: kind"}
	ruleWashSoon = &source.Rule{Name: "wash-too-soon", Severity: source.Warn, Source: practice,
		Reason: "A wash is rubbed and thinned on the model; a coat that has not hardened comes off with it.",
		Keys:   "sitting coats[]: at; paints <name>: wash after"}
)

// orderRules judges each layer against those under it.
func orderRules(area string, all []layer) []source.Finding {
	var found []source.Finding
	for i := range all {
		over := all[i]
		if over.row.Paint == nil {
			continue
		}
		under := below(all[:i])
		if over.row.For == Wash {
			found = append(found, washRules(area, under, over)...)
			continue
		}
		found = append(found, hotRules(area, under, over)...)
		if over.laid == nil || len(under) == 0 {
			continue
		}
		found = append(found, recoatRules(area, under[len(under)-1], over)...)
		found = append(found, uncuredRules(area, under, over)...)
	}
	return found
}

// below keeps the layers that have a paint; decals are film, not paint.
func below(all []layer) []layer {
	var out []layer
	for _, l := range all {
		if l.row.Paint != nil {
			out = append(out, l)
		}
	}
	return out
}

// hotRules looks through the whole stack: hot thinner goes deeper than one coat.
func hotRules(area string, under []layer, over layer) []source.Finding {
	if over.row.Paint.Family.V != Lacquer {
		return nil
	}
	for i := len(under) - 1; i >= 0; i-- {
		u := under[i]
		switch u.row.Paint.Family.V {
		case Enamel, Oil:
			if u.row.For == Wash {
				continue // wiped off but for the recesses; that it must cure is said elsewhere
			}
			family := u.row.Paint.Family.V
			return []source.Finding{ruleHot.At(over.coat.Paint.At,
				source.Say("take a waterborne coat instead, or strip the %s", source.Word(family.String())),
				"%s: %s is a lacquer over %s, %s", area, over.row.Name, u.row.Name, article(family)).With(u.coat.Paint.At, "the coat below")}
		case Waterborne:
			return []source.Finding{ruleOverWaterborne.At(over.coat.Paint.At,
				"let the coat below cure fully, then lay mist coats, or take a waterborne coat",
				"%s: %s is a lacquer over %s, a waterborne paint", area, over.row.Name, u.row.Name).With(u.coat.Paint.At, "the coat below")}
		case Lacquer, TwoPack: // a barrier that the solvent does not pass
			return nil
		}
	}
	return nil
}

func article(f Family) source.Message {
	if f == Enamel || f == Oil {
		return source.Word("an " + f.String())
	}
	return source.Word("a " + f.String())
}

// recoatRules judges a layer over one of its own family.
func recoatRules(area string, u, over layer) []source.Finding {
	if u.row.Paint.Family.V != over.row.Paint.Family.V || u.curing == nil {
		return nil
	}
	when, c := over.laid.When, u.curing
	at := over.laid.At
	var f source.Finding
	switch c.Recoat(when) {
	case TooSoon:
		f = ruleSoon.At(at, c.Ready[Recoat].wait(), "%s: %s went over %s after %s, its recoat time is %s",
			area, over.row.Name, u.row.Name, since(u.laid.When, when), c.Ready[Recoat].Working)
	case InGap:
		f = ruleGap.At(at, c.Again.wait(), "%s: %s went over %s after %s; it may be recoated within %s and again after %s",
			area, over.row.Name, u.row.Name, since(u.laid.When, when), c.Until.Wait, c.Again.Wait)
	case TooLate:
		f = ruleLate.At(at, "sand lightly and wash before the next coat", "%s: %s went over %s after %s, its recoat window closed after %s",
			area, over.row.Name, u.row.Name, since(u.laid.When, when), c.Until.Wait)
	default:
		return nil
	}
	return []source.Finding{f.With(u.laid.At, "the coat below, %s", quantity.Moment(u.laid.When))}
}

// uncuredRules judges a layer over those of other families; one finding names
// the layer that would have needed longest.
func uncuredRules(area string, under []layer, over layer) []source.Finding {
	var worst *layer
	for i := range under {
		u := &under[i]
		if u.curing == nil || u.row.Paint.Family.V == over.row.Paint.Family.V || never(u, over) {
			continue
		}
		ready := needed(u, over)
		if ready.Known && over.laid.When.Before(ready.From) && (worst == nil || needed(worst, over).From.Before(ready.From)) {
			worst = u
		}
	}
	if worst == nil {
		return nil
	}
	ready := needed(worst, over)
	return []source.Finding{ruleUncured.At(over.laid.At, ready.wait(), "%s: %s (%s) went over %s (%s) after %s, which wants %s", area,
		over.row.Name, source.Word(over.row.Paint.Family.V.String()), worst.row.Name, source.Word(worst.row.Paint.Family.V.String()),
		since(worst.laid.When, over.laid.When), ready.wanted()).
		With(worst.laid.At, "the coat below, %s", quantity.Moment(worst.laid.When))}
}

// never reports whether no waiting helps, which lacquer-over-enamel says.
func never(u *layer, over layer) bool {
	under := u.row.Paint.Family.V
	return over.row.Paint.Family.V == Lacquer && (under == Enamel || under == Oil) && u.row.For != Wash
}

// needed is when a layer bears another family: lacquer wants it cured.
func needed(u *layer, over layer) Ready {
	if over.row.Paint.Family.V == Lacquer {
		return u.curing.Ready[Cured]
	}
	return u.curing.Ready[Other]
}

// washRules judges a wash over what it will be rubbed on.
func washRules(area string, under []layer, over layer) []source.Finding {
	if len(under) == 0 {
		return nil
	}
	u, family := under[len(under)-1], over.row.Paint.Family.V
	var found []source.Finding
	if (family == Enamel || family == Oil) && u.row.Paint.Family.V == Enamel {
		found = append(found, ruleWashEnamel.At(over.coat.Paint.At, "seal with a waterborne or lacquer clear first",
			"%s: the wash %s goes over bare enamel %s", area, over.row.Name, u.row.Name).With(u.coat.Paint.At, "the coat below"))
	}
	if u.curing == nil || over.laid == nil {
		return found
	}
	if ready := u.curing.Ready[Soak]; ready.Known && over.laid.When.Before(ready.From) {
		found = append(found, ruleWashSoon.At(over.laid.At, ready.wait(), "%s: the wash %s went over %s after %s, which wants %s",
			area, over.row.Name, u.row.Name, since(u.laid.When, over.laid.When), ready.wanted()).
			With(u.laid.At, "the coat below, %s", quantity.Moment(u.laid.When)))
	}
	return found
}
