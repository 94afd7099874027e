package site

import (
	"slices"
	"strconv"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/size"
)

// Shelf is what is worked out over all models.
type Shelf struct {
	Models  []*shelved // builds first, then the pieces of shelf.yaml
	lineup  []*shelved // those of the line-up
	Members []scale.Member
	pairs   []scale.Pair // each with each, where they are few enough
	plan    scale.Plan
	Found   source.Findings
}

// shelved is a model of the workshop: a build, or a piece of the shelf.
type shelved struct {
	*size.Model
	path     string // of its page on scale, else of its build; "" for a piece of the shelf
	says     string // of a piece of the shelf
	finished bool   // it stands on the shelf
}

// ReckonShelf judges the pieces of the shelf, compares all models and puts the
// finished ones into the cabinets.
func ReckonShelf(bench *topic.Bench, pieces source.Entries[journal.ShelfPiece], builds []*Build) Shelf {
	var s Shelf
	for _, b := range builds {
		m := &shelved{Model: &b.Size.Model, path: b.Place(size.File), finished: b.Record.Sum.State == tally.Shelf}
		if !m.Sized() {
			m.path = b.Place("index.html")
		}
		s.Models = append(s.Models, m)
	}
	for i := range pieces {
		e := &pieces[i]
		m, found := size.OfShelf(e.Name.V, &e.Value)
		s.Found.Add(found...)
		s.Models = append(s.Models, &shelved{Model: &m, says: e.Value.Says.V, finished: true})
	}
	s.chooseLineup(bench.Settings.Lineup)
	var members []scale.Member
	for _, m := range s.Models {
		if member, ok := scale.MemberOf(m.Judged); ok && m.Sized() {
			member.ID = m.Slug
			members = append(members, member)
		}
	}
	s.Members = members
	if len(members) <= size.MostCompared {
		s.pairs = scale.Pairs(members)
	}
	s.fillCabinets(bench)
	return s
}

// chooseLineup takes the models that the workshop names, else all that say
// anything of their size.
func (s *Shelf) chooseLineup(named []journal.Text) {
	for _, m := range s.Models {
		chosen := slices.ContainsFunc(named, func(t source.Value[string]) bool { return t.V == m.Slug })
		if !chosen && (len(named) > 0 || m.Measured == (scale.Size{})) {
			continue
		}
		s.lineup = append(s.lineup, m)
		s.Found.Add(scale.CheckPiece(m.Piece)...)
	}
}

func (s *Shelf) pieces() []scale.Piece {
	pieces := make([]scale.Piece, len(s.lineup))
	for i, m := range s.lineup {
		pieces[i] = m.Piece
	}
	return pieces
}

// fillCabinets arranges what is finished. Models that are still on the bench
// are told whether they will fit, and take no room.
func (s *Shelf) fillCabinets(bench *topic.Bench) {
	cabinets := cabinetsOf(bench.Settings)
	if len(cabinets) == 0 {
		return
	}
	air := clearance(bench.Settings)
	var finished []scale.Exhibit
	for _, m := range s.Models {
		if m.finished && m.Shown() {
			finished = append(finished, m.Exhibit())
		}
	}
	s.plan = scale.Arrange(finished, cabinets, air)
	s.Found.Add(s.plan.Findings...)
}

func clearance(settings *journal.Settings) scale.Clearance {
	air := scale.UsualClearance
	air.Around = settings.Air.Or(air.Around)
	return air
}

func cabinetsOf(settings *journal.Settings) []scale.Cabinet {
	var out []scale.Cabinet
	for _, c := range settings.Cabinets {
		out = append(out, scale.Cabinet{Name: c.Name, Width: c.Width, Depth: c.Depth, Height: c.Height, Holds: c.Holds, Shelves: c.Shelves})
	}
	return out
}

// Widths of the line-up's drawings: for a desk and for a phone.
const (
	deskWidth = 1080
	planWidth = 640
	perRow    = 6 // so many models to a row look well on a desk
)

