package main

import (
	"bytes"
	"strings"
	"testing"

	"evidencevault/internal/demo"
)

// A paper that this program writes alone must come out as it is kept: with a fixed
// date, and in no way dependent on the machine.
func TestOwnPapersComeOutTheSame(t *testing.T) {
	kept := map[string][]byte{}
	for _, p := range demo.Papers() {
		kept[p.Name] = p.Data
	}
	made, err := ownPapers()
	if err != nil {
		t.Fatal(err)
	}
	if len(made) != 7 {
		t.Fatalf("%d papers, want 7", len(made))
	}
	for _, p := range made {
		if !bytes.Equal(p.data, kept[p.name]) {
			t.Errorf("%s: made anew it differs from what is kept; run go run ./internal/demo/make -own and read the difference", p.name)
		}
	}
}

// The truths say what stands in the papers; where the text is plain in the file it must be there.
func TestOwnPapersSayWhatTheTruthSays(t *testing.T) {
	made, err := ownPapers()
	if err != nil {
		t.Fatal(err)
	}
	text := map[string]string{}
	for _, p := range made {
		text[p.name] = string(p.data)
	}
	checked := 0
	for _, truth := range demo.Truths() {
		data, ok := text[truth.File]
		if !ok || !strings.HasSuffix(truth.File, ".pdf") || truth.Kind == "not-evidence" {
			continue
		}
		checked++
		for _, want := range []string{truth.Title, truth.Attendee} {
			if !strings.Contains(data, want) {
				t.Errorf("%s: %q of its truth does not stand in it", truth.File, want)
			}
		}
	}
	if checked != 4 {
		t.Errorf("%d papers checked, want 4", checked)
	}
}
