// Package size is the topic of how large a model is: which scales its measured
// lengths allow, how it stands beside the others, and a build's page on it.
package size

import (
	"cmp"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
)

// Model is what is known of the size of one model, a build or a piece of the
// shelf.
type Model struct {
	Slug, Name string
	Judged     scale.Judgement
	Piece      scale.Piece // as it is drawn in the line-up
	Display    journal.Display
	Measured   scale.Size
	At         source.Span
}

// Result is the model of a build, and what was found.
type Result struct {
	topic.Outcome
	Model
}

// File is the name of a build's page on its scale.
const File = "scale.html"

// LineupPath is where all models stand side by side.
const LineupPath = "line-up.html"

// Reckon judges a build's scale and prepares its silhouette.
func Reckon(f topic.Facts) Result {
	front := &f.Front
	m, found := judged(f.Slug, front.Name, front.At, front.Scale, front.Subject, front.Measured)
	m.Display = front.Display
	found = append(found, m.outline(f.Outline, front.Outline)...)
	r := Result{Model: m, Outcome: topic.Outcome{Found: found}}
	if m.Sized() {
		r.Pages = []string{File}
	}
	return r
}

// OfShelf judges a piece of the shelf.
func OfShelf(slug string, p *journal.ShelfPiece) (Model, source.Findings) {
	m, found := judged(slug, p.Name, p.At, p.Scale, p.Subject, p.Measured)
	m.Display = p.Display
	return m, append(found, m.outline(p.OutlineOf, p.Outline)...)
}

// judged hands a model's lengths over to the scale room.
func judged(slug string, name journal.Text, at source.Span, box source.Value[quantity.Scale], subjects []journal.Subject,
	measured source.Entries[scale.Length]) (Model, source.Findings) {
	if name.Set {
		at = name.At
	}
	in := scale.Model{Name: name.V, Box: box}
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
	m := Model{Slug: slug, Name: name.V, At: at, Judged: scale.Judge(in), Measured: scale.SizeOf(in.Measured)}
	if m.Measured.Length == 0 && m.Measured.Height == 0 && len(in.Figures) == 1 { // a figure by itself is as high as it is tall
		m.Measured.Height = in.Figures[0].Height.V.Value
	}
	ratio, _ := m.Judged.Ratio()
	m.Piece = scale.Piece{ID: slug, Name: name.V, Says: inWords(m.Judged), At: at, Model: m.Measured, Ratio: ratio}
	if len(in.Accounts) > 0 {
		m.Piece.Real = scale.SizeOf(in.Accounts[0].Real)
	}
	return m, m.Judged.Findings
}

func figureOf(e source.Entry[scale.Length]) scale.Figure {
	f := scale.Figure{Name: e.Name.V, Height: e.Value}
	if e.Name.V == "seated figure" {
		f.Posture = scale.Seated
	}
	return f
}

// inWords are the words under a model's name in the line-up.
func inWords(j scale.Judgement) source.Message {
	measured := len(j.Believed) > 0
	switch {
	case j.Box.Ratio > 0 && measured:
		return source.Say("%s, measures %s", j.Box, j.Best.Text())
	case j.Box.Ratio > 0:
		return source.Say("%s by its box", j.Box)
	case measured:
		return source.Say("measures %s", j.Best.Text())
	}
	return source.Message{}
}

// outline reads a model's silhouette, where it has one.
func (m *Model) outline(file *source.File, named journal.Outline) source.Findings {
	if named.View.Set {
		m.Piece.View.UnmarshalText([]byte(named.View.V)) // held against the words when read
	}
	if file == nil {
		return nil
	}
	path, found := scale.ReadOutline(file)
	m.Piece.Outline = path
	if named.At.Known() {
		m.Piece.At = named.At
	}
	return found
}

// Sized reports whether anything about the model's size was written down.
func (m *Model) Sized() bool {
	return len(m.Judged.Believed) > 0 || len(m.Judged.Figures) > 0 || m.Measured != (scale.Size{})
}

