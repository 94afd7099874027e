package guide

import (
	"bytes"
	"io/fs"
	"strings"
)

// mark is the byte-order mark that some editors put at the head of UTF-8.
const mark = "\ufeff"

// asWritten gives a new text the line endings, and the byte-order mark, of a
// file that its keeper's editor wrote. Without such a file it stays as it is.
func asWritten(content fs.FS, example, text string) string {
	data, err := fs.ReadFile(content, example)
	if err != nil {
		return text
	}
	if lines := bytes.Count(data, []byte("\n")); lines > 0 && 2*bytes.Count(data, []byte("\r\n")) > lines {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if bytes.HasPrefix(data, []byte(mark)) {
		text = mark + text
	}
	return text
}
