package record

import (
	"bytes"
	"encoding/xml"
	"io"
	"io/fs"
	"slices"
	"testing"
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/themes"
)

func val[T any](v T) source.Value[T] { return source.Written(v, source.Span{}) }

func day(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}

func english(t *testing.T) *page.Words {
	t.Helper()
	folder, err := fs.Sub(themes.FS, "words")
	if err != nil {
		t.Fatal(err)
	}
	words, err := page.LoadWords(folder, "en")
	if err != nil {
		t.Fatal(err)
	}
	return words
}

// skiff is a build of four sittings out of order, two of them on one day and
// one without hours, with money of two currencies spent beside the kit.
func skiff() Result {
	money := func(minor int64, currency string) source.Value[quantity.Money] {
		return val(quantity.Money{Minor: minor, Currency: currency})
	}
	b := tally.Build{Slug: "skiff", Name: "Skiff", State: tally.Bench, Kit: tally.Kit{Price: money(9200, "EUR"), Obtained: val(tally.ByPurchase)},
		Spent: []tally.Spend{{On: "display base", Price: money(1800, "EUR")}},
		Sittings: []tally.Sitting{
			{Slug: "2026-02-14", Date: day("2026-02-14"), Hours: val(quantity.Hours(10.0 / 3)), Stage: val("lighting"),
				Spent: []tally.Spend{{On: "enamelled wire", Price: money(650, "EUR")}, {On: "lamps", Price: money(400, "USD")}}},
			{Slug: "2026-01-31", Date: day("2026-01-31"), Hours: val(quantity.Hours(2.0 / 3)), Stage: val("assembly")},
			{Slug: "2026-02-14-decals", Date: day("2026-02-14"), Hours: val(quantity.Hours(1)), Stage: val("decals")},
			{Slug: "2026-02-20", Date: day("2026-02-20"), Stage: val("assembly")},
		}}
	return Result{Build: b, Sum: tally.Totals(b, []string{"assembly", "lighting", "decals"})}
}

func TestChartsShowTheSums(t *testing.T) {
	r, words := skiff(), english(t)
	tower := tally.Totals(tally.Build{Slug: "tower", Name: "Tower", State: tally.Shelf,
		Sittings: []tally.Sitting{{Slug: "a", Date: day("2025-11-02"), Hours: val(quantity.Hours(5)), Stage: val("assembly")}}}, nil)
	frame := func(id string) chart.Frame { return chart.Frame{ID: id, Title: id, Empty: "nothing yet"} }
	for name, c := range map[string]struct {
		draw func() (*svg.Drawing, svg.Table)
		rows int
		last string // of the table's last row
	}{
		"stages": {func() (*svg.Drawing, svg.Table) { return r.stageChart(frame("stages"), words) }, 3, "1 h"},
		"hours":  {func() (*svg.Drawing, svg.Table) { return r.hoursChart(frame("hours"), words) }, 3, "5 h"},
		"spend":  {func() (*svg.Drawing, svg.Table) { return r.spendChart("EUR", frame("spend"), words) }, 3, "116.50 EUR"},
		"months": {func() (*svg.Drawing, svg.Table) {
			return monthsChart([]tally.Sum{r.Sum, tower}, frame("months"), words)
		}, 4, "4 h 20 min"},
		"nothing": {func() (*svg.Drawing, svg.Table) { return monthsChart(nil, frame("nothing"), words) }, 0, ""},
	} {
		d, table := c.draw()
		if len(table.Rows) != c.rows {
			t.Errorf("%s: %d rows, want %d: %v", name, len(table.Rows), c.rows, table.Rows)
			continue
		}
		if c.rows > 0 && !slices.Contains(table.Rows[c.rows-1], c.last) {
			t.Errorf("%s: the last row is %v, want %q in it", name, table.Rows[c.rows-1], c.last)
		}
		checkXML(t, name, d.File())
	}
}

func checkXML(t *testing.T, name string, text []byte) {
	t.Helper()
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
	}
}
