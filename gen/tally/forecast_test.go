package tally

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"spruelight/gen/quantity"
)

func TestQuartilesAgainstPublishedSets(t *testing.T) {
	for _, c := range []struct {
		source string
		values []float64
		want   Quartiles
	}{
		{"R-help 2012-01-13, Quantile calculations in R: summary() of six values", []float64{1, 12, 14, 3, 96, 111}, Quartiles{5.25, 13, 75.5}},
		{"DolphinDB manual, function quantile (linear)", []float64{6, 47, 49, 15, 42, 41, 7, 39, 43, 40, 36}, Quartiles{25.5, 40, 42.5}},
		{"by hand: three values, positions 1.5, 2 and 2.5", []float64{10, 20, 40}, Quartiles{15, 20, 30}},
		{"one value is its own quartiles", []float64{7}, Quartiles{7, 7, 7}},
	} {
		if got := QuartilesOf(c.values); got != c.want {
			t.Errorf("%s: got %v, want %v", c.source, got, c.want)
		}
	}
	if got := QuartilesOf(nil); !math.IsNaN(got.Median) {
		t.Errorf("no values: got %v", got)
	}
}

// finished makes a finished build's sum from hours by stage.
func finished(slug string, parts int, assembly, painting quantity.Hours) Sum {
	return Sum{Slug: slug, Name: slug, State: Shelf, Parts: parts, Hours: assembly + painting,
		ByStage: []Slice{{Name: "assembly", Hours: assembly, Sittings: 1}, {Name: "painting", Hours: painting, Sittings: 1}}}
}

