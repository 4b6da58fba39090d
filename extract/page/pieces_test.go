package page

import (
	"image"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPiecesOfAWordAreOneWord(t *testing.T) {
	word := func(text string, left, right, confidence int) Word {
		return Word{Text: text, Box: [4]int{left, 100, right, 124}, Confidence: confidence}
	}
	texts := func(ws []Word) (out []string) {
		for _, w := range ws {
			out = append(out, w.Text)
		}
		return out
	}
	first := []Word{word("Technical", 393, 490, 90), word("Ev", 497, 523, 92), word("signed", 700, 790, 95), word("ening", 524, 580, 93), word("a", 900, 910, 90), word("day", 913, 950, 90)}
	got := rejoined(first)
	if diff := cmp.Diff([]string{"Technical", "Evening", "signed", "a", "day"}, texts(got)); diff != "" {
		t.Errorf("rejoined (-want +got):\n%s", diff)
	}
	if got[1].Confidence != contradicted || got[1].Box != [4]int{497, 100, 580, 124} {
		t.Errorf("the joined word is %+v: want the box of both, and no confidence that makes it sure", got[1])
	}
	whole := withWhole(first, []Word{word("Evening", 497, 580, 94)})
	if diff := cmp.Diff([]string{"Technical", "signed", "a", "day", "Evening"}, texts(whole)); diff != "" || whole[4].Confidence != 94 {
		t.Errorf("a reading that has the word in one is taken as it is (-want +got):\n%s", diff)
	}
}

// TestStainIsPaper lets a wide grey stripe cross thin black strokes: the stripe goes, the
// strokes stay, a broad black bar stays.
func TestStainIsPaper(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 400, 400))
	for y := range 400 {
		for x := range 400 {
			v := uint8(245)
			if y >= 150 && y < 185 {
				v = 150 // the stain
			}
			if x%40 < 4 && x > 40 && x < 300 || x >= 340 && x < 370 {
				v = 20
			}
			g.Pix[y*g.Stride+x] = v
		}
	}
	out := evened(g)
	for _, p := range []struct {
		x, y int
		ink  bool
		why  string
	}{{60, 167, false, "stain alone"}, {82, 167, true, "a stroke on the stain"}, {82, 60, true, "a stroke"}, {60, 60, false, "paper"}, {355, 60, true, "a bar"}, {60, 150, false, "the stain's edge"}, {60, 184, false, "the stain's edge"}} {
		if v := out.GrayAt(p.x, p.y).Y; (v < 100) != p.ink || v >= 100 && v < 200 {
			t.Errorf("%s at %d, %d is %d", p.why, p.x, p.y, v)
		}
	}
}

func TestSpreadTakesTheMostNearby(t *testing.T) {
	line := []uint8{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, 3}
	for r := range 6 {
		got := append([]uint8(nil), line...)
		spread(got, make([]uint8, len(line)), make([]uint8, len(line)), r, func(a, b uint8) uint8 { return max(a, b) })
		for i := range line {
			want := uint8(0)
			for k := max(i-r, 0); k <= min(i+r, len(line)-1); k++ {
				want = max(want, line[k])
			}
			if got[i] != want {
				t.Errorf("up to %d from %d: %d, want %d", r, i, got[i], want)
			}
		}
	}
}
