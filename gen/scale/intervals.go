package scale

import (
	"fmt"
	"math"

	"spruelight/gen/chart"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Measures of the drawing of intervals, in units.
const (
	barRow    = 40 // from one bar to the next, its words above it
	barTop    = 24 // room for the box's mark
	barLow    = 17 // where lines begin under a bar's words
	barTick   = 5
	axisTicks = 5 // about so many
)

// intervalRow is one bar: the scales that something allows.
type intervalRow struct {
	name  string // as it is drawn, like the text
	text  string
	ratio float64
	span  Interval
	sum   bool // an estimate of several lengths
}

// DrawIntervals draws, for each length and each account, which scales it
// allows, on one axis with the scale on the box. Larger models lie to the left.
func DrawIntervals(j Judgement, id string, width float64, print svg.Printer) *svg.Drawing {
	rows := intervalRows(j, print)
	d := svg.New(id, print.Print(source.Word("Scales that the measured lengths allow")), print.Print(describeIntervals(j, rows)))
	d.Margin = lineupMargin - 1 // the rest is for strokes
	inner := width - 2*lineupMargin
	all := rows[0].span
	for _, r := range rows {
		all = all.Hull(r.span)
	}
	if j.Box.Ratio > 0 {
		all = all.Hull(Interval{j.Box.Ratio, j.Box.Ratio})
	}
	pad := max(all.High-all.Low, 0.02*all.High) * 0.12
	from, to := all.Low-pad, all.High+pad
	x := func(ratio float64) float64 { return (ratio - from) / (to - from) * inner }
	bottom := barTop + float64(len(rows))*barRow
	ticks := drawAxis(d, from, to, bottom, inner, x, print)
	for i, r := range rows {
		y := barTop + float64(i)*barRow
		for _, at := range ticks {
			d.Line(svg.Point{X: at, Y: y + barLow}, svg.Point{X: at, Y: y + barRow}, svg.Style{Stroke: svg.Soft, Dash: svg.Dotted})
		}
		if at := x(j.Box.Ratio); j.Box.Ratio > 0 {
			d.Line(svg.Point{X: at, Y: y + barLow}, svg.Point{X: at, Y: y + barRow}, svg.Style{Stroke: svg.Accent, Width: 2})
		}
		drawInterval(d, r, y, inner, x)
	}
	if j.Box.Ratio > 0 {
		at := x(j.Box.Ratio)
		d.Line(svg.Point{X: at, Y: 16}, svg.Point{X: at, Y: barTop}, svg.Style{Stroke: svg.Accent, Width: 2})
		label := print.Print(source.Say("box %s", j.Box))
		half := svg.TextBox(svg.Point{}, label, svg.TextStyle{Size: wordSize}).W / 2
		d.Text(svg.Point{X: min(max(at, half), inner-half), Y: 10}, label, svg.TextStyle{Size: wordSize, Anchor: svg.Middle, Fill: svg.Accent})
	}
	return d
}

func intervalRows(j Judgement, print svg.Printer) []intervalRow {
	var rows []intervalRow
	for _, b := range j.Believed {
		for _, i := range b.Implied {
			rows = append(rows, intervalRow{name: print.Print(source.Say("%s, by %s", source.Word(i.Name), b.Source)),
				text: print.Print(i.Text()), ratio: i.Ratio, span: i.Span})
		}
		if len(b.Implied) > 1 {
			e := b.Estimate
			rows = append(rows, intervalRow{name: print.Print(source.Say("together, by %s", b.Source)), text: print.Print(e.Text()),
				ratio: e.Ratio, span: e.Span, sum: true})
		}
	}
	return rows
}

// drawAxis draws the axis with its labels and returns where its marks are. No
// line is drawn through words: marks are repeated beside each bar.
func drawAxis(d *svg.Drawing, from, to, y, inner float64, x func(float64) float64, print svg.Printer) (ticks []float64) {
	d.Line(svg.Point{Y: y}, svg.Point{X: inner, Y: y}, svg.Style{Stroke: svg.Soft})
	step := chart.RoundUp((to - from) / axisTicks)
	end := -math.MaxFloat64
	for v := math.Ceil(from/step) * step; v <= to; v += step {
		at := x(v)
		ticks = append(ticks, at)
		d.Line(svg.Point{X: at, Y: y}, svg.Point{X: at, Y: y + barTick}, svg.Style{Stroke: svg.Soft})
		style := svg.TextStyle{Size: wordSize, Anchor: svg.Middle, VAlign: svg.Top, Fill: svg.Soft}
		label := print.Print(source.Say("1/%s", quantity.Amount{Value: v, Digits: 6}))
		box := svg.TextBox(svg.Point{X: at, Y: y + barTick + 1}, label, style)
		if box.X < 0 || box.Right() > inner || box.X < end+4 {
			continue
		}
		d.Text(svg.Point{X: at, Y: y + barTick + 1}, label, style)
		end = box.Right()
	}
	return ticks
}

func drawInterval(d *svg.Drawing, r intervalRow, y, inner float64, x func(float64) float64) {
	name := svg.TextStyle{Size: wordSize}
	if r.sum {
		name.Font = svg.Bold
	}
	value := name
	value.Anchor, value.Fill = svg.End, svg.Soft
	right := svg.TextBox(svg.Point{X: inner, Y: y + 12}, r.text, value)
	shown, _ := svg.Shorten(r.name, right.X-8, wordSize, name.Font)
	d.Text(svg.Point{Y: y + 12}, shown, name)
	d.Text(svg.Point{X: inner, Y: y + 12}, r.text, value)
	middle := y + 25
	bar := svg.Box{X: x(r.span.Low), Y: middle - 3, W: x(r.span.High) - x(r.span.Low), H: 6}
	paint := svg.Style{Fill: svg.Rule, Stroke: svg.Ink}
	if r.sum {
		paint.Fill = svg.Ink
	}
	d.Rect(bar, 0, paint)
	d.Mark(svg.KindMark, r.name, bar)
	if !r.sum {
		d.Line(svg.Point{X: x(r.ratio), Y: middle - 6}, svg.Point{X: x(r.ratio), Y: middle + 6}, svg.Style{Stroke: svg.Ink, Width: 1.5})
	}
}

func describeIntervals(j Judgement, rows []intervalRow) source.Message {
	parts := make([]string, len(rows))
	for i, r := range rows {
		parts[i] = fmt.Sprintf("%s %s", r.name, r.text)
	}
	list := source.List{Of: source.Anys(parts), Sep: "; "}
	if j.Box.Ratio > 0 {
		return source.Say("%s; the box says %s.", list, j.Box)
	}
	return source.Say("%s.", list)
}
