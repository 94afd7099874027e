package svg

import (
	"flag"
	"testing"

	"spruelight/testdata/view"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	view.Golden(t, map[string][]byte{
		"sample.svg":     sample().File(),
		"stylesheet.css": []byte(Properties() + Stylesheet()),
	}, *update)
}
