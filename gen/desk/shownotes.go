package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"spruelight/gen"
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
func NotesFor(ctx context.Context, env gen.Env, name string, opts NotesOptions) (*ShowNotes, error) {
	slug, day, ok := strings.Cut(name, "/")
	if !ok || day == "" {
		return nil, fmt.Errorf("%q names no sitting; write it like marram/2026-02-14", name)
	}
	b, err := gen.Reckon(ctx, env, slug)
	if err != nil {
		return nil, err
	}
	s, err := sittingOf(b.Build, day)
	if err != nil {
		return nil, err
	}
	out := &ShowNotes{Findings: stopsAmong(b.Found)} // the rest of the workshop is dryfit's business
	if out.Findings.Stops() {
		return out, ctx.Err()
	}
	for what, until := range map[string]journal.Val[journal.Moment]{"sitting": s.Front.Embargo, "build": b.Build.Front.Embargo} {
		if until.Set && b.Now.Before(until.V.In(b.Shop.Zone)) {
			out.Findings.Add(tally.RuleAhead.At(until.At, "post it after that", "this %s is under embargo until %s", what, until.V))
		}
	}
	if d := s.Front.Draft; d.V {
		out.Findings.Add(tally.RuleAhead.At(d.At, "take the key away first", "this sitting is a draft"))
	}
	out.Findings.Sort()
	notes := notesOf(b, s)
	var found source.Findings
	if opts.VTT {
		out.Text, found = tally.WebVTT(notes.Video)
		if len(notes.Video.Chapters) == 0 {
			found.Add(tally.RuleNoChapters.At(notes.At, `add video with chapters, like {"0:00": What is on the bench}`,
				"this sitting has no film with chapters"))
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

// sittingOf finds a sitting by its file; its date alone will do where there is
// one that day.
func sittingOf(b *journal.Build, day string) (*journal.Sitting, error) {
	var found []*journal.Sitting
	var names []string
	for _, s := range b.Sittings {
		names = append(names, s.Slug)
		if s.Slug == day {
			return s, nil
		}
		if strings.HasPrefix(s.Slug, day) {
			found = append(found, s)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	return nil, fmt.Errorf("%s has no single sitting %q; it has %s", b.Slug, day, strings.Join(names, ", "))
}

// notesOf gathers what the description of a sitting's film is made of.
func notesOf(b *gen.Reckoned, s *journal.Sitting) tally.Notes {
	n := tally.Notes{At: s.Front.At, Title: b.Build.Front.Name.V + ": " + s.Title(), What: shown(b.Build, s), Disclosure: b.Disclosure}
	if s.Front.Video != nil {
		n.Video, _ = record.VideoOf(s.Front.Video)
		n.At = s.Front.Video.At
	}
	n.Lists = []tally.NoteList{
		{Head: "Kit", Lines: kitLines(b)},
		{Head: "Paints", Lines: coatLines(b, s)},
		{Head: "Lamps and resistors", Lines: branchLines(b)},
		{Head: "Tools", Lines: topic.Texts(s.Front.Tools)},
	}
	n.Links = links(b, s)
	return n
}

// shown says in a sentence what the film shows.
func shown(b *journal.Build, s *journal.Sitting) string {
	number := slices.Index(b.Sittings, s) + 1
	text := fmt.Sprintf("Sitting %d", number)
	if scale := b.Front.Scale; scale.Set {
		text += " of a model in " + scale.V.String()
	}
	if s.Front.Hours.Set {
		text += ", " + tally.WholeMinutes(s.Front.Hours.V).String() + " at the bench"
	}
	if summary := b.Front.Summary; summary.Set {
		return text + ". " + summary.V
	}
	return text + "."
}

func kitLines(b *gen.Reckoned) []string {
	k := &b.Build.Front.Kit
	var lines []string
	add := func(name string, value string) {
		if value != "" {
			lines = append(lines, name+": "+value)
		}
	}
	add("Maker", k.Maker.V)
	add("Title", strings.TrimSpace(k.Title.V+" "+k.Number.V))
	add("Scale on the box", b.Build.Front.Scale.V.String())
	if k.Parts.Set {
		add("Parts", fmt.Sprint(k.Parts.V))
	}
	if k.Price.Set {
		add("Price", k.Price.V.String())
	}
	add("How it came here", b.Disclosure.Sentence.String())
	return lines
}

// coatLines are the coats of a sitting with their thinning.
func coatLines(b *gen.Reckoned, s *journal.Sitting) []string {
	var lines []string
	for _, c := range s.Front.Coats {
		if c.Coat.V == journal.DecalCoat {
			continue
		}
		line := c.Area.V + ": " + b.PaintName(c.Coat.V)
		if c.Thinned.Set {
			line += ", thinned " + c.Thinned.V.String()
		}
		lines = append(lines, line)
	}
	return lines
}

// branchLines are the lamps with the resistors that were worked out for them;
// the lamps alone where there is no operating point.
func branchLines(b *gen.Reckoned) []string {
	var lines []string
	for i := range b.Circuits {
		if !b.Circuits[i].Solved {
			return b.LampKinds()
		}
		for _, branch := range b.Circuits[i].Branches {
			var lamps []string
			for _, l := range branch.Lamps {
				lamps = append(lamps, l.Ref+" "+b.LampName(l.Model))
			}
			line := strings.Join(lamps, ", ") + ": " + quantity.About(branch.Current.Nominal).String()
			if branch.Resistor.Ohms > 0 {
				line += " through " + branch.Ref + " " + quantity.Marked(branch.Resistor.Ohms).String()
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// links are the addresses of the log; a workshop without an address has none.
func links(b *gen.Reckoned, s *journal.Sitting) []tally.Link {
	address := b.Shop.Settings.Address
	if !address.Set {
		return nil
	}
	site := page.Site{Address: strings.TrimSuffix(address.V, "/") + "/"}
	view := page.View{Site: &site}
	list := []tally.Link{
		{Name: "This sitting in writing, with photos", Address: view.Absolute(b.Page(s.File.Name))},
		{Name: "The whole build", Address: view.Absolute(b.Build.Slug + "/index.html")},
	}
	if b.Build.Review != nil {
		list = append(list, tally.Link{Name: "Review of the kit", Address: view.Absolute(b.Build.Slug + "/review.html")})
	}
	return list
}
