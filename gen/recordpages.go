package gen

import (
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
)

// Widths of charts: for a desk and for a phone.
const (
	deskChart  = 560
	phoneChart = 330
)

// chart is a chart of the tallies that can be drawn at any width.
type chart struct {
	id, title, desc string
	words           *page.Words
	draw            func(svg.Frame) (*svg.Drawing, svg.Table)
}

// drawn draws the chart at both widths and keeps what comes out.
func (c chart) drawn(keep func(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing) page.Drawing {
	at := func(suffix string, width float64) (*svg.Drawing, svg.Table) {
		return c.draw(svg.Frame{ID: c.id + suffix, Title: c.title, Desc: c.desc, Lang: c.words.Language, Width: width, Empty: c.words.Say("nothing yet")})
	}
	desk, words := at("", deskChart)
	phone, _ := at("-narrow", phoneChart)
	return *keep(c.id, words, desk, phone)
}

// drawTally draws a build's hours and spending.
func drawTally(w *work) {
	s, name, words := w.totals, w.build.Front.Name.V, w.run.words
	say := words.Say
	if s.Sittings == 0 {
		return
	}
	var charts []chart
	if s.Hours > 0 {
		charts = append(charts, chart{"hours-by-stage", say("Hours by stage"), say("A bar for each stage of %s", name), words, func(f svg.Frame) (*svg.Drawing, svg.Table) {
			return tally.StageChart(s, f, w.run.captions())
		}}, chart{"hours-so-far", say("Hours so far"), say("How the bench time of %s grew", name), words, func(f svg.Frame) (*svg.Drawing, svg.Table) {
			return tally.HoursChart(s, w.tally.Sittings, f, w.run.captions())
		}})
	}
	for _, m := range s.Cost {
		charts = append(charts, chart{"spent-" + strings.ToLower(m.Currency), say("Spent so far, %s", m.Currency), say("How the cost of %s grew, the kit included", name), words,
			func(f svg.Frame) (*svg.Drawing, svg.Table) {
				return tally.SpendChart(s, m.Currency, f, w.run.captions())
			}})
	}
	for _, c := range charts {
		w.charts = append(w.charts, c.drawn(w.keep))
	}
}

func tallyPages(w *work) []*page.Sheet {
	var sheets []*page.Sheet
	for _, make := range []func(*work) *page.Sheet{hoursPage, partsPage, problemsPage, choicesPage, entryPage} {
		if sheet := make(w); sheet != nil {
			sheets = append(sheets, sheet)
		}
	}
	return sheets
}

func tallyLeaves(w *work) []page.Leaf {
	var leaves []page.Leaf
	words := w.run.press.words
	add := func(name, file string, facts ...string) {
		leaves = append(leaves, page.Leaf{Name: words.Say(name), Path: w.place(file), Facts: facts})
	}
	if w.totals.Sittings > 0 {
		add("Hours and cost", "hours.html", words.Bench(w.totals.Hours))
	}
	if n := len(w.record.rows); n > 0 {
		add("Parts and spares", "parts.html", words.Count(n, "counted part"))
	}
	if n := len(w.record.problems); n > 0 {
		add("Problems", "problems.html", words.Count(n, "problem"))
	}
	if n := len(w.record.decisions); n > 0 {
		add("Choices", "choices.html", words.Count(n, "choice"))
	}
	if w.tally.State == tally.Shelf {
		fact := "not out of the box"
		if w.record.outOfBox.Still {
			fact = "out of the box"
		}
		add("Entry card", "entry.html", words.Say(fact))
	}
	return leaves
}

// sheet starts a page of the build.
func (w *work) sheet(file, kind, title, summary string, data any) *page.Sheet {
	name := w.build.Front.Name.V
	return &page.Sheet{Path: w.place(file), Kind: kind, Title: w.run.press.words.Headed(title, name), Summary: summary, Data: data, Words: summary}
}

func hoursPage(w *work) *page.Sheet {
	if w.totals.Sittings == 0 {
		return nil
	}
	r := w.run
	data := record.Hours{Build: r.buildCard(w), Charts: w.charts, Balances: w.record.balances, Obtained: w.review.disclosure,
		Spending: w.totals.ByStep, Method: tally.QuartileMethod}
	if c := w.build.Front.Commission; c != nil && c.Publish.V {
		data.Quote = w.record.quote
	}
	if w.tally.State == tally.Bench || w.tally.State == tally.SetAside {
		outlook := r.outlook(w)
		data.Outlook = &outlook
		if outlook.Pace.PerWeek > 0 {
			pace := outlook.Pace.Figure()
			data.Pace = &pace
		}
		for _, s := range outlook.ByStage {
			if s.Left.High > 0 || s.Over {
				data.OpenStages = append(data.OpenStages, s)
			}
		}
	}
	say := r.press.words.Say
	return w.sheet("hours.html", "hours", say("Hours and cost"), r.press.words.Bench(w.totals.Hours), data)
}

// outlook forecasts a build from the finished ones.
func (r *run) outlook(w *work) tally.Forecast {
	var finished []tally.Sum
	for _, x := range r.works {
		if x.tally.State == tally.Shelf {
			finished = append(finished, x.totals)
		}
	}
	return tally.Outlook(w.totals, w.tally.Sittings, finished, r.shop.Settings.StageNames(), topic.Texts(w.build.Front.Over), r.today())
}

func partsPage(w *work) *page.Sheet {
	if len(w.record.rows) == 0 {
		return nil
	}
	r := w.run
	data := record.Parts{Build: r.buildCard(w), Rows: w.record.rows, Finished: w.tally.State == tally.Shelf}
	for _, row := range w.record.rows {
		data.Implied = data.Implied || row.Implied > 0
		for _, e := range row.Entries {
			line := record.PartLine{Row: row, Entry: e}
			for _, s := range w.build.Sittings {
				if s.Slug == e.Sitting {
					line.Path, line.Title = r.places.Page(s.File.Name), s.Title()
				}
			}
			if other, ok := r.shop.Build(e.To); ok && other.File != nil {
				line.To = &page.Link{Name: other.Front.Name.V, Path: other.Slug + "/index.html"}
			}
			data.History = append(data.History, line)
		}
	}
	slices.SortStableFunc(data.History, func(a, b record.PartLine) int { return a.Entry.Date.Compare(b.Entry.Date) })
	return w.sheet("parts.html", "parts", r.press.words.Say("Parts and spares"), r.press.words.Count(len(data.Rows), "counted part"), data)
}

func problemsPage(w *work) *page.Sheet {
	if len(w.record.problems) == 0 {
		return nil
	}
	r := w.run
	data := record.Problems{Build: r.buildCard(w), Method: "Fisher's exact test, two-sided: the sum of the probabilities of all tables at most as probable as the one seen (Agresti, Statistical Science 7, 1992)"}
	var texts []string
	for i, p := range w.record.problems {
		data.Problems = append(data.Problems, record.ProblemCase{Problem: p.problem, Anchor: fmt.Sprintf("problem-%d", i+1),
			Title: topic.Heading(p.problem.Name.Or(p.problem.Symptom.V)), Known: p.known, Solved: p.problem.Outcome.Set})
		texts = append(texts, p.problem.Name.V, p.problem.Symptom.V, p.problem.Outcome.V)
	}
	sheet := w.sheet("problems.html", "problems", r.press.words.Say("Problems"), r.press.words.Count(len(data.Problems), "problem"), data)
	sheet.Words = strings.Join(texts, "\n")
	return sheet
}

func choicesPage(w *work) *page.Sheet {
	if len(w.record.decisions) == 0 {
		return nil
	}
	r := w.run
	data := record.Choices{Build: r.buildCard(w)}
	var texts []string
	for i, d := range w.record.decisions {
		x := record.DecisionCase{Title: topic.Heading(d.Choice.Question.V), Decision: d}
		for _, o := range w.build.Front.Choices[i].Options {
			option := record.OptionCase{Name: o.Name.V, Chosen: d.Decided && o.Name.V == d.Choice.Chosen.V}
			if full, ok := w.build.Inside(o.Photo.V); ok && o.Photo.Set {
				option.Picture = r.photos.Picture(full, o.Alt.Or(topic.AltOf(w.facts(), o.Photo.V)), "", "")
			}
			x.Options = append(x.Options, option)
		}
		data.Decisions = append(data.Decisions, x)
		texts = append(texts, d.Choice.Question.V, d.Choice.Chosen.V, d.Choice.Why.V)
	}
	sheet := w.sheet("choices.html", "choices", r.press.words.Say("Choices"), r.press.words.Count(len(data.Decisions), "choice"), data)
	sheet.Words = strings.Join(texts, "\n")
	return sheet
}

func entryPage(w *work) *page.Sheet {
	if w.tally.State != tally.Shelf {
		return nil
	}
	r := w.run
	data := record.EntrySheet{Build: r.buildCard(w), Kit: w.build.Front.Kit, Keeper: r.shop.Settings.Keeper.V, Box: w.record.outOfBox,
		Finished: w.build.Front.Finished.V.Time, Paints: w.paintNames(), Lights: w.lightLines()}
	for _, x := range w.build.Front.Extras {
		data.Changed = append(data.Changed, x.What.V+" ("+r.words.Tell(x.Kind.V)+")")
	}
	for _, row := range w.record.rows {
		if slices.ContainsFunc(row.Entries, func(e tally.Entry) bool { return e.Event == tally.Made }) {
			data.Changed = append(data.Changed, r.words.Say("%s (own work)", strings.TrimSpace(row.Part+" "+row.What)))
		}
	}
	for _, d := range w.record.decisions {
		if d.Decided {
			data.Changed = append(data.Changed, d.Choice.Question.V+": "+d.Choice.Chosen.V)
		}
	}
	return w.sheet("entry.html", "entry", r.press.words.Say("Entry card"), r.words.Tell(w.record.outOfBox.Says), data)
}

// paintNames lists the coats of the model, each once, in the order in which
// they were laid, then those planned.
func (w *work) paintNames() []string {
	var names []string
	add := func(coat string) {
		name := w.paintName(coat)
		if coat != "" && coat != journal.DecalCoat && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, s := range w.build.Sittings {
		for _, c := range s.Front.Coats {
			add(c.Coat.V)
		}
	}
	for _, area := range w.build.Front.Paint {
		for _, c := range area.Value {
			add(c.Coat.V)
		}
	}
	return names
}

// paintName is what is written on a paint's pot, else its name on the rack.
func (w *work) paintName(coat string) string {
	if paint, ok := w.run.shop.Rack.Paints.Get(coat); ok {
		return paint.Label.Or(readable(coat))
	}
	return readable(coat)
}

// readable turns a rack's name into words: "grey-primer" is grey primer.
func readable(name string) string { return strings.ReplaceAll(name, "-", " ") }

// lightLines counts the lamps of each kind: "3 × warm white, 3 mm".
func (w *work) lightLines() []string {
	var order []string
	count := map[string]int{}
	for _, c := range w.build.Front.Circuits {
		for _, b := range c.Branches {
			for _, l := range b.Lamps {
				name := w.lampName(l.Lamp.V)
				if count[name] == 0 {
					order = append(order, name)
				}
				count[name]++
			}
		}
	}
	var lines []string
	for _, name := range order {
		lines = append(lines, fmt.Sprintf("%d × %s", count[name], name))
	}
	return lines
}

// lampName says what a lamp of the rack is: its colour and size.
func (w *work) lampName(name string) string {
	lamp, ok := w.run.shop.Rack.Lamps.Get(name)
	if !ok || strings.HasPrefix(lamp.Colour.V, "#") || !lamp.Size.Set {
		return readable(name)
	}
	return w.run.words.Tell(lamp.Colour.V) + " " + lamp.Size.V
}

// hoursPath is the page of the whole workshop's hours.
const hoursPath = "hours.html"

// hoursPages is the page of the whole workshop's hours.
func hoursPages(r *run) []*page.Sheet {
	var sums []tally.Sum
	var data site.AllHours
	for _, w := range r.works {
		sums = append(sums, w.totals)
		if w.totals.Hours > 0 {
			data.Builds = append(data.Builds, r.buildCard(w))
		}
	}
	data.Total = tally.All(sums, r.shop.Settings.StageNames()...)
	if data.Total.Sittings == 0 {
		return nil
	}
	slices.SortStableFunc(data.Builds, func(a, b topic.Card) int { return int(b.Sum.Hours.Minutes() - a.Sum.Hours.Minutes()) })
	data.Charts = r.charts
	words := r.press.words
	return []*page.Sheet{{Path: hoursPath, Kind: "allhours", Title: words.Say("Hours"), Updated: data.Total.Last, Data: data,
		Summary: words.Bench(data.Total.Hours) + words.Join(", ") + words.Count(data.Total.Sittings, "sitting")}}
}

// drawHours draws the hours of all builds by month.
func drawHours(r *run) {
	var sums []tally.Sum
	for _, w := range r.works {
		sums = append(sums, w.totals)
	}
	if tally.All(sums).Hours <= 0 {
		return
	}
	months := chart{"hours-by-month", r.words.Say("Hours by month"), r.words.Say("A column for each month, with a part for each build"), r.words, func(f svg.Frame) (*svg.Drawing, svg.Table) {
		return tally.MonthsChart(sums, f, r.captions())
	}}
	r.charts = append(r.charts, months.drawn(r.house.Keep))
}
