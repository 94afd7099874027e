package paint

import (
	"slices"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var (
	rulePrimer = &source.Rule{Name: "primer-missing", Severity: source.Warn, Source: practice,
		Reason: "Paint grips bare resin, metal, printed parts and heated plastic poorly, and wood soaks it up; a primer is " +
			"made for that.",
		Keys: "build areas.<name>: material, treatments; build paint.<name>[]: coat, for; sitting coats[]: coat, for"}
	ruleUnwashed = &source.Rule{Name: "painted-unwashed", Severity: source.Warn, Source: practice,
		Reason: "Hot water brings release agent to the surface, and sanding leaves dust and the grease of fingers; paint lifts " +
			"from both with the masking tape.",
		Keys: "build areas.<name>: treatments; sitting: treated; sitting coats[]: coat; build paint.<name>[]: coat"}
	ruleReleaseAgent = &source.Rule{Name: "release-agent", Severity: source.Warn, Source: practice,
		Reason: "Cast resin and printed parts come with release agent or uncured resin on them; they are washed before anything else.",
		Keys:   "build areas.<name>: material, treatments; sitting: treated; sitting coats[]: coat; build paint.<name>[]: coat"}
)

// prepareRules judges what was done, or not, before the first coat.
func prepareRules(a *Area, all []layer) []source.Finding {
	if len(all) == 0 {
		return nil
	}
	first := all[0]
	return append(primerRules(a, first), washedRules(a, first)...)
}

// gripless lists materials that want a primer, and those that soak paint up.
var gripless = []Material{Resin, PhotoEtch, Printed, Metal, Wood}

func primerRules(a *Area, first layer) []source.Finding {
	var why source.Message
	heated, primed := a.last(Straightened), a.last(Primed) // of the whole area or of any part of it
	switch {
	case first.row.For == Primer || first.row.For == Decals || primed != nil && primed.Part == "":
		return nil
	case slices.Contains(gripless, a.Material.V):
		why = source.Say("the part is %s", source.Word(a.Material.V.String()))
	case heated != nil:
		why = source.Say("the part was %s", source.Word(heated.What.V.String()))
	default:
		return nil
	}
	f := rulePrimer.At(first.coat.Paint.At, "lay a primer first, or silence the rule with the reason",
		"%s: %s is the first coat, and %s", a.Name.V, first.row.Name, why)
	if heated != nil {
		f = f.With(heated.What.At, "the treatment")
	}
	return []source.Finding{f}
}

// soils lists treatments after which a part is washed.
var soils = []Work{Straightened, Sanded, Filled, Polished}

func washedRules(a *Area, first layer) []source.Finding {
	const remedy = "wash in warm water with a little detergent, rinse, let dry, and write the treatment washed"
	washed := false
	for i, t := range a.Treatments {
		if late(t.When, first) { // after the first coat: it prepared nothing
			continue
		}
		washed = washed || t.What.V == Washed
		if slices.Contains(soils, t.What.V) && !washedAfter(a.Treatments[i+1:], t, first) {
			soiled := source.Word(t.What.V.String())
			f := ruleUnwashed.At(first.coat.Paint.At, remedy,
				"%s: %s goes on a part that was %s and not washed afterwards", a.Name.V, first.row.Name, soiled)
			if t.Part != "" {
				f = ruleUnwashed.At(first.coat.Paint.At, remedy,
					"%s: %s goes on %s, which was %s and not washed afterwards", a.Name.V, first.row.Name, t.Part, soiled)
			}
			return []source.Finding{f.With(t.What.At, "the treatment")}
		}
	}
	if (a.Material.V == Resin || a.Material.V == Printed) && !washed {
		return []source.Finding{ruleReleaseAgent.At(first.coat.Paint.At, remedy,
			"%s: %s goes on %s that was not washed", a.Name.V, first.row.Name, source.Word(a.Material.V.String()))}
	}
	return nil
}

// washedAfter reports whether the same part or the whole area was washed later
// on, before the first coat.
func washedAfter(later []Treatment, soiled Treatment, first layer) bool {
	return slices.ContainsFunc(later, func(t Treatment) bool {
		return t.What.V == Washed && (t.Part == "" || t.Part == soiled.Part) && !late(t.When, first)
	})
}

func late(t time.Time, first layer) bool {
	return !t.IsZero() && first.laid != nil && t.After(first.laid.When)
}

// last returns the last treatment of a kind.
func (a *Area) last(w Work) *Treatment {
	for i := len(a.Treatments) - 1; i >= 0; i-- {
		if a.Treatments[i].What.V == w {
			return &a.Treatments[i]
		}
	}
	return nil
}

// since is the time between two moments, to the minute.
func since(from, to time.Time) quantity.Hours {
	return quantity.Hours(float64(to.Sub(from).Round(time.Minute)/time.Minute) * (1.0 / 60))
}
