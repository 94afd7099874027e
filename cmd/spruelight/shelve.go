package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"spruelight/gen/bag"
	"spruelight/gen/output"
	"spruelight/gen/shelving"
	"spruelight/themes"

	"github.com/spf13/cobra"
)

// shelveFlags are the flags of shelve.
type shelveFlags struct {
	shelving.Options
	out, date, photos string
	with              string
	check, restore    bool
	withTheme         bool
	catalogue         bool
}

// shelveVerb archives a finished build, and checks, restores and lists archives.
func shelveVerb(c *common) *cobra.Command {
	f := &shelveFlags{}
	verb := &cobra.Command{
		Use:   "shelve <build>",
		Short: "Archive a finished build; check, restore or list archives",
		Long: "Puts a finished build into one archive that outlives its site: pages that open from disk, the journals and " +
			"the stock they use, the photos without location and serial numbers, netlists and the repair sheet, with checksums " +
			"(a BagIt bag, RFC 8493). Nothing is ever overwritten, and an archive appears whole or not at all.",
		Example: "  spruelight shelve cairnhead\n  spruelight shelve cairnhead --out archive/cairnhead.zip\n  spruelight shelve --check archive/cairnhead.zip\n" +
			"  spruelight shelve --restore archive/cairnhead.zip ~/bench\n  spruelight shelve --catalogue archive",
		ValidArgsFunction: f.complete(c),
		RunE:              func(cmd *cobra.Command, args []string) error { return f.run(cmd, c, args) },
	}
	flags := verb.Flags()
	flags.StringVar(&f.out, "out", "", "`folder` or file.zip for the archive, else <build>-archive here; the catalogue's folder, else catalogue among the bags")
	flags.StringVar(&f.photos, "photos", "originals", "`which` go in: originals, or renditions to leave the originals out")
	flags.BoolVar(&f.KeepLocation, "keep-location", false, "keep what photos say of where they were taken")
	flags.BoolVar(&f.KeepCamera, "keep-camera", false, "keep serial numbers and the camera owner's name in the photos")
	flags.BoolVar(&f.Anyway, "anyway", false, "also a build that is not finished or has findings of severity stop; the archive says so")
	flags.StringVar(&f.with, "with", "", "`embargoed` puts in what is under embargo; the archive says so")
	flags.StringVar(&f.date, "date", "", "`none` leaves the date out, so that the same build gives the same bytes on every day")
	flags.BoolVar(&f.check, "check", false, "verify an archive instead: shelve --check BAG")
	flags.BoolVar(&f.restore, "restore", false, "bring a build back instead: shelve --restore BAG WORKSHOP")
	flags.BoolVar(&f.withTheme, "with-theme", false,
		"restore the workshop's own theme too, from an archive that you trust: it becomes part of the site")
	flags.BoolVar(&f.catalogue, "catalogue", false, "write a contents page over archives instead: shelve --catalogue FOLDER")
	flagWords(verb, "photos", words("originals", "renditions"))
	flagWords(verb, "date", words("none"))
	flagWords(verb, "with", words("embargoed"))
	return verb
}

// complete completes a build, or the bag or folder that another use wants.
func (f *shelveFlags) complete(c *common) completer {
	return func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		switch {
		case f.catalogue, f.restore && len(args) == 1:
			return folders(cmd, args, begun)
		case f.check, f.restore:
			return nil, cobra.ShellCompDirectiveDefault // a file or a folder
		}
		return completeBuilds(c)(cmd, args, begun)
	}
}

// uses counts how many of the uses beside shelving are asked for.
func (f *shelveFlags) uses() (n int) {
	for _, use := range []bool{f.check, f.restore, f.catalogue} {
		if use {
			n++
		}
	}
	return n
}

func (f *shelveFlags) run(cmd *cobra.Command, c *common, args []string) error {
	want, what := 1, "a build, like marram"
	switch {
	case f.check:
		what = "a bag: a folder or zip file"
	case f.restore:
		want, what = 2, "a bag, and the workshop's folder"
	case f.catalogue:
		what = "a folder with bags in it"
	}
	switch {
	case f.uses() > 1:
		return misuse("do one thing at a time: --check, --restore or --catalogue")
	case len(args) != want:
		return misuse("name %s", what)
	case f.photos != "originals" && f.photos != "renditions":
		return misuse("--photos %q; it takes originals or renditions", f.photos)
	case f.date != "" && f.date != "none":
		return misuse("--date %q; it takes none, and --at sets the day", f.date)
	case f.with != "" && f.with != "embargoed":
		return misuse("--with %q; it takes embargoed", f.with)
	case f.check:
		return checkBag(cmd, c, args[0])
	case f.restore:
		return restoreBag(cmd, c, args[0], args[1], f.withTheme)
	case f.catalogue:
		return f.list(cmd, c, args[0])
	}
	f.Renditions, f.Undated, f.Embargoed = f.photos == "renditions", f.date == "none", f.with == "embargoed"
	return f.shelve(cmd, c, args[0])
}

