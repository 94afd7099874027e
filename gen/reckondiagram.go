package gen

import (
	"context"
	"fmt"

	"spruelight/gen/circuit"
	"spruelight/gen/output"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/wiring"
)

// litBuild reads and reckons a workshop and returns the one build of it that is
// asked for, with the findings of severity stop.
func litBuild(ctx context.Context, env Env, slug string) (*work, source.Findings, error) {
	r := newRun(env)
	r.ahead = true
	r.read(ctx)
	r.reckon(ctx)
	for _, w := range r.works {
		if w.slug() != slug {
			continue
		}
		var stops source.Findings
		for _, f := range w.found {
			if f.Severity() == source.Stop {
				stops.Add(f)
			}
		}
		return w, stops, ctx.Err()
	}
	return nil, nil, noBuild(slug, r.shop)
}

// Diagrams returns the drawings of a build's wiring, one file each: the circuit
// diagram of every circuit, for paper and for a phone, and the loom of all.
func Diagrams(ctx context.Context, env Env, slug string) ([]output.File, source.Findings, error) {
	w, stops, err := litBuild(ctx, env, slug)
	if err != nil {
		return nil, nil, err
	}
	var files []output.File
	add := func(name string, d *svg.Drawing) {
		if d != nil {
			files = append(files, output.File{Path: slug + "-" + name + ".svg", Bytes: d.File()})
		}
	}
	var tell svg.Teller
	if env.Themes != nil && w.run.loadWords() {
		tell = w.run.words.Tell
	}
	var solved []circuit.Solution
	for i := range w.light.circuits {
		s := w.light.circuits[i].solution
		name := fmt.Sprintf("circuit-%d", i+1)
		add(name, wiring.DiagramFor(name, s, wiring.Wide, tell))
		add(name+"-narrow", wiring.DiagramFor(name+"-narrow", s, wiring.Narrow, tell))
		solved = append(solved, s)
	}
	add("loom", wiring.Loom("loom", solved, wiring.Wide, tell))
	add("loom-narrow", wiring.Loom("loom-narrow", solved, wiring.Narrow, tell))
	if len(files) == 0 && !stops.Stops() {
		return nil, nil, fmt.Errorf("%s has no circuits", slug)
	}
	return files, stops, nil
}