// lineupPair draws one line-up twice, for wide and for narrow screens.
func (h *House) lineupPair(id, title string, subjects bool) LineupDrawing {
	pieces := h.Shelf.pieces()
	o := scale.LineupOptions{ID: id, Title: title, Subjects: subjects, Width: deskWidth,
		Rows: max(2, (len(pieces)+perRow-1)/perRow), Inches: h.Inches(), Print: h.Words.Message}
	wide := scale.DrawLineup(pieces, o)
	o.ID, o.Width, o.Rows = id+"-narrow", topic.PhoneWidth, 0
	narrow := scale.DrawLineup(pieces, o)
	if len(wide.Stands) == 0 {
		return LineupDrawing{}
	}
	return LineupDrawing{Drawing: *h.Keep(id, svg.Table{}, wide.Drawing, narrow.Drawing), Stands: wide.Stands, Left: wide.Left}
}

// shelfPlans draws the shelves of the cabinets.
func (h *House) shelfPlans() []ShelfPlan {
	var plans []ShelfPlan
	for i, shelf := range h.Shelf.plan.Shelves {
		plan := ShelfPlan{Shelf: shelf}
		if len(shelf.Places) > 0 {
			id := "shelf-" + strconv.Itoa(i+1)
			plan.Drawing = h.Keep(id, svg.Table{}, scale.DrawShelf(shelf, id, planWidth, h.Words.Message))
		}
		plans = append(plans, plan)
	}
	return plans
}

// hasLineup reports whether any model can be drawn in the line-up.
func hasLineup(h *House) bool {
	return slices.ContainsFunc(h.Shelf.lineup, func(m *shelved) bool { return m.Piece.Sized() })
}

// lineupPages is the page of all models side by side.
func lineupPages(h *House) []*page.Sheet {
	s, say := &h.Shelf, h.Words.Say
	p := Lineup{Adult: quantity.Metres(scale.StandingAdult), Survey: source.Word(scale.SurveySource)}
	p.Models = h.lineupPair("line-up", say("The line-up: models at true relative size"), false)
	p.Subjects = h.lineupPair("subjects", say("The real things at true relative size"), true)
	p.Shelves = h.shelfPlans()
	if len(p.Models.Stands) == 0 {
		return nil
	}
	p.Pairs.Near, p.Pairs.Far = scale.Split(s.pairs)
	for _, m := range s.lineup {
		p.Rows = append(p.Rows, m.row())
	}
	if len(s.plan.Shelves) > 0 {
		p.Rule, p.Air, p.AirAssumed, p.Left = source.Word(scale.PackingRule), clearance(h.Settings), !h.Settings.Air.Set, s.plan.Left
		p.Cabinets, p.Fits = s.fitRows(h.Settings)
	}
	return []*page.Sheet{{Path: size.LineupPath, Kind: "lineup", Title: say("Line-up"), Data: p,
		Summary: say("Models and the real things side by side at true relative size, and which of them may share a scale.")}}
}

func (m *shelved) row() LineupRow {
	return LineupRow{Name: m.Name, Says: m.says, Path: m.path, Judged: m.Judged, Model: m.Piece.Model, Real: m.Piece.Real, View: m.Piece.View}
}

// fitRows says of every model with a known footprint, finished or not, where it fits.
func (s *Shelf) fitRows(settings *journal.Settings) (cabinets []string, rows []FitRow) {
	all := cabinetsOf(settings)
	for _, c := range all {
		cabinets = append(cabinets, c.Name.V)
	}
	for _, m := range s.Models {
		e := m.Exhibit()
		if e.Size.Length == 0 || e.Size.Width == 0 || e.Size.Height == 0 {
			continue
		}
		row := FitRow{Exhibit: e, Finished: m.finished, Bare: !m.Display.At.Known()}
		for _, c := range all {
			row.Fits = append(row.Fits, scale.FitOn(e, c, clearance(settings)))
		}
		rows = append(rows, row)
	}
	return cabinets, rows
}
