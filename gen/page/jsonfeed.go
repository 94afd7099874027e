package page

import (
	"encoding/json"
)

// jsonFeed is a feed by JSON Feed 1.1 (jsonfeed.org/version/1.1, 7 August 2020).
type jsonFeed struct {
	Version     string       `json:"version"`
	Title       string       `json:"title"`
	HomePage    string       `json:"home_page_url,omitempty"`
	FeedURL     string       `json:"feed_url,omitempty"`
	Description string       `json:"description,omitempty"`
	Icon        string       `json:"icon,omitempty"`
	Authors     []jsonAuthor `json:"authors,omitempty"`
	Language    string       `json:"language,omitempty"`
	Items       []jsonItem   `json:"items"`
}

type jsonAuthor struct {
	Name string `json:"name"`
}

type jsonItem struct {
	ID        string `json:"id"`
	URL       string `json:"url,omitempty"`
	Title     string `json:"title,omitempty"`
	HTML      string `json:"content_html"`
	Summary   string `json:"summary,omitempty"`
	Image     string `json:"image,omitempty"`
	Published string `json:"date_published"`
}

// JSONFeed writes a feed that stands at a path of the site. JSON Feed knows no
// base address, so the entries' HTML must carry whole addresses where the
// workshop has one.
func JSONFeed(site *Site, at, title string, entries []Entry) []byte {
	view := View{Site: site}
	feed := jsonFeed{Version: "https://jsonfeed.org/version/1.1", Title: title, Description: site.About, Language: site.Language,
		HomePage: view.Absolute(homeOf(at)), FeedURL: view.Absolute(at), Authors: []jsonAuthor{{site.Author()}}, Items: []jsonItem{}}
	for _, e := range entries {
		feed.Items = append(feed.Items, jsonItem{ID: feedID(site, e.Path), URL: view.Absolute(e.Path), Title: e.Title, HTML: e.content(),
			Summary: e.summary(), Image: e.Image, Published: stamp(e.Published)})
	}
	text, err := json.MarshalIndent(feed, "", " ")
	if err != nil {
		panic(err) // plain strings cannot fail
	}
	return append(text, '\n')
}
