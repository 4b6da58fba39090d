package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/page"
)

// A form offers several things with boxes, of which somebody ticks those that hold. Where a page has a
// ticked box, what stands with the empty ones was not chosen and says nothing of this paper; of what was
// chosen the words remain without the mark, as if nothing else had been offered.

// boxMarks are the marks that stand for a box by themselves.
const boxMarks = `[☒☑☐□▢❏❑◻✓✔◉⦿]`

var (
	ticked   = matching(`^(?:[☒☑✓✔◉⦿]|🗹|🗷|[\[(][xX✓✔][\])])$`)
	unticked = matching(`^(?:[☐□▢❏❑◻]|\[\]|\(\))$`)
	offering = matching(`^(` + boxMarks + `)(\S+)$`)
)

// A choice is a box in a row of words: from its first word to behind its last.
type choice struct {
	from, to int
	ticked   bool
}

// choices finds the boxes in a row of words. One in brackets may be of two or three words: "[ ]", "[ x ]".
func choices(texts []string) []choice {
	var out []choice
	for i := 0; i < len(texts); i++ {
		for n := min(3, len(texts)-i); n > 0; n-- {
			mark := strings.Join(texts[i:i+n], "")
			if is := ticked.MatchString(mark); is || unticked.MatchString(mark) {
				out = append(out, choice{i, i + n, is})
				i += n - 1
				break
			}
		}
	}
	return out
}

// anyTicked reports a box in a row of words that is ticked.
func anyTicked(texts []string) bool {
	return slices.ContainsFunc(choices(texts), func(b choice) bool { return b.ticked })
}

// notChosen reports for each word of a row whether it is a box that stands with words or belongs to one
// that is empty. apart reports a gap before a word that parts it from what stands before it.
func notChosen(texts []string, apart func(int) bool) []bool {
	drop := make([]bool, len(texts))
	boxes := choices(texts)
	ahead := len(boxes) > 0 && boxes[len(boxes)-1].to < len(texts)
	for k, b := range boxes {
		from, to := b.to, b.to // of its words
		if ahead {
			end := len(texts)
			if k+1 < len(boxes) {
				end = boxes[k+1].from
			}
			for to < end && !apart(to) {
				to++
			}
		} else {
			from, to = b.from, b.from
			for from > 0 && (k == 0 || from > boxes[k-1].to) && !apart(from) && !asks(texts[from-1]) {
				from--
			}
		}
		if from == to {
			continue // a mark by itself, as in the column of a list
		}
		for i := b.from; i < b.to; i++ {
			drop[i] = true
		}
		for i := from; i < to && !b.ticked; i++ {
			drop[i] = true
		}
	}
	return drop
}

// asks reports the last word of what a form asks for.
func asks(text string) bool { return strings.HasSuffix(text, ":") || strings.HasSuffix(text, "?") }

// chosenRows takes out of the rows of a page what nobody chose, where something was.
func chosenRows(rows [][]page.Word) [][]page.Word {
	rows = withBoxesApart(rows)
	texts := make([][]string, len(rows))
	chose := false
	for r, row := range rows {
		for _, w := range row {
			texts[r] = append(texts[r], w.Text)
		}
		chose = chose || anyTicked(texts[r])
	}
	if !chose {
		return rows
	}
	var out [][]page.Word
	for r, row := range rows {
		drop := notChosen(texts[r], func(i int) bool { return wide(row[i-1], row[i]) })
		broken, chosen := 0, false
		if r > 0 {
			broken, chosen = brokenChoice(rows[r-1], row, texts[r-1], texts[r])
		}
		for i := range broken {
			drop[i] = !chosen
		}
		left := without(joinChosen(row, texts[r]), drop)
		if len(left) == 0 {
			continue
		}
		if broken > 0 && len(out) > 0 {
			left = goOn(out[len(out)-1], left, row[0].Box[0], chosen)
		}
		out = append(out, left)
	}
	return out
}

// brokenChoice counts the words at the begin of a row that end what stood with the last box of the row
// before, where a line broke it, and reports whether that box is ticked.
func brokenChoice(before, row []page.Word, above, texts []string) (n int, ticked bool) {
	was, is := choices(above), choices(texts)
	if len(was) < 2 || len(is) == 0 || is[0].from == 0 || is[0].from > 4 || is[len(is)-1].to == len(texts) {
		return 0, false
	}
	last := was[len(was)-1]
	if last.to == len(above) || row[0].Box[1]-before[0].Box[3] > row[0].Size || asks(texts[is[0].from-1]) {
		return 0, false
	}
	for i := last.to; i < len(before); i++ {
		if wide(before[i-1], before[i]) {
			return 0, false
		}
	}
	return is[0].from, last.ticked
}

// goOn lets a row of what was chosen go on the one above, of which it begins at the left edge again.
func goOn(above, row []page.Word, left int, within bool) []page.Word {
	if end := &above[len(above)-1]; !within && !asks(end.Text) && !strings.HasSuffix(end.Text, ",") {
		end.Text += ","
	}
	shift := row[0].Box[0] - left
	for i := range row {
		row[i].Box[0], row[i].Box[2] = row[i].Box[0]-shift, row[i].Box[2]-shift
	}
	return row
}

// without returns those of a list that are not to be dropped.
func without[W any](list []W, drop []bool) []W {
	var left []W
	for i, w := range list {
		if !drop[i] {
			left = append(left, w)
		}
	}
	return left
}

// joinChosen moves what was chosen of a row of boxes together, as if it had been written as a list: "Mon 4
// May, Thu 7 May".
func joinChosen(row []page.Word, texts []string) []page.Word {
	out := slices.Clone(row)
	boxes := choices(texts)
	last := -1 // of what was chosen before
	for k, b := range boxes {
		end := len(row)
		if k+1 < len(boxes) {
			end = boxes[k+1].from
		}
		if !b.ticked || b.to == end {
			continue
		}
		if last >= 0 {
			shift := out[b.to].Box[0] - out[last].Box[2] - (out[last].Box[3]-out[last].Box[1])/3
			for i := b.to; i < end; i++ {
				out[i].Box[0], out[i].Box[2] = out[i].Box[0]-shift, out[i].Box[2]-shift
			}
			out[last].Text += ","
		}
		last = end - 1
	}
	return out
}

// withBoxesApart parts a box from the word that it is set against: "☒yes".
func withBoxesApart(rows [][]page.Word) [][]page.Word {
	for r, row := range rows {
		for i := 0; i < len(row); i++ {
			m := offering.FindStringSubmatch(row[i].Text)
			if m == nil {
				continue
			}
			rest := row[i]
			row[i].Text, rest.Text = m[1], m[2]
			row = slices.Insert(row, i+1, rest)
		}
		rows[r] = row
	}
	return rows
}

// chosenLines does the same for the cells of lines without boxes of their own.
func chosenLines(lines [][]string) [][]string {
	words := func(cell string) []string { return strings.Fields(partedBox.ReplaceAllString(cell, " $1 ")) }
	chose := slices.ContainsFunc(lines, func(line []string) bool {
		return slices.ContainsFunc(line, func(cell string) bool { return anyTicked(words(cell)) })
	})
	for _, line := range lines {
		for k, cell := range line {
			if texts := words(cell); chose && len(choices(texts)) > 0 {
				drop := notChosen(texts, func(int) bool { return false })
				line[k] = strings.Join(without(texts, drop), " ")
			}
		}
	}
	return lines
}

var partedBox = matching(`(` + boxMarks + `)`)
