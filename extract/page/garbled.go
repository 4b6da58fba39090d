package page

import (
	"slices"
	"strings"
	"unicode"
)

// A text of so many letters, in so many words, has small words of its language; and of so
// many words at least one is small.
const (
	leastLetters = 60
	leastWords   = 12
)

// garbled says whether the letters that a file gives for what it draws may be none that
// are seen: hardly a small word of a language that is read here, and few of the letters
// that are two thirds of all in each of them, and a third of any jumble. A font may draw one
// letter and say that it is another. Then the picture is asked.
func garbled(ws []Word) bool {
	letters, words, small, common := 0, 0, 0, 0
	for _, w := range ws {
		if w.Hidden {
			continue
		}
		low := strings.Trim(strings.ToLower(w.Text), ".,:;()")
		for _, list := range smallWords {
			if slices.Contains(list, low) {
				small++
				break
			}
		}
		n := 0
		for _, r := range low {
			if r > 0x24f && unicode.IsLetter(r) {
				return false // another script, which is not recognised either
			}
			if unicode.IsLetter(r) {
				n++
			}
			if strings.ContainsRune("enairtso", r) {
				common++
			}
		}
		letters += n
		if n > 1 {
			words++
		}
	}
	return letters >= leastLetters && words >= leastWords && small*leastWords < words && common*2 < letters
}

// unveiled decides, by what was recognised on the picture, which of the file's words are
// seen; kept says that most of those in doubt are, so that the file can be believed.
func unveiled(file, recognised []Word) (kept bool) {
	doubtful, found := 0, 0
	for i := range file {
		w := &file[i]
		if !w.Veiled || w.Hidden {
			continue
		}
		doubtful++
		w.Hidden = !slices.ContainsFunc(recognised, func(o Word) bool {
			return (w.holdsMiddle(o) || o.holdsMiddle(*w)) && akin(core(o.Text), core(w.Text))
		})
		if !w.Hidden {
			found++
		}
	}
	return doubtful >= leastWords && found*10 >= doubtful*6
}

// akin says whether two words have most of their letters in common, in one order.
func akin(a, b string) bool {
	x, y := []rune(a), []rune(b)
	if len(x) == 0 || len(y) == 0 {
		return len(x) == len(y)
	}
	row := make([]int, len(y)+1) // how many letters so much of x and y have in common
	for i := range x {
		last := 0
		for k := range y {
			above := row[k+1]
			if x[i] == y[k] {
				row[k+1] = last + 1
			} else {
				row[k+1] = max(row[k+1], row[k])
			}
			last = above
		}
	}
	return row[len(y)]*3 >= 2*max(len(x), len(y))
}
