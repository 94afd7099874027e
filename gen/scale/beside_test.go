package scale

import (
	"fmt"
	"testing"
)

// One model's neighbours are those nearest in ratio, each pair is the one that
// the whole table has, and the model itself is none of them.
func TestBeside(t *testing.T) {
	var members []Member
	for i := range 30 {
		ratio := 20 + float64(i)*5
		members = append(members, Member{ID: fmt.Sprint(i), Name: fmt.Sprint("model ", i), Estimates: []Estimate{{Ratio: ratio,
			Span: Interval{ratio * 0.98, ratio * 1.02}}}})
	}
	table := map[[2]string]Answer{}
	for _, p := range Pairs(members) {
		table[[2]string{p.A.ID, p.B.ID}], table[[2]string{p.B.ID, p.A.ID}] = p.Share, p.Share
	}
	own := members[10]
	near := Beside(own, members, 4)
	got := map[string]bool{}
	for _, p := range near {
		got[p.B.ID] = true
		if p.A.ID != own.ID || p.B.ID == own.ID || table[[2]string{p.A.ID, p.B.ID}] != p.Share {
			t.Errorf("%+v is not the table's pair", p)
		}
	}
	for _, id := range []string{"8", "9", "11", "12"} {
		if !got[id] {
			t.Errorf("model %s is missing among the nearest: %v", id, got)
		}
	}
	if all := Beside(own, members, 100); len(all) != len(members)-1 {
		t.Errorf("%d pairs of %d models", len(all), len(members))
	}
}
