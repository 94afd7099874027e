package paint

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

var update = flag.Bool("update", false, "rewrite the golden drawings")

func tickLabel(t time.Time, u chart.Unit) string {
	if u == chart.Hour {
		return t.Format("15:04")
	}
	return t.Format("2 Jan")
}

// drawn are two faces of one shell: coats laid, planned, unplanned, decals.
func drawn() Result {
	inside := with(area("hull inside", Styrene), func(a *Area) { encloses("D1", "D2")(a); a.OtherFace = word("hull outside") })
	inside.Planned = plan(coat("black", LightBlocking), coat("silver", LightBlocking), coat("white", LightBlocking))
	inside.Laid = []Laid{lay("black", NoPurpose, on(14, 19, 30)), lay("black", NoPurpose, on(14, 20, 40)), lay("silver", NoPurpose, on(15, 10, 0))}
	for i := range inside.Laid {
		inside.Laid[i].For = source.Value[Purpose]{}
	}
	outside := with(area("hull outside", Styrene), treated(Straightened, Washed, Sanded, Washed))
	outside.Planned = plan(coat("grey-primer", Primer), coat("hull-grey", Base), coat("lacquer-gloss", Gloss), coat("decals", Decals), coat("gloss-clear", Seal))
	outside.Laid = []Laid{lay("grey-primer", Primer, on(14, 21, 0)), lay("hull-grey", Base, on(15, 9, 30)), lay("panel-grey", PanelTone, on(15, 11, 30))}
	outside.OtherFace = word("hull inside")
	return Check(&Build{Moment: on(15, 12, 0), Paints: rack(), Areas: []Area{inside, outside}})
}

func TestDrawings(t *testing.T) {
	r := drawn()
	timeline, _ := Timeline(chart.Frame{ID: "curing", Title: "Curing clock", Desc: "When each coat may be recoated and masked"}, r.Areas, r.Moment, tickLabel, nil)
	narrow, _ := Timeline(chart.Frame{ID: "curing-narrow", Title: "Curing clock", Width: 320}, r.Areas, r.Moment, tickLabel, nil)
	empty := check(area("keel", Styrene))
	for name, d := range map[string]*svg.Drawing{
		"section-inside":  Section("inside", &r.Areas[0], nil, nil),
		"section-both":    Section("both", &r.Areas[1], &r.Areas[0], nil),
		"section-bare":    Section("bare", &empty.Areas[0], nil, nil),
		"timeline":        timeline,
		"timeline-narrow": narrow,
	} {
		golden(t, filepath.Join("testdata", name+".svg"), d.File())
		wellFormed(t, name, d.File())
		apart(t, name, d)
	}
}

func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; look at the drawing and run the test with -update", file)
	}
}

func wellFormed(t *testing.T, name string, file []byte) {
	t.Helper()
	for d := xml.NewDecoder(bytes.NewReader(file)); ; {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
	}
}

// apart fails where two texts overlap.
func apart(t *testing.T, name string, d *svg.Drawing) {
	t.Helper()
	var texts []svg.Labelled
	for _, b := range d.Boxes() {
		if b.Kind == svg.KindText {
			texts = append(texts, b)
		}
	}
	for i, a := range texts {
		for _, b := range texts[i+1:] {
			if a.Box.Inset(1.5).Overlaps(b.Box.Inset(1.5)) {
				t.Errorf("%s: %q and %q overlap", name, a.Name, b.Name)
			}
		}
	}
}

// The section is read back: its words from top to bottom name the outside, the
// coats from the outermost inward, the plastic and the lamp side.
func TestSectionReadsFromOutsideToLamp(t *testing.T) {
	r := drawn()
	var got []string
	for _, b := range Section("both", &r.Areas[1], &r.Areas[0], nil).Boxes() {
		if b.Kind == svg.KindText && !strings.Contains(b.Name, "·") && len(b.Name) > 1 && !strings.HasPrefix(b.Name, "not to scale") {
			got = append(got, b.Name)
		}
	}
	want := "outside, gloss-clear, decals, lacquer-gloss, panel-grey, hull-grey, grey-primer, styrene, straightened in hot water, washed, sanded, washed, black, silver, white, lamp side: D1 and D2"
	if strings.ReplaceAll(strings.Join(got, ", "), ",,", ",") != want {
		t.Errorf("%s\nwant\n%s", strings.Join(got, ", "), want)
	}
}

// Names and notes of any length stay inside the drawing and apart.
func TestSectionWithLongNames(t *testing.T) {
	a := area(strings.Repeat("a very long area name ", 8), Printed)
	a.Planned = plan(Coat{Paint: word(strings.Repeat("weathered-hull-grey-", 10)), For: w(Base, "base")}, Coat{Paint: word("<b>&\"'")}, Coat{Paint: word("塗料の名前")})
	for i := range 20 {
		a.Encloses = append(a.Encloses, word("D"+strings.Repeat("1", i+1)))
	}
	r := check(a)
	d := Section("long", &r.Areas[0], nil, nil)
	apart(t, "long", d)
	wellFormed(t, "long", d.File())
	if width, _ := d.Size(); width > 400 {
		t.Errorf("%v wide", width)
	}
}

// The table under the timeline says every window in words.
func TestTimelineTable(t *testing.T) {
	r := drawn()
	_, table := Timeline(chart.Frame{ID: "t"}, r.Areas, r.Moment, tickLabel, nil)
	text := ""
	for _, row := range table.Rows {
		text += strings.Join(row, " | ") + "\n"
	}
	for _, want := range []string{"hull-grey, hull outside, 15 Feb 09:30 | mask | Mon 16 Feb 2026 09:30 | \n", "wet, assumed | Sun 15 Feb 2026 10:00 | Sun 15 Feb 2026 10:30"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
}

// A coat that has cured is off the timeline; when all have, it says so.
func TestTimelineShowsWhatIsStillDrying(t *testing.T) {
	r := drawn()
	_, table := Timeline(chart.Frame{ID: "t"}, r.Areas, on(17, 12, 0), tickLabel, nil)
	for _, row := range table.Rows {
		if strings.HasPrefix(row[0], "hull-grey") {
			t.Errorf("%q has cured", row)
		}
	}
	d, _ := Timeline(chart.Frame{ID: "t"}, r.Areas, on(27, 12, 0), tickLabel, nil)
	if !bytes.Contains(d.File(), []byte("nothing is drying")) {
		t.Error("an empty timeline says nothing")
	}
}
