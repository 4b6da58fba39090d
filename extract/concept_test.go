package extract

import (
	"slices"
	"testing"
)

// TestConceptsIn finds what words are about at the begin of a word, within one where a
// compound has it there, and at the end of one where it must end.
func TestConceptsIn(t *testing.T) {
	spoken := func(text string) []string {
		var out []string
		for k, n := range conceptsIn(fold(text)) {
			if n > 0 {
				out = append(out, concepts().names[k])
			}
		}
		return out
	}
	for text, want := range map[string]string{
		"Mitgliedsbeitrag 2026":          "dues",
		"Jahresbeitrag":                  "dues",
		"Teilnahmebescheinigung":         "attended",
		"a réussi l'épreuve":             "examined",
		"hat den Fachvortrag gehalten":   "taught",
		"Se hace constar que":            "attests",
		"Kassenbon":                      "invoice",
		"was not present at the meeting": "meeting",
	} {
		if got := spoken(text); !slices.Contains(got, want) {
			t.Errorf("%q speaks of %q, want %q among them", text, got, want)
		}
	}
	for text, not := range map[string]string{
		"the solid ground":   "member",     // "lid" ends a Dutch word
		"barium":             "paid",       // no "bar" of its own
		"Postgraduate":       "credential", // "grad" begins within it
		"an unattended room": "attended",
	} {
		if got := spoken(text); slices.Contains(got, not) {
			t.Errorf("%q speaks of %q, want no %q", text, got, not)
		}
	}
}
