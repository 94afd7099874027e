package tally

import (
	"bytes"
	"encoding/xml"
	"io"
	"testing"

	"spruelight/gen/svg"
)

func TestChartsShowTheSums(t *testing.T) {
	b := skiff()
	s := Totals(b, []string{"assembly", "lighting", "decals"})
	tower := Totals(Build{Slug: "tower", Name: "Tower", State: Shelf,
		Sittings: []Sitting{{Slug: "a", Date: day("2025-11-02"), Hours: hours("5 h"), Stage: val("assembly")}}}, nil)
	frame := func(id string) svg.Frame { return svg.Frame{ID: id, Title: id, Empty: "nothing yet"} }
	for name, c := range map[string]struct {
		draw func() (*svg.Drawing, svg.Table)
		rows int
		last string // of the table's last row
	}{
		"stages":  {func() (*svg.Drawing, svg.Table) { return StageChart(s, frame("stages"), English) }, 3, "1 h"},
		"hours":   {func() (*svg.Drawing, svg.Table) { return HoursChart(s, b.Sittings, frame("hours"), English) }, 3, "5 h"},
		"spend":   {func() (*svg.Drawing, svg.Table) { return SpendChart(s, "EUR", frame("spend"), English) }, 3, "116.50 EUR"},
		"months":  {func() (*svg.Drawing, svg.Table) { return MonthsChart([]Sum{s, tower}, frame("months"), English) }, 4, "4 h 20 min"},
		"nothing": {func() (*svg.Drawing, svg.Table) { return MonthsChart(nil, frame("nothing"), English) }, 0, ""},
	} {
		d, table := c.draw()
		if len(table.Rows) != c.rows {
			t.Errorf("%s: %d rows, want %d: %v", name, len(table.Rows), c.rows, table.Rows)
			continue
		}
		if c.rows > 0 {
			row := table.Rows[c.rows-1]
			found := false
			for _, cell := range row {
				found = found || cell == c.last
			}
			if !found {
				t.Errorf("%s: the last row is %v, want %q in it", name, row, c.last)
			}
		}
		checkXML(t, name, d.Bytes())
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
