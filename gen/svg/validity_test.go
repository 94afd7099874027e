package svg

import (
	"testing"

	"spruelight/testdata/view"
)

// TestNuChecker validates the sample as a file of its own and inlined in a page.
func TestNuChecker(t *testing.T) {
	d := sample()
	view.Valid(t, map[string][]byte{"sample": d.File()},
		"<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>Drawings</title>\n"+
			"<style>"+Properties()+Stylesheet()+"</style></head>\n<body>\n<figure>"+d.Inline()+"</figure>\n</body>\n</html>\n")
}
