package gen

import (
	"cmp"
	"slices"
	"spruelight/gen/topic/size"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// scaleWork is what the scale topic works out of one build.
type scaleWork struct {
	modelScale
	intervals *page.Drawing
}

// modelScale is what is known of the scale of one model, a build or a piece of
// the shelf.
type modelScale struct {
	slug, name, says string
	build            *work // nil for a piece of the shelf
	judged           scale.Judgement
	piece            scale.Piece
	display          journal.Display
	measured         scale.Size
	at               source.Span
}

// reckonScale judges a build's scale and prepares its silhouette.
func reckonScale(w *work) {
	f := &w.build.Front
	m, found := judgeModel(w.slug(), f.Name, f.At, f.Scale, f.Subject, f.Measured)
	m.build, m.display = w, f.Display
	found = append(found, m.outline(w.build.Outline, f.Outline)...)
	w.scale.modelScale = m
	w.found.Add(found...)
}

// judgeModel hands a model's lengths over to the scale room.
func judgeModel(slug string, name journal.Text, at source.Span, box source.Value[quantity.Scale], subjects []journal.Subject,
	measured source.Entries[scale.Length]) (modelScale, []source.Finding) {
	if name.Set {
		at = name.At
	}
	in := scale.Model{Name: name.V, At: at, Box: box}
	for _, e := range measured {
		if _, ok := journal.Figures[e.Name.V]; ok {
			in.Figures = append(in.Figures, figureOf(e))
			continue
		}
		in.Measured = append(in.Measured, e)
	}
	for i := range subjects {
		s := &subjects[i]
		account := scale.Account{Source: s.Source, Real: s.Lengths()}
		if !account.Source.At.Known() {
			account.Source.At = s.At
		}
		in.Accounts = append(in.Accounts, account)
	}
	m := modelScale{slug: slug, name: name.V, at: at, judged: scale.Judge(in), measured: scale.SizeOf(in.Measured)}
	if m.measured.Length == 0 && m.measured.Height == 0 && len(in.Figures) == 1 { // a figure by itself is as high as it is tall
		m.measured.Height = in.Figures[0].Height.V.Value
	}
	ratio, _ := m.judged.Ratio()
	m.piece = scale.Piece{ID: slug, Name: name.V, Says: scaleWords(m.judged), At: at, Model: m.measured, Ratio: ratio}
	if len(in.Accounts) > 0 {
		m.piece.Real = scale.SizeOf(in.Accounts[0].Real)
	}
	return m, m.judged.Findings
}

func figureOf(e source.Entry[scale.Length]) scale.Figure {
	f := scale.Figure{Name: e.Name.V, Height: e.Value}
	if e.Name.V == "seated figure" {
		f.Posture = scale.Seated
	}
	return f
}

// scaleWords are the words under a model's name in the line-up.
func scaleWords(j scale.Judgement) string {
	measured := ""
	if len(j.Believed) > 0 {
		measured = j.Best.Text()
	}
	switch {
	case j.Box.Ratio > 0 && measured != "":
		return j.Box.String() + ", measures " + measured
	case j.Box.Ratio > 0:
		return j.Box.String() + " by its box"
	case measured != "":
		return "measures " + measured
	}
	return ""
}

// outline reads a model's silhouette, where it has one.
func (m *modelScale) outline(file *source.File, named journal.Outline) source.Findings {
	if named.View.Set {
		m.piece.View.UnmarshalText([]byte(named.View.V)) // held against the words when read
	}
	if file == nil {
		return nil
	}
	path, found := scale.ReadOutline(file)
	m.piece.Outline = path
	if named.At.Known() {
		m.piece.At = named.At
	}
	return found
}

// sized reports whether anything about the model's size was written down.
func (m *modelScale) sized() bool {
	return len(m.judged.Believed) > 0 || len(m.judged.Figures) > 0 || m.measured != (scale.Size{})
}

// exhibit is the model as it stands in a cabinet: the room it takes by its
// display, else by its own measured lengths.
func (m *modelScale) exhibit() scale.Exhibit {
	own, d := m.measured, m.display
	size := scale.Size{Length: d.Width.Or(own.Length), Width: d.Depth.Or(own.Width), Height: d.Height.Or(own.Height)}
	at := m.at
	if d.At.Known() {
		at = d.At
	}
	return scale.Exhibit{ID: m.slug, Name: m.name, At: at, Size: size, Weight: d.Weight.V, Piece: &m.piece}
}

// drawScale draws which scales the measured lengths allow.
func drawScale(w *work) {
	j := w.scale.judged
	if len(j.Believed) == 0 {
		return
	}
	table := svg.Table{Head: []string{"Length", "By", "Scale", "From", "To"}}
	for _, b := range j.Believed {
		for _, i := range b.Implied {
			table.Rows = append(table.Rows, []string{i.Name, b.Source, i.Text(), ratioWords(i.Span.Low), ratioWords(i.Span.High)})
		}
	}
	w.scale.intervals = w.keep("scale", table, scale.DrawIntervals(j, "scale", intervalWidth, w.run.words.Tell))
}

// intervalWidth suits the narrowest phone, so that the drawing's words are
// never shrunk.
const intervalWidth = 320

func ratioWords(ratio float64) string { return "1/" + quantity.Round(ratio, 4) }

// scalePages is a build's page on its scale.
func scalePages(w *work) []*page.Sheet {
	s := &w.scale
	if !s.sized() {
		return nil
	}
	r := w.run
	data := size.Page{Build: r.buildCard(w), Judged: s.judged, Method: scale.AgreementMethod, Survey: scale.SurveySource, Intervals: s.intervals,
		AtScale: scale.AtScale(s.judged), Pairs: r.pairsOf(s.slug), Lineup: lineupPath, Inches: r.inches()}
	if ratio, _ := s.judged.Ratio(); ratio > 0 {
		data.Nearest = scale.Nearest(ratio, cmp.Or(s.piece.Real.Length, s.piece.Real.Height, s.piece.Real.Width))
		data.Copies = scale.Copies(quantity.Scale{Ratio: ratio})
	}
	return []*page.Sheet{{Path: w.place("scale.html"), Kind: "scale", Title: r.press.words.Headed(r.press.words.Say("Scale"), w.build.Front.Name.V),
		Summary: w.run.words.Tell(s.judged.Sentence), Data: data, Words: s.judged.Sentence}}
}

// scaleLeaves lead from the build's page to its scale.
func scaleLeaves(w *work) []page.Leaf {
	s := &w.scale
	if !s.sized() {
		return nil
	}
	return []page.Leaf{{Name: w.run.press.words.Say("Scale"), Path: w.place("scale.html"), Facts: []string{page.Tied(w.run.words.Tell(scaleWords(s.judged)))}}}
}

func (r *run) inches() bool { return r.shop.Settings.Lengths.V == "inches" }

// pairsOf returns the pairs of the shelf that a model is part of, seen from it.
func (r *run) pairsOf(slug string) size.PairTable {
	members := r.shelf.members
	i := slices.IndexFunc(members, func(m scale.Member) bool { return m.ID == slug })
	if i < 0 {
		return size.PairTable{}
	}
	near, far := scale.Split(scale.Beside(members[i], members, mostCompared))
	return size.PairTable{Near: near, Far: far, Own: true}
}
