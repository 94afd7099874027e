//go:build unix

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// bench measures the time from saving a file to the page that shows it, as a
// browser would get it.
func (s *shop) bench(edits int) error {
	if err := os.MkdirAll(s.path("shop/looks"), 0o755); err != nil {
		return err
	}
	if err := appendTo(s.path("shop/workshop.yaml"), "theme: looks\n"); err != nil {
		return err
	}
	b, err := s.startBench()
	if err != nil {
		return err
	}
	defer b.end()
	file, page := s.sitting(3)
	template, err := os.ReadFile(filepath.Join("themes", "sheet", "sitting.html"))
	if err != nil {
		return err
	}
	kinds := []struct {
		name string
		edit func(mark string) error
	}{
		{"a sitting's words", func(mark string) error { return appendTo(file, "\n"+mark+"\n") }},
		{"a sitting, saved by rename", func(mark string) error {
			text, err := os.ReadFile(file)
			if err != nil {
				return err
			}
			return replace(file, append(text, "\n"+mark+"\n"...))
		}},
		{"the template of all sittings", func(mark string) error {
			return os.WriteFile(s.path("shop/looks/sitting.html"), bytes.Replace(template, []byte("<div class=\"account\">"), []byte("<p>"+mark+"</p><div class=\"account\">"), 1), 0o644)
		}},
	}
	fmt.Printf("\n| at the bench, %d builds | from saving to the page: median | least | most | of it the session's own: median |\n| --- | ---: | ---: | ---: | ---: |\n", s.builds)
	for _, k := range kinds {
		var all []time.Duration
		b.ownTimes()
		for n := range edits {
			mark := fmt.Sprintf("mark-%x-%d", time.Now().UnixNano(), n)
			began := time.Now()
			if err := k.edit(mark); err != nil {
				return err
			}
			if err := b.wait(page, mark); err != nil {
				return fmt.Errorf("%s: %w", k.name, err)
			}
			all = append(all, time.Since(began))
			time.Sleep(100 * time.Millisecond) // what follows the page is done
		}
		slices.Sort(all)
		own := b.ownTimes()
		fmt.Printf("| %s | %d ms | %d ms | %d ms | %d ms |\n", k.name, all[len(all)/2].Milliseconds(), all[0].Milliseconds(), all[len(all)-1].Milliseconds(), own)
	}
	return b.memory()
}

// replace saves a file as many editors do: beside it, and renamed over it.
func replace(file string, text []byte) error {
	fresh := file + "~"
	if err := os.WriteFile(fresh, text, 0o644); err != nil {
		return err
	}
	return os.Rename(fresh, file)
}

// running is the program at the bench.
type running struct {
	cmd     *exec.Cmd
	address string
	lines   chan string
	events  chan struct{}
}

func (s *shop) startBench() (*running, error) {
	cmd := exec.Command(s.program, s.args("bench")...)
	says, err := cmd.StderrPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	b := &running{cmd: cmd, lines: make(chan string, 10000)}
	began := time.Now()
	go func() {
		for lines := bufio.NewScanner(says); lines.Scan(); {
			if text := lines.Text(); strings.Contains(text, "shown anew") || strings.Contains(text, "http://") {
				b.lines <- text // and not the findings of all builds
			}
		}
		close(b.lines)
	}()
	for line := range b.lines {
		if _, rest, ok := strings.Cut(line, "http://"); ok {
			b.address, _, _ = strings.Cut(rest, "/")
		}
		if strings.Contains(line, "shown anew") {
			fmt.Printf("\nThe bench shows %d builds after %s.\n", s.builds, seconds(time.Since(began)))
			time.Sleep(2 * time.Second) // the watch of all folders begins
			return b, b.listen()
		}
	}
	return nil, fmt.Errorf("the bench ended at once")
}

// listen hears of every update, as an open page does.
func (b *running) listen() error {
	res, err := http.Get("http://" + b.address + "/-/events")
	if err != nil {
		return err
	}
	b.events = make(chan struct{}, 1000)
	go func() {
		defer res.Body.Close()
		for lines := bufio.NewScanner(res.Body); lines.Scan(); {
			if strings.HasPrefix(lines.Text(), "data:") {
				b.events <- struct{}{}
			}
		}
	}()
	return nil
}

// wait gets a page after each update until it shows the mark.
func (b *running) wait(page, mark string) error {
	late := time.After(20 * time.Second)
	for {
		select {
		case <-b.events:
		case <-late:
			return fmt.Errorf("%s does not show what was saved", page)
		}
		res, err := http.Get("http://" + b.address + "/" + page)
		if err != nil {
			return err
		}
		text, err := io.ReadAll(res.Body)
		res.Body.Close()
		if err != nil {
			return err
		}
		if bytes.Contains(text, []byte(mark)) {
			return nil
		}
	}
}

// ownTimes returns the median of what the bench says its updates took, in
// milliseconds, since the last call.
func (b *running) ownTimes() int {
	var all []int
	for {
		select {
		case line := <-b.lines:
			var ms int
			if _, rest, ok := strings.Cut(line, "shown anew in "); ok {
				fmt.Sscan(rest, &ms)
				all = append(all, ms)
			}
		default:
			slices.Sort(all)
			if len(all) == 0 {
				return 0
			}
			return all[len(all)/2]
		}
	}
}

// memory ends the bench and prints the most memory it took.
func (b *running) memory() error {
	b.end()
	usage := b.cmd.ProcessState.SysUsage().(*syscall.Rusage)
	fmt.Printf("\nThe bench took at most %d MiB.\n", usage.Maxrss>>10)
	return nil
}

func (b *running) end() {
	if b.cmd.ProcessState == nil {
		b.cmd.Process.Signal(syscall.SIGINT)
		b.cmd.Wait()
	}
}
