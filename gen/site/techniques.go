package site

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Techniques is the page that lists all techniques.
type Techniques struct {
	List    []TechniqueRow
	Updated time.Time
}

// TechniqueRow is one technique in the list.
type TechniqueRow struct {
	Link     page.Link
	Builds   []TechniqueBuild
	Sittings int
	Lead     *page.Picture
}

// Technique is the page of one technique.
type Technique struct {
	Name     string
	Also     []string // other words for it
	Builds   []TechniqueBuild
	Sittings int
	Lead     *page.Picture
	Updated  time.Time
}

// TechniqueBuild is a build that shows a technique, with its sittings that do.
type TechniqueBuild struct {
	Build    topic.Card
	Sittings []topic.SittingCard
}

const techniquesPath = "techniques.html"

// technique returns the name by which the workshop knows a technique, however
// a journal writes it.
func technique(known *journal.Settings, written string) string {
	key := foldName(written)
	for _, e := range known.Tags {
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

// TechniquesOf are the techniques that a build shows, its own and its sittings',
// each once.
func TechniquesOf(f topic.Facts) []string {
	var names []string
	add := func(tags []source.Value[string]) {
		for _, t := range tags {
			if name := technique(f.Settings, t.V); !slices.ContainsFunc(names, func(x string) bool { return foldName(x) == foldName(name) }) {
				names = append(names, name)
			}
		}
	}
	add(f.Front.Techniques)
	for _, s := range f.Sittings {
		add(s.Front.Tags)
	}
	return names
}

// TechniqueLink leads to a technique's page.
func TechniqueLink(known *journal.Settings, written string) page.Link {
	name := technique(known, written)
	return page.Link{Name: name, Path: "techniques/" + techniqueSlug(name) + ".html"}
}

// techniqueSlug makes a file's name of a technique: letters and digits of any
// language in small letters, with hyphens between them. Where another technique
// could come out the same, or a system keeps the name for itself, a part of a
// hash tells it apart.
func techniqueSlug(name string) string {
	folded := foldName(name)
	slug := strings.Join(strings.FieldsFunc(folded, func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsNumber(c) &&
			!unicode.Is(unicode.Mn, c)
	}), "-")
	sum := page.UUID(folded)
	switch {
	case slug == "" || len(slug) > 80 || source.ValidPath(slug) != nil:
		return "t-" + sum[len(sum)-12:]
	case slug != strings.ReplaceAll(folded, " ", "-"):
		return slug + "-" + sum[len(sum)-6:]
	}
	return slug
}

// shownIn is where a technique is shown in one build.
type shownIn struct {
	build    *Build
	sittings []int
}

// techniquePages are a page for each technique, and one that lists them.
func techniquePages(h *House) []*page.Sheet {
	where := map[string][]shownIn{}
	names := map[string]string{}
	at := func(written string, b *Build) *shownIn {
		name := technique(h.Settings, written)
		key := techniqueSlug(name)
		if _, ok := names[key]; !ok {
			names[key] = name
		}
		list := where[key]
		if n := len(list); n == 0 || list[n-1].build != b {
			where[key] = append(list, shownIn{build: b})
		}
		return &where[key][len(where[key])-1]
	}
	for _, b := range h.Builds {
		for _, t := range b.Front.Techniques {
			at(t.V, b)
		}
		for i, s := range b.Sittings {
			for _, t := range s.Front.Tags {
				if x := at(t.V, b); !slices.Contains(x.sittings, i) {
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
	words := h.Words
	index := Techniques{}
	var sheets []*page.Sheet
	for _, slug := range slugs {
		data := h.techniqueOf(names[slug], where[slug])
		link := page.Link{Name: data.Name, Path: "techniques/" + slug + ".html"}
		summary := words.Count(len(data.Builds), "build") + words.Join(", ") + words.Count(data.Sittings, "sitting")
		index.List = append(index.List, TechniqueRow{Link: link, Builds: data.Builds, Sittings: data.Sittings, Lead: data.Lead})
		sheets = append(sheets, &page.Sheet{Path: link.Path, Kind: "technique", Title: topic.Heading(data.Name), Summary: summary,
			Lead: data.Lead, Updated: data.Updated,
			Data: data, Words: strings.Join(data.Also, "\n")})
		index.Updated = topic.Later(index.Updated, data.Updated)
	}
	return append(sheets, &page.Sheet{Path: techniquesPath, Kind: "techniques", Title: words.Say("Techniques"), Data: index,
		Updated: index.Updated,
		Summary: words.Say("How things were done, across all builds, with the sittings that show them.")})
}

// techniqueOf gathers what shows a technique, the newest build first.
func (h *House) techniqueOf(name string, shown []shownIn) Technique {
	t := Technique{Name: name}
	for _, e := range h.Settings.Tags {
		if e.Name.V == name {
			for _, other := range e.Value {
				t.Also = append(t.Also, other.V)
			}
		}
	}
	for _, x := range shown {
		b := TechniqueBuild{Build: h.card(x.build)}
		for _, i := range x.sittings {
			card := h.sittingCard(x.build, i)
			if card.Lead != nil && t.Lead == nil {
				t.Lead = card.Lead
			}
			b.Sittings = append(b.Sittings, card)
		}
		t.Sittings += len(b.Sittings)
		t.Updated = topic.Later(t.Updated, b.Build.Updated)
		t.Builds = append(t.Builds, b)
	}
	slices.SortStableFunc(t.Builds, func(a, b TechniqueBuild) int { return b.Build.Updated.Compare(a.Build.Updated) })
	return t
}
