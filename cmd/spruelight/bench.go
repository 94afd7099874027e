package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"

	"spruelight/gen"
	"spruelight/gen/preview"
	"spruelight/gen/source"

	"github.com/spf13/cobra"
)

// benchVerb shows the site while it is being written.
func benchVerb(c *common) *cobra.Command {
	var port int
	var open bool
	verb := &cobra.Command{
		Use:   "bench [workshop]",
		Short: "Show the site on this machine, refreshed as files change",
		Long: "Serves the site from memory on 127.0.0.1, for this machine alone, and writes nothing. Whenever a file of the workshop is saved the open page shows it, and new findings are printed (all of them with --json); " +
			"while one of them stops, the last good page stays, with the findings over it. End it with Ctrl-C.",
		Example:           "  spruelight bench\n  spruelight bench --port 8080 --open content-example",
		Args:              atMostOne,
		ValidArgsFunction: folders,
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := c.folder(args)
			if err != nil {
				return err
			}
			return bench(cmd.Context(), c, dir, port, open)
		},
	}
	verb.Flags().IntVar(&port, "port", 0, "`port` on 127.0.0.1; any that is free where 0")
	verb.Flags().BoolVar(&open, "open", false, "open the site in the browser")
	return verb
}

func bench(ctx context.Context, c *common, dir string, port int, open bool) error {
	env, done, err := c.env(dir, nil)
	if err != nil {
		return err
	}
	defer done()
	listener, err := preview.Listen(port)
	if err != nil {
		return err
	}
	session := gen.NewSession(env)
	server := preview.New(func(ctx context.Context, changed []string) (preview.Site, source.Findings, error) {
		if c.at == "" {
			session.At(time.Now())
		}
		site, found, err := session.Update(ctx, changed)
		if site == nil {
			return nil, found, err
		}
		return site, found, err
	}, reportBench(c, os.Stdout, os.Stderr))
	address := fmt.Sprintf("http://%s/", listener.Addr())
	fmt.Fprintf(os.Stderr, "the bench is at %s; end it with Ctrl-C\n", address)
	watched := make(chan error, 1)
	go func() {
		watched <- preview.Watch(ctx, dir, []string{filepath.Join(dir, "site")}, func(changed []string) { server.Refresh(ctx, changed) })
	}()
	served := make(chan error, 1)
	go func() { served <- server.Serve(ctx, listener) }()
	if open {
		browse(address)
	}
	select {
	case err := <-watched:
		return err
	case err := <-served:
		return err
	}
}

// reportBench returns what prints the findings of each rebuild: those that have
// come since the last one, or all of them as JSON.
func reportBench(c *common, out, errs io.Writer) func(source.Findings, time.Duration, error) {
	var before source.Findings
	shown := false // there are pages
	return func(found source.Findings, took time.Duration, err error) {
		if c.json {
			printJSON(out, found)
		} else {
			for _, f := range found.Since(before) {
				source.Style{Colour: colourful(os.Stderr)}.Print(errs, f)
			}
			if len(found) > 0 && !c.quiet {
				fmt.Fprintln(errs, inAll(found))
			}
			before = found
		}
		stopped := found.Stops() || err != nil
		if err != nil {
			fmt.Fprintf(errs, "spruelight: %v\n", err)
		}
		switch now := time.Now().Format(time.TimeOnly); {
		case c.quiet:
		case stopped && shown:
			fmt.Fprintf(errs, "%s: the pages stay as they were\n", now)
		case stopped:
			fmt.Fprintf(errs, "%s: no pages until what stops is mended\n", now)
		default:
			fmt.Fprintf(errs, "%s: shown anew in %d ms\n", now, took.Milliseconds())
		}
		shown = shown || !stopped
	}
}

// browse opens an address in the user's browser. That it may fail is no matter:
// the address has been printed.
func browse(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	exec.Command(name, args...).Start()
}
