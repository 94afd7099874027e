package gen

import (
	"context"

	"spruelight/gen/page"
	"spruelight/gen/source"
)

// Composed plans a site and returns what its pages are printed from.
func Composed(ctx context.Context, env Env) (*page.Book, *page.Site, []*page.Sheet, source.Findings) {
	r := newRun(env)
	r.read(ctx)
	r.reckon(ctx)
	r.takePhotos(ctx)
	if !r.compose() {
		return nil, nil, nil, r.found
	}
	return r.press.book, r.press.site, r.press.whole().Sheets, nil
}
