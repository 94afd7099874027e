package desk

import (
	"context"
	"fmt"

	"spruelight/gen"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/output"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/wiring"
)

// Diagrams returns the drawings of a build's wiring, one file each: the circuit
// diagram of every circuit, for paper and for a phone, and the loom of all.
func Diagrams(ctx context.Context, env gen.Env, slug string) ([]output.File, source.Findings, error) {
	return ofCircuits(ctx, env, slug, func(b *gen.Reckoned) (files []output.File) {
		add := func(name string, d *svg.Drawing) {
			if d != nil {
				files = append(files, output.File{Path: slug + "-" + name + ".svg", Bytes: d.File()})
			}
		}
		var words svg.Printer
		if b.Words != nil {
			words = b.Words.Message
		}
		for i, s := range b.Circuits {
			name := fmt.Sprintf("circuit-%d", i+1)
			add(name, wiring.DiagramFor(name, s, wiring.Wide, words))
			add(name+"-narrow", wiring.DiagramFor(name+"-narrow", s, wiring.Narrow, words))
		}
		add("loom", wiring.Loom("loom", b.Circuits, wiring.Wide, words))
		add("loom-narrow", wiring.Loom("loom-narrow", b.Circuits, wiring.Narrow, words))
		return files
	})
}

// Netlists returns the circuits of a build as SPICE netlists, one file each.
func Netlists(ctx context.Context, env gen.Env, slug string) ([]output.File, source.Findings, error) {
	return ofCircuits(ctx, env, slug, func(b *gen.Reckoned) (files []output.File) {
		for i := range b.Circuits {
			if s := &b.Circuits[i]; s.Solved {
				files = append(files, output.File{Path: fmt.Sprintf("%s-%d.cir", slug, i+1), Bytes: []byte(netlist.SPICE(s))})
			}
		}
		return files
	})
}

// ofCircuits makes files of a build's circuits. Besides them it returns the
// findings of severity stop.
func ofCircuits(ctx context.Context, env gen.Env, slug string, files func(*gen.Reckoned) []output.File) (
	[]output.File, source.Findings, error) {
	b, err := gen.Reckon(ctx, env, slug)
	if err != nil {
		return nil, nil, err
	}
	made, stops := files(b), stopsAmong(b.Sums)
	if len(made) == 0 && !stops.Stops() {
		return nil, nil, fmt.Errorf("%s has no circuits", slug)
	}
	return made, stops, nil
}
