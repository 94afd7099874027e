package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"spruelight/gen"
	"spruelight/gen/guide"
	"spruelight/gen/journal"
	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// sitVerb starts today's sitting.
func sitVerb(c *common) *cobra.Command {
	var opts guide.SitOptions
	var photos string
	verb := &cobra.Command{
		Use:   "sit <build>",
		Short: "Start today's sitting, with the photos taken since the last one",
		Long: "Makes today's journal file of a build. With --photos it copies in the photos of a folder that were taken\n" +
			"since the last sitting, by their own dates; the originals stay where and as they are. Nothing is ever overwritten.",
		Example:           "  spruelight sit marram\n  spruelight sit dunnock --photos ~/camera --stage painting\n  spruelight sit marram --name light-test",
		Args:              exactlyOne("a build, like marram"),
		ValidArgsFunction: completeBuilds(c),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.inWorkshop(nil, func(dir string, env gen.Env) error {
				if photos != "" {
					root, err := os.OpenRoot(photos)
					if err != nil {
						return fmt.Errorf("the photos cannot be read: %w", err)
					}
					defer root.Close()
					opts.Photos = root.FS()
				}
				opts.Moment, opts.Wall = env.Moment, env.Wall
				draft, err := guide.Sit(cmd.Context(), env.Content, args[0], opts)
				if err != nil {
					return err
				}
				return c.begin(cmd, dir, draft, opts.Photos)
			})
		},
	}
	verb.Flags().StringVar(&photos, "photos", "", "`folder` with the camera's photos")
	verb.Flags().StringVar(&opts.Stage, "stage", "", "`stage` of the work; else that of the last sitting")
	flagWords(verb, "photos", folders)
	flagWords(verb, "stage", first(func(string) []string { return inShop(c, journal.StageNames) }))
	verb.Flags().StringVar(&opts.Name, "name", "", "`words` to follow the date in the file's name, like light-test")
	return verb
}

// begin copies the photos and writes the journal, in this order: a journal
// never names a photo that is not there.
func (c *common) begin(cmd *cobra.Command, dir string, draft *guide.Draft, photos fs.FS) error {
	file := filepath.Join(dir, filepath.FromSlash(draft.Name))
	output.Tidy(filepath.Dir(file))
	output.Tidy(filepath.Join(filepath.Dir(file), "photos"))
	if _, err := os.Lstat(file); err == nil {
		return fmt.Errorf("%s is there already; go on writing in it, or begin a second one with --name", draft.Name)
	}
	for _, p := range draft.Copies {
		err := output.NewFileFrom(cmd.Context(), filepath.Join(dir, filepath.FromSlash(p.To)), func(w io.Writer) error {
			from, err := photos.Open(p.From)
			if err != nil {
				return err
			}
			defer from.Close()
			_, err = io.Copy(w, from)
			return err
		})
		if err != nil {
			return output.Within(err, "copy the workshop to another drive")
		}
	}
	if err := output.NewFile(cmd.Context(), file, []byte(draft.Text)); err != nil {
		return output.Within(err, "copy the workshop to another drive")
	}
	for _, left := range draft.Left {
		fmt.Fprintf(os.Stderr, "left out: %s\n", left)
	}
	if !c.quiet && photos != nil {
		fmt.Fprintf(os.Stderr, "%s copied", count(len(draft.Copies), "photo"))
		if there := len(draft.Photos) - len(draft.Copies); there > 0 {
			fmt.Fprintf(os.Stderr, ", %d taken up that lay in the build already", there)
		}
		fmt.Fprintln(os.Stderr)
	}
	fmt.Println(draft.Name)
	return nil
}
