package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A list gives each module or session of one course with its length and no day: "Module 1 – Etiketten
// lezen   50 min". Together they are the time of the course, without those that have no mark where others
// have one.

// lengthRow is a row of such a list.
type lengthRow struct {
	at      at
	cells   int
	minutes credit.Minutes
	total   bool
	out     bool
}

// lengthList returns the time to which the rows of a list come, and the places of their lengths.
func (l *look) lengthList() (timed, []at, bool) {
	if l.kind == paper.Transcript || len(l.series) > 0 {
		return timed{}, nil, false
	}
	var list []lengthRow
	last := -1
	for i, row := range l.rows {
		r, ok := l.lengthRow(row)
		if !ok {
			continue
		}
		if last >= 0 && i-last > 3 {
			if len(list) > 2 {
				break
			}
			list = nil
		}
		list, last = append(list, r), i
	}
	var sum, stated credit.Minutes
	var places []at
	wide, marks := 0, 0
	for _, r := range list {
		wide = max(wide, r.cells)
	}
	for _, r := range list {
		if !r.total && r.cells == wide && wide > 2 {
			marks++
		}
	}
	for _, r := range list {
		places = append(places, r.at)
		switch {
		case r.total:
			stated = r.minutes
		case r.out || marks > 1 && r.cells < wide:
		default:
			sum += r.minutes
		}
	}
	rows := len(list)
	if stated > 0 {
		rows--
	}
	if rows < 3 || sum <= 0 || stated > 0 && stated != sum {
		return timed{}, nil, false
	}
	t := timed{minutes: sum, level: 3}
	t.guess = guess{text: minutesText(sum), at: list[0].at, score: 70, why: "the rows add up to it", sure: true}
	if stated > 0 {
		t.level, t.at, t.why = 4, list[len(list)-1].at, "the rows add up to the sum that is stated"
	}
	return t, places, true
}

// lengthRow reads a row with one plain length and the name of what took so long.
func (l *look) lengthRow(row []int) (lengthRow, bool) {
	r := lengthRow{cells: len(row)}
	named := false
	for _, ci := range row {
		text := strings.TrimSpace(l.cells[ci].text)
		low := fold(text)
		switch m, ok := l.plainLength(text, ci); {
		case ok && r.minutes > 0:
			return r, false
		case ok:
			r.minutes, r.at = m, l.whole(ci)
		case absentMark.MatchString(firstMark(text)) || stayedOut.MatchString(firstMark(low)):
			r.out = true
		case strings.HasSuffix(text, ":") || len(find.Dates(text, l.langs))+len(find.Clocks(text, l.langs)) > 0 || breakSaid.MatchString(low+" "):
			return r, false
		case roleOf(text) != noRole && !totalWord.MatchString(low+" ") || plannedWord.MatchString(low+" ") || awayAhead.MatchString(low):
			return r, false // "Soll", "Fehlzeit"
		case strings.ContainsFunc(text, isLetter):
			named = named || len(text) > 3
			r.total = r.total || totalWord.MatchString(low+" ") || wholeCourse.MatchString(low)
		}
	}
	return r, r.minutes > 0 && named && len(row) < 5
}

// lengthAlone is the length that such a cell gives; 0 where it is none.
func (l *look) lengthAlone(text string, ci int) credit.Minutes {
	if m, ok := l.plainLength(strings.TrimSpace(text), ci); ok {
		return m
	}
	return 0
}

// plainLength reads a cell that is nothing but a length: "50 min", "1 uur 20 min", or "1:10" under a
// head that says that these are hours and minutes.
func (l *look) plainLength(text string, ci int) (credit.Minutes, bool) {
	if m := hoursOfSheet.FindStringSubmatch(text); m != nil {
		return credit.Minutes(60*numberOf(m[1]) + numberOf(m[2])), slices.ContainsFunc(l.cells, func(o cell) bool {
			return o.row < l.cells[ci].row && o.page == l.cells[ci].page && hourMinuteHead.MatchString(fold(o.text))
		})
	}
	found := find.Durations(text, l.langs)
	if len(found) != 1 || found[0].Minutes <= 0 || found[0].Each > 0 || found[0].Span.Of(text) != strings.TrimRight(text, ". ") {
		return 0, false
	}
	return found[0].Minutes, true
}

var (
	hourMinuteHead = matching(`^\(?(?:h+:m+(?:in)?|hrs?:mins?|std\.?:min\.?|u+:m+(?:in)?|hours:minutes)\)?$|^(?:length|duration|time|dauer|zeit|duree|duracion|tiempo|duur|tijd) \(?(?:h+:m+(?:in)?|hrs?:mins?|std\.?:min\.?|u+:m+(?:in)?)\)?$`)
	wholeCourse    = matching(`^(?:the )?(?:whole|entire|complete|full) (?:course|programme)|^(?:gesamter|ganzer) (?:kurs|lehrgang)|^(?:cours|parcours) (?:complet|entier)|^curso completo|^(?:hele|gehele|volledige) (?:cursus|opleiding)`)
)
