package page

import "testing"

// TestLyingPage: words higher than wide tell that a page lies on its side; its letters are
// worth nothing until it was turned.
func TestLyingPage(t *testing.T) {
	set := func(upright int) attempt {
		var a attempt
		for i := range 10 {
			w := Word{Text: "Certificate", Confidence: 95, Box: [4]int{100, 100 * i, 400, 100*i + 40}}
			if i < upright {
				w.Box = [4]int{100 * i, 100, 100*i + 40, 400}
			}
			a.words = append(a.words, w)
		}
		return a
	}
	for upright, want := range map[int]bool{0: false, 2: false, 7: true, 10: true} {
		if got := set(upright).lying(); got != want {
			t.Errorf("with %d of 10 words upright: lying is %v, want %v", upright, got, want)
		}
	}
	if set(0).worth() <= set(7).worth() || set(10).worth() != 0 {
		t.Error("a page that lies on its side is worth as much as one that stands")
	}
	if a := (attempt{words: []Word{{Text: "I", Box: [4]int{0, 0, 4, 40}}, {Text: "1.", Box: [4]int{0, 0, 9, 40}}}}); a.lying() {
		t.Error("short words are high by themselves")
	}
}

// TestTypeChangesBetweenWords: where bold small letters end and others begin, a word ends.
func TestTypeChangesBetweenWords(t *testing.T) {
	var chars []char
	add := func(text string, bold bool) {
		for _, r := range text {
			x := 50 * len(chars)
			chars = append(chars, char{r: r, box: [4]int{x, 0, x + 50, 100}, size: 100, bold: bold})
		}
	}
	add("Amory", true)
	add("how", false)
	add("W", true)
	add("ord", false)
	var got []string
	for _, w := range words(chars, 10_000, 10_000) {
		got = append(got, w.Text)
	}
	if len(got) != 2 || got[0] != "Amory" || got[1] != "howWord" {
		t.Errorf("words are %q", got)
	}
}
