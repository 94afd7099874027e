package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var guideBlock = regexp.MustCompile("(?ms)^```text\n(\\$ spruelight .*?)^```$")

// Every command that the guide shows is a verb with flags that it has; what a
// sum of the bench printed there it still prints.
func TestGuideCommands(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("..", "..", "content-example", "wall", "guide*.md"))
	if err != nil {
		t.Fatal(err)
	}
	dir, shown := t.TempDir(), 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var script strings.Builder
		for _, block := range guideBlock.FindAllStringSubmatch(string(text), -1) {
			shown++
			script.WriteString(guideScript(block[1]))
		}
		if script.Len() == 0 {
			continue
		}
		at := filepath.Join(dir, strings.TrimSuffix(filepath.Base(name), ".md")+".txtar")
		if err := os.WriteFile(at, []byte(script.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if shown < 6 {
		t.Errorf("only %d commands", shown)
	}
	testscript.Run(t, testscript.Params{Dir: dir, RequireExplicitExec: true, Setup: func(env *testscript.Env) error {
		env.Setenv("HOME", env.WorkDir)
		env.Setenv("NO_COLOR", "1")
		return nil
	}})
}

// guideScript turns a block of the guide into a script: a sum is done and its
// lines are looked for; of a verb that needs a finished build, the help must
// know the flags.
func guideScript(block string) string {
	command, output, _ := strings.Cut(strings.TrimPrefix(block, "$ "), "\n")
	words := strings.Fields(command)
	if words[1] != "reckon" {
		script := fmt.Sprintf("exec spruelight %s --help\n", words[1])
		for _, w := range words {
			if strings.HasPrefix(w, "--") {
				script += fmt.Sprintf("stdout '[-]%s'\n", w[1:])
			}
		}
		return script
	}
	script := "exec " + strings.ReplaceAll(command, `"`, "'") + "\n"
	for line := range strings.Lines(output) {
		if line = strings.TrimSpace(line); line != "" {
			parts := strings.Fields(line)
			for i := range parts {
				parts[i] = regexp.QuoteMeta(parts[i])
			}
			script += "stdout '" + strings.Join(parts, " +") + "'\n"
		}
	}
	return script
}
