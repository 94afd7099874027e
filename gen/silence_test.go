package gen

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/source"
	"spruelight/themes"
)

const silenceShop = "name: Bench\nsilence: {SHOP}\n"

const silenceBuild = `---
name: Skiff
state: bench
silence: {BUILD}
circuits:
  - name: main
    supply: usb-5v
    branches:
      - {name: saloon fore, lamps: [white, white], current: 10 mA}
      - {name: saloon aft, lamps: [white, white], current: 10 mA}
---
`

// What a workshop or a build says of rules decides what is silenced, and what
// is said of the silence itself.
func TestSilencing(t *testing.T) {
	const limit = "string-cannot-light"
	cases := []struct {
		name, shop, build string
		quiet             int    // of the two findings that a string cannot light
		says, remedy      string // of the silence, "" where nothing is to be said
	}{
		{"none", "", "", 0, "", ""},
		{"in the build", "", limit + ": they shall glow", 2, "", ""},
		{"in the workshop", limit + ": they shall glow", "", 2, "", ""},
		{"for one branch", "", limit + `: {why: it shall glow, on: [saloon fore]}`, 1, "", ""},
		{"by a word that both share", "", limit + `: {why: it shall glow, on: [saloon]}`, 2, "", ""},
		{"for a branch there is not", "", limit + `: {why: it shall glow, on: [mast]}`, 0, "silence-idle", "remove it"},
		{"blank reason", "", limit + `: " "`, 0, "silence-without-reason", "add why"},
		{"no reason", "", limit + ": {on: [saloon fore]}", 0, "missing-key", "why"},
		{"misspelt", "", "string-canot-light: they shall glow", 0, "silence-unknown-rule", "write " + limit},
		{"misspelt in the workshop", "string-canot-light: they shall glow", "", 0, "silence-unknown-rule", "write " + limit},
		{"of a stop", "", "unknown-name: I know better", 0, "silence-of-stop", "mend"},
		{"of nothing", "", "flash-rate: no such light", 0, "silence-idle", "remove it"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{
				"workshop.yaml":         {Data: []byte(strings.Replace(silenceShop, "SHOP", c.shop, 1))},
				"builds/skiff/build.md": {Data: []byte(strings.Replace(silenceBuild, "BUILD", c.build, 1))},
				"rack/supplies.yaml":    {Data: []byte("usb-5v: {kind: usb, volts: 5 V}\n")},
				"rack/lamps.yaml":       {Data: []byte("white: {colour: white, forward: 3 V @ 10 mA}\n")},
			}
			res, err := Check(context.Background(), Env{Content: files, Themes: themes.FS, Moment: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)})
			if err != nil {
				t.Fatal(err)
			}
			all, quiet := 0, 0
			var said *source.Finding
			for i, f := range res.Findings {
				if f.Rule.Name == limit {
					all++
					if f.Silenced != "" {
						quiet++
					}
				}
				if f.Rule.Name == c.says {
					said = &res.Findings[i]
				}
				if strings.HasPrefix(f.Rule.Name, "silence") && f.Rule.Name != c.says {
					t.Errorf("unexpected: %s [%s]", f.Says.String(), f.Rule.Name)
				}
			}
			if all != 2 || quiet != c.quiet {
				t.Errorf("%d findings, %d of them silenced, want 2 and %d", all, quiet, c.quiet)
			}
			if c.says != "" && (said == nil || !strings.Contains(said.Do.String(), c.remedy) || !said.At.Known()) {
				t.Errorf("want %s with remedy %q, got %+v", c.says, c.remedy, said)
			}
		})
	}
}
