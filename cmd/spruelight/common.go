package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/themes"

	"github.com/spf13/cobra"
)

// common are the flags that every verb understands.
type common struct {
	workshop string
	cache    string
	at       string
	json     bool
	quiet    bool
	verbose  bool
}

func (c *common) flags(root *cobra.Command) {
	f := root.PersistentFlags()
	f.StringVar(&c.workshop, "workshop", "", "the workshop's `folder`; else the nearest upward that holds workshop.yaml")
	f.StringVar(&c.cache, "cache", "", "`folder` for the photo cache; else the user's own cache folder")
	f.StringVar(&c.at, "at", "", "the `moment` that clocks and embargoes go by, like \"2026-02-14 21:00\"; else now")
	f.BoolVar(&c.json, "json", false, "results for machines")
	f.BoolVar(&c.quiet, "quiet", false, "say nothing but findings and errors")
	f.BoolVar(&c.verbose, "verbose", false, "say more, such as the files left out")
	f.BoolP("help", "h", false, "explain the verb, with examples")
	flagWords(root, "workshop", folders)
	flagWords(root, "cache", folders)
}

// folder finds the workshop: the argument, the flag, or the nearest folder
// upward that holds a workshop.yaml.
func (c *common) folder(args []string) (string, error) {
	named := c.workshop
	if len(args) > 0 {
		if named != "" {
			return "", misuse("name the workshop once: as an argument or by --workshop")
		}
		named = args[0]
	}
	if named != "" {
		if _, err := os.Stat(filepath.Join(named, "workshop.yaml")); err != nil {
			return "", fmt.Errorf("%s holds no workshop.yaml; name a workshop's folder, or make one with spruelight unbox", named)
		}
		return filepath.Abs(named)
	}
	here, err := os.Getwd()
	for dir := here; err == nil; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "workshop.yaml")); err == nil {
			return dir, nil
		}
		if dir == filepath.Dir(dir) {
			break
		}
	}
	return "", errors.Join(err, errors.New("no workshop.yaml here or above; go into a workshop, name one by --workshop, or make one with spruelight unbox"))
}

// cacheFolder returns where renditions are kept.
func (c *common) cacheFolder() (string, error) {
	if c.cache != "" {
		return filepath.Abs(c.cache)
	}
	base, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("no folder for the photo cache: %w; name one by --cache", err)
	}
	return filepath.Join(base, "spruelight"), nil
}

// sweep removes what runs that were killed left outside the workshop.
func (c *common) sweep() {
	output.Sweep()
	if folder, err := c.cacheFolder(); err == nil {
		photo.Sweep(folder)
	}
}

// env opens a workshop for a run. close must be called after it.
func (c *common) env(dir string, progress func(string, int, int)) (env gen.Env, close func(), err error) {
	// An os.Root keeps every path, through links too, inside the workshop.
	root, err := os.OpenRoot(dir)
	if err != nil {
		return env, nil, err
	}
	folder, err := c.cacheFolder()
	if err != nil {
		root.Close()
		return env, nil, err
	}
	photos, err := photo.OpenCache(folder, dir, photo.DefaultCacheBytes)
	if err != nil {
		root.Close()
		return env, nil, fmt.Errorf("the photo cache cannot be used: %w; name another folder by --cache", err)
	}
	moment, err := c.moment()
	if err != nil {
		root.Close()
		return env, nil, err
	}
	return gen.Env{Content: root.FS(), Themes: themes.FS, Moment: moment, Wall: c.at != "", Photos: photos, Progress: progress,
		Version: version()}, func() { root.Close() }, nil
}

// inWorkshop opens the workshop that the call names for one piece of work.
func (c *common) inWorkshop(args []string, work func(dir string, env gen.Env) error) error {
	dir, err := c.folder(args)
	if err != nil {
		return err
	}
	env, done, err := c.env(dir, nil)
	if err != nil {
		return err
	}
	defer done()
	return work(dir, env)
}

// moment reads --at. It is a wall clock without a zone: the workshop's zone
// applies, once the workshop is read.
func (c *common) moment() (time.Time, error) {
	if c.at == "" {
		return time.Now(), nil
	}
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", time.DateOnly} {
		if t, err := time.Parse(form, c.at); err == nil {
			return t, nil
		}
	}
	return time.Time{}, misuse("--at %q is no moment; write it like \"2026-02-14 21:00\"", c.at)
}
