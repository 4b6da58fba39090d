package web

import (
	"regexp"
	"slices"
	"testing"
)

var verb = regexp.MustCompile(`%(\[\d\])?[sdqv]`)

// A language that lacks a text, or fills in something else, is found here.
func TestWordsAreComplete(t *testing.T) {
	if len(languages()) < 2 {
		t.Fatal("want English and at least one other language")
	}
	en := languages()[0]
	if en.Lang() != "en" {
		t.Fatalf("the first language is %s, want en", en.Lang())
	}
	for _, w := range languages()[1:] {
		for key, text := range en.text {
			other, ok := w.text[key]
			if !ok {
				t.Errorf("%s: no text for %s", w.Lang(), key)
				continue
			}
			if a, b := verb.FindAllString(text, -1), verb.FindAllString(other, -1); len(a) != len(b) {
				t.Errorf("%s: %s fills in %v, English %v", w.Lang(), key, b, a)
			}
		}
		for key := range w.text {
			if _, ok := en.text[key]; !ok {
				t.Errorf("%s: %s is not in English", w.Lang(), key)
			}
		}
	}
}

// Every text that a template or the code asks for is there.
func TestEveryTextThatIsAskedForIsThere(t *testing.T) {
	asked := regexp.MustCompile(`(?:\$s|\.S|t|words|wordsFor\(r\)|\$|)\.(T|N) ?\(?"([a-z.]+)"`)
	files := []string{}
	for _, dir := range []string{"page"} {
		entries, err := assets.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			data, err := assets.ReadFile(dir + "/" + e.Name())
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, string(data))
		}
	}
	var keys []string
	for _, text := range files {
		for _, m := range asked.FindAllStringSubmatch(text, -1) {
			if m[1] == "N" {
				keys = append(keys, m[2]+".one", m[2]+".many")
			} else {
				keys = append(keys, m[2])
			}
		}
	}
	if len(keys) < 100 {
		t.Fatalf("only %d texts found", len(keys))
	}
	slices.Sort(keys)
	for _, key := range slices.Compact(keys) {
		if _, ok := languages()[0].text[key]; !ok {
			t.Errorf("no text for %s", key)
		}
	}
}

// What comes in English from below is said in the other language, with what is filled in
// at its place; what is no sentence of the program stays as it is.
func TestSayings(t *testing.T) {
	i := slices.IndexFunc(languages(), func(w *words) bool { return w.Lang() == "de" })
	de := languages()[i]
	for from, want := range map[string]string{
		"Is 03/04/2026 the 3rd of April 2026 or the 4th of March 2026? Nothing in the paper shows whether the day or the month stands first.": "Ist 03/04/2026 der 3. April 2026 oder der 4. März 2026? Nichts im Papier zeigt, ob der Tag oder der Monat zuerst steht.",
		"  counts 1.5 of 1.5 points: no cap takes anything": "  zählt 1.5 von 1.5 points: keine Obergrenze nimmt etwas weg",
		"Ropes of the north":  "Ropes of the north",
		"set aside: the rope": "beiseitegelegt: the rope",
		"":                    "",
	} {
		if got := de.Say(from); got != want {
			t.Errorf("%q\ngave %q\nwant %q", from, got, want)
		}
		if got := languages()[0].Say(from); got != from {
			t.Errorf("English: %q gave %q", from, got)
		}
	}
}
