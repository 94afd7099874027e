package finish

import (
	"fmt"
	"strings"
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
)

// Pages is the page on a build's finish, where it has areas.
func Pages(f topic.Facts, r *Result, d topic.Desk) topic.Part {
	if len(r.Paint.Areas) == 0 {
		return topic.Part{}
	}
	say := d.Words.Say
	data := Page{Build: d.Card, Bench: d.Card.OnBench(), Result: &r.Paint, Zone: f.Zone.String(), Room: f.Settings.Ambient,
		Slow:  source.Word(paint.SlowSource),
		Leaks: r.Leaks(), Swatches: swatches(r), Mixes: r.Mixes(f), Findings: otherFindings(&r.Paint)}
	if !r.Until.IsZero() { // else the page would change with every run
		data.Moment = r.Paint.Moment
	}
	data.Lighten = lighten(f, data.Swatches)
	for i := range r.Paint.Areas {
		a := &r.Paint.Areas[i]
		data.Areas = append(data.Areas, areaRow(f, &r.Paint, i, d))
		data.Lit = append(data.Lit, litRows(f, a)...)
	}
	if data.Bench && paint.Drying(r.Paint.Areas, r.Paint.Moment) {
		desk, words := clock("curing", 760, &r.Paint, d.Words)
		phone, _ := clock("curing-narrow", topic.PhoneWidth, &r.Paint, d.Words)
		data.Timeline = d.Keep("curing", words, desk, phone)
	}
	sheet := d.Sheet(File, "finish", say("Finish"), say("%s: areas, coats, curing clocks, light blocking and closing.", d.Card.Name), data)
	sheet.Words = d.Card.Name + " " + strings.Join(coatNames(f), " ") + " " + strings.Join(f.Front.Areas.Names(), " ")
	return topic.Part{Sheets: []*page.Sheet{sheet}, Leaves: []page.Leaf{leaf(f, &r.Paint, d.Words)}}
}

// areaRow is one area on the page, with its section.
func areaRow(f topic.Facts, r *paint.Result, i int, d topic.Desk) AreaRow {
	a := &r.Areas[i]
	row := AreaRow{AreaResult: a, ID: fmt.Sprintf("area-%d", i+1), AllNow: paint.AllNow(a.Now), Photo: insidePhoto(f, a, d)}
	if len(a.Rows) > 0 {
		id := fmt.Sprintf("section-%d", i+1)
		row.Section = d.Keep(id, sectionTable(a, d.Words.Message), paint.Section(id, a, otherFace(r, a), d.Words.Message))
	}
	for _, x := range a.Findings {
		if x.Silenced != "" {
			row.Quiet = append(row.Quiet, x)
		} else {
			row.Findings = append(row.Findings, x)
		}
	}
	return row
}

// otherFace returns what was worked out of the area on the other face.
func otherFace(r *paint.Result, a *paint.AreaResult) *paint.AreaResult {
	for i := range r.Areas {
		if r.Areas[i].Name == a.Area.OtherFace.V && &r.Areas[i] != a {
			return &r.Areas[i]
		}
	}
	return nil
}

// sectionTable puts the section in words.
func sectionTable(a *paint.AreaResult, print svg.Printer) svg.Table {
	word := func(text string) string { return print.Print(source.Word(text)) }
	t := svg.Table{Head: []string{word("No."), word("Coat"), word("For"), word("State")}}
	for _, r := range a.Rows {
		t.Rows = append(t.Rows, []string{fmt.Sprint(r.Number), print.Print(r.Title()), word(r.For.String()), word(r.State.String())})
	}
	return t
}

// clock draws the curing clock at a width.
func clock(id string, width float64, r *paint.Result, words *page.Words) (*svg.Drawing, svg.Table) {
	frame := chart.Frame{ID: id, Title: words.Say("Curing clock"), Width: width, Lang: words.Language,
		Desc: words.Say("When each coat that is still drying may be painted over and masked")}
	return paint.Timeline(frame, r.Areas, r.Moment, func(t time.Time, unit chart.Unit) string {
		if unit == chart.Hour {
			return t.Format("15:04")
		}
		return words.DayShort(t)
	}, words.Message)
}

// insidePhoto is the picture that a sitting named as showing the open inside.
func insidePhoto(f topic.Facts, a *paint.AreaResult, d topic.Desk) *page.Picture {
	name := a.Area.Closing.Photo
	full, inside := f.Inside(name.V)
	if !name.Set || !inside {
		return nil
	}
	return d.Photos.Picture(full, topic.AltOf(f, name.V), d.Words.Say("The inside before closing"), "")
}

// leaf leads from the build's page on to its finish.
func leaf(f topic.Facts, r *paint.Result, words *page.Words) page.Leaf {
	laid := 0
	for i := range r.Areas {
		laid += len(r.Areas[i].Curings)
	}
	out := page.Leaf{Name: words.Say("Finish"), Path: f.Place(File),
		Facts: []string{words.Count(len(r.Areas), "area") + words.Join(", ") + words.Say("%s laid", words.Count(laid, "coat"))}}
	if n := r.Findings.Count(source.Warn); n > 0 {
		out.Facts = append(out.Facts, words.Count(n, "warning"))
	}
	return out
}

// otherFindings are those of no area: paints, decals, leaks without one.
func otherFindings(r *paint.Result) []source.Finding {
	of := map[source.Span]bool{}
	for i := range r.Areas {
		for _, x := range r.Areas[i].Findings {
			of[x.At] = true
		}
	}
	var out []source.Finding
	for _, x := range r.Findings {
		if !of[x.At] {
			out = append(out, x)
		}
	}
	return out
}
