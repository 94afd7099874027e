package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// In a real bash, with the script really sourced, words are completed by the
// tab key's own function.
func TestCompletionInBash(t *testing.T) {
	bash := outside.Tool(t, "bash")
	const library = "/usr/share/bash-completion/bash_completion"
	if _, err := os.Stat(library); err != nil {
		outside.Missing(t, "bash-completion is not installed")
	}
	script := `source ` + library + ` && source <(spruelight completion bash) || exit 1
line="$1"; read -ra COMP_WORDS <<<"$line"; [[ "$line" == *" " ]] && COMP_WORDS+=("")
COMP_CWORD=$((${#COMP_WORDS[@]} - 1)) COMP_LINE="$line" COMP_POINT=${#line} COMP_TYPE=9
complete -p spruelight >/dev/null || exit 1
__start_spruelight 2>/dev/null # compopt complains outside of a key press
printf '%s\n' "${COMPREPLY[@]}"`
	for _, c := range []struct{ line, want string }{
		{"spruelight sit mar", "marram"},
		{"spruelight shownotes marram/2026-02-1", "marram/2026-02-14-light-blocking"},
		{"spruelight reckon led --supply bl", "block-9v"},
		{"spruelight dry", "dryfit"},
		{"spruelight sit nothing-like-it", ""},
	} {
		cmd := exec.Command(bash, "--norc", "-c", script, "bash", c.line)
		cmd.Dir = "../../content-example"
		out, err := cmd.CombinedOutput()
		if got := strings.TrimSpace(string(out)); err != nil || !slices.Contains(strings.Fields(got+" ."), c.want) && got != c.want {
			t.Errorf("%s: %v: got %q, want %q", c.line, err, got, c.want)
		}
	}
}

// fish completes with its own function.
func TestCompletionInFish(t *testing.T) {
	fish := outside.Tool(t, "fish")
	for _, c := range []struct{ line, want string }{{"spruelight sit mar", "marram"}, {"spruelight reckon sca", "scale"}, {"spruelight reckon led --lamp amb", "amber"}} {
		cmd := exec.Command(fish, "--no-config", "-c", "spruelight completion fish | source; complete -C "+"'"+c.line+"'")
		cmd.Dir, cmd.Env = "../../content-example", append(os.Environ(), "HOME="+t.TempDir())
		out, err := cmd.CombinedOutput()
		if err != nil || !strings.Contains("\n"+string(out), "\n"+c.want) {
			t.Errorf("%s: %v: %s", c.line, err, out)
		}
	}
}

// zsh reads its script without a complaint.
func TestCompletionReadByZsh(t *testing.T) {
	zsh := outside.Tool(t, "zsh")
	name := filepath.Join(t.TempDir(), "_spruelight")
	script, err := exec.Command("spruelight", "completion", "zsh").Output()
	if err != nil || len(script) == 0 {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, script, 0o666); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(zsh, "-f", "-c", "autoload -Uz compinit && compinit -D && source "+name+" && whence _spruelight").CombinedOutput(); err != nil || strings.TrimSpace(string(out)) != "_spruelight" {
		t.Errorf("%v: %s", err, out)
	}
}
