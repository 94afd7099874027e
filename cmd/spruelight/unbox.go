package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"spruelight/gen"
	"spruelight/gen/guide"
	"spruelight/gen/output"
	"spruelight/themes"

	"github.com/spf13/cobra"
)

// unboxVerb starts a build, and in an empty folder a whole workshop.
func unboxVerb(c *common) *cobra.Command {
	var shop guide.NewShop
	var review bool
	languages, looks := guide.Languages(themes.FS), guide.Looks(themes.FS)
	verb := &cobra.Command{
		Use:   "unbox <build>",
		Short: "Start a build; in an empty folder, a whole workshop",
		Long: "Makes builds/<build>/build.md with every key behind a # and an example. In an empty folder it makes a whole " +
			"small workshop, which assembles at once. Nothing is ever overwritten.\n\n" +
			"The name becomes part of addresses: small letters, digits and hyphens. With --review it starts the review of a build that is there.",
		Example: "  spruelight unbox survey-skiff\n  spruelight unbox survey-skiff --review\n  spruelight unbox survey-skiff --workshop ~/bench --language de",
		Args:    exactlyOne("a build, like survey-skiff"),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
			if !review { // the name is new
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return completeBuilds(c)(cmd, args, begun)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case shop.Language != "" && !slices.Contains(languages, shop.Language):
				return misuse("--language %q; it takes %s", shop.Language, strings.Join(languages, ", "))
			case shop.Theme != "" && !slices.Contains(looks, shop.Theme):
				return misuse("--theme %q; it takes %s", shop.Theme, strings.Join(looks, ", "))
			}
			if review {
				return c.unboxReview(cmd.Context(), args[0])
			}
			dir, files, err := c.unbox(args[0], shop)
			if err != nil {
				return err
			}
			return c.writeNew(cmd.Context(), dir, files, fmt.Sprintf("write what is so into builds/%[1]s/build.md, begin a sitting with spruelight sit %[1]s", args[0]))
		},
	}
	verb.Flags().StringVar(&shop.Language, "language", "", "`language` of the pages of a new workshop: "+strings.Join(languages, ", ")+"; else en")
	verb.Flags().StringVar(&shop.Theme, "theme", "", "`theme` of a new workshop: "+strings.Join(looks, ", ")+"; else sheet")
	verb.Flags().BoolVar(&review, "review", false, "start the review of a build's kit instead")
	flagWords(verb, "language", words(languages...))
	flagWords(verb, "theme", words(looks...))
	return verb
}

// unbox finds the workshop, or an empty folder to make one in.
func (c *common) unbox(slug string, shop guide.NewShop) (dir string, files []guide.NewFile, err error) {
	dir, missing := c.folder(nil)
	if missing == nil {
		tidyShop(dir)
		if shop != (guide.NewShop{}) {
			return "", nil, misuse("--language and --theme are for a new workshop; this one has a workshop.yaml, change them there")
		}
		if _, err := os.Lstat(filepath.Join(dir, "builds", slug, "build.md")); err == nil {
			return "", nil, fmt.Errorf("builds/%s is there already; choose another name", slug)
		}
		files, err = guide.UnboxBuild(os.DirFS(dir), slug)
		return dir, files, err
	}
	dir = c.workshop
	if dir == "" {
		dir = "."
	}
	if files, err = guide.UnboxWorkshop(slug, shop); err != nil {
		return "", nil, err
	}
	other, err := guide.Foreign(os.DirFS(dir), files)
	if err != nil && !os.IsNotExist(err) {
		return "", nil, err
	}
	if other != "" {
		return "", nil, fmt.Errorf("%w; to make one, go into an empty folder: %s holds %s", missing, dir, other)
	}
	return dir, files, nil
}

// tidyShop removes what a run that was cut off left in a workshop.
func tidyShop(dir string) {
	output.Tidy(dir, "workshop.yaml")
	for _, sub := range []string{"rack", "wall", "builds"} {
		output.Tidy(filepath.Join(dir, sub))
	}
}

// unboxReview starts the review of a build.
func (c *common) unboxReview(ctx context.Context, slug string) error {
	return c.inWorkshop(nil, func(dir string, env gen.Env) error {
		files, err := guide.UnboxReview(env.Content, slug, env.Moment)
		if err != nil {
			return err
		}
		return c.writeNew(ctx, dir, files, "write the review into "+files[0].Name)
	})
}

// writeNew writes files where none may be, names them, and says what is next.
// The last one appears with its folder, so that none is ever without it; those
// that a run which was cut off has written already stay.
func (c *common) writeNew(ctx context.Context, dir string, files []guide.NewFile, next string) error {
	tidyShop(dir)
	for i, f := range files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		there, err := os.ReadFile(name)
		switch _, missing := os.Lstat(filepath.Dir(name)); {
		case err == nil && string(there) == f.Text && i < len(files)-1:
			continue
		case os.IsNotExist(missing) && i == len(files)-1:
			err = output.Folder(ctx, filepath.Dir(name), func(stage string) error {
				return os.WriteFile(filepath.Join(stage, filepath.Base(name)), []byte(f.Text), 0o666)
			})
		default:
			output.Tidy(filepath.Dir(name), filepath.Base(name))
			err = output.NewFile(ctx, name, []byte(f.Text))
		}
		if err != nil {
			return output.Within(err, "copy the workshop to another drive")
		}
		fmt.Println(f.Name)
	}
	if !c.quiet {
		fmt.Fprintf(os.Stderr, "next: %s, see it with spruelight bench\n", next)
	}
	return nil
}
