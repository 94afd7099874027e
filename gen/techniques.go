package gen

import (
	"slices"
	"strings"
	"unicode"

	"spruelight/gen/page"
	"spruelight/gen/source"
)

const techniquesPath = "techniques.html"

// technique returns the name by which the workshop knows a technique, however
// a journal writes it.
func (r *run) technique(written string) string {
	key := foldName(written)
	for _, e := range r.shop.Settings.Tags {
		if foldName(e.Name.V) == key {
			return e.Name.V
		}
		for _, other := range e.Value {
			if foldName(other.V) == key {
				return e.Name.V
			}
		}
	}
	return strings.Join(strings.Fields(written), " ")
}

// foldName makes names equal that differ in capitals, hyphens or blanks alone,
// or in how accents are stored.
func foldName(name string) string {
	return strings.Join(strings.FieldsFunc(source.Fold(name), func(c rune) bool { return c == '-' || c == '_' || unicode.IsSpace(c) }), " ")
}

// techniques are the techniques that a build shows, its own and its sittings',
// each once.
func (w *work) techniques() []string {
	var names []string
	add := func(tags []source.Value[string]) {
		for _, t := range tags {
			if name := w.run.technique(t.V); !slices.ContainsFunc(names, func(x string) bool { return foldName(x) == foldName(name) }) {
				names = append(names, name)
			}
		}
	}
	add(w.build.Front.Techniques)
	for _, s := range w.build.Sittings {
		add(s.Front.Tags)
	}
	return names
}

// techniqueLink leads to a technique's page.
func (r *run) techniqueLink(written string) page.Link {
	name := r.technique(written)
	return page.Link{Name: name, Path: "techniques/" + techniqueSlug(name) + ".html"}
}

// techniqueSlug makes a file's name of a technique: letters and digits of any
// language in small letters, with hyphens between them. Where another technique
// could come out the same, or a system keeps the name for itself, a part of a
// hash tells it apart.
func techniqueSlug(name string) string {
	folded := foldName(name)
	slug := strings.Join(strings.FieldsFunc(folded, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsNumber(c) && !unicode.Is(unicode.Mn, c) }), "-")
	sum := page.UUID(folded)
	switch {
	case slug == "" || len(slug) > 80 || source.ValidPath(slug) != nil:
		return "t-" + sum[len(sum)-12:]
	case slug != strings.ReplaceAll(folded, " ", "-"):
		return slug + "-" + sum[len(sum)-6:]
	}
	return slug
}

// techniqueLinks are the links of a journal's techniques.
func (r *run) techniqueLinks(tags []source.Value[string]) []page.Link {
	var links []page.Link
	for _, t := range tags {
		if link := r.techniqueLink(t.V); !slices.Contains(links, link) {
			links = append(links, link)
		}
	}
	return links
}

// shownIn is where a technique is shown in one build.
type shownIn struct {
	work     *work
	sittings []int
}

// techniquePages are a page for each technique, and one that lists them.
func techniquePages(r *run) []*page.Sheet {
	where := map[string][]shownIn{}
	names := map[string]string{}
	at := func(written string, w *work) *shownIn {
		name := r.technique(written)
		key := techniqueSlug(name)
		if _, ok := names[key]; !ok {
			names[key] = name
		}
		list := where[key]
		if n := len(list); n == 0 || list[n-1].work != w {
			where[key] = append(list, shownIn{work: w})
		}
		return &where[key][len(where[key])-1]
	}
	for _, w := range r.works {
		for _, t := range w.build.Front.Techniques {
			at(t.V, w)
		}
		for i, s := range w.build.Sittings {
			for _, t := range s.Front.Tags {
				if x := at(t.V, w); !slices.Contains(x.sittings, i) {
					x.sittings = append(x.sittings, i)
				}
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	var slugs []string
	for slug := range names {
		slugs = append(slugs, slug)
	}
	slices.SortFunc(slugs, func(a, b string) int { return strings.Compare(foldName(names[a]), foldName(names[b])) })
	words := r.press.words
	index := page.Techniques{}
	var sheets []*page.Sheet
	for _, slug := range slugs {
		data := r.techniqueOf(names[slug], where[slug])
		link := page.Link{Name: data.Name, Path: "techniques/" + slug + ".html"}
		summary := words.Count(len(data.Builds), "build") + words.Join(", ") + words.Count(data.Sittings, "sitting")
		index.List = append(index.List, page.TechniqueRow{Link: link, Builds: data.Builds, Sittings: data.Sittings, Lead: data.Lead})
		sheets = append(sheets, &page.Sheet{Path: link.Path, Kind: "technique", Title: heading(data.Name), Summary: summary, Lead: data.Lead, Updated: data.Updated,
			Data: data, Words: strings.Join(data.Also, "\n")})
		index.Updated = later(index.Updated, data.Updated)
	}
	return append(sheets, &page.Sheet{Path: techniquesPath, Kind: "techniques", Title: words.Say("Techniques"), Data: index, Updated: index.Updated,
		Summary: words.Say("How things were done, across all builds, with the sittings that show them.")})
}

// techniqueOf gathers what shows a technique, the newest build first.
func (r *run) techniqueOf(name string, shown []shownIn) page.Technique {
	t := page.Technique{Name: name}
	for _, e := range r.shop.Settings.Tags {
		if e.Name.V == name {
			for _, other := range e.Value {
				t.Also = append(t.Also, other.V)
			}
		}
	}
	for _, x := range shown {
		b := page.TechniqueBuild{Build: r.buildCard(x.work)}
		for _, i := range x.sittings {
			card := r.sittingCard(x.work, i)
			if card.Lead != nil && t.Lead == nil {
				t.Lead = card.Lead
			}
			b.Sittings = append(b.Sittings, card)
		}
		t.Sittings += len(b.Sittings)
		t.Updated = later(t.Updated, b.Build.Updated)
		t.Builds = append(t.Builds, b)
	}
	slices.SortStableFunc(t.Builds, func(a, b page.TechniqueBuild) int { return b.Build.Updated.Compare(a.Build.Updated) })
	return t
}
