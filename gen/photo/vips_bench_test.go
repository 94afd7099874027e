package photo

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"spruelight/testdata/outside"
)

// albumFolder names a folder of photos;
// with them the test binary makes all and ends. So the benchmark measures a
// process of its own.
const albumFolder = "SPRUELIGHT_ALBUM"

func TestMain(m *testing.M) {
	if dir := os.Getenv(albumFolder); dir != "" {
		if err := makeAlbum(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// makeAlbum makes the renditions of all photos of a folder, two at a time.
func makeAlbum(dir string) error {
	names, err := filepath.Glob(filepath.Join(dir, "*.jpg"))
	if err != nil {
		return err
	}
	cache, err := OpenCache(filepath.Join(dir, "cache"), dir, 0)
	if err != nil {
		return err
	}
	debug.SetGCPercent(50) // as gen does while it takes photos
	var next atomic.Int64
	var failed error
	var group sync.WaitGroup
	for range 2 {
		group.Go(func() {
			for i := next.Add(1) - 1; int(i) < len(names); i = next.Add(1) - 1 {
				if _, err := cache.Make(context.Background(), os.DirFS(dir), filepath.Base(names[i]), DefaultRecipe()); err != nil {
					failed = err
				}
			}
		})
	}
	group.Wait()
	if failed == nil {
		failed = cache.Flush()
	}
	if status, err := os.ReadFile("/proc/self/status"); err == nil { // Linux
		os.Stdout.Write(peakLine.Find(status))
	}
	return failed
}

// peakLine gives the largest memory a process had. (What the system tells a
// parent of its child begins with the parent's own.)
var peakLine = regexp.MustCompile(`VmHWM:\s*(\d+) kB`)

// cost is what processes took.
type cost struct {
	wall, cpu time.Duration
}

// measure runs commands at the same time.
func measure(b *testing.B, commands ...*exec.Cmd) cost {
	b.Helper()
	var c cost
	start := time.Now()
	for _, cmd := range commands {
		cmd.Stderr = os.Stderr
		if err := cmd.Start(); err != nil {
			b.Fatal(err)
		}
	}
	for _, cmd := range commands {
		if err := cmd.Wait(); err != nil {
			b.Fatal(err)
		}
		c.cpu += cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	}
	c.wall = time.Since(start)
	return c
}

// BenchmarkAgainstVips makes the renditions of photos, two at a time, and has
// vipsthumbnail make the same (in gamma light) in the arrangement that is
// quickest for it: two processes of one thread, one call for each size. Both
// runs alternate. It reports the ratios of wall and processor time, the
// processor time for each photo and the largest memory. The photos are those of
// the folder that SPRUELIGHT_PHOTOS names, or else 12 made up of 24 megapixels.
func BenchmarkAgainstVips(b *testing.B) {
	vips := outside.Tool(b, "vipsthumbnail")
	dir := b.TempDir()
	names := benchmarkPhotos(b, dir)
	theirOutput := b.TempDir()
	var halves [2]string
	for i, name := range names {
		halves[i%2] += " " + name
	}
	debug.FreeOSMemory()
	var ours, theirs cost
	peak := 0
	for b.Loop() {
		var commands []*exec.Cmd
		for _, half := range halves {
			cmd := exec.Command("sh", "-c", fmt.Sprintf("for s in 1600 800 320; do %s %s -s $s -o %s/%%s-$s.jpg[Q=82,strip] || exit 1; done",
				vips, half, theirOutput))
			cmd.Env = append(os.Environ(), "VIPS_CONCURRENCY=1")
			commands = append(commands, cmd)
		}
		t := measure(b, commands...)
		theirs.wall, theirs.cpu = theirs.wall+t.wall, theirs.cpu+t.cpu

		if err := os.RemoveAll(filepath.Join(dir, "cache")); err != nil {
			b.Fatal(err)
		}
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), albumFolder+"="+dir)
		var says bytes.Buffer
		cmd.Stdout = &says
		o := measure(b, cmd)
		ours.wall, ours.cpu = ours.wall+o.wall, ours.cpu+o.cpu
		if m := peakLine.FindSubmatch(says.Bytes()); m != nil {
			kB, _ := strconv.Atoi(string(m[1]))
			peak = max(peak, kB<<10)
		}
	}
	photos := float64(b.N * len(names))
	b.ReportMetric(float64(ours.wall)/float64(theirs.wall), "wall-ratio")
	b.ReportMetric(float64(ours.cpu)/float64(theirs.cpu), "cpu-ratio")
	b.ReportMetric(ours.cpu.Seconds()/photos, "cpu-s/photo")
	b.ReportMetric(theirs.cpu.Seconds()/photos, "vips-cpu-s/photo")
	b.ReportMetric(float64(peak)/1e6, "peak-MB")
}

// benchmarkPhotos puts photos into a folder and returns their paths.
func benchmarkPhotos(b *testing.B, dir string) []string {
	b.Helper()
	var photos [][]byte
	if folder := os.Getenv("SPRUELIGHT_PHOTOS"); folder != "" {
		found, err := filepath.Glob(filepath.Join(folder, "*.jpg"))
		if err != nil || len(found) == 0 {
			b.Fatalf("no *.jpg in %s: %v", folder, err)
		}
		for _, name := range found {
			data, err := os.ReadFile(name)
			if err != nil {
				b.Fatal(err)
			}
			photos = append(photos, data)
		}
	} else {
		for i := range 12 {
			if i < 4 {
				photos = append(photos, asJPEG(b, camera(uint64(i+1), 6000, 4000)))
			} else { // the same scene; a comment makes another file of it
				photos = append(photos, after(photos[i%4], segment(0xfe, []byte{byte(i)})))
			}
		}
	}
	var names []string
	for i, data := range photos {
		name := filepath.Join(dir, fmt.Sprintf("p%03d.jpg", i))
		if err := os.WriteFile(name, data, 0o644); err != nil {
			b.Fatal(err)
		}
		names = append(names, name)
	}
	return names
}
