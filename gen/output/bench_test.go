package output

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A large site: 10,000 pages of 8 KiB in 1,000 folders.
func largeSite() []File {
	files := make([]File, 10_000)
	for i := range files {
		text := fmt.Sprintf("page %d %s", i, strings.Repeat("words ", 1365))
		files[i] = File{Path: fmt.Sprintf("builds/%03d/%02d.html", i/10, i%10), Bytes: []byte(text)}
		_, files[i].Hash, _ = sumOf(strings.NewReader(text))
	}
	return files
}

// BenchmarkNothingChanged gives the time of a run without changes, and its
// ratio to walking the folder and looking at each file's size and time.
func BenchmarkNothingChanged(b *testing.B) {
	dir, files := filepath.Join(b.TempDir(), "site"), largeSite()
	write := func() {
		if _, err := Write(context.Background(), dir, files, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	write()
	var walking time.Duration
	for b.Loop() {
		write()
		b.StopTimer()
		began := time.Now()
		err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
			if err == nil {
				_, err = e.Info()
			}
			return err
		})
		walking += time.Since(began)
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	b.ReportMetric(float64(b.Elapsed())/float64(walking), "walks")
}

// BenchmarkOneChanged changes one page of the site, and gives the ratio to
// writing all of it anew.
func BenchmarkOneChanged(b *testing.B) {
	dir, files := filepath.Join(b.TempDir(), "site"), largeSite()
	began := time.Now()
	if _, err := Write(context.Background(), dir, files, Options{}); err != nil {
		b.Fatal(err)
	}
	anew := time.Since(began)
	n := 0
	for b.Loop() {
		n++
		files[4711].Bytes, files[4711].Hash = fmt.Appendf(nil, "changed %d", n), ""
		if _, err := Write(context.Background(), dir, files, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed())/float64(b.N)/float64(anew), "anews")
	if _, err := os.Stat(filepath.Join(dir, ListName)); err != nil {
		b.Fatal(err)
	}
}
