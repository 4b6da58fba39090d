package page

import (
	"slices"
	"unicode/utf8"
)

// The recogniser says which words stand in one line. That tells where it gave a word a box that
// reaches into the next line, and which lines are no text at all.

// byLine groups the indices of words by the line in which they were recognised.
func byLine(words []Word) map[int][]int {
	out := map[int][]int{}
	for i, w := range words {
		out[w.line] = append(out[w.line], i)
	}
	return out
}

// boxAround is the box that holds all of some words.
func boxAround(words []Word) [4]int {
	box := words[0].Box
	for _, w := range words[1:] {
		box = joined(box, w.Box)
	}
	return box
}

// joined is the box that holds two.
func joined(a, b [4]int) [4]int {
	return [4]int{min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])}
}

// withinLines gives words whose box reaches over words of another line the height of their own.
func withinLines(words []Word) {
	lines := byLine(words)
	for i := range words {
		w := &words[i]
		own := lines[w.line]
		if len(own) < 3 || !slices.ContainsFunc(words, func(o Word) bool { return o.line != w.line && o.Confidence >= surelyRead && w.holdsMiddle(o) }) {
			continue
		}
		middle := func(side int) int {
			var all []int
			for _, k := range own {
				all = append(all, words[k].Box[side])
			}
			slices.Sort(all)
			return all[len(all)/2]
		}
		top, bottom := middle(1), middle(3)
		if high := w.Box[3] - w.Box[1]; 10*high > 14*(bottom-top) {
			w.Box[1], w.Box[3] = max(w.Box[1], top), min(w.Box[3], bottom)
			w.Size = sizeOf(w.Text, w.Box[3]-w.Box[1])
		}
	}
}

const (
	surelyRead  = 80 // from which on a word is text for sure
	hardlyRead  = 50 // below which the middle of a line speaks of no text
	shortPieces = 3  // letters of a word, on the average, that recognition makes of an ornament
)

// withoutFrame leaves out what was read in the frame of a page: lines beyond all that was read
// for sure, of short words that were hardly read.
func withoutFrame(words []Word) []Word {
	sure := slices.DeleteFunc(slices.Clone(words), func(w Word) bool {
		return w.Confidence < surelyRead || utf8.RuneCountInString(w.Text) < 3
	})
	if len(sure) < 5 {
		return words
	}
	in := Word{Box: boxAround(sure)}
	frame := map[int]bool{}
	for line, list := range byLine(words) {
		letters, confidence, inside := 0, 0, false
		for _, i := range list {
			letters, confidence = letters+utf8.RuneCountInString(words[i].Text), confidence+words[i].Confidence
			inside = inside || in.holdsMiddle(words[i])
		}
		most := hardlyRead
		if letters == len(list) {
			most = surelyRead // single letters
		}
		frame[line] = !inside && letters <= shortPieces*len(list) && confidence < most*len(list)
	}
	return slices.DeleteFunc(words, func(w Word) bool { return frame[w.line] })
}
