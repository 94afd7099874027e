package record

import (
	"slices"
	"strings"

	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Seen is what the pages show of other builds and of other subjects.
type Seen struct {
	Finished []tally.Sum // of the finished builds, for the forecast
	Paints   []string    // on the model, in the order in which they were laid
	Lights   []string    // its lamps by kind, with their number
}

// Pages lays out the pages of a build's
func Pages(f topic.Facts, r *Result, in Seen, d topic.Desk) topic.Part {
	var part topic.Part
	for _, p := range []*page.Sheet{r.hoursPage(f, in, d), r.partsPage(f, d), r.problemsPage(d), r.choicesPage(f, d), r.entryPage(f, in, d)} {
		if p != nil {
			part.Sheets = append(part.Sheets, p)
		}
	}
	part.Leaves = r.leaves(f, d)
	return part
}

// leaves are how the build's page leads on to them.
func (r *Result) leaves(f topic.Facts, d topic.Desk) []page.Leaf {
	box := "not out of the box"
	if r.Box.Still {
		box = "out of the box"
	}
	words := d.Words
	facts := map[string]page.Leaf{
		hoursFile:    {Name: "Hours and cost", Facts: []string{words.Bench(r.Sum.Hours)}},
		partsFile:    {Name: "Parts and spares", Facts: []string{words.Count(len(r.Rows), "counted part")}},
		problemsFile: {Name: "Problems", Facts: []string{words.Count(len(r.Problems), "problem")}},
		choicesFile:  {Name: "Choices", Facts: []string{words.Count(len(r.Decisions), "choice")}},
		entryFile:    {Name: "Entry card", Facts: []string{words.Say(box)}},
	}
	var leaves []page.Leaf
	for _, file := range r.Pages {
		leaf := facts[file]
		leaf.Name, leaf.Path = words.Say(leaf.Name), f.Place(file)
		leaves = append(leaves, leaf)
	}
	return leaves
}

func (r *Result) hoursPage(f topic.Facts, in Seen, d topic.Desk) *page.Sheet {
	if r.Sum.Sittings == 0 {
		return nil
	}
	data := Hours{Build: d.Card, Charts: r.charts(f, d), Balances: r.Balances, Obtained: r.Obtained,
		Spending: r.Sum.ByStep, Method: source.Word(tally.QuartileMethod)}
	if c := f.Front.Commission; c != nil && c.Publish.V {
		data.Quote = r.Quote
	}
	if r.Build.State == tally.Bench || r.Build.State == tally.SetAside {
		outlook := tally.Outlook(r.Sum, r.Build.Sittings, in.Finished, f.Settings.StageNames(), topic.Texts(f.Front.Over), f.Today)
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
	return d.Sheet(hoursFile, "hours", d.Words.Say("Hours and cost"), d.Words.Bench(r.Sum.Hours), data)
}

func (r *Result) partsPage(f topic.Facts, d topic.Desk) *page.Sheet {
	if len(r.Rows) == 0 {
		return nil
	}
	data := Parts{Build: d.Card, Rows: r.Rows, Finished: r.Build.State == tally.Shelf}
	for _, row := range r.Rows {
		data.Implied = data.Implied || row.Implied > 0
		for _, e := range row.Entries {
			line := PartLine{Row: row, Entry: e, To: d.Places.Build(e.To)}
			for _, s := range f.Sittings {
				if s.Slug == e.Sitting {
					line.Path, line.Title = d.Places.Page(s.File.Name), s.Title()
				}
			}
			data.History = append(data.History, line)
		}
	}
	slices.SortStableFunc(data.History, func(a, b PartLine) int { return a.Entry.Date.Compare(b.Entry.Date) })
	return d.Sheet(partsFile, "parts", d.Words.Say("Parts and spares"), d.Words.Count(len(data.Rows), "counted part"), data)
}

// fisherMethod is how chances are worked out, for readers.
const fisherMethod = "Fisher's exact test, two-sided: the sum of the probabilities of all tables at most as probable as the one seen " +
	"(Agresti, Statistical Science 7, 1992)"

func (r *Result) problemsPage(d topic.Desk) *page.Sheet {
	if len(r.Problems) == 0 {
		return nil
	}
	data := Problems{Build: d.Card, Problems: r.Problems, Method: source.Word(fisherMethod)}
	var texts []string
	for _, p := range r.Problems {
		texts = append(texts, p.Problem.Name.V, p.Problem.Symptom.V, p.Problem.Outcome.V)
	}
	sheet := d.Sheet(problemsFile, "problems", d.Words.Say("Problems"), d.Words.Count(len(data.Problems), "problem"), data)
	sheet.Words = strings.Join(texts, "\n")
	return sheet
}

func (r *Result) choicesPage(f topic.Facts, d topic.Desk) *page.Sheet {
	if len(r.Decisions) == 0 {
		return nil
	}
	data := Choices{Build: d.Card}
	var texts []string
	for i, made := range r.Decisions {
		c := made.Choice
		x := DecisionCase{Title: topic.Heading(c.Question.V), Decision: made}
		for _, o := range f.Front.Choices[i].Options {
			option := OptionCase{Name: o.Name.V, Chosen: made.Decided && o.Name.V == c.Chosen.V}
			if full, ok := f.Inside(o.Photo.V); ok && o.Photo.Set {
				option.Picture = d.Photos.Picture(full, o.Alt.Or(topic.AltOf(f, o.Photo.V)), "", "")
			}
			x.Options = append(x.Options, option)
		}
		data.Decisions = append(data.Decisions, x)
		texts = append(texts, c.Question.V, c.Chosen.V, c.Why.V)
	}
	sheet := d.Sheet(choicesFile, "choices", d.Words.Say("Choices"), d.Words.Count(len(data.Decisions), "choice"), data)
	sheet.Words = strings.Join(texts, "\n")
	return sheet
}

func (r *Result) entryPage(f topic.Facts, in Seen, d topic.Desk) *page.Sheet {
	if r.Build.State != tally.Shelf {
		return nil
	}
	data := EntrySheet{Build: d.Card, Kit: f.Front.Kit, Keeper: f.Settings.Keeper.V, Box: r.Box,
		Finished: f.Front.Finished.V.Time, Paints: in.Paints, Lights: in.Lights}
	for _, x := range f.Front.Extras {
		data.Changed = append(data.Changed, d.Words.Message(source.Say("%s (%s)", x.What.V, source.Word(x.Kind.V))))
	}
	for _, row := range r.Rows {
		if slices.ContainsFunc(row.Entries, func(e tally.Entry) bool { return e.Event == tally.Made }) {
			data.Changed = append(data.Changed, d.Words.Say("%s (own work)", strings.TrimSpace(row.Part+" "+row.What)))
		}
	}
	for _, made := range r.Decisions {
		if made.Decided {
			data.Changed = append(data.Changed, made.Choice.Question.V+": "+made.Choice.Chosen.V)
		}
	}
	return d.Sheet(entryFile, "entry", d.Words.Say("Entry card"), d.Words.Message(r.Box.Says), data)
}
