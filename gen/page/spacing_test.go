package page

import (
	"testing"
)

// French signs stand after a no-break space, in the file of words and after the
// values of templates; other languages' stay as they are.
func TestFrenchSpacing(t *testing.T) {
	french := words(t, "fr")
	for says, want := range map[string]string{
		"Même échelle ?":              "Même échelle\u00a0?",
		"« Sorti de boîte » : 75 % !": "«\u00a0Sorti de boîte\u00a0»\u00a0: 75\u00a0%\u00a0!",
		"écrire at: \"19:30\"":        "écrire at: \"19:30\"",
	} {
		if got := french.spaced(says); got != want {
			t.Errorf("%q\n got %q\nwant %q", says, got, want)
		}
		if got := words(t, "de").spaced(says); got != says {
			t.Errorf("de: %q became %q", says, got)
		}
	}
	for says, want := range map[string]string{": ": "\u00a0: ", "</strong>: <em>": "</strong>\u00a0: <em>", "; ": "\u00a0; ", ":active": ":active", "a: b": "a: b"} {
		if got := string(french.punctuated([]byte(says))); got != want {
			t.Errorf("%q after a value: got %q, want %q", says, got, want)
		}
	}
	forms := map[string]string{"a": "pièce %s %s %.1f : %d %%", "b": "« %s » ; %[2]s"}
	french.spacedAll(forms) // a place for a value is no per cent sign
	if forms["a"] != "pièce %s %s %.1f\u00a0: %d\u00a0%%" || forms["b"] != "«\u00a0%s\u00a0»\u00a0; %[2]s" {
		t.Errorf("%q", forms)
	}
}
