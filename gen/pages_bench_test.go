//go:build unix

package gen

import (
	"bytes"
	"context"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"spruelight/gen/photo"
	"spruelight/gen/topic/log"
	"spruelight/testdata/bigshop"
	"spruelight/themes"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// BenchmarkPagesAgainstGoldmark prints the pages of sittings, from their
// Markdown to the last byte, and converts the same Markdown by goldmark alone
// with the same extensions, in turns. It reports how many times as long pages
// take.
func BenchmarkPagesAgainstGoldmark(b *testing.B) {
	for _, c := range []struct {
		name string
		dir  func(*testing.B) string
	}{
		{"synthetic", func(b *testing.B) string {
			dir := b.TempDir()
			if err := bigshop.Write(dir, bigshop.Size{Builds: 20, Sittings: 10, Photos: 1, Alike: true}); err != nil {
				b.Fatal(err)
			}
			return dir
		}},
		{"example", func(*testing.B) string { return "../content-example" }},
	} {
		b.Run(c.name, func(b *testing.B) {
			r := newRun(Env{Content: os.DirFS(c.dir(b)), Themes: themes.FS, Moment: time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC), Photos: photo.MemoryCache(), Version: "test"})
			ctx := context.Background()
			r.read(ctx)
			r.reckon(ctx)
			newPhotoStage(r).make(ctx)
			if !r.compose() {
				b.Fatal(r.found)
			}
			comparePages(b, r)
		})
	}
}

// comparePages does both in turns, all sittings at a time, and compares CPU
// times: on a busy machine they are what counts.
func comparePages(b *testing.B, r *run) {
	markdown := goldmark.New(
		goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, extension.Footnote, extension.Typographer),
		goldmark.WithParserOptions(parser.WithAutoHeadingID()))
	var alone, whole time.Duration
	var read, printed, pages int
	for b.Loop() {
		read, printed, pages = 0, 0, 0
		began := cpuTime()
		eachBuild(r, func(w *work, bodies [][]byte) {
			for _, body := range bodies {
				var out bytes.Buffer
				if err := markdown.Convert(body, &out); err != nil {
					b.Fatal(err)
				}
				read, pages = read+len(body), pages+1
			}
		})
		alone += cpuTime() - began
		began = cpuTime()
		eachBuild(r, func(w *work, bodies [][]byte) {
			sheets := log.Pages(w.facts(), log.Seen{}, w.desk()).Sheets[1:] // the build's own stands first
			for i, body := range bodies {
				markdown.Parser().Parse(text.NewReader(body)) // as reading the sitting does
				page, found := r.theme.book.Print(r.theme.site, sheets[i])
				if len(found) > 0 {
					b.Fatal(found)
				}
				printed += len(page)
			}
		})
		whole += cpuTime() - began
	}
	b.ReportMetric(float64(whole)/float64(alone), "times-goldmark")
	b.ReportMetric(float64(read)/float64(pages), "B-read/page")
	b.ReportMetric(float64(printed)/float64(pages), "B-printed/page")
	b.ReportMetric(float64(whole.Microseconds())/float64(pages*b.N), "µs/page")
	b.ReportMetric(float64(alone.Microseconds())/float64(pages*b.N), "µs-goldmark/page")
}

// eachBuild visits the builds with the texts of their sittings.
func eachBuild(r *run, do func(w *work, bodies [][]byte)) {
	for _, w := range r.works {
		w := *w // which keeps what is drawn
		var bodies [][]byte
		for _, s := range w.build.Sittings {
			_, body, _ := strings.Cut(s.File.Text[len("---"):], "\n---\n")
			bodies = append(bodies, []byte(body))
		}
		do(&w, bodies)
	}
}

// cpuTime is what the process has used.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
