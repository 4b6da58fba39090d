package journal_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/journal"
)

func TestRefsAreReadAsPeopleWriteThem(t *testing.T) {
	const uuid = "0193a0c0-1111-7abc-8def-001122334455"
	tests := []struct {
		name, why string
		give      []string
		want      string // the references, or "!" and a part of the message
	}{
		{"single", "a short number is enough", []string{"P12"}, "P12"},
		{"small letter", "nobody wants to press shift", []string{"p12"}, "P12"},
		{"list", "several words are several references", []string{"P3", "C9", "R1", "A7"}, "P3 C9 R1 A7"},
		{"range", "both ends belong to it", []string{"P3", "P5-P9"}, "P3 P5 P6 P7 P8 P9"},
		{"short range", "the second letter may be left out", []string{"p5-7"}, "P5 P6 P7"},
		{"quoted", "a shell may hand over one text", []string{"P1, P2 P4-P5"}, "P1 P2 P4 P5"},
		{"twice", "a paper is confirmed once", []string{"P2", "P1-P3"}, "P2 P1 P3"},
		{"uuid", "inside, ids are UUIDs", []string{strings.ToUpper(uuid)}, uuid},
		{"nothing", "an empty list is a slip", nil, "!none given"},
		{"zero", "numbers count from 1", []string{"P0"}, "!want P12"},
		{"other letter", "there is no such kind", []string{"X3"}, "!want P12"},
		{"mixed range", "a range has one kind", []string{"P1-C3"}, "!one kind"},
		{"backwards", "the way out is said", []string{"P9-P5"}, "!write P5-P9"},
		{"huge", "a slip must not fill the memory", []string{"P1-P999999999"}, "!more than"},
		{"path", "file names are no references", []string{"a.pdf"}, "!want P12"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			refs, err := journal.ParseRefs(tt.give...)
			if part, bad := strings.CutPrefix(tt.want, "!"); bad {
				if !errors.Is(err, journal.ErrReference) || !strings.Contains(err.Error(), part) {
					t.Fatalf("%s: gave %v, %v, want an error with %q", tt.why, refs, err, part)
				}
				return
			}
			words := make([]string, len(refs))
			for i, r := range refs {
				words[i] = r.String()
			}
			if got := strings.Join(words, " "); err != nil || got != tt.want {
				t.Fatalf("%s: gave %q, %v, want %q", tt.why, got, err, tt.want)
			}
		})
	}
}

func TestRefPrintsAsItIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ref := journal.Ref{Kind: rapid.SampledFrom([]rune("PACRL")).Draw(t, "kind"), Number: rapid.IntRange(1, 999_999_999).Draw(t, "number")}
		if got, err := journal.ParseRef(ref.String()); err != nil || got != ref {
			t.Fatalf("%v was read as %v, %v", ref, got, err)
		}
	})
}

func FuzzParseRefs(f *testing.F) {
	for _, seed := range []string{"P3 P5-P9", "c1,r2", "P1-", "-P1", "P1-P0", "0193a0c0-1111-7abc-8def-001122334455", "\x00"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		refs, err := journal.ParseRefs(text)
		if err != nil {
			return
		}
		for _, ref := range refs {
			if again, err := journal.ParseRef(ref.String()); err != nil || again != ref {
				t.Fatalf("%q gave %v, which is read as %v, %v", text, ref, again, err)
			}
		}
	})
}
