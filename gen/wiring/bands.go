package wiring

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Bands draws a resistor with its colour rings, each named in words below it
// with what it means. The tolerance ring stands apart, so that it is seen from
// which end to read. The error says why a value has no rings.
func Bands(id string, r quantity.Ohms, tolerance quantity.Share, print svg.Printer) (*svg.Drawing, error) {
	rings, err := r.Bands(tolerance)
	if err != nil {
		return nil, err
	}
	d := svg.New(id, print.Print(source.Say("Resistor %s", joined(ohmsText(r), shareText(tolerance)))),
		print.Print(source.Say("Colour rings from the left: %s.", source.Row(ringNames(rings)))))
	d.Class, d.Margin = "rings", 4
	const pitch, height, top = 46.0, 30.0, 4.0
	width := pitch*float64(len(rings)) + 26
	middle := top + height/2
	body := svg.Box{X: 26, Y: top, W: width - 4, H: height}
	d.Line(svg.Point{Y: middle}, svg.Point{X: body.X, Y: middle}, svg.Style{Stroke: svg.Soft, Width: 2.5})
	d.Line(svg.Point{X: body.Right(), Y: middle}, svg.Point{X: body.Right() + 26, Y: middle}, svg.Style{Stroke: svg.Soft, Width: 2.5})
	d.Rect(body, 9, svg.Style{Stroke: svg.Ink, Width: bodyWidth, Fill: resistorBody})
	for i, ring := range rings {
		x := body.X + pitch*(float64(i)+0.5)
		if i == len(rings)-1 {
			x += 18
		}
		d.Rect(svg.Box{X: x - 6, Y: top, W: 12, H: height}, 0, svg.Style{Stroke: svg.Ink, Width: 0.6, Fill: svg.MustHex(ring.Hex)})
		at := svg.Point{X: x, Y: top + height + 12}
		d.Text(at, print.Print(source.Word(ring.Colour)), svg.TextStyle{Size: wordSize, Anchor: svg.Middle, VAlign: svg.Centre})
		means := svg.TextStyle{Size: wordSize, Anchor: svg.Middle, VAlign: svg.Centre, Fill: svg.Soft}
		d.Text(at.Add(0, lineStep+1), print.Print(source.Word(ring.Means)), means)
	}
	return d, nil
}

// resistorBody is the lacquer of a carbon film resistor.
var resistorBody = svg.RGB(0xe4, 0xcf, 0xa6)

// ringNames names colour rings in the order of reading.
func ringNames(rings []quantity.Band) []source.Message {
	names := make([]source.Message, len(rings))
	for i, b := range rings {
		names[i] = source.Word(b.Colour)
	}
	return names
}
