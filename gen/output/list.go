package output

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"spruelight/gen/source"
)

// ListName is the file in the site's folder that names every file this program
// wrote there. Nothing that it does not name is ever replaced or deleted.
const ListName = ".spruelight-site"

const (
	listHead = "spruelight site 1"
	listTail = "end "
)

// listed is one line of the list: a written file with its SHA-256.
type listed struct {
	path string
	size int64
	sum  string
}

// formatList writes the list: a head line, one line "sum size path" for each
// file in order of path, and a last line with their number, by which a list
// that was cut off is known. It holds no dates, so that the same site is the
// same bytes.
func formatList(files []listed) []byte {
	var b bytes.Buffer
	b.Grow(len(files) * 120)
	b.WriteString(listHead + "\n")
	for _, f := range files {
		b.WriteString(f.sum)
		b.WriteByte(' ')
		b.WriteString(strconv.FormatInt(f.size, 10))
		b.WriteByte(' ')
		b.WriteString(f.path)
		b.WriteByte('\n')
	}
	b.WriteString(listTail + strconv.Itoa(len(files)) + "\n")
	return b.Bytes()
}

// parseList reads a list back; the error says which line is wrong.
func parseList(data []byte) (map[string]listed, error) {
	lines := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	if lines[0] != listHead {
		return nil, fmt.Errorf("line 1 is not %q", listHead)
	}
	last := len(lines) - 1
	if lines[last] != listTail+strconv.Itoa(last-1) {
		return nil, fmt.Errorf("line %d is not the closing line %q", last+1, listTail+strconv.Itoa(last-1))
	}
	files := make(map[string]listed, last)
	for i, line := range lines[1:last] {
		f, err := parseLine(line)
		if err != nil {
			return nil, fmt.Errorf("line %d %w", i+2, err)
		}
		if _, twice := files[f.path]; twice {
			return nil, fmt.Errorf("line %d names %q again", i+2, f.path)
		}
		files[f.path] = f
	}
	return files, nil
}

func parseLine(line string) (listed, error) {
	sum, rest, _ := strings.Cut(line, " ")
	size, path, ok := strings.Cut(rest, " ")
	if !ok || !isSum(sum) {
		return listed{}, fmt.Errorf("is not of the form \"sum size path\"")
	}
	n, err := strconv.ParseInt(size, 10, 64)
	if err != nil || n < 0 || strconv.FormatInt(n, 10) != size {
		return listed{}, fmt.Errorf("has no size of a file: %q", size)
	}
	if err := source.ValidPath(path); err != nil {
		return listed{}, err
	}
	return listed{path: path, size: n, sum: sum}, nil
}

// isSum reports whether s is a SHA-256 as this package writes it.
func isSum(s string) bool {
	if len(s) != 64 {
		return false
	}
	for _, c := range []byte(s) {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}
