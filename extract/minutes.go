package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// Minutes of a meeting name everybody who was there, say when it was opened and closed,
// and speak of other meetings: the one before, whose minutes are approved, and the next.

var (
	presentLabel = matching(`^(?:members |membres |miembros |leden |aanwezige |anwesende )?(?:present|presente?s|anwesend(?:e|e mitglieder)?|teilnehmer(?:innen)?(?: und teilnehmer)?|teilnehmende|participante?s|asistentes?|asisten|aanwezig(?:en|e leden)?|deelnemers|attendees|in attendance|attendance|apologies|excusee?s?|absents?(?: excuses)?|entschuldigt|afwezig(?: met bericht| met kennisgeving)?|afgemeld|ausentes|excusan|excused)$`)
	nameParts    = matching(`(?i)\s*[;,]\s*|\s+(?:et|und|and|en|y|e)\s+`)
	startsMins   = matching(`(?i)^(?:extract from the minutes(?: of(?: the)?)?:? |auszug aus (?:dem protokoll|der niederschrift)(?: (?:der|des))?:? |extrait du (?:compte[- ]rendu|procès-verbal)(?: (?:de la|du))? ?:? |extracto del acta(?: (?:de la|del))?:? |uittreksel uit (?:de notulen|het verslag)(?: van(?: (?:de|het))?)?:? |niederschrift (?:der |des |über (?:die |das )?|zur )?|minutes of (?:the )?|compte[- ]rendu (?:d[eu]s? )?(?:la |l['’])?(?:réunion (?:d[eu]s? )?(?:la |l['’])?)?|procès-verbal (?:d[eu]s? )?(?:la |l['’])?(?:réunion (?:d[eu]s? )?(?:la |l['’])?)?|acta (?:de |del )?(?:la |el )?(?:(?:reunión|sesión) (?:de |del )?(?:la |el )?)?|protokoll (?:der |des |zur )?|notulen (?:van )?(?:de |het )?|verslag (?:van )?(?:de |het )?(?:vergadering (?:van )?(?:de |het )?)?)`)
	opensAt      = words(`call to order|convened|open(?:s|ed)?|called to order|beg[ai]n(?:s|ning)?|start(?:s|ed)?|eroffnet|beginnt|begann|beginn|ouverte?|ouvre|commence|debute|debut(?:e)?|ouverture|siendo|se (?:inicia|abre|reunen?)|comienza|da comienzo|inicio|opent|geopend|begint|aanvang|opening`)
	closesAt     = words(`schluss|schloss|sitzungsende|ended at|rose|concluded|se clausura|terminada|finalizada|hamer|afsluiting|afgelopen|close[sd]?|adjourned|end(?:s|ed)?|finished|geschlossen|schliesst|endet(?:e)?|beendet|ende|levee?|leve|prend fin|se termine|termine|cloture|fin|se levanta|levantandose|finaliza|concluye|termina|sluit|gesloten|eindigt|sluiting`)
	oneTime      = matching(`(?i)\b(\d{1,2})\s?(?:[:.hu]\s?(\d{2})\b|(?:h|u|uhr|uur|horas|heures|o'clock)\b|(?:[ap]\.?m\b))(?:\s?([ap])\.?\s?m\b)?`)
)

// severalPresent reports a list of those present with more than one name: the paper is
// about none of them in particular.
func (l *look) severalPresent() bool {
	n := 0
	for _, p := range l.pairs {
		if !presentLabel.MatchString(strings.TrimSpace(p.label)) {
			continue
		}
		for _, part := range nameParts.re().Split(l.text(p.value), -1) {
			if strings.ContainsFunc(part, isLetter) {
				n++
			}
		}
	}
	if n > 1 {
		return true
	}
	for _, t := range l.tables {
		for k, r := range t.roles {
			if (r == isPerson || presentLabel.MatchString(strings.Trim(fold(l.cells[t.head[k]].text), " :"))) && len(t.lines) > 1 && !l.onlyMarks(t, k) {
				return true
			}
		}
	}
	return false
}

// onlyMarks reports a column that says in each row whether somebody was there, and names nobody.
func (l *look) onlyMarks(t table, k int) bool {
	return !slices.ContainsFunc(t.lines, func(line [][]int) bool {
		if k >= len(line) || len(line[k]) == 0 {
			return false
		}
		text := strings.TrimSpace(l.cellText(line[k]))
		return !absentMark.MatchString(firstMark(text)) && !cameMark.MatchString(fold(text)) && !tickMark.MatchString(text) && !stayedOut.MatchString(fold(text))
	})
}

// withoutCrowd takes the names of a list of several out of the guesses for a meeting,
// unless a label or a sentence gives the paper to one of them.
func (l *look) withoutCrowd(list []guess) []guess {
	if l.kind != paper.Meeting || !l.severalPresent() {
		return list
	}
	return slices.DeleteFunc(list, func(g guess) bool { return g.score < 85 })
}

// openedAndClosed returns the clock time from the opening to the closing of a meeting,
// each of which stands in a sentence of its own.
func (l *look) openedAndClosed() (find.Clock, at, bool) {
	var from, to string
	var a at
	for i := range l.passages {
		text, whole := l.passages[i].text, l.passageAt(i)
		for _, m := range oneTime.FindAllStringSubmatchIndex(text, -1) {
			before := fold(tail(text[:m[0]], 60)) + " "
			if k := strings.LastIndexAny(before, ".;"); k >= 0 && strings.Trim(before[k:], " .") != "" {
				before = before[k:]
			}
			if strings.TrimSpace(before) == "" {
				before = l.besideOrOver(whole.within(m[0], m[1]-m[0])) + " "
			}
			switch {
			case from == "" && (lastMatch(opensAt, before) > lastMatch(closesAt, before) || to == "" && i < 6 && atHour.MatchString(before) && lastMatch(closesAt, before) < 0):
				from, a = hourMinute(text, m), whole.within(m[0], m[1]-m[0])
			case lastMatch(closesAt, before) > 0:
				to = hourMinute(text, m)
			}
		}
	}
	if from == "" || to == "" {
		return find.Clock{}, a, false
	}
	c := find.Clocks(from+" - "+to, l.langs)
	if len(c) != 1 || c[0].Minutes <= 0 || c[0].PastMidnight {
		return find.Clock{}, a, false
	}
	return c[0], a, true
}

// atHour ends in front of the hour of a meeting in its heading.
var atHour = matching(`(?:^|[\s,])(?:at|um|,|a las|à|om)\s*$`)

// hourMinute writes a match of oneTime as "14:05".
func hourMinute(text string, m []int) string {
	half := ""
	if m[6] >= 0 {
		half = " " + text[m[6]:m[7]] + "m"
	}
	if m[4] < 0 {
		if k := strings.IndexAny(text[m[3]:m[1]], "apAP"); k >= 0 && half == "" {
			half = " " + text[m[3]+k:m[3]+k+1] + "m"
		}
		return text[m[2]:m[3]] + ":00" + half
	}
	return text[m[2]:m[3]] + ":" + text[m[4]:m[5]] + half
}