// Three finished builds, worked by hand:
//
//	         parts  assembly  painting  total
//	tower      50      10        10       20
//	skiff     100      20        20       40
//	barge     200      40        60      100
//	now       100      15         0       15
//
// Plain leave-one-out: tower from median(40, 100) = 70, off 50 = 250 %; skiff
// from median(20, 100) = 60, off 20 = 50 %; barge from 30, off 70 = 70 %; mean
// 123.3 %, 46.67 h. Scaled by parts: tower from median(40/2, 100/4) = 22.5,
// off 2.5 = 12.5 %; skiff from median(40, 50) = 45, off 5 = 12.5 %; barge from
// median(80, 80) = 80, off 20 = 20 %; mean 15 %, 27.5/3 = 9.17 h. So: scaled.
//
// Scaled to 100 parts: assembly 20, 20, 20; painting 20, 20, 30. Left: assembly
// 5, 5, 5; painting 20, 20, 30; together 25, 25, 35: quartiles 25, 25, 30.
func TestForecastOfThreeFinishedBuildsByHand(t *testing.T) {
	past := []Sum{finished("tower", 50, 10, 10), finished("skiff", 100, 20, 20), finished("barge", 200, 40, 60)}
	sittings := []Sitting{
		{Date: day("2026-02-01"), Hours: hours("9 h"), Stage: val("assembly")},
		{Date: day("2026-02-14"), Hours: hours("6 h"), Stage: val("assembly")},
	}
	now := Totals(Build{Slug: "now", State: Bench, Kit: Kit{Parts: val(100)}, Sittings: sittings}, nil)
	f := Outlook(now, sittings, past, []string{"assembly", "painting"}, nil, day("2026-02-14"))
	near := func(name string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
	near("plain error", float64(f.ErrorPlain), (2.5+0.5+0.7)/3)
	near("scaled error", float64(f.ErrorScaled), 0.15)
	near("error in hours", float64(f.Error), 27.5/3)
	near("left", float64(f.Left.Median), 25)
	near("lower quartile", float64(f.Left.Low), 25)
	near("upper quartile", float64(f.Left.High), 30)
	near("assembly left", float64(f.ByStage[0].Left.Median), 5)
	near("painting left", float64(f.ByStage[1].Left.Median), 20)
	near("painting, upper quartile", float64(f.ByStage[1].Left.High), 25)
	// 15 h in the 14 days of 1 to 14 February: 7 h 30 min a week; 25 h take 23.3 days.
	near("pace", float64(f.Pace.PerWeek), 7.5)
	if want := day("2026-03-10"); f.Finish != want {
		t.Errorf("finish: got %v, want %v", f.Finish, want)
	}
	if want := day("2026-03-14"); f.FinishLate != want { // 30 h take 28 days
		t.Errorf("late finish: got %v, want %v", f.FinishLate, want)
	}
	want := "About 25 h left (half of the finished builds say 25 h to 30 h). At the present pace of 7 h 30 min a week: around 10 March 2026. " +
		"Forecasting each of the 3 finished builds from the others was off by 9 h on average, 15 % of its hours (hours scaled by parts count)."
	if got := f.Says().String(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestForecastLeavesOutWhatItCannotTrust(t *testing.T) {
	past := []Sum{finished("tower", 50, 10, 10), finished("skiff", 100, 20, 20), {Slug: "lost log", Name: "lost log", Hours: 30, Unhoured: 2}}
	f := Outlook(Sum{Slug: "now"}, nil, past, nil, nil, day("2026-02-14"))
	if !f.TooFew || f.Finished != 2 || len(f.WithoutPlace) != 1 {
		t.Fatalf("got %+v", f)
	}
	if want := "Too few finished builds for a forecast: 2 builds with hours written down, 3 are needed. Left out, since hours are missing: lost log."; f.Says().String() != want {
		t.Errorf("got %s", f.Says())
	}
}

func TestForecastWithoutPartsOrPace(t *testing.T) {
	past := []Sum{finished("a", 0, 10, 10), finished("b", 100, 20, 20), finished("c", 200, 40, 60)}
	f := Outlook(Sum{Slug: "now", Parts: 100}, nil, past, nil, []string{"assembly"}, day("2026-02-14"))
	if f.Scaled || !strings.Contains(f.Says().String(), "a parts count is missing") || !strings.Contains(f.Says().String(), "no date") {
		t.Errorf("got %s", f.Says())
	}
	if f.ByStage[0].Left != (Span{}) || f.Left.Median != 20 { // painting alone: 10, 20, 60
		t.Errorf("a stage that is done still counts: %+v", f)
	}
}

func TestPace(t *testing.T) {
	at := func(on, h string) Sitting { return Sitting{Date: day(on), Hours: hours(h)} }
	for _, c := range []struct {
		name     string
		sittings []Sitting
		perWeek  float64
		count    int
	}{
		{"six weeks, older ones left out", []Sitting{at("2025-12-01", "20 h"), at("2026-01-04", "6 h"), at("2026-02-14", "6 h")}, 2, 2},
		{"begun two weeks ago", []Sitting{at("2026-02-01", "8 h"), at("2026-02-10", "6 h")}, 7, 2},
		{"begun today: a week is the least", []Sitting{at("2026-02-14", "5 h")}, 5, 1},
		{"a sitting yet to come", []Sitting{at("2026-02-20", "5 h")}, 0, 0},
		{"the first day of the window", []Sitting{at("2025-12-01", "1 h"), at("2026-01-04", "6 h")}, 1, 1},
		{"the day before it", []Sitting{at("2025-12-01", "1 h"), at("2026-01-03", "6 h")}, 0, 0},
	} {
		p := PaceOf(c.sittings, day("2026-02-14"))
		if math.Abs(float64(p.PerWeek)-c.perWeek) > 1e-9 || p.Sittings != c.count {
			t.Errorf("%s: got %v h a week from %d sittings, want %v from %d", c.name, float64(p.PerWeek), p.Sittings, c.perWeek, c.count)
		}
	}
}

// Leaving one out by its place among the sorted others gives what sorting the
// others anew for each build does.
func TestLeaveOneOutAgainstItsDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 200 {
		past := make([]Sum, 3+r.IntN(12))
		for i := range past {
			past[i] = finished("b", 1+r.IntN(9), quantity.Hours(1+r.IntN(8)), quantity.Hours(r.IntN(3)))
		}
		for _, scale := range []bool{false, true} {
			share, off := 0.0, 0.0
			for i := range past {
				var others []float64
				for j := range past {
					if j != i {
						others = append(others, float64(past[j].Hours)*ratio(&past[i], &past[j], scale))
					}
				}
				x := math.Abs(QuartilesOf(others).Median - float64(past[i].Hours))
				share, off = share+x/float64(past[i].Hours), off+x
			}
			n := float64(len(past))
			gotShare, gotOff := leaveOneOut(past, scale)
			if math.Abs(float64(gotShare)-share/n) > 1e-9 || math.Abs(float64(gotOff)-off/n) > 1e-9 {
				t.Fatalf("%v scaled %v: %v, %v; by the definition %v, %v", past, scale, gotShare, gotOff, share/n, off/n)
			}
		}
	}
}
