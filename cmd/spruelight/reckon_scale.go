package main

import (
	"io/fs"

	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// scaleSum does the sums of scale.
func scaleSum(c *common) *cobra.Command {
	var q desk.ScaleQuestion
	return sumVerb(c, sum{
		use:   "scale [scale]",
		short: "Scales: what a length is at one, which one a model truly is, what stands beside it",
		examples: `  spruelight reckon scale 1/48
  spruelight reckon scale 1/48 --real "9.4 m"
  spruelight reckon scale 1/48 --model "3 mm"
  spruelight reckon scale 1/48 --model "204 mm ± 0.5 mm" --real "9.4 m"
  spruelight reckon scale 1/35 --figure "56 mm"
  spruelight reckon scale 1/72 --to 1/48
  spruelight reckon scale --beside 1/46.1 --real "9.2 m"`,
		args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misuse("one scale at a time; put one with spaces into quotes")
			}
			return nil
		},
		flags: []option{
			text(&q.To, "to", "another `scale`: how to enlarge, and by how much models differ"),
			text(&q.Beside, "beside", "the `scale` of a model that a subject of --real length is to stand beside"),
			texts(&q.Reals, "real", "a real `length`; with as many --model they are pairs"),
			texts(&q.Models, "model", "a `length` of the model, with its limits where known"),
			text(&q.Figure, "figure", "`height` of a standing figure, sole to crown"),
			text(&q.Seated, "seated", "`height` of a seated figure, seat to crown"),
		},
		question: func(_ fs.FS, args []string) (desk.Answer, error) {
			if len(args) > 0 {
				q.Scale = args[0]
			}
			return desk.Scale(q)
		},
	})
}
