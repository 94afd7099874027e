package wiring

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/testdata/readback"
)

// edit changes one place of a drawing's text; it must change something.
type edit struct {
	name string
	make func(file string) string
	says string // of the error that must come
}

// first replaces the n-th match of an expression, counted from 0.
func nth(file, expression string, n int, change func(match []string) string) string {
	re := regexp.MustCompile(expression)
	all := re.FindAllStringSubmatchIndex(file, -1)
	if n >= len(all) {
		return file
	}
	at := all[n]
	var parts []string
	for i := 0; i < len(at); i += 2 {
		parts = append(parts, file[at[i]:at[i+1]])
	}
	return file[:at[0]] + change(parts) + file[at[1]:]
}

func drop([]string) string { return "" }

const (
	aWire = `\n<line x1="([0-9.]+)" y1="([0-9.]+)" x2="([0-9.]+)" y2="([0-9.]+)"/>`
	aDot  = `\n<circle cx="([0-9.]+)" cy="([0-9.]+)" r="2.75"/>`
)

// edits are drawings gone wrong, one for each thing that the checks look at.
var edits = []edit{
	{"a wire less", func(f string) string { return nth(f, aWire, 4, drop) }, ""},
	{"a dot less", func(f string) string { return nth(f, aDot, 2, drop) }, "without a dot"},
	{"a dot where two wires meet", func(f string) string {
		return nth(f, aDot, 0, func(m []string) string {
			return m[0] + strings.Replace(m[0], `cx="`+m[1], `cx="`+m[1]+"0", 1)
		})
	}, "a dot at"},
	{"a wire across another", func(f string) string {
		return nth(f, aWire, 0, func(m []string) string { return m[0] + "\n" + `<line x1="30" y1="70" x2="400" y2="70"/>` })
	}, "cross"},
	{"a wire drawn twice", func(f string) string {
		return nth(f, aWire, 3, func(m []string) string { return m[0] + m[0] })
	}, "on each other"},
	{"a wire a little short", func(f string) string {
		return nth(f, aWire, 5, func(m []string) string {
			return fmt.Sprintf("\n"+`<line x1="%s" y1="%s" x2="%s" y2="%s.4"/>`, m[1], m[2], m[3], strings.Split(m[4], ".")[0])
		})
	}, ""},
	{"a lamp upside down", func(f string) string {
		return nth(f, `points="([0-9.]+),([0-9.]+) ([0-9.]+),([0-9.]+) ([0-9.]+),([0-9.]+)"`, 0, func(m []string) string {
			return fmt.Sprintf(`points="%s,%s %s,%s %s,%s"`, m[1], m[6], m[3], m[6], m[5], m[2])
		})
	}, ""},
	{"a resistor with a line through", func(f string) string {
		return nth(f, `data-part="resistor"[^>]*>\n<rect class="d-paper" fill="#fcfbf8" x="([0-9.]+)" y="([0-9.]+)" width="13" height="30"/>`, 0, func(m []string) string {
			x, y := number(m[1])+6.5, number(m[2])
			return m[0] + fmt.Sprintf("\n"+`<line x1="%g" y1="%g" x2="%g" y2="%g"/>`, x, y, x, y+30)
		})
	}, "drawn as a fuse"},
	{"another resistance", func(f string) string { return strings.Replace(f, ">430 Ω<", ">470 Ω<", 1) }, "says"},
	{"two references exchanged", func(f string) string {
		return strings.NewReplacer(">R1<", ">R3<", ">R3<", ">R1<").Replace(f)
	}, ""},
	{"a test point's number", func(f string) string { return strings.NewReplacer(">7<", ">8<", ">8<", ">7<").Replace(f) }, "nets"},
	{"the letters of a flag", func(f string) string { return strings.Replace(f, ">A+<", ">Q+<", 1) }, "nets"},
	{"plus and minus of a flag exchanged", func(f string) string {
		return strings.NewReplacer(">A+<", ">A−<", ">A−<", ">A+<").Replace(f[:strings.LastIndex(f, ">A+<")]) + f[strings.LastIndex(f, ">A+<"):]
	}, "nets"},
	{"the supply turned round", func(f string) string { return turnSupply(f) }, "nets"},
	{"an arrow of a lamp missing", func(f string) string {
		return nth(f, `\n<polygon class="d-ink" fill="[^"]*" stroke="none" points="[^"]*"/>`, 0, drop)
	}, "arrows"},
	{"words over words", func(f string) string {
		return nth(f, `<text ([^>]*)x="([0-9.]+)" y="([0-9.]+)"([^>]*)>([a-z][^<]*)</text>`, 0, func(m []string) string {
			return m[0] + "\n" + fmt.Sprintf(`<text %sx="%g" y="%s"%s>%s</text>`, m[1], number(m[2])+4, m[3], m[4], m[5])
		})
	}, "overlaps"},
	{"words on a wire", func(f string) string {
		return nth(f, `(>saloon ceiling fore<)`, 0, func(m []string) string { return ">saloon ceiling fore, far too long to stay here<" })
	}, ""},
	{"words outside", func(f string) string {
		return nth(f, `viewBox="(\S+) (\S+) (\S+) (\S+)"`, 0, func(m []string) string {
			return fmt.Sprintf(`viewBox="%s %s %g %s"`, m[1], m[2], number(m[3])-60, m[4])
		})
	}, "outside"},
	{"an unknown shape", func(f string) string {
		return strings.Replace(f, "</svg>", `<path d="M0 0L9 9"/></svg>`, 1)
	}, "holds no"},
}

