package extract

import "strings"

// The minutes of a meeting have an agenda whose points speak of other meetings: "Item 1: minutes of the
// 17th meeting of 16 October", "Item 4: next meeting". Neither the days nor the names there are those of
// the meeting itself.

var (
	agendaPoint = matching(`^(?:top|(?:agenda )?item|tagesordnungspunkt|traktand(?:um|en)|point|punto|agendapunt|punt) ?(?:n[o°º]\.? ?)?\d{1,2}(?:\.\d)?\b[.:)]? ?[–—-]? ?`)
	// pointNumber begins a point that has its number alone.
	pointNumber = matching(`^\d{1,2}[.)] `)
	oldMinutes  = matching(`^(?:(?:the|das|die|le|la|el|het|de) )?(?:(?:approval|adoption|reading|genehmigung|verabschiedung|approbation|adoption|aprobacion|lectura|goedkeuring|vaststelling) (?:of |der |des |du |de la |del? |van )?(?:the |het |de )?)?(?:minutes|protokolls?|niederschrift|compte rendu|proces-verbal|pv|acta|notulen|verslag)\b`)
	nextMeeting = matching(`^(?:(?:date|termin|fecha|datum) (?:of|der|de la|van de) )?(?:(?:the|die|la|le|el|de|het) )?(?:next|following|nachste[rsn]?|kommende[rsn]?|prochaine?s?|proxim[oa]s?|volgende|eerstvolgende) (?:\p{L}+ )?(?:meetings?|sessions?|sitzung(?:en)?|treffen|versammlung|termine?|reunions?|seances?|rencontres?|reunion(?:es)?|sesion(?:es)?|vergadering(?:en)?|bijeenkomst(?:en)?)\W*$`)
	emptyOf     = matching(`^\W*$`)
)

// atPoint returns the folded text of a passage behind the mark of a point of an agenda; ok says that
// it has one.
func (l *look) atPoint(passage int) (text string, ok bool) {
	text = l.folded[passage]
	for _, p := range []*pattern{agendaPoint, pointNumber} {
		if m := p.FindStringIndex(text); m != nil {
			return strings.TrimSpace(text[m[1]:]), true
		}
	}
	return text, false
}

// ofOtherMeeting reports a day that a point of an agenda gives of an earlier meeting, whose minutes
// were read, or of the next one.
func (l *look) ofOtherMeeting(d day) bool {
	if text, ok := l.atPoint(d.at.passage); ok && oldMinutes.MatchString(text) {
		return true
	}
	before := fold(l.passages[d.at.passage].text[:d.at.span.From])
	if d.at.passage == 0 || !emptyOf.MatchString(before) {
		return false
	}
	over, _ := l.atPoint(d.at.passage - 1)
	return nextMeeting.MatchString(over)
}

// inAgenda reports a place in a point of an agenda, of the minutes of a meeting.
func (l *look) inAgenda(a at) bool {
	text, ok := l.atPoint(a.passage)
	return nextMeeting.MatchString(text) || ok && (oldMinutes.MatchString(text) || agendaPoint.MatchString(l.folded[a.passage]))
}
