// Package outside lets a test use a program from outside this project, and
// says by name which check was left out where that program is missing.
//
// It lives under testdata so that no pattern such as ./... builds it into the
// program; only tests import it.
package outside

import (
	"os"
	"os/exec"
	"testing"
)

// Required reports whether a missing tool must fail a test instead of skipping it.
func Required() bool { return os.Getenv("SPRUELIGHT_TOOLS") == "required" }

// Tool returns the path of the named program. Where it is missing the test is
// skipped with its name, or fails when the environment asks for every tool.
func Tool(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		Missing(t, name+" is not installed")
	}
	return path
}

// File returns the value of an environment variable that names a file of an
// outside tool (for instance VNU_JAR), under the same rule as Tool.
func File(t testing.TB, variable string) string {
	t.Helper()
	path := os.Getenv(variable)
	if path == "" {
		Missing(t, variable+" does not name a file")
	}
	if _, err := os.Stat(path); err != nil {
		Missing(t, err.Error())
	}
	return path
}

// Missing ends a test whose outside check cannot run.
func Missing(t testing.TB, why string) {
	t.Helper()
	if Required() {
		t.Fatalf("outside check required: %s", why)
	}
	t.Skipf("outside check left out: %s", why)
}
