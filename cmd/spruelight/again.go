package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"spruelight/gen"
	"spruelight/gen/kept"
	"spruelight/gen/output"
	"spruelight/gen/source"
)

// repeatOf is how assemble tells that it would only repeat the last run.
func repeatOf(c *common, dir, out string) (*kept.Repeat, error) {
	cache, err := c.cacheFolder()
	if err != nil {
		return nil, err
	}
	if out, err = filepath.Abs(out); err != nil {
		return nil, err
	}
	return &kept.Repeat{Folder: cache, Workshop: dir, Site: out, Skip: []string{out, cache}, Workers: runtime.GOMAXPROCS(0),
		Program: fmt.Sprintf("%s --at %q", thisProgram(), c.at)}, nil
}

// thisProgram tells the program from any other build of it; where that cannot
// be told, from every other run.
func thisProgram() string {
	name, err := os.Executable()
	if err != nil {
		return time.Now().String()
	}
	info, err := os.Stat(name)
	if err != nil {
		return time.Now().String()
	}
	return fmt.Sprintf("%s %s %d %d", version(), name, info.Size(), info.ModTime().UnixNano())
}

// saidBy is what a finished run has to say, for saying it again.
func saidBy(res *gen.Result, files int) (kept.Said, error) {
	said := kept.Said{Counts: res.Counts, Files: files, Hidden: res.Hidden, Plain: findingsText(res.Findings, false),
		Colour: findingsText(res.Findings, true)}
	var text bytes.Buffer
	err := printJSON(&text, res.Findings.Veiled())
	said.JSON = text.Bytes()
	return said, err
}

func findingsText(found source.Findings, colour bool) string {
	var text bytes.Buffer
	printFindings(&text, found, colour)
	return text.String()
}

// sayAgain says what the last run said.
func sayAgain(c *common, said *kept.Said, out string, began time.Time) error {
	if c.verbose {
		for _, name := range said.Hidden {
			fmt.Fprintf(os.Stderr, "left out: %s\n", name)
		}
	}
	switch {
	case c.json:
		if _, err := os.Stdout.Write(said.JSON); err != nil {
			return err
		}
	case colourful(os.Stderr):
		fmt.Fprint(os.Stderr, said.Colour)
	default:
		fmt.Fprint(os.Stderr, said.Plain)
	}
	if !c.quiet && !c.json {
		fmt.Fprintln(os.Stderr, "nothing has changed since the last run")
	}
	said.Counts.Made, said.Counts.Reused = 0, said.Counts.Made+said.Counts.Reused
	summary(c, said.Counts, output.Report{Kept: said.Files}, out, began)
	return nil
}

// remember writes a finished run down, so that it need not be repeated.
func remember(ctx context.Context, r *kept.Repeat, begun *kept.Begun, res *gen.Result, files int) error {
	said, err := saidBy(res, files)
	if err != nil {
		return err
	}
	r.Keep(ctx, begun, res.Until, said)
	return nil
}
