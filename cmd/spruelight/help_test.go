package main

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

func sheets() []*sheet {
	var list []*sheet
	for _, verb := range everyVerb(command()) {
		list = append(list, sheetOf(verb))
	}
	return list
}

// Every verb says what it does, how it is called, what each flag means, and
// gives an example, on lines that fit a terminal of 80 columns.
func TestHelpIsWholeAndFits80Columns(t *testing.T) {
	all := sheets()
	if len(all) < 20 {
		t.Fatalf("only %d verbs and sums", len(all))
	}
	for _, s := range all {
		var page bytes.Buffer
		printHelp(&page, s)
		for _, line := range strings.Split(page.String(), "\n") {
			if n := utf8.RuneCountInString(line); n > columns {
				t.Errorf("%s: %d columns: %s", s.name, n, line)
			}
		}
		if s.short == "" || len(s.examples) == 0 || strings.HasSuffix(s.short, ".") {
			t.Errorf("%s: a short text without a full stop and an example are wanted", s.name)
		}
		for _, f := range s.flags {
			if f.does == "" || strings.Contains(f.name, "string") {
				t.Errorf("%s: %s says nothing of its value", s.name, f.name)
			}
		}
		for _, want := range []string{"Exit codes:", "2  wrong usage", "--workshop folder"} {
			if !strings.Contains(page.String(), want) {
				t.Errorf("%s: help lacks %q", s.name, want)
			}
		}
	}
}

// Help is the same asked for in each way, and the root's lists the verbs in the
// order of the work.
func TestHelpInEachWay(t *testing.T) {
	help := func(args ...string) string {
		root := command()
		var out bytes.Buffer
		root.SetOut(&out)
		root.SetArgs(append([]string{}, args...)) // never nil, which would mean the arguments of the test
		if err := root.Execute(); err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		return out.String()
	}
	if help("sit", "--help") != help("help", "sit") || help("sit", "-h") != help("help", "sit") || help() != help("--help") {
		t.Error("help differs by how it is asked for")
	}
	order := regexp.MustCompile(`(?m)^  (unbox|sit|bench|dryfit|assemble|reckon|shownotes|shelve)  `).FindAllString(help(), -1)
	if len(order) != 8 || !strings.Contains(order[0], "unbox") || !strings.Contains(order[7], "shelve") {
		t.Errorf("the verbs stand as %q", order)
	}
}

// Every example of every help page is run as it stands, by a shell, in a copy
// of the example workshop.
func TestEveryExampleRuns(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("the examples need a shell: ", err)
	}
	for _, verb := range everyVerb(command()) {
		if !verb.HasParent() {
			continue // the root's are those of its verbs
		}
		s := sheetOf(verb)
		t.Run(s.page(), func(t *testing.T) {
			dir, home := smallExample(t), t.TempDir()
			camera := filepath.Join(home, "camera")
			if err := os.MkdirAll(camera, 0o777); err != nil {
				t.Fatal(err)
			}
			env := append(os.Environ(), "HOME="+home, "XDG_CACHE_HOME="+filepath.Join(home, ".cache"))
			for _, line := range s.examples {
				if verb.Name() == "bench" {
					runServer(t, dir, env, line)
					continue
				}
				cmd := exec.Command(sh, "-c", line)
				cmd.Dir, cmd.Env = dir, env
				if out, err := cmd.CombinedOutput(); err != nil {
					t.Errorf("%s: %v\n%s", line, err, out)
				}
			}
		})
	}
}

// runServer runs an example that goes on until it is stopped. Its port may be
// in use here, and a browser is not wanted: these two words are left out.
func runServer(t *testing.T, dir string, env []string, line string) {
	t.Helper()
	args := slices.DeleteFunc(strings.Fields(strings.Replace(line, "--port 8080", "--port 0", 1)), func(w string) bool { return w == "--open" })
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir, cmd.Env = dir, env
	out, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	said := make(chan string, 1)
	go func() {
		text := make([]byte, 1<<10)
		n, _ := out.Read(text)
		said <- string(text[:n])
	}()
	select {
	case text := <-said:
		if !strings.Contains(text, "the bench is at http://127.0.0.1:") {
			t.Errorf("%s: %s", line, text)
		}
	case <-time.After(time.Minute):
		t.Errorf("%s: said nothing for a minute", line)
	}
	cmd.Process.Kill()
	cmd.Wait()
}

// smallExample copies the example workshop, with a small picture in the place
// of each photo, and a way to call it content-example from inside.
func smallExample(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../content-example")); err != nil {
		t.Fatal(err)
	}
	var small bytes.Buffer
	if err := jpeg.Encode(&small, image.NewGray(image.Rect(0, 0, 64, 48)), nil); err != nil {
		t.Fatal(err)
	}
	photos, err := filepath.Glob(filepath.Join(dir, "builds", "*", "photos", "*.jpg"))
	if err != nil || len(photos) == 0 {
		t.Fatal("the example has no photos", err)
	}
	for _, name := range photos {
		if err := os.WriteFile(name, small.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, drop := range []string{"site", "scenes"} {
		os.RemoveAll(filepath.Join(dir, drop))
	}
	if err := os.Symlink(".", filepath.Join(dir, "content-example")); err != nil {
		t.Skip("the examples need symbolic links: ", err)
	}
	return dir
}

// Mistyped verbs, sums and flags are answered with those that were meant.
func TestMistyped(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"asemble", `there is no verb "asemble"; did you mean assemble? (spruelight --help lists them)`},
		{"led", `there is no verb "led"; it is a sum: spruelight reckon led (spruelight --help lists them)`},
		{"reckon scael", `there is no sum "scael"; did you mean scale? (spruelight reckon --help lists them)`},
		{"help shelv", `there is no verb "shelv"; did you mean shelve? (spruelight --help lists them)`},
		{"xyzzyxyzzy", `there is no verb "xyzzyxyzzy" (spruelight --help lists them)`},
		{"sit --stge painting marram", `there is no flag --stge; did you mean --stage? (spruelight sit --help lists them)`},
		{"sit -x marram", `there is no flag -x (spruelight sit --help lists them)`},
		{"sit marram --stage", `--stage wants a value after it: stage`},
		{"bench --port http", `--port "http": it takes a whole number`},
		{"sit marram today", `name a build, like marram; "today" is one word too many`},
		{"completion tcsh", `"tcsh" is none of the shells known here: bash, zsh, fish, powershell`},
	} {
		root := command()
		root.SetArgs(strings.Fields(c.line))
		root.SetOut(&bytes.Buffer{})
		err := root.Execute()
		if _, wrong := err.(*usageError); !wrong || err.Error() != c.says {
			t.Errorf("%s: got %v (%T)", c.line, err, err)
		}
	}
}
