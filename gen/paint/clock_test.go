package paint

import (
	"bufio"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// sheetLine is one line of testdata/datasheets.txt.
type sheetLine struct {
	product, where              string
	family                      Family
	celsius                     quantity.Celsius
	touch, recoat, until, again source.Value[quantity.Hours]
}

func sheetLines(t *testing.T) []sheetLine {
	t.Helper()
	file, err := os.Open("testdata/datasheets.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var out []sheetLine
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		cells := strings.Split(lines.Text(), "|")
		if len(cells) != 8 {
			t.Fatalf("%d cells in %q", len(cells), lines.Text())
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		family, found := ReadFamily(word(cells[1]))
		celsius, err := strconv.ParseFloat(cells[2], 64)
		if len(found) > 0 || err != nil {
			t.Fatalf("%q: %v, %v", lines.Text(), found, err)
		}
		out = append(out, sheetLine{product: cells[0], family: family.V, celsius: quantity.Celsius(celsius), where: cells[7],
			touch: readHours(t, cells[3]), recoat: readHours(t, cells[4]), until: readHours(t, cells[5]), again: readHours(t, cells[6])})
	}
	return out
}

func readHours(t *testing.T, text string) source.Value[quantity.Hours] {
	t.Helper()
	if text == "-" {
		return source.Value[quantity.Hours]{}
	}
	var h quantity.Hours
	if err := h.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return hours(h)
}

func (l *sheetLine) paint() *Paint {
	p := &Paint{Name: word(l.product), Family: w(l.family, l.family.String()), Warmth: w(l.celsius, l.celsius.String()), Source: word(l.where)}
	p.TouchDry, p.Recoat, p.RecoatUntil, p.RecoatAgain = l.touch, l.recoat, l.until, l.again
	return p
}

func laidAt(when time.Time, c source.Value[quantity.Celsius]) *Laid {
	return &Laid{Coat: coat("x", Base), When: when, Temperature: c}
}

var noRoom source.Value[quantity.Celsius]

// At its own temperature a data sheet's times come out as they are printed.
func TestClockKeepsDataSheetTimes(t *testing.T) {
	products := map[string]bool{}
	for _, l := range sheetLines(t) {
		products[l.product] = true
		at := on(1, 12, 0)
		c := Clock(laidAt(at, w(l.celsius, "")), l.paint(), noRoom)
		if found := l.paint().CheckTimes(); len(found) > 0 {
			t.Errorf("%s: %v", l.product, found)
		}
		for _, x := range []struct {
			what string
			got  Ready
			want source.Value[quantity.Hours]
		}{{"touch dry", c.Ready[Touch], l.touch}, {"recoat", c.Ready[Recoat], l.recoat}, {"until", c.Until, l.until}, {"again", c.Again, l.again}} {
			if x.got.Known != x.want.Set {
				t.Errorf("%s, %s: known is %v", l.product, x.what, x.got.Known)
			}
			if want := at.Add(time.Duration(x.want.V.Minutes()) * time.Minute); x.got.Known && (!x.got.From.Equal(want) || x.got.Assumed || x.got.Source.String() != l.where) {
				t.Errorf("%s, %s: %v by %q, want %v", l.product, x.what, x.got.From, x.got.Source, want)
			}
		}
	}
	if len(products) < 4 {
		t.Errorf("%d products", len(products))
	}
}

// The times that the temperature rule predicts from a sheet's first line are
// never shorter than what the same sheet prints for another temperature, and
// in the cold not more than a third longer.
func TestTemperatureRuleIsSafeByTheSheets(t *testing.T) {
	first := map[string]sheetLine{}
	cold, warm := 0, 0
	for _, l := range sheetLines(t) {
		base, ok := first[l.product]
		if !ok {
			first[l.product] = l
			continue
		}
		c := Clock(laidAt(on(1, 0, 0), w(l.celsius, "")), base.paint(), noRoom)
		for _, x := range []struct {
			what string
			got  Ready
			want source.Value[quantity.Hours]
		}{{"touch dry", c.Ready[Touch], l.touch}, {"recoat", c.Ready[Recoat], l.recoat}, {"again", c.Again, l.again}} {
			if !x.got.Known || !x.want.Set {
				continue
			}
			ratio := float64(x.got.Wait / x.want.V)
			if ratio < 1 {
				t.Errorf("%s, %s at %s: %s is shorter than the sheet's %s", l.product, x.what, l.celsius, x.got.Wait, x.want.V)
			}
			if l.celsius < base.celsius {
				cold++
				if ratio > 1.34 {
					t.Errorf("%s, %s at %s: %s against %s", l.product, x.what, l.celsius, x.got.Wait, x.want.V)
				}
			} else {
				warm++
			}
		}
	}
	if cold < 4 || warm < 4 {
		t.Errorf("%d cold and %d warm times compared", cold, warm)
	}
}

// Ten degrees less take twice the time (Hempel, Explanatory notes to product
// data sheets); warmth and an unwritten temperature change nothing.
func TestColdSlows(t *testing.T) {
	p := &Paint{Name: word("x"), Family: w(Lacquer, "lacquer"), Warmth: w[quantity.Celsius](20, "20 °C")}
	p.Recoat = hours(3)
	for _, c := range []struct {
		at   source.Value[quantity.Celsius]
		want quantity.Hours
	}{{w[quantity.Celsius](10, ""), 6}, {w[quantity.Celsius](0, ""), 12}, {w[quantity.Celsius](20, ""), 3}, {w[quantity.Celsius](30, ""), 3}, {noRoom, 3}} {
		if got := Clock(laidAt(on(1, 12, 0), c.at), p, noRoom).Ready[Recoat].Wait; got != c.want {
			t.Errorf("at %v: %s, want %s", c.at.V, got, c.want)
		}
	}
	byRoom := Clock(laidAt(on(1, 12, 0), noRoom), p, w[quantity.Celsius](10, "10 °C"))
	bySitting := Clock(laidAt(on(1, 12, 0), w[quantity.Celsius](20, "")), p, w[quantity.Celsius](10, "10 °C"))
	if byRoom.Ready[Recoat].Wait != 6 || bySitting.Ready[Recoat].Wait != 3 {
		t.Errorf("the room gives %s, the sitting's own temperature %s", byRoom.Ready[Recoat].Wait, bySitting.Ready[Recoat].Wait)
	}
	if !strings.Contains(byRoom.Slowed.Source, "Hempel") || byRoom.Ready[Recoat].Working.String() != "3 h × 2" {
		t.Errorf("working %q, source %q", byRoom.Ready[Recoat].Working, byRoom.Slowed.Source)
	}
}

// "under 2 h or after 8 h" (a recoat window with a gap, as sheets give them).
func TestRecoatWindowWithGap(t *testing.T) {
	p := &Paint{Name: word("x"), Family: w(Lacquer, "lacquer")}
	p.TouchDry, p.RecoatUntil, p.RecoatAgain = hours(0.25), hours(2), hours(8)
	c := Clock(laidAt(on(1, 12, 0), noRoom), p, noRoom)
	for _, x := range []struct {
		minutes int
		want    Recoatable
	}{{0, TooSoon}, {14, TooSoon}, {15, RecoatNow}, {120, RecoatNow}, {121, InGap}, {479, InGap}, {480, RecoatNow}, {6000, RecoatNow}} {
		if got := c.Recoat(on(1, 12, x.minutes)); got != x.want {
			t.Errorf("after %d min: %d, want %d", x.minutes, got, x.want)
		}
	}
	p.RecoatAgain = source.Value[quantity.Hours]{}
	if got := Clock(laidAt(on(1, 12, 0), noRoom), p, noRoom); got.Recoat(on(1, 15, 0)) != TooLate {
		t.Errorf("a single window that closed gives %d", got.Recoat(on(1, 15, 0)))
	}
}

func TestOwnTimesOverrideTheSheet(t *testing.T) {
	p := rack()[4]
	p.Measured.MaskAfter = hours(36)
	if m := p.Waits().Of[Mask]; m.Hours != 36 || m.Source.String() != "measured by the builder" || m.Assumed {
		t.Errorf("%+v", m)
	}
	if m := p.Waits().Of[Handle]; !m.Assumed || !strings.Contains(m.Source.String(), practice) {
		t.Errorf("an assumed time says so: %+v", m)
	}
}

// A two-pack without its data sheet has no times, and says so.
func TestTwoPackHasNoUsualTimes(t *testing.T) {
	p := &Paint{Name: word("x"), Family: w(TwoPack, "two-pack")}
	for s, wait := range p.Waits().Of {
		if wait.Known {
			t.Errorf("%s: %+v", Stage(s), wait)
		}
	}
	c := Clock(laidAt(on(1, 12, 0), noRoom), p, noRoom)
	for _, a := range Advise([]Curing{c}, on(20, 0, 0)) {
		if a.Known || a.Now || a.Because != "x" {
			t.Errorf("%s: %+v", a.Stage, a)
		}
	}
}

// An assumed time never comes before a written earlier one.
func TestAssumedTimesFollowWrittenOnes(t *testing.T) {
	p := &Paint{Name: word("slow"), Family: w(Lacquer, "lacquer")}
	p.TouchDry = hours(30)
	for s, wait := range p.Waits().Of {
		if wait.Hours < 30 {
			t.Errorf("%s after %s", Stage(s), wait.Hours)
		}
	}
}

// A day is 24 hours of drying, whatever the clock on the wall does: the night
// of 29 March 2026 has 23 hours in Berlin (EU directive 2000/84/EC).
func TestClockKeepsHoursOverSummerTime(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skipf("outside check left out: no time zone data: %v", err)
	}
	p := rack()[4]
	c := Clock(laidAt(time.Date(2026, 3, 28, 20, 0, 0, 0, berlin), noRoom), &p, noRoom)
	if got := quantity.Moment(c.Ready[Mask].From).String(); got != "Sun 29 Mar 2026 21:00" {
		t.Errorf("24 h after Sat 28 Mar 20:00: %s", got)
	}
}

func TestAdviceAndAgenda(t *testing.T) {
	a := area("hull", Styrene)
	a.Laid = []Laid{lay("grey-primer", Primer, on(1, 10, 0)), lay("hull-grey", Base, on(1, 12, 0))}
	r := Check(&Build{Moment: on(1, 12, 30), Paints: rack(), Areas: []Area{a}})
	want := map[Stage]string{Handle: "13:00", Recoat: "13:00", Other: "14:00", Mask: "Mon 12:00", Apply: "Mon 12:00", Soak: "Mon 12:00", Cured: "Mon 12:00"}
	for _, x := range r.Areas[0].Now {
		layout := "15:04"
		if x.From.Day() != 1 {
			layout = "Mon 15:04"
		}
		if x.Now || x.From.Format(layout) != want[x.Stage] || x.Because != "hull-grey" {
			t.Errorf("%s: %+v, want from %s", x.Stage, x, want[x.Stage])
		}
	}
	var agenda []string
	for _, d := range r.Agenda {
		agenda = append(agenda, fmt.Sprintf("%s %v", d.When.Format("Mon 15:04"), d.Stages))
	}
	if got := strings.Join(agenda, "; "); got != "Sun 13:00 [handle recoat]; Sun 14:00 [another family over]; Mon 12:00 [mask decals wash cured]" {
		t.Errorf("agenda %s", got)
	}
	later := Check(&Build{Moment: on(3, 0, 0), Paints: rack(), Areas: []Area{a}})
	for _, x := range later.Areas[0].Now {
		if !x.Now {
			t.Errorf("two days later: %s waits until %s", x.Stage, quantity.Moment(x.From).String())
		}
	}
	before := Check(&Build{Moment: on(1, 11, 0), Paints: rack(), Areas: []Area{a}})
	if n := len(before.Areas[0].Curings); n != 1 {
		t.Errorf("at 11:00 only the primer lies on the hull, not %d coats", n)
	}
	find(t, before.Findings, "coat-after-the-moment")
}

// The next planned coat waits for what its own kind needs: the recoat time of
// its family, another family's, a wash's, or decals'.
func TestNextCoat(t *testing.T) {
	for _, c := range []struct {
		over    Coat
		want    string
		unknown bool
	}{
		{coat("panel-grey", PanelTone), "Sun 13:00", false},
		{coat("gloss-clear", Gloss), "Sun 14:00", false},
		{coat("umber", Wash), "Mon 12:00", false},
		{coat("decals", Decals), "Mon 12:00", false},
		{coat("nobody knows", Base), "", true},
	} {
		a := area("hull", Styrene)
		a.Planned = plan(coat("hull-grey", Base), c.over)
		a.Laid = []Laid{lay("hull-grey", Base, on(1, 12, 0))}
		n := Check(&Build{Moment: on(1, 12, 10), Paints: rack(), Areas: []Area{a}}).Areas[0].Next
		switch {
		case n == nil || n.Known == c.unknown || n.Row.Name != c.over.Paint.V:
			t.Errorf("%s: %+v", c.over.Paint.V, n)
		case !c.unknown && (n.Now || n.From.Format("Mon 15:04") != c.want):
			t.Errorf("%s from %s, want %s", c.over.Paint.V, n.From.Format("Mon 15:04"), c.want)
		}
	}
	bare := area("hull", Styrene)
	bare.Planned = plan(coat("grey-primer", Primer))
	if n := check(bare).Areas[0].Next; n == nil || !n.Now {
		t.Errorf("on bare plastic: %+v", n)
	}
	if n := check(done(bare, days3, coat("grey-primer", Primer))).Areas[0].Next; n != nil {
		t.Errorf("everything is laid: %+v", n)
	}
}
