package extract

import (
	"strings"

	"evidencevault/extract/find"
)

// A list need not be a table: "Sash Windows, 14 April 2026, 6 hours" is a row as well.

var (
	// sessionOf begins a row that names a part of one event.
	sessionOf = matching(`^(?:modul[eo]?|module|session|sitzung|seance|sesion|sessie|abend|evening|soiree|tarde|avond|tag|day|jour|dia|dag|teil|part|partie|parte|deel|block|bloque|einheit|unit|les|lesson|lecon|leccion|termin|week|woche|semaine|semana) ?(?:\d|[ivx]{1,4}\b|one|two|three|eins?|zwei|drei|une?|deux|trois|dos|tres|een|twee|drie)`)
	// beforeDay ends a title behind which the day of its row stands.
	beforeDay = matching(`[,;:(|·–—-]\s*(?:(?:am|on|le|les|du|el|los|del|op|vom|van|held|den)\s+)?$`)
)

// proseRow reports a line that reads like a row of such a list.
func proseRow(text string) bool {
	if len(text) > 150 || !hasFigure(text) || !capitalised(text) {
		return false
	}
	d := find.Dates(text, nil)
	if len(d) == 0 || d[0].From == 0 {
		return false
	}
	from := d[0].From
	if r := find.Ranges(text, nil); len(r) > 0 {
		from = min(from, r[0].From)
	}
	return beforeDay.MatchString(text[:from]) && len(strings.Fields(text[:from])) < 13
}

// fewestInProse is how many rows of running text make a list.
const fewestInProse = 3

// proseLines returns the rows of a list that is set as lines of text: each a title, its day
// and what else is said of it.
func (l *look) proseLines() []line {
	var out []line
	seen := map[string]bool{}
	for i, p := range l.passages {
		if l.closing.signs[i] || l.inTable(p.cells[0]) || len(p.text) > 150 || !capitalised(p.text) && !startsFigure(p.text) || didIt.MatchString(l.folded[i]) || sessionOf.MatchString(l.folded[i]) {
			continue
		}
		days := l.daysIn(p.cells)
		if len(days) != 1 || days[0].lack != find.Whole || days[0].role == isIssue || days[0].role == isPaid || days[0].at.passage != i {
			continue
		}
		title := p.text[:days[0].at.span.From]
		if !beforeDay.MatchString(title) {
			continue
		}
		title = strings.Trim(beforeDay.ReplaceAllString(title, ""), " ,;:–—-")
		if n := len(strings.Fields(title)); n == 0 || n > 12 || roleOf(title) != noRole || placeAndDay(p.text) || isPersonal(title) || seen[bare(title)] {
			continue
		}
		seen[bare(title)] = true
		r := line{cells: p.cells, days: days, title: title, at: l.passageAt(i).within(0, len(title))}
		rest := p.text[days[0].at.span.To:]
		if d := find.Durations(rest, l.langs); len(d) > 0 && d[0].Minutes > 0 {
			r.minutes, r.length = d[0].Minutes, true
		}
		out = append(out, r)
	}
	if len(out) < fewestInProse {
		return nil
	}
	return out
}
