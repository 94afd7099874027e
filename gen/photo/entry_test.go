package photo

import (
	"bytes"
	"errors"
	"io/fs"
	"testing"

	"spruelight/gen/source"
)

// A note comes out of an entry as it went in: its form is the key of the words
// files, so it must not be kept as a finished sentence.
func TestNotesOfAnEntryAreForms(t *testing.T) {
	for _, p := range []*Problem{
		problem(RuleProfile, remedyProfile, "has colours of a kind (cICP %v) that cannot be followed; it is shown as sRGB", []byte{1, 2}),
		problem(RuleProfile, remedyProfile, "has a colour profile that cannot be followed; it is shown as sRGB").because(errors.New("no curve")),
	} {
		packed, err := pack(Set{Notes: []*Problem{p}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		d, _, err := unpack(bytes.NewReader(packed), int64(len(packed)))
		if err != nil {
			t.Fatal(err)
		}
		notes := d.set().Notes
		if len(notes) != 1 || notes[0].Error() != p.Error() || notes[0].Says.Form != p.Says.Form || notes[0].Rule != p.Rule {
			t.Errorf("%v became %v", p, notes)
		}
		if got, want := notes[0].At(source.Span{}, "a.jpg"), p.At(source.Span{}, "a.jpg"); got.Says.String() != want.Says.String() ||
			got.Do.Form != want.Do.Form {
			t.Errorf("finding %q, want %q", got.Says, want.Says)
		}
	}
	if p := unopened(fs.ErrNotExist).(*Problem); p.Error() != "is not there" || !errors.Is(p, fs.ErrNotExist) {
		t.Errorf("%v", p)
	}
}
