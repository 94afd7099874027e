package scale

import (
	"fmt"
	"testing"

	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// A shelf of two hundred models, each with an outline of six hundred steps, in
// both widths: what the line-up page costs in a full workshop.
func BenchmarkLineup(b *testing.B) {
	var outline svg.Path
	outline.MoveTo(0, 0)
	for i := range 600 {
		outline.LineTo(float64(i), float64(i*i%97))
	}
	outline.Close()
	pieces := make([]Piece, 200)
	for i := range pieces {
		pieces[i] = Piece{ID: fmt.Sprint("piece-", i), Name: fmt.Sprintf("A model with the number %d", i),
			Says: source.Word("1/72, measures 1/71.9 ± 0.3"), Model: Size{Length: mm(float64(40 + i))}, Ratio: 72, Outline: outline}
	}
	for _, width := range []float64{1080, 304} {
		b.Run(fmt.Sprint("width-", width), func(b *testing.B) {
			for b.Loop() {
				DrawLineup(pieces, LineupOptions{ID: "a", Title: "Line-up", Width: width, Rows: 34}).Drawing.File()
			}
		})
	}
}
