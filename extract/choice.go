package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
)

// Where a form has boxes of which some are ticked, what stands behind the others was not chosen:
// it is printed for everybody, and says nothing of this person.

var (
	emptyMark  = matching(`^(?:[☐□▢❏◻]|\[ ?\]|\( ?\))`)
	tickedMark = matching(`^(?:[☒☑🗹🗷]|[\[(] ?[xX✓✔] ?[\])])`)
)

// chooses reports a page with boxes of which some are ticked and others are not.
func chooses(p page.Page) bool {
	texts := slices.Clone(p.Lines)
	for _, w := range p.Words {
		texts = append(texts, w.Text)
	}
	empty, ticked := false, false
	for _, word := range parted(strings.Join(texts, " ")) {
		empty, ticked = empty || emptyMark.MatchString(word), ticked || tickedMark.MatchString(word)
	}
	return empty && ticked
}

// parted cuts a text at its spaces, and leaves brackets together with what is between them.
func parted(text string) []string {
	return strings.Fields(strings.NewReplacer("[ ]", "☐", "( )", "☐", "[x]", "☒", "[X]", "☒").Replace(text))
}

// taken returns those of the words of a cell that the person chose: without boxes, and without what
// stands behind an empty one. A day stays, for on a list of days the others count as well, and so
// does a box that stands alone, as in the first cell of a row.
func taken(list []string) (kept []int) {
	mark := func(i int) bool { return emptyMark.MatchString(list[i]) || tickedMark.MatchString(list[i]) }
	for from := 0; from < len(list); {
		to := from + 1
		for to < len(list) && !mark(to) {
			to++
		}
		option := strings.Join(list[from:to], " ")
		switch {
		case emptyMark.MatchString(list[from]) && option != list[from] && len(find.Dates(option, nil)) == 0:
		case mark(from) && len(list) > 1 && len(list[from]) < 4:
			from++
			fallthrough
		default:
			for i := from; i < to; i++ {
				kept = append(kept, i)
			}
		}
		from = to
	}
	return kept
}

// takenWords leaves out of the words of each cell what was not chosen.
func takenWords(parts [][]page.Word) [][]page.Word {
	out := slices.Clone(parts)
	for k, part := range parts {
		var texts []string
		var words []page.Word
		for _, w := range part {
			if n := len(words); n > 0 && (texts[n-1] == "[" && w.Text == "]" || texts[n-1] == "(" && w.Text == ")") {
				texts[n-1] += w.Text
				continue
			}
			texts, words = append(texts, w.Text), append(words, w)
		}
		out[k] = nil
		for _, i := range taken(texts) {
			out[k] = append(out[k], words[i])
		}
	}
	return out
}

// takenText leaves out of the text of a cell what was not chosen.
func takenText(text string) string {
	words := parted(text)
	var out []string
	for _, i := range taken(words) {
		out = append(out, words[i])
	}
	return strings.Join(out, " ")
}
