package page

import (
	"slices"
	"unicode"
)

// evenGaps puts spaces where typesetting programs move the pen instead of printing one, and
// takes out those that the engine saw in the kerning of two letters. Letters that are set
// apart evenly, as in "C E R T I F I C A T E", are left to whoever reads the rows.
func evenGaps(chars []char) []char {
	out := make([]char, 0, len(chars))
	for i, c := range chars {
		if c.made && kerned(chars, i) {
			continue
		}
		if i > 0 && open(chars, i) {
			out = append(out, char{r: ' ', made: true})
		}
		out = append(out, c)
	}
	return out
}

// beside returns the white between two letters of one line, and whether they are that.
func beside(a, b char) (gap int, ok bool) {
	if a.made || b.made || a.ghost || b.ghost || a.size <= 0 {
		return 0, false
	}
	height := min(a.box[3]-a.box[1], b.box[3]-b.box[1])
	overlap := min(a.box[3], b.box[3]) - max(a.box[1], b.box[1])
	return b.box[0] - a.box[2], 2*overlap > height && b.box[2] > a.box[2]
}

// open says whether the white before letter i parts words: it is more than an eighth of
// the size of the type, and the letters around it stand close.
func open(chars []char, i int) bool {
	a := chars[i-1]
	gap, ok := beside(a, chars[i])
	if !ok || 8*gap <= a.size {
		return false
	}
	var near []int
	for k := i - 1; k > 0 && k > i-7; k-- {
		g, ok := beside(chars[k-1], chars[k])
		if !ok {
			break
		}
		near = append(near, g)
	}
	for k := i + 1; k < len(chars) && k < i+7; k++ {
		g, ok := beside(chars[k-1], chars[k])
		if !ok {
			break
		}
		near = append(near, g)
	}
	if len(near) < 3 {
		return false
	}
	slices.Sort(near)
	return 25*near[len(near)/2] < a.size
}

// kerned says whether the space at i stands between two small letters that touch.
func kerned(chars []char, i int) bool {
	if i == 0 || i+1 >= len(chars) {
		return false
	}
	a, b := chars[i-1], chars[i+1]
	gap, ok := beside(a, b)
	return ok && unicode.IsLower(a.r) && unicode.IsLower(b.r) && 20*max(gap, -gap) < a.size
}
