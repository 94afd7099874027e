package gen

import (
	"path"
	"slices"
	"spruelight/gen/site"
	"spruelight/gen/topic"
	"spruelight/gen/topic/size"
	"strconv"

	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
)

// shelfWork is what the scale topic works out over all models.
type shelfWork struct {
	models   []*shelved // builds first, then the pieces of shelf.yaml
	lineup   []*shelved // those of the line-up
	members  []scale.Member
	pairs    []scale.Pair // each with each, where they are few enough
	plan     scale.Plan
	drawings []page.Drawing
	page     site.Lineup
}

// shelved is a model of the workshop: a build, or a piece of the shelf.
type shelved struct {
	*size.Model
	path     string // of its page on scale, else of its build; "" for a piece of the shelf
	says     string // of a piece of the shelf
	finished bool   // it stands on the shelf
}

// reckonShelf judges the pieces of the shelf, compares all models and puts the
// finished ones into the cabinets.
func reckonShelf(r *run) {
	s := &r.shelf
	for _, w := range r.works {
		m := &shelved{Model: &w.scale.Model, path: w.place(size.File), finished: w.totals.State == tally.Shelf}
		if !m.Sized() {
			m.path = w.place("index.html")
		}
		s.models = append(s.models, m)
	}
	for i := range r.shop.Shelf {
		e := &r.shop.Shelf[i]
		m, found := size.OfShelf(e.Name.V, &e.Value)
		r.found.Add(found...)
		s.models = append(s.models, &shelved{Model: &m, says: e.Value.Says.V, finished: true})
	}
	s.chooseLineup(r)
	var members []scale.Member
	for _, m := range s.models {
		if member, ok := scale.MemberOf(m.Judged); ok && m.Sized() {
			member.ID = m.Slug
			members = append(members, member)
		}
	}
	s.members = members
	if len(members) <= size.MostCompared {
		s.pairs = scale.Pairs(members)
	}
	s.fillCabinets(r)
}

// chooseLineup takes the models that the workshop names, else all that say
// anything of their size.
func (s *shelfWork) chooseLineup(r *run) {
	named := r.shop.Settings.Lineup
	for _, m := range s.models {
		chosen := slices.ContainsFunc(named, func(t source.Value[string]) bool { return t.V == m.Slug })
		if !chosen && (len(named) > 0 || m.Measured == (scale.Size{})) {
			continue
		}
		s.lineup = append(s.lineup, m)
		r.found.Add(scale.CheckPiece(m.Piece)...)
	}
}

func (s *shelfWork) pieces() []scale.Piece {
	pieces := make([]scale.Piece, len(s.lineup))
	for i, m := range s.lineup {
		pieces[i] = m.Piece
	}
	return pieces
}

// fillCabinets arranges what is finished. Models that are still on the bench
// are told whether they will fit, and take no room.
func (s *shelfWork) fillCabinets(r *run) {
	cabinets := cabinetsOf(r)
	if len(cabinets) == 0 {
		return
	}
	air := r.clearance()
	var finished []scale.Exhibit
	for _, m := range s.models {
		if m.finished && m.Shown() {
			finished = append(finished, m.Exhibit())
		}
	}
	s.plan = scale.Arrange(finished, cabinets, air)
	r.found.Add(s.plan.Findings...)
}

func (r *run) clearance() scale.Clearance {
	air := scale.UsualClearance
	air.Around = r.shop.Settings.Air.Or(air.Around)
	return air
}

func cabinetsOf(r *run) []scale.Cabinet {
	var out []scale.Cabinet
	for _, c := range r.shop.Settings.Cabinets {
		out = append(out, scale.Cabinet{Name: c.Name, Width: c.Width, Depth: c.Depth, Height: c.Height, Holds: c.Holds, Shelves: c.Shelves})
	}
	return out
}

// Widths of the line-up's drawings: for a desk and for a phone.
const (
	deskWidth  = 1080
	phoneWidth = topic.PhoneWidth
	planWidth  = 640
	perRow     = 6 // so many models to a row look well on a desk
)