// shelve writes the archive of a build.
func (f *shelveFlags) shelve(cmd *cobra.Command, c *common, slug string) error {
	if f.out == "" {
		f.out = slug + "-archive"
	}
	if err := output.Free(f.out); errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already, and is not touched; name another by --out", f.out)
	} else if err != nil {
		return err
	}
	dir, err := c.folder(nil)
	if err != nil {
		return err
	}
	env, done, err := c.env(dir, newProgress(c).report)
	if err != nil {
		return err
	}
	defer done()
	a, err := shelving.Shelve(cmd.Context(), env, slug, f.Options)
	if err != nil {
		return err
	}
	if !c.json {
		printFindings(os.Stderr, a.Findings, colourful(os.Stderr))
	}
	if a.Findings.Stops() {
		fmt.Fprintln(os.Stderr, "nothing is shelved; put these right, or shelve it as it is with --anyway")
		return errFindings
	}
	if err := a.Write(cmd.Context(), f.out); err != nil {
		return err
	}
	return printShelved(c, a, f.out)
}

func printShelved(c *common, a *shelving.Archive, out string) error {
	if c.json {
		return json.NewEncoder(os.Stdout).Encode(map[string]any{"bag": out, "files": len(a.Items), "bytes": a.Bytes(), "lacks": a.Lacks,
			"left": a.Left, "cleaned": a.Cleaned, "embargoed": a.Held, "findings": a.Findings})
	}
	if c.quiet {
		return nil
	}
	for _, l := range a.Left {
		fmt.Fprintf(os.Stderr, "left out: %s\n", l)
	}
	for _, l := range a.Held {
		fmt.Fprintf(os.Stderr, "under embargo and in the archive: %s\n", l)
	}
	for _, l := range a.Cleaned {
		fmt.Fprintf(os.Stderr, "cleaned %s\n", l)
	}
	for _, l := range a.Lacks {
		fmt.Fprintf(os.Stderr, "never written down: %s\n", l)
	}
	fmt.Fprintf(os.Stderr, "%d files, %.1f MB\n", len(a.Items), float64(a.Bytes())/1e6)
	fmt.Println(out)
	return nil
}

// checkBag verifies an archive.
func checkBag(cmd *cobra.Command, c *common, name string) error {
	rep, err := bag.Check(cmd.Context(), name)
	if err != nil {
		return err
	}
	return printReport(c, name, rep)
}

// printReport prints what is wrong with a bag, and fails where something is.
func printReport(c *common, name string, rep bag.Report) error {
	if c.json {
		if err := json.NewEncoder(os.Stdout).Encode(rep); err != nil {
			return err
		}
	} else {
		for _, f := range rep.Faults {
			fmt.Fprintf(os.Stderr, "%s: %s\n", f.Kind, f)
		}
		for _, f := range rep.Advice {
			fmt.Fprintf(os.Stderr, "advice: %s\n", f)
		}
	}
	if !rep.Valid {
		if !c.json {
			state := "not complete"
			if rep.Complete {
				state = "complete, but changed"
			}
			fmt.Fprintf(os.Stderr, "%s: %s, %d faults\n", name, state, len(rep.Faults))
		}
		return errFindings
	}
	if !c.json && !c.quiet {
		fmt.Printf("%s: valid, %d files, %.1f MB\n", name, rep.Files, float64(rep.Bytes)/1e6)
	}
	return nil
}

// restoreBag brings a build back into a workshop.
func restoreBag(cmd *cobra.Command, c *common, name, dir string, withTheme bool) error {
	back, err := shelving.Restore(cmd.Context(), name, dir, withTheme)
	if err != nil {
		return output.Within(err, "restore into another folder")
	}
	if !back.Report.Valid {
		return printReport(c, name, back.Report)
	}
	if c.json {
		return json.NewEncoder(os.Stdout).Encode(back)
	}
	for _, n := range back.Notes {
		fmt.Fprintf(os.Stderr, "note: %s\n", n)
	}
	if !c.quiet {
		for _, w := range back.Wrote {
			fmt.Println(filepath.Join(dir, filepath.FromSlash(w)))
		}
	}
	return nil
}

// list writes a contents page over the bags of a folder.
func (f *shelveFlags) list(cmd *cobra.Command, c *common, dir string) error {
	if f.out == "" {
		f.out = filepath.Join(dir, "catalogue")
	}
	contents, err := shelving.Catalogue(cmd.Context(), themes.FS, "spruelight "+version(), dir, f.out)
	if err != nil {
		return err
	}
	if _, err := output.Write(cmd.Context(), f.out, contents.Files, output.Options{}); err != nil {
		return err
	}
	for _, b := range contents.Broken {
		fmt.Fprintf(os.Stderr, "damaged: %s\n", b)
	}
	if !c.quiet {
		fmt.Fprintf(os.Stderr, "%d archives\n", contents.Models)
		fmt.Println(filepath.Join(f.out, "index.html"))
	}
	if len(contents.Broken) > 0 {
		return errFindings
	}
	return nil
}
