package main

import (
	"context"
	"os"

	"spruelight/gen"
	"spruelight/gen/desk"
	"spruelight/gen/output"
	"spruelight/gen/source"

	"github.com/spf13/cobra"
)

// ofBuild makes the verb of a sum that looks at a build.
func ofBuild(c *common, use, short, examples string, do func(cmd *cobra.Command, env gen.Env, build string) error) *cobra.Command {
	return &cobra.Command{
		Use:               use,
		Short:             short,
		Example:           examples,
		Args:              exactlyOne("a build, like marram"),
		ValidArgsFunction: completeBuilds(c),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.inWorkshop(nil, func(_ string, env gen.Env) error { return do(cmd, env, args[0]) })
		},
	}
}

// maker makes files of a build, and returns the findings that stop it.
type maker func(ctx context.Context, env gen.Env, build string) ([]output.File, source.Findings, error)

// filesOf makes files of a build, unless findings stop it.
func filesOf(cmd *cobra.Command, env gen.Env, build string, produce maker) ([]output.File, error) {
	files, found, err := produce(cmd.Context(), env, build)
	if err != nil {
		return nil, &usageError{err}
	}
	if found.Stops() {
		printFindings(os.Stderr, found, colourful(os.Stderr))
		return nil, errFindings
	}
	return files, nil
}

// diagramSum draws a build's circuits and their loom.
func diagramSum(c *common) *cobra.Command {
	var out string
	verb := ofBuild(c, "diagram <build>", "Circuit diagrams and the loom of a build, as drawings",
		"  spruelight reckon diagram marram --out drawings",
		func(cmd *cobra.Command, env gen.Env, build string) error {
			if out == "" {
				return misuse("say where the drawings go with --out folder")
			}
			files, err := filesOf(cmd, env, build, desk.Diagrams)
			if err != nil {
				return err
			}
			return c.writeFiles(cmd.Context(), out, files)
		})
	text(&out, "out", "`folder` for the drawings", folders)(verb)
	return verb
}

// netlistSum writes a build's circuits for SPICE.
func netlistSum(c *common) *cobra.Command {
	var out string
	verb := ofBuild(c, "netlist <build>", "SPICE netlists of a build's circuits", `  spruelight reckon netlist marram --out netlists
  spruelight reckon netlist pumphouse > hall.cir`,
		func(cmd *cobra.Command, env gen.Env, build string) error {
			files, err := filesOf(cmd, env, build, desk.Netlists)
			switch {
			case err != nil:
				return err
			case out != "":
				return c.writeFiles(cmd.Context(), out, files)
			case len(files) > 1:
				return misuse("%s has %d circuits, each a netlist of its own: say where to with --out folder", build, len(files))
			}
			_, err = cmd.OutOrStdout().Write(files[0].Bytes)
			return err
		})
	text(&out, "out", "`folder` for the files, one a circuit; a single one is else printed", folders)(verb)
	return verb
}

// commissionSum works out a build's commission.
func commissionSum(c *common) *cobra.Command {
	verb := ofBuild(c, "commission <build>", "What work for a client is quoted at, and what an hour of it really brought",
		"  spruelight reckon commission lanternhouse",
		func(cmd *cobra.Command, env gen.Env, build string) error {
			a, found, err := desk.Commission(cmd.Context(), env, build)
			if err != nil {
				return err
			}
			printFindings(os.Stderr, found, colourful(os.Stderr))
			if found.Stops() || len(a.Says) == 0 {
				return errFindings
			}
			return answer(c, cmd.OutOrStdout(), a)
		})
	verb.Long = "Works out the commission written in a build's build.md. These figures are kept off the site\n" +
		"unless the build says publish: yes; here they are shown to the keeper of the bench."
	verb.Args = exactlyOne("a build, like lanternhouse")
	return verb
}
