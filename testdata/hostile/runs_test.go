package hostile

import (
	"strings"
	"testing"
)

// The corpus is large, and no string stands in it twice.
func TestCorpus(t *testing.T) {
	list := Strings()
	if len(list) < 150 {
		t.Errorf("%d strings", len(list))
	}
	seen := map[string]bool{}
	for _, s := range list {
		if seen[s] {
			t.Errorf("%q stands twice", s)
		}
		seen[s] = true
	}
}

// The reader is no use where it would not see what runs.
func TestRunsSeesWhatRuns(t *testing.T) {
	for _, markup := range []string{
		`<script>x</script>`, `<p onclick=x>`, `<p style="a:b">`, `<a href="javascript:x">`, `<a href=" java&#9;script:x">`, `<a href="//other.example">`,
		`<a href="/\other.example">`, `<img src="https://other.example/x.png">`, `<img src="data:image/svg+xml,x">`, `<svg><set/></svg>`, `<svg><a xlink:href="data:x"></a></svg>`,
		`<meta http-equiv=refresh content=0>`, `<base href=x>`, `<iframe></iframe>`, `<form action="javascript:x">`, `<script src="x.js">y</script>`, `<script src="data:,x"></script>`,
		`<svg><foreignObject></foreignObject></svg>`, `<link rel=x href="data:x">`, `<form>`, `<style>x</style>`, `<svg><style>@import "x"</style></svg>`, `<svg><style>a{b:url(x)}</style></svg>`,
	} {
		if len(Runs([]byte(markup))) == 0 {
			t.Errorf("nothing is seen in %s", markup)
		}
	}
	for _, markup := range []string{
		`<p>on style=</p>`, `<a href="https://other.example/">x</a>`, `<a href="mailto:a@b.example">x</a>`, `<img src="data:image/png;base64,x" alt="">`,
		`<script src="script.js"></script>`, `<script type="application/ld+json">{}</script>`, `<a href="x/y.html#z">x</a>`, `&lt;script&gt;`,
	} {
		if list := Runs([]byte(markup)); len(list) > 0 {
			t.Errorf("%s: %s", markup, strings.Join(list, "; "))
		}
	}
}

func TestNotXML(t *testing.T) {
	if NotXML([]byte("<a><b/></a>")) != "" || NotXML([]byte("<a><b></a>")) == "" || NotXML([]byte("<a x=1/>")) == "" {
		t.Error("well-formedness is told wrongly")
	}
}
