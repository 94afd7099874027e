package gen_test

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"spruelight/testdata/outside"
	"spruelight/testdata/view"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// papers are the sheets that a repair sheet is printed on, in inches (ISO 216,
// ANSI/ASME Y14.1).
var papers = map[string][2]float64{"A4": {8.268, 11.693}, "Letter": {8.5, 11}}

// The repair sheet of every build of the example prints to exactly one page of
// A4 and of Letter, and loses no word on paper.
func TestRepairSheetPrintsToOnePage(t *testing.T) {
	pdfinfo, pdftotext := outside.Tool(t, "pdfinfo"), outside.Tool(t, "pdftotext")
	ctx := view.Tab(t)
	site := assembled(t)
	for _, name := range files(t, site, "repair.html") {
		for paper, size := range papers {
			t.Run(paper+" "+name, func(t *testing.T) {
				if err := chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(site, name))); err != nil {
					t.Fatal(err)
				}
				file := filepath.Join(t.TempDir(), "sheet.pdf")
				printed(t, ctx, file, size)
				info := outputOf(t, pdfinfo, file)
				if pages := regexp.MustCompile(`Pages:\s+(\d+)`).FindStringSubmatch(info); pages == nil || pages[1] != "1" {
					t.Errorf("%v pages", pages)
				}
				text := outputOf(t, pdftotext, file, "-")
				for _, want := range []string{"Open it", "Take care", "Circuit", "TP1", "D1", "R1"} {
					if !strings.Contains(text, want) {
						t.Errorf("the printed sheet does not say %q", want)
					}
				}
			})
		}
	}
}

func outputOf(t *testing.T, program string, args ...string) string {
	t.Helper()
	out, err := exec.Command(program, args...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// printed prints the page in the browser to a PDF.
func printed(t *testing.T, ctx context.Context, file string, size [2]float64) {
	t.Helper()
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		out, err := cdp.Call(ctx, tab, cdppage.PrintToPDF, cdppage.PrintToPDFParams{PaperWidth: size[0], PaperHeight: size[1]})
		if err != nil {
			return err
		}
		return os.WriteFile(file, out.Data, 0o644)
	}))
	if err != nil {
		t.Fatal(err)
	}
}

// The sheet says what the journals say: how to open the model, each lamp with
// its resistor and rings, spares and where they are.
func TestRepairSheetSaysWhatIsWritten(t *testing.T) {
	site := assembled(t)
	sheet, err := os.ReadFile(filepath.Join(site, "cairnhead", "repair.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"four M2 screws", "hollow stair column", "R1 560\u00a0Ω", "green blue brown gold", "17.1", "on day one", "bag taped inside the rock", "band touch-up", "cabin inside"} {
		if !bytes.Contains(sheet, []byte(want)) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}
