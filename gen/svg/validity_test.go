package svg

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// TestNuChecker validates every drawing as a file of its own and inlined in a
// page, several on one page, with the style sheet, by the Nu HTML checker.
func TestNuChecker(t *testing.T) {
	jar := outside.File(t, "VNU_JAR")
	java := outside.Tool(t, "java")
	dir := t.TempDir()
	var page strings.Builder
	page.WriteString("<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>Drawings</title>\n" +
		"<style>" + Properties() + Stylesheet() + "</style></head>\n<body>\n")
	files := []string{}
	for i, c := range append(charts(), namedDrawing{name: "sample", drawing: sample()}) {
		c.drawing.id += string(rune('a' + i)) // the phone charts share the ids of the wide ones
		file := filepath.Join(dir, c.name+".svg")
		if err := os.WriteFile(file, c.drawing.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
		if i < 6 || c.name == "sample" {
			page.WriteString("<figure>" + c.drawing.Inline() + "</figure>\n")
		}
	}
	page.WriteString("</body>\n</html>\n")
	html := filepath.Join(dir, "page.html")
	if err := os.WriteFile(html, []byte(page.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	check := func(kind string, files ...string) {
		args := append([]string{"-Xss4m", "-jar", jar, kind, "--Werror", "--skip-info-messages"}, files...)
		if out, err := exec.Command(java, args...).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%.3000s", kind, err, out)
		}
	}
	check("--svg", files...)
	check("--html", html)
}
