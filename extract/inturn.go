package extract

import (
	"slices"
	"strings"
	"unicode"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// held is a position with the day on which it began.
type held struct {
	guess
	from credit.Date
}

// inTurn finds the position held last where the paper lists several with their periods: in
// one line each, before or behind the period, or in the row of a table. A period without a
// position beside it is none of the list.
func (l *look) inTurn() []guess {
	var list []held
	for i := range l.passages {
		list = append(list, l.heldIn(i)...)
	}
	if len(list) < 2 {
		list = l.heldInRows()
	}
	if len(list) < 2 {
		return nil
	}
	last := slices.MaxFunc(list, func(a, b held) int { return a.from.Compare(b.from) })
	last.score, last.why, last.sure = 93, lastListed, true
	return []guess{last.guess}
}

// heldIn finds the positions in a passage that has periods: what stands before each of them,
// or behind each where the passage begins with one.
func (l *look) heldIn(i int) []held {
	text := l.passages[i].text
	var spans []find.Range
	for _, r := range find.Ranges(text, l.langs) {
		if len(r.Readings) > 0 {
			spans = append(spans, r)
		}
	}
	var list []held
	for k, r := range spans {
		from, to := 0, r.From
		if k > 0 {
			from = spans[k-1].To
		}
		if strings.TrimSpace(text[:spans[0].From]) == "" {
			if from, to = r.To, len(text); k+1 < len(spans) {
				to = spans[k+1].From
			}
		}
		if h, ok := l.heldAt(l.passageAt(i).within(from, to-from), r.Readings[0].Start); ok {
			list = append(list, h)
		}
	}
	return list
}

// heldAt takes marks, numbers and small words off a position.
func (l *look) heldAt(a at, from credit.Date) (held, bool) {
	text := l.text(a)
	name := itemNumber.ReplaceAllString(strings.Trim(text, " ,;:·•*–-()."), "")
	name = strings.TrimRight(trailSmall.ReplaceAllString(strings.Replace(name, " (", " ", 1)+" ", ""), " ,;:·–-")
	if n := len(strings.Fields(name)); n == 0 || n > 9 || len(name) < 4 || hasFigure(name) || strings.Contains(name, ":") || roleOf(name) != noRole || l.isName(name) || isPersonal(name) && l.namesAttendee(name) {
		return held{}, false
	}
	return held{guess{text: name, at: a.within(strings.Index(text, name), len(name))}, from}, true
}

// itemNumber begins an item of a list.
var itemNumber = matching(`^\d{1,2}[.)]?\s+`)

// heldInRows finds the rows that hold one text and one or two days, and nothing else.
func (l *look) heldInRows() []held {
	var list []held
	for _, row := range l.rows {
		var days []credit.Date
		text := -1
		for _, ci := range row {
			cell := l.cells[ci].text
			switch d := find.Dates(cell, l.langs); {
			case covers(d, cell) && len(d[0].Days()) > 0:
				days = append(days, d[0].Days()[0])
			case !strings.ContainsFunc(cell, unicode.IsLetter):
				// how many hours a week, or the number of the row
			case text < 0:
				text = ci
			default:
				text = len(l.cells)
			}
		}
		if len(days) == 0 || len(days) > 2 || text < 0 || text >= len(l.cells) {
			continue
		}
		if h, ok := l.heldAt(l.whole(text), slices.MinFunc(days, credit.Date.Compare)); ok {
			list = append(list, h)
		}
	}
	return list
}
