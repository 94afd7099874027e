package paint

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var (
	ruleDecalMatt = &source.Rule{Name: "decals-over-matt", Severity: source.Warn, Source: practice,
		Reason: "Air stays in the rough of a matt coat under the film and shows as silvering, sometimes weeks later.",
		Keys:   "build paint.<name>[]: coat; sitting coats[]: coat; paints <name>: finish"}
	ruleDecalSoon = &source.Rule{Name: "decals-too-soon", Severity: source.Warn, Source: practice,
		Reason: "Water and setting solution get into a gloss coat that has not hardened; a day is usual.",
		Keys:   "sitting coats[]: at; sitting markings[]: marking; paints <name>: decals after"}
	ruleMattUnsealed = &source.Rule{Name: "matt-before-seal", Severity: source.Warn, Source: practice,
		Reason: "A matt coat right over decals leaves their edges to be seen and lifted; a clear seal coat goes between.",
		Keys:   "build paint.<name>[]: coat, for; sitting coats[]: coat, for"}
	ruleSealSoon = &source.Rule{Name: "sealed-too-soon", Severity: source.Warn, Source: practice,
		Reason: "Water under a decal cannot get out through a clear coat; it is left to dry overnight.",
		Keys:   "sitting coats[]: at"}
	ruleDecalUnsealed = &source.Rule{Name: "decals-unsealed", Severity: source.Note, Source: practice,
		Reason: "Bare decals yellow, lift and chip; a clear coat holds them.",
		Keys:   "build paint.<name>[]: coat, for; sitting coats[]: coat; sitting markings[]: marking"}
)

// decalRules judges decals against the coats under and over them.
func decalRules(a *Area, all []layer) []source.Finding {
	var found []source.Finding
	for i := range all {
		if all[i].row.For != Decals || i > 0 && all[i-1].row.For == Decals {
			continue
		}
		if i > 0 {
			found = append(found, groundRules(a, all[i-1], all[i])...)
		}
		found = append(found, coverRules(a, all[i:])...)
	}
	return found
}

// groundRules judges what the decals lie on.
func groundRules(a *Area, ground, decals layer) []source.Finding {
	var found []source.Finding
	if matt(ground) {
		found = append(found, ruleDecalMatt.At(decals.coat.Paint.At, "lay a gloss coat first",
			"%s: decals go over %s, a matt coat", a.Name.V, ground.row.Name).With(ground.coat.Paint.At, "the coat below"))
	}
	if ground.curing == nil || decals.laid == nil {
		return found
	}
	if ready := ground.curing.Ready[Apply]; ready.Known && decals.laid.When.Before(ready.From) {
		found = append(found, ruleDecalSoon.At(decals.laid.At, ready.wait(), "%s: decals went over %s after %s, which wants %s",
			a.Name.V, ground.row.Name, since(ground.laid.When, decals.laid.When), ready.wanted()).
			With(ground.laid.At, "the coat below, %s", quantity.Moment(ground.laid.When)))
	}
	return found
}

// coverRules judges the first coat over decals; from begins with the decals.
func coverRules(a *Area, from []layer) []source.Finding {
	decals := from[0]
	for _, over := range from {
		if over.row.For == Decals {
			decals = over
			continue
		}
		if early := sealedSoon(a, decals, over); early != nil {
			return early
		}
		if matt(over) {
			return []source.Finding{ruleMattUnsealed.At(over.coat.Paint.At, "lay a clear gloss or satin coat for seal between",
				"%s: %s, a matt coat, goes right over decals", a.Name.V, over.row.Name).With(from[0].coat.Paint.At, "the decals")}
		}
		return nil
	}
	return []source.Finding{ruleDecalUnsealed.At(from[0].coat.Paint.At, "plan a clear coat for seal over them",
		"%s: no coat is planned over the decals", a.Name.V)}
}

// overnight is how long decals dry before they are sealed.
const overnight = 12 * time.Hour

func sealedSoon(a *Area, decals, over layer) []source.Finding {
	if decals.laid == nil || over.laid == nil || !over.laid.When.Before(decals.laid.When.Add(overnight)) {
		return nil
	}
	dry := Ready{From: decals.laid.When.Add(overnight)}
	return []source.Finding{ruleSealSoon.At(over.laid.At, dry.wait(), "%s: %s went over decals after %s",
		a.Name.V, over.row.Name, since(decals.laid.When, over.laid.When)).
		With(decals.laid.At, "the decals, %s", quantity.Moment(decals.laid.When))}
}

// matt reports whether a layer dries matt: by its paint's finish, or where that
// is not written by what it is for.
func matt(l layer) bool {
	if l.row.Paint != nil && l.row.Paint.Finish.Set {
		return l.row.Paint.Finish.V == MattFinish
	}
	return l.row.For == Matt
}
