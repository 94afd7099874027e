package scale

import (
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

func cabinet(t testing.TB, name, width, depth, height, holds string, shelves int) Cabinet {
	c := Cabinet{Name: source.Written(name, source.NewFile("workshop.yaml", name).At(0, len(name))), Width: written[quantity.Metres](t, width),
		Depth: written[quantity.Metres](t, depth), Height: written[quantity.Metres](t, height)}
	if holds != "" {
		c.Holds = written[quantity.Kilograms](t, holds)
	}
	if shelves > 0 {
		c.Shelves = source.Value[int]{V: shelves, Set: true}
	}
	return c
}

func exhibit(name string, length, width, height, weight float64) Exhibit {
	return Exhibit{ID: name, Name: name, At: source.NewFile("build.md", name).At(0, 1), Size: Size{mm(length), mm(width), mm(height)},
		Weight: quantity.Kilograms(weight)}
}

// A shelf 400 × 200 × 300 mm, air of 20 mm around and 30 mm above: a model may
// be 360 × 160 × 270 mm and not a millimetre more.
func TestFitsToTheMillimetre(t *testing.T) {
	c := cabinet(t, "glass case", "400 mm", "200 mm", "300 mm", "3 kg", 0)
	for _, k := range []struct {
		name                 string
		l, w, h, weight      float64
		fits, turned         bool
		why                  string
		beside, behind, over float64
	}{
		{"just", 360, 160, 270, 3, true, false, "", 40, 40, 30},
		{"a millimetre too long", 361, 160, 270, 3, false, false, "too long by 1 mm", 39, 40, 30},
		{"a millimetre too deep", 360, 161, 270, 3, false, false, "too deep by 1 mm", 40, 39, 30},
		{"a millimetre too high", 360, 160, 271, 3, false, false, "too high by 1 mm", 40, 40, 29},
		{"too heavy", 360, 160, 270, 3.1, false, false, "too heavy by 100 g", 40, 40, 30},
		{"only turned", 150, 340, 100, 1, true, true, "", 60, 50, 200},
	} {
		f := FitOn(exhibit(k.name, k.l, k.w, k.h, k.weight), c, UsualClearance)
		same := func(got quantity.Metres, want float64) bool { return math.Abs(got.Millimetres()-want) < 1e-6 }
		if f.Fits != k.fits || f.Turned != k.turned || f.Why.String() != k.why || !same(f.Beside, k.beside) || !same(f.Behind, k.behind) ||
			!same(f.Over, k.over) {
			t.Errorf("%s: %+v", k.name, f)
		}
	}
}

// Worked by hand: width 600 with 20 mm of air. 300 + 200 take 20+300+20+200+20 =
// 560; 180 more does not fit, 20 would. The second shelf takes the 180; the
// giant fits nowhere; the stone is too heavy for what the first shelf still
// holds and goes to the second.
func TestArrange(t *testing.T) {
	shelves := []Cabinet{cabinet(t, "case", "600 mm", "250 mm", "300 mm", "5 kg", 2)}
	plan := Arrange([]Exhibit{exhibit("small", 20, 20, 20, 0.1), exhibit("b", 200, 100, 100, 2), exhibit("a", 300, 100, 100, 2.8),
		exhibit("c", 180, 100, 100, 0),
		exhibit("giant", 700, 300, 500, 1), exhibit("stone", 15, 15, 15, 1), exhibit("unmeasured", 0, 0, 100, 1)}, shelves, UsualClearance)
	var got []string
	for _, s := range plan.Shelves {
		for _, p := range s.Places {
			got = append(got, s.Name().String()+": "+p.Name+" at "+quantity.About(p.X).String())
		}
	}
	want := []string{"case, shelf 1: a at 20 mm", "case, shelf 1: b at 340 mm", "case, shelf 1: small at 560 mm",
		"case, shelf 2: c at 20 mm", "case, shelf 2: stone at 220 mm"}
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("got  %v\nwant %v", got, want)
	}
	if names := rules(plan.Findings); names != "cabinet-too-small cabinet-weight-unknown" {
		t.Errorf("findings %s", names)
	}
	if len(plan.Left) != 2 || plan.Left[0].Why.String() != "too long by 140 mm for case" || plan.Left[1].Name != "unmeasured" {
		t.Errorf("left %+v", plan.Left)
	}
	if text := plan.Shelves[0].LoadText().String(); text != "4.9 kg of 5 kg" {
		t.Error(text)
	}
}