// drawShelf makes the drawings that show more than one model.
func drawShelf(r *run) {
	s := &r.shelf
	pieces := s.pieces()
	if len(pieces) == 0 {
		return
	}
	p := &s.page
	p.Models = r.lineupPair("line-up", r.words.Say("The line-up: models at true relative size"), pieces, false)
	p.Subjects = r.lineupPair("subjects", r.words.Say("The real things at true relative size"), pieces, true)
	for i, shelf := range s.plan.Shelves {
		plan := site.ShelfPlan{Shelf: shelf}
		if len(shelf.Places) > 0 {
			id := "shelf-" + strconv.Itoa(i+1)
			plan.Drawing = r.keep(id, svg.Table{}, scale.DrawShelf(shelf, id, planWidth, r.words.Tell))
		}
		p.Shelves = append(p.Shelves, plan)
	}
}

// lineupPair draws one line-up twice, for wide and for narrow screens.
func (r *run) lineupPair(id, title string, pieces []scale.Piece, subjects bool) site.LineupDrawing {
	o := scale.LineupOptions{ID: id, Title: title, Subjects: subjects, Width: deskWidth, Rows: max(2, (len(pieces)+perRow-1)/perRow), Inches: r.bench().Inches(), Tell: r.words.Tell}
	wide := scale.DrawLineup(pieces, o)
	o.ID, o.Width, o.Rows = id+"-narrow", phoneWidth, 0
	narrow := scale.DrawLineup(pieces, o)
	if len(wide.Stands) == 0 {
		return site.LineupDrawing{}
	}
	return site.LineupDrawing{Drawing: *r.keep(id, svg.Table{}, wide.Drawing, narrow.Drawing), Stands: wide.Stands, Left: wide.Left}
}

// keep turns a drawing of several builds into one on a page and a file.
func (r *run) keep(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing {
	out := r.drawnOnPage(path.Join("drawings", name+".svg"), words, layouts)
	if out != nil {
		r.shelf.drawings = append(r.shelf.drawings, *out)
	}
	return out
}

// hasLineup reports whether any model can be drawn in the line-up.
func hasLineup(r *run) bool {
	return slices.ContainsFunc(r.shelf.lineup, func(m *shelved) bool { return m.Piece.Sized() })
}

// lineupPages is the page of all models side by side.
func lineupPages(r *run) []*page.Sheet {
	s := &r.shelf
	if len(s.lineup) == 0 || len(s.page.Models.Stands) == 0 {
		return nil
	}
	p := s.page
	p.Pairs.Near, p.Pairs.Far = scale.Split(s.pairs)
	p.Inches, p.Adult, p.Survey = r.bench().Inches(), quantity.Metres(scale.StandingAdult), scale.SurveySource
	for _, m := range s.lineup {
		p.Rows = append(p.Rows, r.lineupRow(m))
	}
	if len(s.plan.Shelves) > 0 {
		p.Rule, p.Air, p.AirAssumed, p.Left = scale.PackingRule, r.clearance(), !r.shop.Settings.Air.Set, s.plan.Left
		p.Cabinets, p.Fits = r.fitRows()
	}
	words := r.press.words
	return []*page.Sheet{{Path: size.LineupPath, Kind: "lineup", Title: words.Say("Line-up"), Data: p,
		Summary: words.Say("Models and the real things side by side at true relative size, and which of them may share a scale.")}}
}

func (r *run) lineupRow(m *shelved) site.LineupRow {
	return site.LineupRow{Name: m.Name, Says: m.says, Path: m.path, Judged: m.Judged, Model: m.Piece.Model, Real: m.Piece.Real, View: m.Piece.View}
}

// fitRows says of every model with a known footprint, finished or not, where it fits.
func (r *run) fitRows() (cabinets []string, rows []site.FitRow) {
	all := cabinetsOf(r)
	for _, c := range all {
		cabinets = append(cabinets, c.Name.V)
	}
	for _, m := range r.shelf.models {
		e := m.Exhibit()
		if e.Size.Length == 0 || e.Size.Width == 0 || e.Size.Height == 0 {
			continue
		}
		row := site.FitRow{Exhibit: e, Finished: m.finished, Bare: !m.Display.At.Known()}
		for _, c := range all {
			row.Fits = append(row.Fits, scale.FitOn(e, c, r.clearance()))
		}
		rows = append(rows, row)
	}
	return cabinets, rows
}
