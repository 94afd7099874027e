package gen

import (
	"slices"

	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/care"
	"spruelight/gen/topic/finish"
	"spruelight/gen/topic/lighting"
	"spruelight/gen/topic/log"
	"spruelight/gen/topic/record"
	"spruelight/gen/topic/review"
	"spruelight/gen/topic/size"
)

// sums are what the subjects worked out of one build.
type sums struct {
	light  lighting.Result
	finish finish.Result
	record record.Result
	scale  size.Result
	review review.Result
}

// reckon does the sums of a build, subject by subject: a later one uses what an
// earlier one worked out.
func reckon(f topic.Facts, paints paint.Shelf) sums {
	var s sums
	s.light = lighting.Reckon(f)
	s.finish = finish.Reckon(f, paints, s.light.Judged)
	s.record = record.Reckon(f)
	s.scale = size.Reckon(f)
	s.review = review.Reckon(f, &s.record, s.scale.Verdict())
	s.withoutFollowers(f, paints)
	return s
}

// found is what the subjects had to say.
func (s *sums) found() source.Findings {
	return slices.Concat(s.light.Found, s.finish.Found, s.record.Found, s.scale.Found, s.review.Found)
}

// quiet marks what the pages show of it and a build or the workshop silences.
func (s *sums) quiet(own, shop silences) {
	for i := range s.light.Circuits {
		quiet(s.light.Circuits[i].Found, own, shop)
	}
	f := &s.finish.Paint
	quiet(f.Findings, own, shop)
	for i := range f.Areas {
		quiet(f.Areas[i].Findings, own, shop)
	}
}

// pageNames are the pages of a build besides its texts.
func (s *sums) pageNames(f topic.Facts) []string {
	names := slices.Concat(s.light.Pages, s.finish.Pages, s.record.Pages, s.scale.Pages)
	if care.Wanted(f, s.forCare()) {
		names = append(names, care.File)
	}
	return names
}

// forCare is what the repair sheet needs of the other subjects.
func (s *sums) forCare() care.Seen {
	in := care.Seen{Finish: &s.finish, Ledger: s.record.Rows}
	for i := range s.light.Circuits {
		in.Circuits = append(in.Circuits, &s.light.Circuits[i].Solution)
	}
	return in
}

// ofSite is what the pages over builds know of the build.
func (s *sums) ofSite(f topic.Facts) *site.Build {
	return &site.Build{Facts: f, Record: &s.record, Size: &s.scale, Judged: &s.review}
}

// sheets are all pages of a build, in the order in which its own page leads on
// to them; that one and those of its sittings come last, when all drawings are
// there for their texts. finished are the sums of the finished builds.
func (s *sums) sheets(f topic.Facts, d topic.Desk, house *site.House, finished []tally.Sum) []*page.Sheet {
	d.Card = topic.NewCard(f, s.record.Build, s.record.Sum, d.Photos)
	paints := finish.PaintNames(f)
	all := []topic.Part{
		lighting.Pages(f, &s.light, d),
		finish.Pages(f, &s.finish, d),
		record.Pages(f, &s.record, record.Seen{Finished: finished, Paints: paints, Lights: lighting.LampKinds(f, d.Words)}, d),
	}
	in := log.Seen{Timeline: record.Timeline(f, &s.record, d)}
	all = append(all, size.Pages(f, &s.scale, house.Shelf.Members, d), care.Pages(f, s.forCare(), d), review.Pages(f, &s.review, d))
	for _, p := range all {
		in.Leaves = append(in.Leaves, p.Leaves...)
	}
	in.Size, in.Real = size.Text(s.scale.Piece.Model, d.Words), size.Text(s.scale.Piece.Real, d.Words)
	all = append(all, log.Pages(f, in, d))

	var sheets []*page.Sheet
	for _, p := range all {
		sheets = append(sheets, p.Sheets...)
	}
	site.Searched(s.ofSite(f), paints, sheets)
	for _, sheet := range sheets {
		sheet.Group = f.Front.Name.V
		if sheet.Updated.IsZero() {
			sheet.Updated = f.Newest()
		}
	}
	return sheets
}
