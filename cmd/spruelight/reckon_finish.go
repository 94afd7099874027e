package main

import (
	"io/fs"

	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// mixSum works out a mix of paints.
func mixSum(c *common) *cobra.Command {
	var q desk.MixQuestion
	return sumVerb(c, sum{
		use:   "mix <ratio or recorded mix>",
		short: "Mixes: volumes and drops for a cup",
		examples: `  spruelight reckon mix 1:1.5 --cup "8 ml"
  spruelight reckon mix 2:1:3 --cup "12 ml" --names paint,retarder,thinner
  spruelight reckon mix "bleached deck" --build marram --cup "3 ml"`,
		args: exactlyOne("a ratio like 1:1.5, or the name of a recorded mix with --build"),
		flags: []option{
			text(&q.Cup, "cup", "`volume` wanted, like \"12 ml\""),
			text(&q.Drop, "drop", "`volume` of one drop of yours, like \"40 ul\""),
			text(&q.Build, "build", "the `build` that recorded the mix", completeBuilds(c)),
			func(verb *cobra.Command) {
				verb.Flags().StringSliceVar(&q.Names, "names", nil, "`names` of the parts, in the order of the ratio")
			},
		},
		rack: true,
		question: func(shop fs.FS, args []string) (desk.Answer, error) {
			if q.Build != "" && shop == nil {
				return desk.Answer{}, misuse("--build needs a workshop: go into one, or name it by --workshop")
			}
			q.Mix = args[0]
			return desk.Mix(shop, q)
		},
	})
}

// colourSum compares colours.
func colourSum(c *common) *cobra.Command {
	q := desk.ColourQuestion{Coats: 1}
	return sumVerb(c, sum{
		use:   "colour <colour> [colour …]",
		short: "Colours: whether a difference will show, lightening for scale, a lamp through clear paint",
		examples: `  spruelight reckon colour "#8a9095" "#80868b"
  spruelight reckon colour hull-grey boot-topping
  spruelight reckon colour "#8a9095" --scale 1/48
  spruelight reckon colour "#ffb46b" --through "#b9d8c8" --coats 2`,
		args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misuse(`give a colour in quotes, like "#8a9095", or a paint on the rack`)
			}
			return nil
		},
		complete: completeStock(c, "paints"),
		flags: []option{
			text(&q.Scale, "scale", "lighten for this `scale`, by each rule of the trade"),
			text(&q.Through, "through", "a clear `colour`: what the first colour, a lamp's, looks like through it", completeStock(c, "paints")),
			number(&q.Coats, "coats", "`number` of clear coats"),
		},
		rack: true,
		question: func(shop fs.FS, args []string) (desk.Answer, error) {
			q.Colours = args
			return desk.Colour(shop, q)
		},
	})
}

// densitySum works out how much light coats hold back.
func densitySum(c *common) *cobra.Command {
	var q desk.DensityQuestion
	return sumVerb(c, sum{
		use:   "density <bare> <after coat 1> [after coat 2 …]",
		short: "Light blocking: density of each coat from a lux meter, and coats still wanted",
		examples: `  spruelight reckon density "1850 lx" "2.1 lx" "0.9 lx" --step "0.1 lx"
  spruelight reckon density "2000 lx" "40 lx" --wanted 4`,
		flags: []option{
			text(&q.Dark, "dark", "`reading` with the lamp off"),
			text(&q.Step, "step", "smallest `step` of the meter; 1 lx when not given"),
			text(&q.Wanted, "wanted", "wanted optical `density`; 3 when not given"),
		},
		question: func(_ fs.FS, args []string) (desk.Answer, error) {
			q.Readings = args
			return desk.Density(q)
		},
	})
}
