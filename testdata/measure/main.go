//go:build unix

// Command measure runs the program on synthetic workshops of several sizes and
// prints how long it takes, what memory it needs and how many files it writes.
//
//	go run ./testdata/measure
//
// It measures the program as it is used: each run is a process of its own, and
// the bench is asked over HTTP after a file has been saved. On a machine that
// is busy with other things the CPU time is the better figure.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"

	"spruelight/testdata/bigshop"
)

func main() {
	sizes := flag.String("builds", "10,100,1000", "numbers of builds to measure")
	sittings := flag.Int("sittings", 10, "sittings of each build")
	photos := flag.Int("photos", 1, "photos of each sitting")
	edits := flag.Int("edits", 20, "edits at the bench, of each kind; 0 leaves the bench out")
	only := flag.Bool("bench", false, "measure the bench alone")
	program := flag.String("program", "", "the program to measure; built where not given")
	keep := flag.String("in", "", "folder to work in, kept afterwards; else a temporary one")
	flag.Parse()
	if err := measure(*sizes, *sittings, *photos, *edits, *only, *program, *keep); err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

func measure(sizes string, sittings, photos, edits int, only bool, program, dir string) error {
	if dir == "" {
		scratch, err := os.MkdirTemp("", "spruelight-measure-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(scratch)
		dir = scratch
	}
	if program == "" {
		program = filepath.Join(dir, "spruelight")
		build := exec.Command("go", "build", "-o", program, "./cmd/spruelight")
		build.Stderr = os.Stderr
		if err := build.Run(); err != nil {
			return err
		}
	}
	fmt.Println("| builds | run | time | CPU time | peak memory | files written |")
	fmt.Println("| ---: | --- | ---: | ---: | ---: | ---: |")
	var last *shop
	for _, text := range strings.Split(sizes, ",") {
		builds, err := strconv.Atoi(text)
		if err != nil {
			return err
		}
		s := &shop{program: program, dir: filepath.Join(dir, text), builds: builds}
		if err := bigshop.Write(s.path("shop"), bigshop.Size{Builds: builds, Sittings: sittings, Photos: photos}); err != nil {
			return err
		}
		last = s
		if only {
			continue
		}
		if err := s.runs(); err != nil {
			return err
		}
	}
	if !only {
		if err := last.find(); err != nil || edits == 0 {
			return err
		}
	}
	return last.bench(edits)
}

// shop is one workshop with the folders of its cache and its site.
type shop struct {
	program, dir string
	builds       int
}

func (s *shop) path(name string) string { return filepath.Join(s.dir, name) }

// args are those of a run on the workshop.
func (s *shop) args(verb string) []string {
	return []string{verb, s.path("shop"), "--cache", s.path("cache"), "--at", "2026-06-01 12:00"}
}

// settled is how old files must be before a run trusts their times.
const settled = 3 * time.Second

// runs measures assemble: with no cache, with a cache but no site, with
// nothing changed, and with one sitting changed.
func (s *shop) runs() error {
	time.Sleep(settled)
	steps := []struct {
		name   string
		before func() error
	}{
		{"cold", func() error { return nil }},
		{"warm", func() error { return os.RemoveAll(s.path("site")) }},
		{"nothing changed", func() error { return nil }},
		{"nothing changed, again", func() error { return nil }},
		{"one sitting changed", func() error { return s.edit("changed once") }},
	}
	for _, step := range steps {
		if err := step.before(); err != nil {
			return err
		}
		time.Sleep(settled)
		if err := s.run(step.name); err != nil {
			return err
		}
	}
	return nil
}

// run measures one run and prints its row.
func (s *shop) run(name string) error {
	cmd := exec.Command(s.program, append(s.args("assemble"), "--out", s.path("site"))...)
	var says strings.Builder
	cmd.Stderr = &says
	began := time.Now()
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%w: %s", err, says.String())
	}
	took := time.Since(began)
	usage := cmd.ProcessState.SysUsage().(*syscall.Rusage)
	cpu := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	// Maxrss is in KiB on Linux (getrusage(2)).
	fmt.Printf("| %d | %s | %s | %s | %d MiB | %s |\n", s.builds, name, seconds(took), seconds(cpu), usage.Maxrss>>10, written(says.String()))
	return nil
}

// written finds the number of files written in what a run says.
func written(says string) string {
	before, _, ok := strings.Cut(says, " files written")
	if !ok {
		return "0"
	}
	return before[strings.LastIndexAny(before, " \n")+1:]
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.2f s", d.Seconds()) }

// sitting is the file that is edited: one in the middle of the workshop.
func (s *shop) sitting(n int) (file, page string) {
	i := s.builds / 2
	day := bigshop.First(i).AddDate(0, 0, n*7).Format(time.DateOnly)
	return s.path("shop/builds/" + bigshop.Slug(i) + "/" + day + ".md"), bigshop.Slug(i) + "/" + day + ".html"
}

// edit adds a line to a sitting.
func (s *shop) edit(line string) error {
	file, _ := s.sitting(3)
	return appendTo(file, "\n"+line+"\n")
}

func appendTo(file, text string) error {
	f, err := os.OpenFile(file, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// find measures how long find takes to list the workshop and the site with
// sizes and times.
func (s *shop) find() error {
	for _, folders := range [][]string{{"shop"}, {"shop", "site"}} {
		var best time.Duration
		for range 5 {
			args := make([]string, 0, 4)
			for _, f := range folders {
				args = append(args, s.path(f))
			}
			began := time.Now()
			if err := exec.Command("find", append(args, "-printf", "%s %T@ %p\n")...).Run(); err != nil {
				return err
			}
			if took := time.Since(began); best == 0 || took < best {
				best = took
			}
		}
		fmt.Printf("\nfind, listing %s of %d builds with sizes and times: %s", strings.Join(folders, " and "), s.builds, seconds(best))
	}
	fmt.Println()
	return nil
}
