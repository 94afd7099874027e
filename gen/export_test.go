package gen

import (
	"context"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/source"
)

// Gathered is a finished run with the files of its site, nil where a finding of
// severity stop forbids it.
type Gathered struct {
	*Result
	Files []output.File
}

// Gather makes a whole site in memory.
func Gather(ctx context.Context, env Env) (*Gathered, error) {
	var site output.Memory
	res, err := Assemble(ctx, env, &site)
	if res.Findings.Stops() {
		return &Gathered{Result: res}, err
	}
	return &Gathered{res, site.Files()}, err
}

// Composed plans a site and returns what its pages are printed from.
func Composed(ctx context.Context, env Env) (*page.Book, *page.Site, []*page.Sheet, source.Findings) {
	r := newRun(env)
	r.read(ctx)
	r.reckon(ctx)
	newPhotoStage(r).make(ctx)
	if !r.compose() {
		return nil, nil, nil, r.found
	}
	return r.theme.book, r.theme.site, r.theme.whole().Sheets, nil
}
