package main

import (
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// fibreSum works out a bundle of optical fibres.
func fibreSum(c *common) *cobra.Command {
	var q desk.FibreQuestion
	sum := &cobra.Command{
		Use:   "fibre --lamp size --strand size",
		Short: "Optical fibres: strands before a lamp, lamps for so many points, what to buy",
		Example: `  spruelight reckon fibre --lamp "5 mm" --strand "0.5 mm"
  spruelight reckon fibre --lamp "3 mm" --strand "0.25 mm" --points 90
  spruelight reckon fibre --lamp "3 mm" --strand "0.25 mm" --scale 1/350`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			a, err := desk.Fibre(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.Lamp, "lamp", "", "`diameter` of the lamp")
	f.StringVar(&q.Strand, "strand", "", "`diameter` of a strand")
	f.IntVar(&q.Points, "points", 0, "`number` of points of light, a strand each")
	f.StringVar(&q.Length, "length", "", "`length` of a strand, lamp to point")
	f.StringVar(&q.Scale, "scale", "", "the model's `scale`: how large a point is at full size")
	return sum
}
