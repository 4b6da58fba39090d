package page

import (
	"strings"
	"testing"
)

// typeset sets text in letters 50 wide and of size 100, the gaps behind them as given
// (hundredths of the size), a "|" being a space that the engine put in.
func typeset(text string, gaps map[int]int) []char {
	var out []char
	x := 0
	for i, r := range []rune(text) {
		if r == '|' {
			out = append(out, char{r: ' ', made: true})
			continue
		}
		out = append(out, char{r: r, box: [4]int{x, 0, x + 50, 100}, size: 100})
		x += 50 + gaps[i]
	}
	return out
}

func TestSpacesThatAreMoves(t *testing.T) {
	tests := []struct {
		text, want, why string
		gaps            map[int]int
	}{
		{"27May2026", "27 May2026", "the pen was moved by a fifth of the size", map[int]int{1: 22}},
		{"27May2026", "27May2026", "so little parts no words", map[int]int{1: 9}},
		{"Januar|y", "January", "the space stands in the kerning of two letters", nil},
		{"of|the", "of the", "here the letters stand apart", map[int]int{1: 25}},
		{"TITLE", "TITLE", "all letters are set apart alike", map[int]int{0: 20, 1: 20, 2: 20, 3: 20}},
	}
	for _, tt := range tests {
		var got strings.Builder
		for _, c := range evenGaps(typeset(tt.text, tt.gaps)) {
			got.WriteRune(c.r)
		}
		if got.String() != tt.want {
			t.Errorf("%q is read as %q, want %q: %s", tt.text, got.String(), tt.want, tt.why)
		}
	}
}

func TestWordsOfTwoWeights(t *testing.T) {
	tests := []struct {
		text, want, why string
		bold            int // how many of the letters are
	}{
		{"Amoryhow", "Amory how", "type does not change within a word", 5},
		{"MyPage", "MyPage", "but for a name that begins anew with a capital", 2},
		{"Teil", "Teil", "or a large letter at its begin", 1},
		{"Amoryhow", "Amoryhow", "all of one type", 0},
	}
	for _, tt := range tests {
		chars := typeset(tt.text, nil)
		for i := range tt.bold {
			chars[i].bold = true
		}
		var got []string
		for _, w := range words(chars, 1000, 1000) {
			got = append(got, w.Text)
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("%s is %q, want %q: %s", tt.text, got, tt.want, tt.why)
		}
	}
}
