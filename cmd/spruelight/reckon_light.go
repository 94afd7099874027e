package main

import (
	"io/fs"

	"spruelight/gen/circuit"
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// ledSum chooses the resistor of a branch.
func ledSum(c *common) *cobra.Command {
	q := desk.LedQuestion{Count: 1}
	return sumVerb(c, sum{
		use:   "led --supply volts --lamp lamp",
		short: "Resistor for one lamp or a string, with its neighbours and the worst cases",
		examples: `  spruelight reckon led --supply "5 V" --lamp white
  spruelight reckon led --supply "12 V" --lamp white --count 3 --current "5 mA"
  spruelight reckon led --supply block-9v --lamp amber-3mm --current "3 mA"
  spruelight reckon led --supply "5 V" --forward "2.0 V @ 20 mA" --series E12`,
		args: none,
		flags: []option{
			text(&q.Supply, "supply", "`volts`, or a supply on the rack", completeStock(c, "supplies")),
			text(&q.Lamp, "lamp", "a `lamp` on the rack, or a colour", completeStock(c, "lamps", circuit.TypicalColours...)),
			texts(&q.Forward, "forward", "a `point` of the lamp's curve, like \"2.0 V @ 20 mA\"; once or more"),
			number(&q.Count, "count", "`number` of lamps in series"),
			text(&q.Current, "current", "wanted `current`; 5 mA when not given"),
			text(&q.Resistor, "resistor", "a `value` to try instead of the chosen one, or none"),
			text(&q.Series, "series", "`series` of preferred values: E12, E24 or E96", words("E12", "E24", "E96")),
			text(&q.Tolerance, "tolerance", "`tolerance` of the resistor, like \"1 %\""),
		},
		rack:     true,
		question: func(shop fs.FS, _ []string) (desk.Answer, error) { return desk.Led(shop, q) },
	})
}

// wireSum works out a pair of wires.
func wireSum(c *common) *cobra.Command {
	var q desk.WireQuestion
	return sumVerb(c, sum{
		use:   "wire <size>",
		short: "Wire: diameter, resistance there and back, what is lost in it",
		examples: `  spruelight reckon wire "34 AWG" --length "180 mm" --current "10 mA"
  spruelight reckon wire "0.2 mm" --length "2 m"`,
		args: exactlyOne(`a size like "34 AWG" or "0.2 mm"`),
		flags: []option{
			text(&q.Length, "length", "`length` one way; 1 m when not given"),
			text(&q.Current, "current", "`current` through it"),
			text(&q.Supply, "supply", "`volts` of the supply, to say how much of it is lost"),
			text(&q.Warmth, "temperature", "`temperature` of the copper; 20 °C when not given"),
		},
		question: func(_ fs.FS, args []string) (desk.Answer, error) {
			q.Size = args[0]
			return desk.Wire(q)
		},
	})
}

// cellSum works out how long cells last.
func cellSum(c *common) *cobra.Command {
	var q desk.CellQuestion
	return sumVerb(c, sum{
		use:   "cell <cells> --current current",
		short: "Cells: how long they give a current, as a range",
		examples: `  spruelight reckon cell LR6 --current "100 mA"
  spruelight reckon cell "2 x 3 LR6" --current "40 mA"
  spruelight reckon cell "power bank" --capacity "10 Ah" --current "60 mA"`,
		args: exactlyOne(`cells like LR6, "3 LR6" or "power bank"`),
		flags: []option{
			text(&q.Current, "current", "`current` that is drawn"),
			text(&q.Capacity, "capacity", "`capacity` as printed, where it is known"),
		},
		question: func(_ fs.FS, args []string) (desk.Answer, error) {
			q.Cells = args[0]
			return desk.Cell(q)
		},
	})
}

// flashSum works out light that changes.
func flashSum(c *common) *cobra.Command {
	var q desk.FlashQuestion
	return sumVerb(c, sum{
		use:   "flash",
		short: "Light that changes: 555 timers, RC and even fades, dimming before a camera",
		examples: `  spruelight reckon flash --rate "1 Hz" --lit "20 %" --capacitor "10 uF"
  spruelight reckon flash --ra 5k --rb 3k --capacitor "0.15 uF"
  spruelight reckon flash --resistor 10k --capacitor "100 uF"
  spruelight reckon flash --fade "4 s"
  spruelight reckon flash --pwm "490 Hz" --camera "1/50 s"`,
		args: none,
		flags: []option{
			text(&q.Rate, "rate", "`rate` at which a 555 timer shall flash"),
			text(&q.Lit, "lit", "`share` of the time the lamp is lit; 50 % when not given"),
			text(&q.Capacitor, "capacitor", "`capacitor` of the timer or the fade"),
			text(&q.RA, "ra", "the timer's `resistor` from plus to discharge"),
			text(&q.RB, "rb", "the timer's `resistor` from discharge to threshold"),
			text(&q.Series, "series", "`series` of preferred values: E12, E24 or E96", words("E12", "E24", "E96")),
			text(&q.Resistor, "resistor", "`resistor` of an RC fade"),
			text(&q.Fade, "fade", "`time` from dark to full of an even fade"),
			text(&q.PWM, "pwm", "`frequency` of pulse dimming"),
			text(&q.Camera, "camera", "`exposure` of the camera that films it"),
		},
		question: func(fs.FS, []string) (desk.Answer, error) { return desk.Flash(q) },
	})
}

// fibreSum works out a bundle of optical fibres.
func fibreSum(c *common) *cobra.Command {
	var q desk.FibreQuestion
	return sumVerb(c, sum{
		use:   "fibre --lamp size --strand size",
		short: "Optical fibres: strands before a lamp, lamps for so many points, what to buy",
		examples: `  spruelight reckon fibre --lamp "5 mm" --strand "0.5 mm"
  spruelight reckon fibre --lamp "3 mm" --strand "0.25 mm" --points 90
  spruelight reckon fibre --lamp "3 mm" --strand "0.25 mm" --scale 1/350`,
		args: none,
		flags: []option{
			text(&q.Lamp, "lamp", "`diameter` of the lamp"),
			text(&q.Strand, "strand", "`diameter` of a strand"),
			number(&q.Points, "points", "`number` of points of light, a strand each"),
			text(&q.Length, "length", "`length` of a strand, lamp to point"),
			text(&q.Scale, "scale", "the model's `scale`: how large a point is at full size"),
		},
		question: func(fs.FS, []string) (desk.Answer, error) { return desk.Fibre(q) },
	})
}
