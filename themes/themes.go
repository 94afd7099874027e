// Package themes holds the built-in themes (templates and styles, a folder
// each) and the words of the interface (words, a file a language), embedded
// into the program.
package themes

import "embed"

// FS holds the folders sheet, lamplight and words. "all:" keeps the shared templates, whose
// names begin with an underscore.
//
//go:embed all:sheet all:lamplight words
var FS embed.FS
