package gen

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
)

// NotesOptions say which text is wanted for a film.
type NotesOptions struct {
	Limit int  // the most characters the description may have; zero for no limit
	VTT   bool // the chapters as WebVTT instead of the description
}

// ShowNotes is a sitting's text for its film.
type ShowNotes struct {
	Text     string // "" where findings forbid it
	Findings source.Findings
}

// NotesFor writes the show notes of a sitting, named "build/sitting". What is
// under embargo can be written up too, ahead of its day; a finding says so.
func NotesFor(ctx context.Context, env Env, name string, opts NotesOptions) (*ShowNotes, error) {
	r := newRun(env)
	r.ahead = true
	r.read(ctx)
	r.reckon(ctx)
	r.loadWords() // of lamps and stages; without them the text is the journal's own
	w, s, err := r.sitting(name)
	if err != nil {
		return nil, err
	}
	out := &ShowNotes{}
	for _, f := range r.found { // the rest of the workshop is dryfit's business
		if f.Severity() == source.Stop {
			out.Findings.Add(f)
		}
	}
	if out.Findings.Stops() {
		return out, ctx.Err()
	}
	if until := s.Front.Embargo; until.Set && r.now().Before(until.V.In(r.shop.Zone)) {
		out.Findings.Add(ruleAhead.At(until.At, "post it after that", "this sitting is under embargo until %s", until.V))
	}
	notes := r.notes(w, s)
	var found source.Findings
	if opts.VTT {
		out.Text, found = tally.WebVTT(notes.Video)
		if len(notes.Video.Chapters) == 0 {
			found.Add(ruleNoChapters.At(notes.At, `add video with chapters, like {"0:00": What is on the bench}`, "this sitting has no film with chapters"))
		}
	} else {
		out.Text, found = tally.ShowNotes(notes, opts.Limit)
	}
	out.Findings.Add(found...)
	if out.Findings.Stops() {
		out.Text = ""
	}
	out.Findings.Sort()
	return out, ctx.Err()
}

// ruleAhead is broken by show notes written before their day.
var ruleAhead = &source.Rule{Name: "under-embargo", Severity: source.Warn,
	Source: "the workshop's own agreement with the sender",
	Reason: "A description posted early breaks the embargo as surely as the film would.",
	Keys:   "sitting: embargo"}

// ruleNoChapters is broken when chapters are asked for and there are none.
var ruleNoChapters = &source.Rule{Name: "no-chapters", Severity: source.Stop, Source: "WebVTT",
	Reason: "Without chapters there is no chapter file.",
	Keys:   "sitting video: chapters"}

// sitting finds a sitting by "build/sitting"; its date alone will do where
// there is one that day.
func (r *run) sitting(name string) (*work, *journal.Sitting, error) {
	slug, day, ok := strings.Cut(name, "/")
	i := slices.IndexFunc(r.works, func(w *work) bool { return w.slug() == slug })
	if !ok || day == "" {
		return nil, nil, fmt.Errorf("%q names no sitting; write it like marram/2026-02-14", name)
	}
	if i < 0 {
		return nil, nil, noBuild(slug, r.shop)
	}
	var found []*journal.Sitting
	var names []string
	for _, s := range r.works[i].build.Sittings {
		names = append(names, s.Slug)
		if s.Slug == day {
			return r.works[i], s, nil
		}
		if strings.HasPrefix(s.Slug, day) {
			found = append(found, s)
		}
	}
	if len(found) == 1 {
		return r.works[i], found[0], nil
	}
	return nil, nil, fmt.Errorf("%s has no single sitting %q; it has %s", slug, day, strings.Join(names, ", "))
}

// notes gathers what the description of a sitting's film is made of.
func (r *run) notes(w *work, s *journal.Sitting) tally.Notes {
	f := &w.build.Front
	n := tally.Notes{At: s.Front.At, Title: f.Name.V + ": " + s.Title(), What: w.what(s), Disclosure: w.record.Obtained}
	if s.Front.Video != nil {
		n.Video, _ = record.VideoOf(s.Front.Video)
		n.At = s.Front.Video.At
	}
	n.Lists = []tally.NoteList{
		{Head: "Kit", Lines: w.kitLines()},
		{Head: "Paints", Lines: w.coatLines(s)},
		{Head: "Lamps and resistors", Lines: w.branchLines()},
		{Head: "Tools", Lines: topic.Texts(s.Front.Tools)},
	}
	n.Links = r.noteLinks(w, s)
	return n
}

// what says in a sentence what the film shows.
func (w *work) what(s *journal.Sitting) string {
	number := slices.Index(w.build.Sittings, s) + 1
	text := fmt.Sprintf("Sitting %d", number)
	if scale := w.build.Front.Scale; scale.Set {
		text += " of a model in " + scale.V.String()
	}
	if s.Front.Hours.Set {
		text += ", " + tally.WholeMinutes(s.Front.Hours.V) + " at the bench"
	}
	if summary := w.build.Front.Summary; summary.Set {
		return text + ". " + summary.V
	}
	return text + "."
}

func (w *work) kitLines() []string {
	k := &w.build.Front.Kit
	var lines []string
	add := func(name string, value string) {
		if value != "" {
			lines = append(lines, name+": "+value)
		}
	}
	add("Maker", k.Maker.V)
	add("Title", strings.TrimSpace(k.Title.V+" "+k.Number.V))
	add("Scale on the box", w.build.Front.Scale.V.String())
	if k.Parts.Set {
		add("Parts", fmt.Sprint(k.Parts.V))
	}
	if k.Price.Set {
		add("Price", k.Price.V.String())
	}
	add("How it came here", w.record.Obtained.Sentence)
	return lines
}

// coatLines are the coats of a sitting with their thinning.
func (w *work) coatLines(s *journal.Sitting) []string {
	var lines []string
	for _, c := range s.Front.Coats {
		if c.Coat.V == journal.DecalCoat {
			continue
		}
		line := c.Area.V + ": " + w.paintName(c.Coat.V)
		if c.Thinned.Set {
			line += ", thinned " + c.Thinned.V.String()
		}
		lines = append(lines, line)
	}
	return lines
}

// branchLines are the lamps with the resistors that were worked out for them;
// the lamps alone where there is no operating point.
func (w *work) branchLines() []string {
	var lines []string
	for _, c := range w.light.circuits {
		if !c.solution.Solved {
			return w.lightLines()
		}
		for _, b := range c.solution.Branches {
			var lamps []string
			for _, l := range b.Lamps {
				lamps = append(lamps, l.Ref+" "+w.lampName(l.Model))
			}
			line := strings.Join(lamps, ", ") + ": " + quantity.Round(1000*float64(b.Current.Nominal), 2) + " mA"
			if b.Resistor.Ohms > 0 {
				line += " through " + b.Ref + " " + b.Resistor.Ohms.Code()
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// noteLinks are the addresses of the log; a workshop without an address has none.
func (r *run) noteLinks(w *work, s *journal.Sitting) []tally.Link {
	address := r.shop.Settings.Address
	if !address.Set {
		return nil
	}
	site := page.Site{Address: strings.TrimSuffix(address.V, "/") + "/"}
	view := page.View{Site: &site}
	links := []tally.Link{
		{Name: "This sitting in writing, with photos", Address: view.Absolute(r.places.Page(s.File.Name))},
		{Name: "The whole build", Address: view.Absolute(w.place("index.html"))},
	}
	if w.build.Review != nil {
		links = append(links, tally.Link{Name: "Review of the kit", Address: view.Absolute(w.place("review.html"))})
	}
	return links
}
