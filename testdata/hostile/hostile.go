// Package hostile holds texts that try to run as code wherever they land, and
// a reader of finished pages that says what in them could run.
//
// It lives under testdata so that no pattern such as ./... builds it into the
// program; only tests import it.
package hostile

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
)

//go:embed corpus.txt
var corpus string

// Strings returns the corpus, in its order.
func Strings() []string {
	var list []string
	for i, line := range strings.Split(corpus, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		text, err := strconv.Unquote(line)
		if err != nil {
			panic(fmt.Sprintf("corpus.txt:%d: %q is no Go string", i+1, line))
		}
		list = append(list, text)
	}
	return list
}
