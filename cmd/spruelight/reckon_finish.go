package main

import (
	"io/fs"
	"os"

	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// rackOf opens the workshop for a sum that may need it; nil where there is none.
func (c *common) rackOf() (fs.FS, func(), error) {
	dir, err := c.folder(nil)
	if err != nil {
		if c.workshop != "" {
			return nil, nil, err
		}
		return nil, func() {}, nil
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, err
	}
	return root.FS(), func() { root.Close() }, nil
}

// mixSum works out a mix of paints.
func mixSum(c *common) *cobra.Command {
	var q desk.MixQuestion
	sum := &cobra.Command{
		Use:   "mix <ratio or recorded mix>",
		Short: "Mixes: volumes and drops for a cup",
		Example: `  spruelight reckon mix 1:1.5 --cup "8 ml"
  spruelight reckon mix 2:1:3 --cup "12 ml" --names paint,retarder,thinner
  spruelight reckon mix "bleached deck" --build marram --cup "3 ml"`,
		Args: exactlyOne("a ratio like 1:1.5, or the name of a recorded mix with --build"),
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Mix = args[0]
			shop, done, err := c.rackOf()
			if err != nil {
				return err
			}
			defer done()
			if q.Build != "" && shop == nil {
				return misuse("--build needs a workshop: go into one, or name it by --workshop")
			}
			a, err := desk.Mix(shop, q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Cup, "cup", "", "`volume` wanted, like \"12 ml\"")
	f.StringVar(&q.Drop, "drop", "", "`volume` of one drop of yours, like \"40 ul\"")
	f.StringVar(&q.Build, "build", "", "the `build` that recorded the mix")
	f.StringSliceVar(&q.Names, "names", nil, "`names` of the parts, in the order of the ratio")
	flagWords(sum, "build", c.builds())
	return sum
}

// colourSum compares colours.
func colourSum(c *common) *cobra.Command {
	var q desk.ColourQuestion
	sum := &cobra.Command{
		Use:   "colour <colour> [colour …]",
		Short: "Colours: whether a difference will show, lightening for scale, a lamp through clear paint",
		Example: `  spruelight reckon colour "#8a9095" "#80868b"
  spruelight reckon colour hull-grey boot-topping
  spruelight reckon colour "#8a9095" --scale 1/48
  spruelight reckon colour "#ffb46b" --through "#b9d8c8" --coats 2`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misuse(`give a colour in quotes, like "#8a9095", or a paint on the rack`)
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Colours = args
			shop, done, err := c.rackOf()
			if err != nil {
				return err
			}
			defer done()
			a, err := desk.Colour(shop, q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Scale, "scale", "", "lighten for this `scale`, by each rule of the trade")
	f.StringVar(&q.Through, "through", "", "a clear `colour`: what the first colour, a lamp's, looks like through it")
	f.IntVar(&q.Coats, "coats", 1, "`number` of clear coats")
	sum.ValidArgsFunction = c.stock("paints")
	flagWords(sum, "through", c.stock("paints"))
	return sum
}

// densitySum works out how much light coats hold back.
func densitySum(c *common) *cobra.Command {
	var q desk.DensityQuestion
	sum := &cobra.Command{
		Use:   "density <bare> <after coat 1> [after coat 2 …]",
		Short: "Light blocking: density of each coat from a lux meter, and coats still wanted",
		Example: `  spruelight reckon density "1850 lx" "2.1 lx" "0.9 lx" --step "0.1 lx"
  spruelight reckon density "2000 lx" "40 lx" --wanted 4`,
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Readings = args
			a, err := desk.Density(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Dark, "dark", "", "`reading` with the lamp off")
	f.StringVar(&q.Step, "step", "", "smallest `step` of the meter; 1 lx when not given")
	f.StringVar(&q.Wanted, "wanted", "", "wanted optical `density`; 3 when not given")
	return sum
}
