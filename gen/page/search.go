package page

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Index is the search index of a site: a few files of data beside the pages,
// each a call of a function of the search script, so that they load from a
// server and from disk alike. Words are spread over the files by their first
// two characters, so that a search loads one file a word, however large the
// workshop is. What the files hold is made once, when the first is wanted.
type Index struct {
	sheets []*Sheet
	shards int
	once   sync.Once
	words  [][]byte
}

const (
	shardBytes = 400 << 10 // of text, which make an index of about half that size
	mostShards = 256
	// Chunk is how many pages one file lists.
	Chunk = 400
	// IndexFolder is where the files of the index stand in the site.
	IndexFolder = "search/"
)

// NewIndex plans the index of the sheets that are meant to be found.
func NewIndex(sheets []*Sheet) *Index {
	x := &Index{}
	size := 0
	for _, s := range sheets {
		if !s.Aside {
			x.sheets = append(x.sheets, s)
			size += len(s.Words)
		}
	}
	x.shards = min(1+size/shardBytes, mostShards)
	return x
}

// Shards returns over how many files the words are spread.
func (x *Index) Shards() int { return x.shards }

// Files lists the files of the index and how each is made.
func (x *Index) Files(each func(path string, make func() []byte)) {
	for n := range x.shards {
		each(fmt.Sprintf("%swords-%d.js", IndexFolder, n), func() []byte {
			x.once.Do(x.build)
			return x.words[n]
		})
	}
	for n := 0; n*Chunk < len(x.sheets); n++ {
		each(fmt.Sprintf("%spages-%d.js", IndexFolder, n), func() []byte { return x.pages(n) })
	}
}

// pages writes the list of a chunk of pages.
func (x *Index) pages(n int) []byte {
	var list [][4]string
	for _, s := range x.sheets[n*Chunk : min((n+1)*Chunk, len(x.sheets))] {
		list = append(list, [4]string{s.Path, s.Title, s.Group, s.Summary})
	}
	text, err := json.Marshal(list)
	if err != nil {
		panic(err) // plain strings cannot fail
	}
	return fmt.Appendf(nil, "searchPages(%d,%s);\n", n, text)
}

// Weights of a word by where it stands on the page.
const (
	inTitle   = 12
	inSummary = 3
	inGroup   = 2
	mostCount = 6 // so often a word counts in the text
)

// posting is a page and the weight of a word there.
type posting struct{ page, weight int32 }

// build reads all words once and writes the files.
func (x *Index) build() {
	ids := map[string]int{}
	var names []string
	var lists [][]posting
	add := func(page int, token []byte, weight, most int32) {
		id, ok := ids[string(token)]
		if !ok {
			id = len(names)
			names = append(names, string(token))
			ids[names[id]] = id
			lists = append(lists, nil)
		}
		list := lists[id]
		if n := len(list); n > 0 && list[n-1].page == int32(page) {
			list[n-1].weight = min(list[n-1].weight+weight, max(most, list[n-1].weight))
			return
		}
		lists[id] = append(list, posting{int32(page), weight})
	}
	for i, s := range x.sheets {
		eachToken(s.Words, func(t []byte) { add(i, t, 1, mostCount) })
		eachToken(s.Summary, func(t []byte) { add(i, t, inSummary, mostCount+inSummary) })
		eachToken(s.Group, func(t []byte) { add(i, t, inGroup, mostCount+inSummary) })
		eachToken(s.Title, func(t []byte) { add(i, t, inTitle, mostCount+inTitle) })
	}
	order := make([]int, len(names))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return strings.Compare(names[a], names[b]) })
	x.words = make([][]byte, x.shards)
	for n := range x.words {
		x.words[n] = fmt.Appendf(nil, "searchWords(%d,{", n)
	}
	for _, id := range order {
		n := x.shardOf(names[id])
		out := x.words[n]
		if out[len(out)-1] != '{' {
			out = append(out, ',')
		}
		out = append(append(append(out, '"'), names[id]...), `":[`...) // letters and digits alone
		for i, p := range lists[id] {
			if i > 0 {
				out = append(out, ',')
			}
			out = strconv.AppendInt(out, int64(p.page), 10)
			out = append(out, ',')
			out = strconv.AppendInt(out, int64(p.weight), 10)
		}
		x.words[n] = append(out, ']')
	}
	for n := range x.words {
		x.words[n] = append(x.words[n], "});\n"...)
	}
}

// shardOf says in which file a word stands; the search script does the same sum.
func (x *Index) shardOf(token string) int {
	a, size := utf8.DecodeRuneInString(token)
	b, _ := utf8.DecodeRuneInString(token[size:])
	if size == len(token) {
		b = 0
	}
	return (int(a)*31 + int(b)) % x.shards
}

// longest is the length in bytes beyond which a word is cut off.
const longest = 60

// eachToken calls each for the words of a text as they are searched for: small
// letters without accents, and runs of Chinese and Japanese signs in
// overlapping twos. The slice is valid during the call only.
func eachToken(text string, each func([]byte)) {
	ascii := true
	for i := 0; i < len(text) && ascii; i++ {
		ascii = text[i] < utf8.RuneSelf
	}
	if !ascii {
		text = norm.NFD.String(strings.ToLower(text))
	}
	var word []byte
	var signs [2]rune
	run := 0
	flush := func() {
		if len(word) > 0 {
			each(word[:min(len(word), longest)])
			word = word[:0]
		}
		if run == 1 {
			each([]byte(string(signs[1])))
		}
		run = 0
	}
	for _, c := range text {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			if run > 0 {
				flush()
			}
			word = append(word, byte(c))
		case c >= 'A' && c <= 'Z':
			if run > 0 {
				flush()
			}
			word = append(word, byte(c)+'a'-'A')
		case c < utf8.RuneSelf:
			flush()
		case unicode.Is(unicode.Mn, c):
		case unicode.In(c, unicode.Han, unicode.Hiragana, unicode.Katakana) || c == 'ー':
			if len(word) > 0 {
				flush()
			}
			signs[0], signs[1] = signs[1], c
			if run++; run > 1 {
				each([]byte(string(signs[:])))
			}
		case unicode.IsLetter(c) || unicode.IsNumber(c):
			if run > 0 {
				flush()
			}
			word = utf8.AppendRune(word, c)
		default:
			flush()
		}
	}
	flush()
}
