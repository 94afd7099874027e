package review

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"spruelight/gen/page"

	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

func written[T any](v T) source.Value[T] { return source.Written(v, source.Span{}) }

func skiffReview() (*page.Site, *page.Sheet, *Page, *page.Words) {
	site := &page.Site{Name: "The Saltmarsh Bench", Keeper: "the keeper", Address: "https://bench.example/", Language: "en"}
	sheet := &page.Sheet{Path: "skiff/review.html", Lead: &page.Picture{Files: []page.PictureFile{{Path: "skiff/photos/a-1600.jpg", Width: 1600}}}}
	day, _ := time.Parse(time.DateOnly, "2026-03-21")
	review := &Page{Title: "The skiff", Front: &journal.ReviewFront{Date: written(quantity.Day{Time: day}), Verdict: written("Fine ports </script> & a bowed hull."),
		BuyIf: []source.Value[string]{written("you like ports")}, LeaveIf: []source.Value[string]{written("it must be 1/48")}}}
	review.Build.Name = "Survey skiff"
	review.Build.Kit = tally.Kit{Maker: written("Halden Model Works"), Title: written("Coastal Survey Skiff"), Number: written("HM-3204"),
		Released: written("2025"), Price: written(quantity.Money{Minor: 9200, Currency: "EUR"})}
	review.Result = tally.Review{Best: 10, Disclosure: tally.Disclosure{Due: true, Sentence: source.Word("The maker sent this kit free of charge for review.")},
		Overall: &tally.OverallMark{Mark: 7.333, Working: source.Word("(2 × 8 + 1 × 6) / (2 + 1)")},
		Rows: []tally.ReviewRow{
			{Criterion: tally.Criterion{Name: "fit"}, Assessed: true, Mark: 8, Why: "two gaps"},
			{Criterion: tally.Criterion{Name: "decals"}}}}
	return site, sheet, review, &page.Words{Language: "en"}
}

func TestSchemaUsesOnlyPublishedWords(t *testing.T) {
	vocabulary := readVocabulary(t)
	text, err := json.Marshal(Schema(skiffReview()))
	if err != nil {
		t.Fatal(err)
	}
	var root map[string]any
	if err := json.Unmarshal(text, &root); err != nil {
		t.Fatal(err)
	}
	var walk func(v any)
	walk = func(v any) {
		switch x := v.(type) {
		case []any:
			for _, item := range x {
				walk(item)
			}
		case map[string]any:
			kind, _ := x["@type"].(string)
			for name, value := range x {
				if !strings.HasPrefix(name, "@") && !vocabulary.has(kind, name) {
					t.Errorf("schema.org knows no %s of a %s", name, kind)
				}
				walk(value)
			}
		}
	}
	walk(root)
	if root["@context"] != "https://schema.org" || root["@type"] != "Review" {
		t.Errorf("the root is %v of %v", root["@type"], root["@context"])
	}
}

func TestSchemaSaysWhatThePageSays(t *testing.T) {
	text, _ := json.Marshal(Schema(skiffReview()))
	var r struct {
		ReviewBody    string
		DatePublished string
		URL           string
		Image         string
		ReviewRating  []struct {
			ReviewAspect                         string
			RatingValue, BestRating, WorstRating float64
			RatingExplanation                    string
		}
		ItemReviewed struct {
			Name, Mpn string
			Brand     struct{ Name string }
			Offers    struct{ Price, PriceCurrency string }
		}
	}
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(r.ReviewBody, "The maker sent this kit free of charge for review. ") {
		t.Errorf("the disclosure does not come first: %q", r.ReviewBody)
	}
	if len(r.ReviewRating) != 2 || r.ReviewRating[0].RatingValue != 7.3 || r.ReviewRating[0].ReviewAspect != "" || r.ReviewRating[1].ReviewAspect != "fit" {
		t.Errorf("ratings: %+v", r.ReviewRating)
	}
	for _, x := range r.ReviewRating { // schema.org: the default best is 5, so that of ten must be said
		if x.BestRating != 10 || x.WorstRating != 0 || x.RatingValue > x.BestRating {
			t.Errorf("rating %+v lies outside its scale", x)
		}
	}
	if r.URL != "https://bench.example/skiff/review.html" || r.Image != "https://bench.example/skiff/photos/a-1600.jpg" || r.DatePublished != "2026-03-21" {
		t.Errorf("got %s, %s, %s", r.URL, r.Image, r.DatePublished)
	}
	if r.ItemReviewed.Mpn != "HM-3204" || r.ItemReviewed.Offers.Price != "92.00" || r.ItemReviewed.Brand.Name != "Halden Model Works" {
		t.Errorf("product: %+v", r.ItemReviewed)
	}
	if strings.Contains(string(text), "</script") {
		t.Error("a verdict can end the script element that holds it")
	}
}

// vocabulary lists the properties and parents of types.
type vocabulary map[string]struct{ parents, properties []string }

func (v vocabulary) has(kind, property string) bool {
	entry, ok := v[kind]
	if !ok {
		return false
	}
	for _, p := range entry.properties {
		if p == property {
			return true
		}
	}
	for _, parent := range entry.parents {
		if v.has(parent, property) {
			return true
		}
	}
	return false
}

func readVocabulary(t *testing.T) vocabulary {
	t.Helper()
	text, err := os.ReadFile("testdata/schema-org.txt")
	if err != nil {
		t.Fatal(err)
	}
	v := vocabulary{}
	for _, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		head, properties, _ := strings.Cut(line, " : ")
		name, parents, _ := strings.Cut(head, " < ")
		v[name] = struct{ parents, properties []string }{strings.Fields(parents), strings.Fields(properties)}
	}
	return v
}
