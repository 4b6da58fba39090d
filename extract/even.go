package extract

import (
	"slices"
	"strings"
	"unicode"

	"evidencevault/extract/page"
)

// evenRow gives the words of a recognised row the height of their font in place of that
// of their ink: "on" has half the ink of "On", and gaps and rows are judged by height. Sizes
// near each other are one size.
func evenRow(row []page.Word) {
	sizes := make([]int, len(row))
	for i, w := range row {
		sizes[i] = w.Size
	}
	for i := range row {
		w := &row[i]
		var near []int
		for k, s := range sizes {
			if s > 0 && 10*s >= 7*sizes[i] && 10*s <= 14*sizes[i] && lettersIn(row[k].Text) > 1 {
				near = append(near, s)
			}
		}
		if len(near) == 0 || sizes[i] == 0 {
			continue
		}
		slices.Sort(near)
		w.Size = near[len(near)/2]
		foot := w.Box[3]
		if strings.ContainsAny(w.Text, "gjpqy,;()/") {
			foot -= w.Size / 5
		}
		w.Box[1], w.Box[3] = min(w.Box[1], foot-w.Size*3/4), max(w.Box[3], foot+w.Size/5)
	}
}

func lettersIn(text string) int {
	n := 0
	for _, r := range text {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			n++
		}
	}
	return n
}
