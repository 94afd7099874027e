//go:build unix

package gen_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/testdata/bigshop"
	"spruelight/themes"
)

// BenchmarkEdit measures from an edit to the page that shows it, in a session
// over a large workshop: a sitting's words, and a template of the theme.
func BenchmarkEdit(b *testing.B) {
	dir := b.TempDir()
	const builds = 1000
	if err := bigshop.Write(dir, bigshop.Size{Builds: builds, Sittings: 10, Photos: 1, Alike: true}); err != nil {
		b.Fatal(err)
	}
	d := &shopDir{t: b, dir: dir}
	d.write("workshop.yaml", d.read("workshop.yaml")+"theme: looks\n")
	day := bigshop.First(builds/2).AddDate(0, 0, 21).Format(time.DateOnly)
	file, page := "builds/"+bigshop.Slug(builds/2)+"/"+day+".md", bigshop.Slug(builds/2)+"/"+day+".html"
	template, err := fs.ReadFile(themes.FS, "sheet/sitting.html")
	if err != nil {
		b.Fatal(err)
	}
	d.write("looks/sitting.html", string(template))
	session := gen.NewSession(gen.Env{Content: os.DirFS(dir), Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache(), Version: "test"})
	show := func(b *testing.B, mark string, changed ...string) {
		shown, found, err := session.Update(context.Background(), changed)
		if err != nil || shown == nil {
			b.Fatal(err, found)
		}
		if text, ok := shown.File(page); !ok || !bytes.Contains(text, []byte(mark)) {
			b.Fatalf("%s does not show %s", page, mark)
		}
	}
	show(b, "")
	for _, c := range []struct {
		name, file, text string
	}{{"sitting", file, d.read(file)}, {"template", "looks/sitting.html", strings.TrimSuffix(string(template), "{{- end}}\n")}} {
		b.Run(c.name, func(b *testing.B) {
			began := cpuTime()
			for n := 0; b.Loop(); n++ {
				mark := fmt.Sprintf("mark %d of %s", n, c.name)
				end := ""
				if c.name == "template" {
					end = "{{- end}}\n"
				}
				d.write(c.file, c.text+"\n"+mark+"\n"+end)
				show(b, mark, c.file)
			}
			b.ReportMetric(float64((cpuTime()-began).Microseconds())/1000/float64(b.N), "cpu-ms/op")
		})
	}
}

// cpuTime is what the process has used, for measuring on a busy machine.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
