package gen_test

import (
	"encoding/xml"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/svg"
)

// The published line-up of the example, read back by its numbers: what was
// measured on each model (content-example, by hand) times the scale bar's
// factor is what is drawn. Outlines of the example are polygons, so that their
// corners are their extent.
func TestLineupOfTheExample(t *testing.T) {
	site := assembled(t)
	file, err := os.ReadFile(filepath.Join(site, "drawings", "line-up.svg"))
	if err != nil {
		t.Fatal(err)
	}
	html, err := os.ReadFile(filepath.Join(site, "line-up.html"))
	if err != nil {
		t.Fatal(err)
	}
	inline := regexp.MustCompile(`(?s)<svg class="drawing".*?</svg>`).FindAllString(string(html), 2)
	if len(inline) != 2 {
		t.Fatal("the page does not hold the line-up for a desk and for a phone")
	}
	for name, text := range map[string]string{"file": string(file), "desk": inline[0], "phone": inline[1]} {
		pieces, factor := readLineup(t, text)
		for id, metres := range map[string][2]float64{ // across, up; 0: not measured
			"marram": {0.204, 0}, "cairnhead": {0, 0.262}, "dunnock": {0.216, 0}, "pumphouse": {0.151, 0.118}, "lanternhouse": {0.0413, 0.096},
			"harbour-crane": {0, 0.198}, "ferry-bracken": {0.1485, 0}, "jolly-boat": {0.0905, 0}, "lamp-keeper": {0, 0.056},
		} {
			drawn, ok := pieces[id]
			if !ok {
				t.Errorf("%s: %s is missing", name, id)
			}
			for i, m := range metres {
				if m > 0 && math.Abs(drawn[i]-m*factor) > 0.1 {
					t.Errorf("%s: %s is drawn %.2f, true is %.2f", name, id, drawn[i], m*factor)
				}
			}
		}
		if len(pieces) != 9 {
			t.Errorf("%s: %d pieces", name, len(pieces))
		}
	}
}

var aNumber = regexp.MustCompile(`-?\d+(\.\d+)?`)

// readLineup returns the extent of each silhouette, and the units for one metre.
func readLineup(t *testing.T, text string) (pieces map[string][2]float64, factor float64) {
	pieces = map[string][2]float64{}
	decoder := xml.NewDecoder(strings.NewReader(text))
	group := map[string]string{}
	for {
		token, err := decoder.Token()
		if err != nil {
			return pieces, factor
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		has := map[string]string{}
		for _, a := range e.Attr {
			has[a.Name.Local] = a.Value
		}
		switch e.Name.Local {
		case "g":
			group = has
		case "rect", "path", "polyline":
			if strings.Contains(has["d"], "C") {
				continue // the figures are curved
			}
			outline, err := svg.ParsePath(has["d"])
			if err != nil && has["d"] != "" {
				t.Fatal(err)
			}
			w, h := outline.Box().W, outline.Box().H
			if e.Name.Local == "polyline" {
				w, h = span(has["points"])
			}
			if e.Name.Local == "rect" {
				w, _ = strconv.ParseFloat(has["width"], 64)
				h, _ = strconv.ParseFloat(has["height"], 64)
			}
			if id := group["data-piece"]; id != "" {
				pieces[id] = [2]float64{w, h}
			}
			if bar := group["data-scale-bar"]; bar != "" {
				metres, _ := strconv.ParseFloat(bar, 64)
				factor = w / metres
			}
			group = map[string]string{}
		}
	}
}

// span returns the extent of coordinates that follow one another as x, y.
func span(coordinates string) (w, h float64) {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, text := range aNumber.FindAllString(coordinates, -1) {
		v, _ := strconv.ParseFloat(text, 64)
		low[i%2], high[i%2] = min(low[i%2], v), max(high[i%2], v)
	}
	return high[0] - low[0], high[1] - low[1]
}
