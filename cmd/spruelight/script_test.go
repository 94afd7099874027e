package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected files inside the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"spruelight": func() { os.Exit(run()) }, "killat": func() { os.Exit(killAt()) }})
}

// TestScripts runs the verbs as a user does: a small workshop in, the verb,
// the files and messages expected. One script a behaviour.
func TestScripts(t *testing.T) {
	example, err := filepath.Abs("../../content-example")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireUniqueNames:  true,
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"rest": rest},
		Setup: func(env *testscript.Env) error {
			env.Setenv("XDG_CACHE_HOME", env.WorkDir+"/.cache")
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("EXAMPLE", example)
			env.Setenv("NO_COLOR", "1")
			return nil
		},
	})
}

// rest is the script command "rest 2s": nothing is done for a while, on any system.
func rest(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: rest duration")
	}
	d, err := time.ParseDuration(args[0])
	ts.Check(err)
	time.Sleep(d)
}
