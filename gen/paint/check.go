package paint

import (
	"slices"
	"time"

	"spruelight/gen/source"
)

// Result is what Check has to say about a build's finish.
type Result struct {
	Moment   time.Time
	Areas    []AreaResult
	Agenda   []Due // what becomes possible after the moment, soonest first
	Marks    []MarkCount
	Cautions []Caution
	Findings source.Findings // all findings, those of the areas included
}

// AreaResult is what Check has to say about one area.
type AreaResult struct {
	Name     string
	Area     *Area
	Rows     []Row    // the stack from the plastic outward
	Curings  []Curing // of the coats laid up to the moment, in the order of time
	Now      []Advice
	Next     *Next // the next planned coat; nil where all are laid
	Meets    []Meeting
	Light    []Blocking
	Card     Card
	Findings source.Findings // silenced ones included
}

// Check judges a build's finish at its moment. It leaves the build as it is.
func Check(build *Build) Result {
	b := *build
	b.Areas = withPlacings(build)
	r := Result{Moment: b.Moment}
	paints := Shelf{}
	for i := range b.Paints {
		paints[b.Paints[i].Name.V] = &b.Paints[i]
		r.Findings.Add(b.Paints[i].CheckTimes()...)
	}
	blocked := blockedFaces(b.Areas)
	for i := range b.Areas {
		r.Areas = append(r.Areas, checkArea(&b, &b.Areas[i], paints, blocked))
	}
	meetings(r.Areas)
	for i := range r.Areas {
		r.Findings.Add(r.Areas[i].Findings...)
	}
	for i := range b.Leaks {
		r.Findings.Add(b.Leaks[i].check("the build")...)
	}
	var found []source.Finding
	r.Marks, found = Ledger(b.Sheets, b.Placed)
	r.Findings.Add(found...)
	r.Agenda = Agenda(r.Areas, b.Moment)
	r.Cautions = cautions(r.Areas)
	r.Findings.Sort()
	return r
}

// checkArea runs every rule over one area.
func checkArea(b *Build, a *Area, paints Shelf, blocked map[string]bool) AreaResult {
	r := AreaResult{Name: a.Name.V, Area: a, Rows: a.Stack(paints)}
	all := layers(r.Rows, func(row *Row, l *Laid) *Curing {
		if row.Paint == nil {
			return nil
		}
		c := Clock(l, row.Paint, b.Room)
		return &c
	})
	for _, l := range all {
		if l.curing != nil && !l.laid.When.After(b.Moment) {
			r.Curings = append(r.Curings, *l.curing)
		}
	}
	r.Now = Advise(r.Curings, b.Moment)
	r.Next = nextCoat(r.Rows, r.Curings, b.Moment)
	elsewhere := blocked[a.OtherFace.V]
	r.Card = a.card(r.Rows, r.Curings, elsewhere, b.Moment)
	found := judge(b, a, r.Rows, all, elsewhere)
	for i := range a.Tests {
		light := a.Tests[i].Measure()
		r.Light = append(r.Light, light)
		found = append(found, light.Found...)
	}
	found = append(found, r.Card.findings(a)...)
	r.Findings = a.silence(found)
	return r
}

// judge collects the findings of the rules that look at the stack.
func judge(b *Build, a *Area, rows []Row, all []layer, elsewhere bool) []source.Finding {
	found := prepareRules(a, all)
	found = append(found, orderRules(a.Name.V, all)...)
	found = append(found, lightRules(a, all, elsewhere)...)
	found = append(found, decalRules(a, all)...)
	found = append(found, eventRules(a.Name.V, all, b.Events)...)
	found = append(found, coldRules(a.Name.V, all, b.Room)...)
	found = append(found, planRules(a.Name.V, rows)...)
	found = append(found, laidRules(a.Name.V, a.Laid, b.Moment)...)
	found = append(found, shutRules(a)...)
	for i := range a.Leaks {
		found = append(found, a.Leaks[i].check(a.Name.V)...)
	}
	return found
}

// blockedFaces names the areas that have a coat for light blocking.
func blockedFaces(areas []Area) map[string]bool {
	blocked := map[string]bool{}
	for i := range areas {
		for _, c := range areas[i].Planned {
			blocked[areas[i].Name.V] = blocked[areas[i].Name.V] || c.For.V == LightBlocking
		}
		for _, l := range areas[i].Laid {
			blocked[areas[i].Name.V] = blocked[areas[i].Name.V] || l.For.V == LightBlocking
		}
	}
	return blocked
}

// withPlacings returns the areas, with a coat of decals on those days on which
// decals were placed there, so that their order is checked though nobody logged
// one.
func withPlacings(b *Build) []Area {
	areas := slices.Clone(b.Areas)
	for _, p := range b.Placed {
		if p.Spoilt() || !p.Area.Set {
			continue
		}
		for i := range areas {
			if a := &areas[i]; a.Name.V == p.Area.V && !a.decalsOn(p.When) {
				at := p.Number.At
				coat := Coat{Paint: source.Written(Decals.String(), at), For: source.Written(Decals, at)}
				a.Laid = append(slices.Clip(a.Laid), Laid{Coat: coat, At: at, When: p.When})
			}
		}
	}
	return areas
}

func (a *Area) decalsOn(day time.Time) bool {
	for _, l := range a.Laid {
		if (l.For.V == Decals || l.Paint.V == Decals.String()) && l.When.Format(time.DateOnly) == day.Format(time.DateOnly) {
			return true
		}
	}
	return false
}
