package page

import (
	"bytes"
	"crypto/sha1"
	"encoding/xml"
	"fmt"
	"strings"
	"time"
)

// Entry is one item of a feed.
type Entry struct {
	Path      string // of its page, in the site
	Title     string
	Summary   string
	Published time.Time
	HTML      string // full content; addresses relative to the feed
	Notice    string // a disclosure that must not be missed, put before all else
	Image     string // whole address of the picture that stands for it, or ""
}

// content returns the full content, a disclosure first.
func (e Entry) content() string {
	if e.Notice == "" {
		return e.HTML
	}
	return "<p><strong>" + xmlText(e.Notice) + "</strong></p>\n" + e.HTML
}

// summary returns the content in short, a disclosure first.
func (e Entry) summary() string { return strings.TrimSpace(e.Notice + " " + e.Summary) }

// atomFeed is a feed by RFC 4287.
type atomFeed struct {
	XMLName   xml.Name     `xml:"http://www.w3.org/2005/Atom feed"`
	Lang      string       `xml:"http://www.w3.org/XML/1998/namespace lang,attr,omitempty"`
	Base      string       `xml:"http://www.w3.org/XML/1998/namespace base,attr,omitempty"`
	ID        string       `xml:"id"`
	Title     string       `xml:"title"`
	Subtitle  string       `xml:"subtitle,omitempty"`
	Updated   string       `xml:"updated"`
	Author    atomPerson   `xml:"author"`
	Links     []atomLink   `xml:"link"`
	Generator string       `xml:"generator,omitempty"`
	Entries   []*atomEntry `xml:"entry"`
}

type atomPerson struct {
	Name string `xml:"name"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr,omitempty"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	ID        string       `xml:"id"`
	Title     string       `xml:"title"`
	Updated   string       `xml:"updated"`
	Published string       `xml:"published"`
	Links     []atomLink   `xml:"link"`
	Summary   string       `xml:"summary,omitempty"`
	Content   *atomContent `xml:"content,omitempty"`
}

type atomContent struct {
	Type string `xml:"type,attr"`
	Text string `xml:",chardata"`
}

// Atom writes a feed (RFC 4287) that stands at a path of the site. Times are
// days, so they stand at noon UTC, which is the same day nearly everywhere.
func Atom(site *Site, at, title string, entries []Entry) []byte {
	base, name := site.Address, at
	if i := strings.LastIndexByte(at, '/'); i >= 0 {
		base, name = base+at[:i+1], at[i+1:]
	}
	if site.Address == "" {
		base = ""
	}
	home := Relative(at, homeOf(at))
	feed := atomFeed{Lang: site.Language, Base: base, ID: feedID(site, at), Title: clean(title), Subtitle: clean(site.About),
		Updated: stamp(newest(site, entries)), Author: atomPerson{clean(site.Author())}, Generator: site.Program}
	feed.Links = append(feed.Links, atomLink{"self", "application/atom+xml", name}, atomLink{"alternate", "text/html", home})
	for _, e := range entries {
		feed.Entries = append(feed.Entries, &atomEntry{ID: feedID(site, e.Path), Title: clean(e.Title), Updated: stamp(e.Published),
			Published: stamp(e.Published),
			Links:     []atomLink{{"alternate", "text/html", Relative(at, e.Path)}}, Summary: clean(e.summary()), Content: &atomContent{"html",
				clean(e.content())}})
	}
	var out bytes.Buffer
	out.WriteString(xml.Header)
	enc := xml.NewEncoder(&out)
	enc.Indent("", " ")
	if err := enc.Encode(feed); err != nil {
		panic(err) // plain strings into a buffer cannot fail
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// newest returns the day of a feed's newest entry, which stands first.
func newest(site *Site, entries []Entry) time.Time {
	if len(entries) == 0 {
		return site.Updated
	}
	return entries[0].Published
}

// homeOf returns the page that a feed speaks of: the front page of its folder.
func homeOf(at string) string {
	if i := strings.LastIndexByte(at, '/'); i >= 0 {
		return at[:i] + "/index.html"
	}
	return "index.html"
}

// Author returns who is named as the author: the keeper, else the workshop.
func (site *Site) Author() string {
	if site.Keeper != "" {
		return site.Keeper
	}
	return site.Name
}

// feedID returns an IRI that stays the same as long as workshop and place do:
// the address where there is one, else a name-based UUID (RFC 9562, version 5).
func feedID(site *Site, at string) string {
	if site.Address != "" {
		return site.Address + strings.TrimSuffix(at, "index.html")
	}
	return UUID("spruelight", site.Name, at)
}

// UUID returns a name-based UUID (RFC 9562, version 5) as a URN.
func UUID(names ...string) string {
	sum := sha1.Sum([]byte(strings.Join(names, "\x00")))
	sum[6] = sum[6]&0x0f | 0x50
	sum[8] = sum[8]&0x3f | 0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", sum[:4], sum[4:6], sum[6:8], sum[8:10], sum[10:16])
}

// epoch is the date of a feed with nothing in it, which still needs one.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func stamp(day time.Time) string {
	if day.IsZero() {
		day = epoch
	}
	return day.Add(12 * time.Hour).UTC().Format(time.RFC3339)
}

// clean drops the characters that XML 1.0 cannot hold.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' || r == '\r' || r >= 0x20 && r <= 0xd7ff || r >= 0xe000 && r <= 0xfffd || r >= 0x10000 {
			return r
		}
		return -1
	}, text)
}

func xmlText(text string) string {
	var out bytes.Buffer
	xml.EscapeText(&out, []byte(text))
	return out.String()
}
