package main

import (
	"os"

	"spruelight/gen"
	"spruelight/gen/circuit"
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// ledSum chooses the resistor of a branch.
func ledSum(c *common) *cobra.Command {
	q := desk.LedQuestion{}
	sum := &cobra.Command{
		Use:   "led --supply volts --lamp lamp",
		Short: "Resistor for one lamp or a string, with its neighbours and the worst cases",
		Example: `  spruelight reckon led --supply "5 V" --lamp white
  spruelight reckon led --supply "12 V" --lamp white --count 3 --current "5 mA"
  spruelight reckon led --supply block-9v --lamp amber-3mm --current "3 mA"
  spruelight reckon led --supply "5 V" --forward "2.0 V @ 20 mA" --series E12`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			shop, done, err := c.rackOf()
			if err != nil {
				return err
			}
			defer done()
			a, err := desk.Led(shop, q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Supply, "supply", "", "`volts`, or a supply on the rack")
	f.StringVar(&q.Lamp, "lamp", "", "a `lamp` on the rack, or a colour")
	f.StringArrayVar(&q.Forward, "forward", nil, "a `point` of the lamp's curve, like \"2.0 V @ 20 mA\"; once or more")
	f.IntVar(&q.Count, "count", 1, "`number` of lamps in series")
	f.StringVar(&q.Current, "current", "", "wanted `current`; 5 mA when not given")
	f.StringVar(&q.Resistor, "resistor", "", "a `value` to try instead of the chosen one, or none")
	f.StringVar(&q.Series, "series", "", "`series` of preferred values: E12, E24 or E96")
	f.StringVar(&q.Tolerance, "tolerance", "", "`tolerance` of the resistor, like \"1 %\"")
	flagWords(sum, "supply", c.stock("supplies"))
	flagWords(sum, "lamp", c.stock("lamps", circuit.TypicalColours...))
	flagWords(sum, "series", words("E12", "E24", "E96"))
	return sum
}

// wireSum works out a pair of wires.
func wireSum(c *common) *cobra.Command {
	var q desk.WireQuestion
	sum := &cobra.Command{
		Use:   "wire <size>",
		Short: "Wire: diameter, resistance there and back, what is lost in it",
		Example: `  spruelight reckon wire "34 AWG" --length "180 mm" --current "10 mA"
  spruelight reckon wire "0.2 mm" --length "2 m"`,
		Args: exactlyOne(`a size like "34 AWG" or "0.2 mm"`),
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Size = args[0]
			a, err := desk.Wire(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Length, "length", "", "`length` one way; 1 m when not given")
	f.StringVar(&q.Current, "current", "", "`current` through it")
	f.StringVar(&q.Supply, "supply", "", "`volts` of the supply, to say how much of it is lost")
	f.StringVar(&q.Warmth, "temperature", "", "`temperature` of the copper; 20 °C when not given")
	return sum
}

// cellSum works out how long cells last.
func cellSum(c *common) *cobra.Command {
	var q desk.CellQuestion
	sum := &cobra.Command{
		Use:   "cell <cells> --current current",
		Short: "Cells: how long they give a current, as a range",
		Example: `  spruelight reckon cell LR6 --current "100 mA"
  spruelight reckon cell "2 x 3 LR6" --current "40 mA"
  spruelight reckon cell "power bank" --capacity "10 Ah" --current "60 mA"`,
		Args: exactlyOne(`cells like LR6, "3 LR6" or "power bank"`),
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Cells = args[0]
			a, err := desk.Cell(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Current, "current", "", "`current` that is drawn")
	f.StringVar(&q.Capacity, "capacity", "", "`capacity` as printed, where it is known")
	return sum
}

// flashSum works out light that changes.
func flashSum(c *common) *cobra.Command {
	var q desk.FlashQuestion
	sum := &cobra.Command{
		Use:   "flash",
		Short: "Light that changes: 555 timers, RC and even fades, dimming before a camera",
		Example: `  spruelight reckon flash --rate "1 Hz" --lit "20 %" --capacitor "10 uF"
  spruelight reckon flash --ra 5k --rb 3k --capacitor "0.15 uF"
  spruelight reckon flash --resistor 10k --capacitor "100 uF"
  spruelight reckon flash --fade "4 s"
  spruelight reckon flash --pwm "490 Hz" --camera "1/50 s"`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			a, err := desk.Flash(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Rate, "rate", "", "`rate` at which a 555 timer shall flash")
	f.StringVar(&q.Lit, "lit", "", "`share` of the time the lamp is lit; 50 % when not given")
	f.StringVar(&q.Capacitor, "capacitor", "", "`capacitor` of the timer or the fade")
	f.StringVar(&q.RA, "ra", "", "the timer's `resistor` from plus to discharge")
	f.StringVar(&q.RB, "rb", "", "the timer's `resistor` from discharge to threshold")
	f.StringVar(&q.Series, "series", "", "`series` of preferred values: E12, E24 or E96")
	f.StringVar(&q.Resistor, "resistor", "", "`resistor` of an RC fade")
	f.StringVar(&q.Fade, "fade", "", "`time` from dark to full of an even fade")
	f.StringVar(&q.PWM, "pwm", "", "`frequency` of pulse dimming")
	f.StringVar(&q.Camera, "camera", "", "`exposure` of the camera that films it")
	flagWords(sum, "series", words("E12", "E24", "E96"))
	return sum
}

// netlistSum writes a build's circuits for SPICE.
func netlistSum(c *common) *cobra.Command {
	var out string
	sum := &cobra.Command{
		Use:   "netlist <build>",
		Short: "SPICE netlists of a build's circuits",
		Example: `  spruelight reckon netlist marram --out netlists
  spruelight reckon netlist pumphouse > hall.cir`,
		Args:              exactlyOne("a build, like marram"),
		ValidArgsFunction: c.builds(),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.inWorkshop(nil, func(_ string, env gen.Env) error {
				files, found, err := desk.Netlists(cmd.Context(), env, args[0])
				if err != nil {
					return &usageError{err}
				}
				if found.Stops() {
					printFindings(os.Stderr, found, colourful(os.Stderr))
					return errFindings
				}
				switch {
				case out != "":
					return c.writeFiles(out, files)
				case len(files) > 1:
					return misuse("%s has %d circuits, each a netlist of its own: say where to with --out folder", args[0], len(files))
				}
				_, err = cmd.OutOrStdout().Write(files[0].Bytes)
				return err
			})
		},
	}
	sum.Flags().StringVar(&out, "out", "", "`folder` for the files, one a circuit; a single one is else printed")
	flagWords(sum, "out", folders)
	return sum
}
