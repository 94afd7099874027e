package gen

import (
	"path"
	"slices"
	"spruelight/gen/site"
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
	models   []*modelScale // builds first, then the pieces of shelf.yaml
	lineup   []*modelScale // those of the line-up
	members  []scale.Member
	pairs    []scale.Pair // each with each, where they are few enough
	plan     scale.Plan
	drawings []page.Drawing
	page     site.Lineup
}

const lineupPath = "line-up.html"

// mostCompared is the largest shelf of which every pair is compared: beyond it
// the table would be longer than anybody reads, and each model is compared
// with its neighbours in scale alone.
const mostCompared = 60

// reckonShelf judges the pieces of the shelf, compares all models and puts the
// finished ones into the cabinets.
func reckonShelf(r *run) {
	s := &r.shelf
	for _, w := range r.works {
		s.models = append(s.models, &w.scale.modelScale)
	}
	for i := range r.shop.Shelf {
		e := &r.shop.Shelf[i]
		p := &e.Value
		m, found := judgeModel(e.Name.V, p.Name, p.At, p.Scale, p.Subject, p.Measured)
		m.says, m.display = p.Says.V, p.Display
		found = append(found, m.outline(p.OutlineOf, p.Outline)...)
		r.found.Add(found...)
		s.models = append(s.models, &m)
	}
	s.chooseLineup(r)
	var members []scale.Member
	for _, m := range s.models {
		if member, ok := scale.MemberOf(m.judged); ok && m.sized() {
			member.ID = m.slug
			members = append(members, member)
		}
	}
	s.members = members
	if len(members) <= mostCompared {
		s.pairs = scale.Pairs(members)
	}
	s.fillCabinets(r)
}

// chooseLineup takes the models that the workshop names, else all that say
// anything of their size.
func (s *shelfWork) chooseLineup(r *run) {
	named := r.shop.Settings.Lineup
	for _, m := range s.models {
		chosen := slices.ContainsFunc(named, func(t source.Value[string]) bool { return t.V == m.slug })
		if !chosen && (len(named) > 0 || m.measured == (scale.Size{})) {
			continue
		}
		s.lineup = append(s.lineup, m)
		r.found.Add(scale.CheckPiece(m.piece)...)
	}
}

func (s *shelfWork) pieces() []scale.Piece {
	pieces := make([]scale.Piece, len(s.lineup))
	for i, m := range s.lineup {
		pieces[i] = m.piece
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
		if m.finished() && m.shown() {
			finished = append(finished, m.exhibit())
		}
	}
	s.plan = scale.Arrange(finished, cabinets, air)
	r.found.Add(s.plan.Findings...)
}

// finished reports whether a model stands on the shelf.
func (m *modelScale) finished() bool { return m.build == nil || m.build.totals.State == tally.Shelf }

// shown reports whether the room a model takes was written down in any way.
func (m *modelScale) shown() bool { return m.display.At.Known() || m.measured != (scale.Size{}) }

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
	phoneWidth = 304
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
	o := scale.LineupOptions{ID: id, Title: title, Subjects: subjects, Width: deskWidth, Rows: max(2, (len(pieces)+perRow-1)/perRow), Inches: r.inches(), Tell: r.words.Tell}
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
	return slices.ContainsFunc(r.shelf.lineup, func(m *modelScale) bool { return m.piece.Sized() })
}

// lineupPages is the page of all models side by side.
func lineupPages(r *run) []*page.Sheet {
	s := &r.shelf
	if len(s.lineup) == 0 || len(s.page.Models.Stands) == 0 {
		return nil
	}
	p := s.page
	p.Pairs.Near, p.Pairs.Far = scale.Split(s.pairs)
	p.Inches, p.Adult, p.Survey = r.inches(), quantity.Metres(scale.StandingAdult), scale.SurveySource
	for _, m := range s.lineup {
		p.Rows = append(p.Rows, r.lineupRow(m))
	}
	if len(s.plan.Shelves) > 0 {
		p.Rule, p.Air, p.AirAssumed, p.Left = scale.PackingRule, r.clearance(), !r.shop.Settings.Air.Set, s.plan.Left
		p.Cabinets, p.Fits = r.fitRows()
	}
	words := r.press.words
	return []*page.Sheet{{Path: lineupPath, Kind: "lineup", Title: words.Say("Line-up"), Data: p,
		Summary: words.Say("Models and the real things side by side at true relative size, and which of them may share a scale.")}}
}

func (r *run) lineupRow(m *modelScale) site.LineupRow {
	row := site.LineupRow{Name: m.name, Says: m.says, Judged: m.judged, Model: m.piece.Model, Real: m.piece.Real, View: m.piece.View}
	if m.build != nil {
		row.Path = m.build.place("scale.html")
		if !m.sized() {
			row.Path = m.build.place("index.html")
		}
	}
	return row
}

// fitRows says of every model with a known footprint, finished or not, where it fits.
func (r *run) fitRows() (cabinets []string, rows []site.FitRow) {
	all := cabinetsOf(r)
	for _, c := range all {
		cabinets = append(cabinets, c.Name.V)
	}
	for _, m := range r.shelf.models {
		e := m.exhibit()
		if e.Size.Length == 0 || e.Size.Width == 0 || e.Size.Height == 0 {
			continue
		}
		row := site.FitRow{Exhibit: e, Finished: m.finished(), Bare: !m.display.At.Known()}
		for _, c := range all {
			row.Fits = append(row.Fits, scale.FitOn(e, c, r.clearance()))
		}
		rows = append(rows, row)
	}
	return cabinets, rows
}
