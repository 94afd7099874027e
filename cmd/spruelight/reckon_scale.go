package main

import (
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// scaleSum does the sums of scale.
func scaleSum(c *common) *cobra.Command {
	var q desk.ScaleQuestion
	sum := &cobra.Command{
		Use:   "scale [scale]",
		Short: "Scales: what a length is at one, which one a model truly is, what stands beside it",
		Example: `  spruelight reckon scale 1/48
  spruelight reckon scale 1/48 --real "9.4 m"
  spruelight reckon scale 1/48 --model "3 mm"
  spruelight reckon scale 1/48 --model "204 mm ± 0.5 mm" --real "9.4 m"
  spruelight reckon scale 1/35 --figure "56 mm"
  spruelight reckon scale 1/72 --to 1/48
  spruelight reckon scale --beside 1/46.1 --real "9.2 m"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misuse("one scale at a time; put one with spaces into quotes")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				q.Scale = args[0]
			}
			a, err := desk.Scale(q)
			if err != nil {
				return &usageError{err}
			}
			return c.answer(cmd.OutOrStdout(), a)
		},
	}
	f := sum.Flags()
	f.StringVar(&q.To, "to", "", "another `scale`: how to enlarge, and by how much models differ")
	f.StringVar(&q.Beside, "beside", "", "the `scale` of a model that a subject of --real length is to stand beside")
	f.StringArrayVar(&q.Reals, "real", nil, "a real `length`; with as many --model they are pairs")
	f.StringArrayVar(&q.Models, "model", nil, "a `length` of the model, with its limits where known")
	f.StringVar(&q.Figure, "figure", "", "`height` of a standing figure, sole to crown")
	f.StringVar(&q.Seated, "seated", "", "`height` of a seated figure, seat to crown")
	return sum
}
