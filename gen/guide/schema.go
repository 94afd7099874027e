package guide

import (
	"spruelight/gen/journal"
	"spruelight/gen/output"
)

// Schemas returns the JSON Schemas of the workshop's files, for editors.
func Schemas() []output.File {
	var files []output.File
	for _, k := range journal.FileKinds() {
		files = append(files, output.File{Path: k.Name + ".schema.json", Bytes: k.Schema()})
	}
	return files
}
