package bag

import (
	"fmt"
	"net/url"
	"strconv"
	"strings"
)

const fetchFile = "fetch.txt"

// wanted is one line of fetch.txt: a payload file to be had elsewhere.
type wanted struct {
	line   int
	url    string
	length int64 // -1 where not given
	path   string
}

// parseFetch reads fetch.txt (section 2.2.3). Lines with a fault are left out.
func parseFetch(text string, strict bool) ([]wanted, []Fault) {
	var files []wanted
	faults := lineFaults{file: fetchFile}
	seen := map[string]int{}
	for n, line := range eachLine(text) {
		w, kind, says := parseFetchLine(line, strict)
		w.line = n
		if first := seen[w.path]; says == "" && first > 0 {
			kind, says = Duplicate, fmt.Sprintf("lists %s again, after line %d", show(w.path), first)
		}
		if says == "" {
			seen[w.path] = n
			files = append(files, w)
		} else if !faults.add(kind, n, says) {
			break
		}
	}
	return files, faults.all
}

func parseFetchLine(line string, strict bool) (wanted, Kind, string) {
	address, rest := cutBlank(line)
	length, coded := cutBlank(rest)
	if coded == "" {
		return wanted{}, Fetch, "is not of the form \"url length path\""
	}
	w := wanted{url: address, length: -1}
	if u, err := url.Parse(address); err != nil || !u.IsAbs() {
		return w, Fetch, fmt.Sprintf("%s is not an absolute address", show(address))
	}
	if length != "-" {
		n, err := strconv.ParseInt(length, 10, 64)
		if err != nil || n < 0 || length[0] == '+' {
			return w, Fetch, fmt.Sprintf("the length %s is neither a number of bytes nor -", show(length))
		}
		w.length = n
	}
	p, err := decodePath(coded, strict)
	if err != nil {
		return w, Fetch, fmt.Sprintf("the path %s %v", show(coded), err)
	}
	p = withoutDot(p)
	w.path = p
	if why := leadsOut(p); why != "" {
		return w, Outside, fmt.Sprintf("the path %s %s", show(p), why)
	}
	if !strings.HasPrefix(p, dataFolder) {
		return w, Fetch, fmt.Sprintf("lists %s, which is not a payload file", show(p))
	}
	return w, "", ""
}

// cutBlank splits at the first run of spaces and tabs.
func cutBlank(s string) (before, after string) {
	end := strings.IndexAny(s, " \t")
	if end < 0 {
		return s, ""
	}
	return s[:end], strings.TrimLeft(s[end:], " \t")
}
