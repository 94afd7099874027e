package review

import (
	"fmt"
	"html/template"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Page is the page of a review.
type Page struct {
	Build      topic.Card
	Front      *journal.ReviewFront
	Title      string
	Experience string
	Result     tally.Review
	Body       template.HTML
	Schema     any // schema.org, for application/ld+json
}

// Bar is how far along a hundred units a mark reaches.
func (r Page) Bar(mark float64) string { return bar(mark, r.Result.Best) }

func bar(mark, best float64) string {
	if best <= 0 {
		return "0"
	}
	return fmt.Sprintf("%.1f", 100*mark/best)
}

// Schema describes a review in the schema.org vocabulary: a Review of a
// Product, with a Rating for each criterion that was assessed. One rating over
// all stands first, and only where the workshop shows one.
func Schema(site *page.Site, sheet *page.Sheet, r *Page, words *page.Words) any {
	kit := r.Build.Kit
	product := node{"@type": "Product", "name": kit.Title.Or(r.Build.Name), "category": "Scale model kit"}
	product.set("mpn", kit.Number.V)
	product.set("releaseDate", kit.Released.V)
	if kit.Maker.Set {
		product["brand"] = node{"@type": "Brand", "name": kit.Maker.V}
	}
	if kit.Price.Set {
		product["offers"] = node{"@type": "Offer", "price": fmt.Sprintf("%.2f", kit.Price.V.Amount()), "priceCurrency": kit.Price.V.Currency}
	}
	view := page.View{Site: site, Sheet: sheet}
	review := node{"@context": "https://schema.org", "@type": "Review", "name": r.Title, "inLanguage": site.Language,
		"datePublished": r.Front.Date.V.String(), "author": node{"@type": "Person", "name": site.Author()}, "itemReviewed": product,
		// The disclosure comes before the verdict here too: this text is shown in place of the page.
		"reviewBody": strings.TrimSpace(words.Message(r.Result.Disclosure.Sentence) + " " + r.Front.Verdict.V)}
	review.set("url", view.Canonical())
	if sheet.Lead != nil {
		review.set("image", view.Absolute(sheet.Lead.Near(1200).Path))
	}
	if ratings := r.ratings(); len(ratings) > 0 {
		review["reviewRating"] = ratings
	}
	review.list("positiveNotes", r.Front.BuyIf)
	review.list("negativeNotes", r.Front.LeaveIf)
	return review
}

// node is one typed object of JSON-LD.
type node map[string]any

// set adds a property that has a value.
func (n node) set(name, value string) {
	if value != "" {
		n[name] = value
	}
}

// list adds a property that is an ItemList.
func (n node) list(name string, texts []journal.Text) {
	if len(texts) == 0 {
		return
	}
	var items []node
	for i, t := range texts {
		items = append(items, node{"@type": "ListItem", "position": i + 1, "name": t.V})
	}
	n[name] = node{"@type": "ItemList", "itemListElement": items}
}

func (r *Page) ratings() []node {
	var ratings []node
	if f := r.Result.Overall; f != nil {
		ratings = append(ratings, node{"@type": "Rating", "ratingValue": tenths(f.Mark), "bestRating": r.Result.Best, "worstRating": 0,
			"ratingExplanation": f.Working})
	}
	for _, row := range r.Result.Rows {
		if row.Assessed {
			rating := node{"@type": "Rating", "reviewAspect": row.Criterion.Name, "ratingValue": row.Mark,
				"bestRating": r.Result.Best, "worstRating": 0}
			rating.set("ratingExplanation", row.Why)
			ratings = append(ratings, rating)
		}
	}
	return ratings
}

// tenths rounds as the page shows it.
func tenths(v float64) float64 {
	return float64(int(v*10+0.5)) / 10
}
