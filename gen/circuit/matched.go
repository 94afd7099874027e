package circuit

import "math"

// showsAbove is the ratio of luminous intensity from which two lamps seen side
// by side look unequal. A difference in brightness of 8 % is just noticed
// (Weber fraction; Teghtsoonian, Am. J. Psychol. 84 (1971)), and the brightness
// of a point source goes with the square root of its intensity (Stevens 1975):
// 1.08² = 1.17.
const showsAbove = 1.08 * 1.08

// matchLamps compares the lamps of every group that should look alike. Equal
// lamps give light in proportion to their current; where every lamp of the
// group declares its intensity, intensities are compared instead.
func matchLamps(s *Solution) []MatchedGroup {
	var groups []MatchedGroup
	index := map[string]int{}
	for i, b := range s.Branches {
		if b.Matched == "" {
			continue
		}
		at, ok := index[b.Matched]
		if !ok {
			at = len(groups)
			index[b.Matched] = at
			groups = append(groups, MatchedGroup{Name: b.Matched, Threshold: showsAbove})
		}
		groups[at].Branches = append(groups[at].Branches, i)
	}
	for g := range groups {
		groups[g].compare(s)
	}
	return groups
}

// lightOf is what a lamp is compared by: nominal, and its lowest and highest.
type lightOf struct {
	branch          int
	usual, low, top float64
}

func (g *MatchedGroup) compare(s *Solution) {
	g.ByLight = g.byLight(s)
	var all []lightOf
	for _, i := range g.Branches {
		b := &s.Branches[i]
		mean := float64(b.Control.Mean())
		for _, l := range b.Lamps {
			each := mean
			if g.ByLight {
				each *= float64(l.Bright) / float64(l.Current.Nominal)
			}
			all = append(all, lightOf{i, each * float64(l.Current.Nominal), each * float64(l.Current.Low), each * float64(l.Current.High)})
		}
	}
	g.Ratio, g.Worst = 1, 1
	for _, a := range all {
		for _, b := range all {
			g.Ratio = max(g.Ratio, ratio(a.usual, b.usual))
			if a.branch != b.branch {
				g.Worst = max(g.Worst, ratio(a.top, b.low))
			}
		}
	}
	g.Worst = max(g.Worst, g.Ratio)
	g.Shows = g.Ratio > g.Threshold
}

func (g *MatchedGroup) byLight(s *Solution) bool {
	for _, i := range g.Branches {
		for _, l := range s.Branches[i].Lamps {
			if l.Bright <= 0 || l.Current.Nominal <= 0 {
				return false
			}
		}
	}
	return true
}

func ratio(a, b float64) float64 {
	switch {
	case a == b:
		return 1
	case b <= 0:
		return math.MaxFloat64
	}
	return a / b
}