// Exhibit is the model as it stands in a cabinet: the room it takes by its
// display, else by its own measured lengths.
func (m *Model) Exhibit() scale.Exhibit {
	own, d := m.Measured, m.Display
	size := scale.Size{Length: d.Width.Or(own.Length), Width: d.Depth.Or(own.Width), Height: d.Height.Or(own.Height)}
	at := m.At
	if d.At.Known() {
		at = d.At
	}
	return scale.Exhibit{ID: m.Slug, Name: m.Name, At: at, Size: size, Weight: d.Weight.V, Piece: &m.Piece}
}

// Verdict says what the measured lengths lead to, nothing where none was
// measured.
func (m *Model) Verdict() source.Message {
	if len(m.Judged.Believed) == 0 {
		return source.Message{}
	}
	return m.Judged.Verdict
}

// Shown reports whether the room a model takes was written down in any way.
func (m *Model) Shown() bool { return m.Display.At.Known() || m.Measured != (scale.Size{}) }

// Pages is a build's page on its scale, compared with the models of the line-up.
func Pages(f topic.Facts, r *Result, members []scale.Member, d topic.Desk) topic.Part {
	if !r.Sized() {
		return topic.Part{}
	}
	say, name := d.Words.Say, f.Front.Name.V
	data := Page{Build: d.Card, Judged: r.Judged, Method: source.Word(scale.AgreementMethod), Survey: source.Word(scale.SurveySource),
		Intervals: intervals(r.Judged, d),
		AtScale:   scale.AtScale(r.Judged), Pairs: pairsOf(r.Slug, members), Lineup: LineupPath}
	if ratio, _ := r.Judged.Ratio(); ratio > 0 {
		real := r.Piece.Real
		data.Nearest = scale.Nearest(ratio, cmp.Or(real.Length, real.Height, real.Width))
		data.Copies = scale.Copies(quantity.Scale{Ratio: ratio})
	}
	sheet := &page.Sheet{Path: f.Place(File), Kind: "scale", Title: d.Words.Headed(say("Scale"), name),
		Summary: d.Words.Message(r.Judged.Sentence), Data: data, Words: r.Judged.Sentence.String()}
	leaf := page.Leaf{Name: say("Scale"), Path: f.Place(File), Facts: []string{page.Tied(d.Words.Message(inWords(r.Judged)))}}
	return topic.Part{Sheets: []*page.Sheet{sheet}, Leaves: []page.Leaf{leaf}}
}

// intervals draws which scales the measured lengths allow.
func intervals(j scale.Judgement, d topic.Desk) *page.Drawing {
	if len(j.Believed) == 0 {
		return nil
	}
	say, print := d.Words.Say, d.Words.Message
	table := svg.Table{Head: []string{say("Length"), say("By"), say("Scale"), say("From"), say("To")}}
	for _, b := range j.Believed {
		for _, i := range b.Implied {
			table.Rows = append(table.Rows, []string{say(i.Name), print(b.Source), print(i.Text()), print(ratio(i.Span.Low)),
				print(ratio(i.Span.High))})
		}
	}
	return d.Keep("scale", table, scale.DrawIntervals(j, "scale", intervalWidth, print))
}

// intervalWidth suits the narrowest phone, so that the drawing's words are
// never shrunk.
const intervalWidth = 320

func ratio(v float64) source.Message { return source.Say("1/%s", quantity.Amount{Value: v, Digits: 4}) }

// MostCompared is the largest shelf of which every pair is compared: beyond it
// the table would be longer than anybody reads, and each model is compared
// with its neighbours in scale alone.
const MostCompared = 60

// pairsOf returns the pairs of the shelf that a model is part of, seen from it.
func pairsOf(slug string, members []scale.Member) PairTable {
	i := slices.IndexFunc(members, func(m scale.Member) bool { return m.ID == slug })
	if i < 0 {
		return PairTable{}
	}
	near, far := scale.Split(scale.Beside(members[i], members, MostCompared))
	return PairTable{Near: near, Far: far, Own: true}
}

// Text prints the size of a thing as long, wide and high as is known.
func Text(s scale.Size, words *page.Words) string {
	var parts []string
	add := func(m quantity.Metres, word string) {
		if m > 0 {
			parts = append(parts, words.Message(source.Say(word, quantity.About(m))))
		}
	}
	add(s.Length, "%s long")
	add(s.Width, "%s wide")
	add(s.Height, "%s high")
	return strings.Join(parts, ", ")
}