func number(text string) float64 {
	v, err := strconv.ParseFloat(strings.Fields(text)[0], 64)
	if err != nil {
		panic(err) // an edit took a number from the wrong place
	}
	return v
}

// turnSupply moves the plus sign of the supply's box to its lower end.
func turnSupply(f string) string {
	at := strings.Index(f, `data-part="source"`)
	end := at + strings.Index(f[at:], "</g>")
	lines := strings.Split(f[at:end], "\n")
	for i := range lines[2:4] {
		lines[2+i] = regexp.MustCompile(`y([12])="([0-9.]+)"`).ReplaceAllStringFunc(lines[2+i], func(m string) string {
			return m[:4] + fmt.Sprintf("%g", number(strings.Trim(m[4:], `"`))+28) + `"`
		})
	}
	return f[:at] + strings.Join(lines, "\n") + f[end:]
}

// plugEdits are mistakes in a connector.
var plugEdits = []edit{
	{"a cup less", func(f string) string { return nth(f, `\n<path [^>]*/>`, 0, drop) }, "belongs to no symbol"},
	{"a pin less", func(f string) string { return nth(f, `\n<line stroke-width="3"[^>]*/>`, 0, drop) }, "the cup at"},
	{"two connectors exchanged", func(f string) string {
		return strings.NewReplacer(">X1+<", ">X2+<", ">X2+<", ">X1+<").Replace(f)
	}, "nets"},
	{"a contact named as a wire", func(f string) string { return strings.NewReplacer(">X2+<", ">W2+<", ">W2+<", ">X2+<").Replace(f) }, ""},
}

// TestTheChecksCanFail: every kind of mistake in a drawing is seen.
func TestTheChecksCanFail(t *testing.T) {
	checksFail(t, skiff(), edits)
	checksFail(t, rover(), plugEdits)
}

func checksFail(t *testing.T, in circuit.Input, edits []edit) {
	s := solved(t, in)
	good := string(Diagram("d", s, nil).File())
	check := func(file string) error {
		r, err := readback.Read([]byte(file))
		if err != nil {
			return err
		}
		if err := r.Compare(&s); err != nil {
			return err
		}
		return r.CheckLayout()
	}
	if err := check(good); err != nil {
		t.Fatal(err)
	}
	for _, e := range edits {
		t.Run(e.name, func(t *testing.T) {
			bad := e.make(good)
			if bad == good {
				t.Fatal("the edit changed nothing")
			}
			err := check(bad)
			if err == nil {
				t.Fatal("went unseen")
			}
			if !strings.Contains(err.Error(), e.says) {
				t.Errorf("%v, want %q in it", err, e.says)
			}
			t.Log(err)
		})
	}
}

// TestEveryStretchOfWireCounts: without any one of its wires or dots a drawing
// no longer shows the circuit.
func TestEveryStretchOfWireCounts(t *testing.T) {
	s := solved(t, skiff())
	good := string(Diagram("d", s, nil).File())
	from, to := strings.Index(good, `wires"`), strings.Index(good, ` parts"`)
	for i := range regexp.MustCompile(aWire).FindAllString(good[from:to], -1) {
		bad := good[:from] + nth(good[from:to], aWire, i, drop) + good[to:]
		if r, err := readback.Read([]byte(bad)); err == nil && r.Compare(&s) == nil {
			t.Errorf("wire %d is missing and nothing was said", i)
		}
	}
	for i := range regexp.MustCompile(aDot).FindAllString(good, -1) {
		if r, err := readback.Read([]byte(nth(good, aDot, i, drop))); err == nil && r.Compare(&s) == nil {
			t.Errorf("dot %d is missing and nothing was said", i)
		}
	}
}
