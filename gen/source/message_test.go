package source

import (
	"encoding/json"
	"testing"
	"time"
)

func TestMessages(t *testing.T) {
	inner := Say("%s (assumed)", time.Hour)
	for _, c := range []struct {
		says Message
		want string
	}{
		{Message{}, ""},
		{Word("write control: blink 1 Hz 20 %"), "write control: blink 1 Hz 20 %"},
		{Say("%s is %q, %d of %.1f %%", "a", "b", 3, 4.25), `a is "b", 3 of 4.2 %`},
		{Say("%[2]s before %[1]s", "a", "b"), "b before a"},
		{Say("after %s; %s", inner, Word("see 5 %")), "after 1h0m0s (assumed); see 5 %"},
		{Say("%s", And([]string{"D1"})), "D1"},
		{Say("%s", And([]string{"D1", "D2", "D3"})), "D1, D2 and D3"},
		{Say("write one of: %s", Or([]string{"a", "b"})), "write one of: a or b"},
		{Say("%s", Row([]Message{inner, Word("b")})), "1h0m0s (assumed), b"},
		{Say("%s", List{Of: []any{1, 2}, Sep: "; "}), "1; 2"},
		{Say("%s", And([]string{})), ""},
		{Say("%s, %s, %s", Count{1, "branch"}, Count{2, "branch"}, Count{0, "sitting"}), "1 branch, 2 branches, 0 sittings"},
	} {
		if got := c.says.String(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.says, got, c.want)
		}
		if text, err := json.Marshal(c.says); err != nil || string(text) != string(must(json.Marshal(c.want))) {
			t.Errorf("%+v: %s (%v)", c.says, text, err)
		}
	}
}

func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}

// What to do is a text or a Message; a stop that is overruled counts as a warning.
func TestFindingsOfARule(t *testing.T) {
	stop := &Rule{Name: "r", Severity: Stop}
	f := stop.At(Span{}, Say("write %d", 3), "%s is %d", "a", 2)
	if f.Says.String() != "a is 2" || f.Do.String() != "write 3" || f.Severity() != Stop {
		t.Errorf("%+v", f)
	}
	f.Overruled = true
	if f.Severity() != Warn || (Findings{f}).Stops() {
		t.Errorf("overruled it is %v", f.Severity())
	}
	note := (&Rule{Severity: Note}).At(Span{}, "", "x")
	note.Overruled = true
	if note.Severity() != Note || !note.Do.Empty() {
		t.Errorf("%+v", note)
	}
}

func TestKeysOfARule(t *testing.T) {
	r := Rule{Keys: "build circuits[]: supply, fuse; sitting: lit"}
	want := []Key{{"build", "circuits[].supply"}, {"build", "circuits[].fuse"}, {"sitting", "lit"}}
	got := r.LooksAt()
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got[i], want[i])
		}
	}
	for _, keys := range []string{EveryKey, NoKey, ""} {
		if got := (&Rule{Keys: keys}).LooksAt(); len(got) > 0 {
			t.Errorf("%q names %v", keys, got)
		}
	}
}