// Whatever is arranged: models keep their air to walls, to one another and to
// the shelf above, no shelf carries more than it holds, and none is lost.
func TestArrangeKeepsClear(t *testing.T) {
	random := newRandom(7)
	for range 300 {
		var exhibits []Exhibit
		for i := range 1 + random.Intn(12) {
			e := exhibit(string(rune('a'+i)), 10+400*random.Float64(), 10+400*random.Float64(), 10+300*random.Float64(), 2*random.Float64())
			exhibits = append(exhibits, e)
		}
		cabinets := []Cabinet{cabinet(t, "one", "500 mm", "300 mm", "250 mm", "3 kg", 2), cabinet(t, "two", "800 mm", "420 mm", "400 mm", "", 0)}
		plan := Arrange(exhibits, cabinets, UsualClearance)
		placed := len(plan.Left)
		for _, s := range plan.Shelves {
			end, load := quantity.Metres(0), quantity.Kilograms(0)
			for _, p := range s.Places {
				placed++
				load += p.Weight
				if p.X-end < 0.020-eps || p.Y < 0.020-eps || p.Y+p.Into > s.Cabinet.Depth.V-0.020+eps || p.Size.Height > s.Cabinet.Height.V-0.030+eps {
					t.Fatalf("%s: %s stands too near", s.Name(), p.Name)
				}
				end = p.X + p.Across
			}
			if end > s.Cabinet.Width.V-0.020+eps || s.Cabinet.Holds.Set && load > s.Cabinet.Holds.V {
				t.Fatalf("%s is overfull", s.Name())
			}
		}
		if placed != len(exhibits) {
			t.Fatalf("%d of %d accounted for", placed, len(exhibits))
		}
	}
}

// The shelf plan read back: footprints and fronts are the millimetres times one factor.
func TestShelfPlanIsTrueToSize(t *testing.T) {
	c := cabinet(t, "case", "600 mm", "250 mm", "300 mm", "", 0)
	exhibits := []Exhibit{exhibit("a", 300, 100, 120, 1), exhibit("b", 90, 200, 60, 1), exhibit("c", 12, 10, 40, 1)}
	plan := Arrange(exhibits, []Cabinet{c}, UsualClearance)
	d := DrawShelf(plan.Shelves[0], "plan", 616, nil)
	const factor = 1000.0 // 616 less two margins of 8, for 0.6 m
	front, above := map[string]group{}, map[string]group{}
	decoder := xml.NewDecoder(strings.NewReader(string(d.File())))
	var parent xml.StartElement
	for {
		token, err := decoder.Token()
		if err != nil {
			break
		}
		if e, ok := token.(xml.StartElement); ok {
			if g, ok := extent(t, e); ok && attr(parent, "data-front") != "" && front[attr(parent, "data-front")].across == 0 {
				front[attr(parent, "data-front")] = g
			} else if ok && attr(parent, "data-plan") != "" {
				above[attr(parent, "data-plan")] = g
			}
			parent = e
		}
	}
	for _, e := range exhibits {
		l, w, h := float64(e.Size.Length)*factor, float64(e.Size.Width)*factor, float64(e.Size.Height)*factor
		f, a := front[e.ID], above[e.ID]
		if math.Abs(f.across-l) > 0.02 || math.Abs(f.up-h) > 0.02 || math.Abs(a.across-l) > 0.02 || math.Abs(a.up-w) > 0.02 ||
			math.Abs(f.left-a.left) > 0.02 {
			t.Errorf("%s: front %+v, plan %+v, want %v × %v × %v", e.ID, f, a, l, w, h)
		}
	}
	for i, a := range d.Boxes() {
		for _, b := range d.Boxes()[:i] {
			if a.Box.Overlaps(b.Box) {
				t.Errorf("%q overlaps %q", a.Name, b.Name)
			}
		}
	}
}
