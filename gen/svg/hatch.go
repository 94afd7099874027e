package svg

// Hatching is thin and half clear, so that it stays behind what is written.
const (
	hatchWidth   = "0.7"
	hatchOpacity = "0.65"
)

// hatches are the eight hatchings, as engravers and draughtsmen lay them: each
// a square tile with the strokes or dots that it repeats.
var hatches = [Fills]struct {
	tile  float64
	lines string // path data in the tile
	dot   float64
}{
	{tile: 8}, // plain
	{tile: 6, lines: "M-1 1L1 -1M0 6L6 0M5 7L7 5"},
	{tile: 6, dot: 0.9},
	{tile: 5, lines: "M0 2.5H5"},
	{tile: 7, lines: "M0 0L7 7M0 7L7 0"},
	{tile: 5, lines: "M2.5 0V5"},
	{tile: 6, lines: "M-1 5L1 7M0 0L6 6M5 -1L7 1"},
	{tile: 7, lines: "M0 3.5H7M3.5 0V7"},
}

func hatchID(drawing string, n Role) string { return drawing + "-hatch" + string(rune('1'+n)) }

// defs writes the hatches that are used, with fallback colours where the drawing
// stands alone.
func (b *body) defs(w *writer, alone bool) {
	if b.hatches == 0 {
		return
	}
	w.raw("\n<defs>")
	for n := range Role(Fills) {
		if b.hatches&(1<<n) != 0 {
			hatch(w, hatchID(b.id, n), n, alone)
		}
	}
	w.raw("</defs>")
}

func hatch(w *writer, id string, n Role, alone bool) {
	colour := func(name token, value string) {
		if alone {
			w.attr(name, value)
		}
	}
	h, role := hatches[n], roles[Fill1+n]
	w.raw("\n")
	w.open("pattern")
	w.attr("id", id)
	w.num("width", h.tile)
	w.num("height", h.tile)
	w.attr("patternUnits", "userSpaceOnUse")
	w.raw(">")
	w.open("rect")
	w.attr("class", role.fillClass)
	w.num("width", h.tile)
	w.num("height", h.tile)
	colour("fill", role.light)
	w.raw("/>")
	if h.lines != "" {
		w.open("path")
		w.attr("class", roles[Soft].strokeClass)
		w.attr("d", h.lines)
		colour("stroke", roles[Soft].light)
		w.attr("stroke-width", hatchWidth)
		w.attr("stroke-opacity", hatchOpacity)
		w.raw("/>")
	}
	if h.dot > 0 {
		w.open("circle")
		w.attr("class", roles[Soft].fillClass)
		w.point("cx", "cy", Point{h.tile / 2, h.tile / 2})
		w.num("r", h.dot)
		colour("fill", roles[Soft].light)
		w.attr("fill-opacity", hatchOpacity)
		w.raw("/>")
	}
	w.close("pattern")
}
