package extract

import (
	"strings"
	"time"
	"unicode/utf8"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// Where a title ends is told by what cannot be a part of it: the day and the hours on which the
// thing took place, and the code under which it is kept.

var (
	// toDay is what leads from a title to its day: a small word, a weekday, or a mark.
	toDay = matching(`(?i)(?:[,;:(|·]|\s[–—-]|\s(?:on|from|held|le|les|du|am|vom|den|el|los|del|op|van|between|zwischen|entre|tussen))\s*(?:(?:the|le|les|am|den|el|los|de)\s+)?(?:d[ií]as?\s+|jours?\s+|days?\s+)?$`)
	// codeAtEnd is the number in brackets under which a course is kept, and standard what looks
	// like one and belongs to the name.
	codeAtEnd = matching(`\s*[(\[](?:[^()]*[\s(])?(?i:course code|code|cursuscode|(?:kurs|seminar|veranstaltungs)-?nr|kursnummer|cursusnummer|course (?:no|number|id)|réf|ref|no|nr|n[°º])[.:]* ?(?:\p{Lu}[\p{Lu}\d./-]*\d[\p{Lu}\d./-]*|\d[\p{Lu}\d./-]{2,})[)\]]$|\s*[(\[]\p{Lu}{1,6}(?:[ ./-]?\p{Lu}{1,6})?[ ./-]?\d[\p{Lu}\d./-]*[)\]]$`)
	fileAtEnd = matching(`\s\p{Lu}{2,6}[-/]\d{2,}(?:[-/.]?[\p{Lu}\d]+)*[-/.]?\d{3}[\p{Lu}\d]*$`)
	standard  = matching(`[(\[](?:ISO|IEC|EN|DIN|VDE|VDI|DGUV|BGI|TRBS|TRGS|ASR|NEN|NBN|UNE|NF|BS|ASTM|ANSI|ASME|API|AWS|IEEE|NFPA|OSHA|CEN|ITU|RFC|SIA|ONORM|ÖNORM|CSA|AS|NZS|UN|EU|EC|EG|RD|COVID|HIV|CO|PM|SARS|USMLE|B|A|C|T|H|PART|CFR|FAR|IFRS|IAS|GAAP)[ ./-]?(?:EN |ISO |IEC )?\d`)
)

// eventsSince is the day from which a day behind a title is that of the event: before it, it is what
// the title speaks of.
var eventsSince = credit.Day(1980, time.January, 1)

// dayBehind returns where the day, or the days, of the event begin behind a title of a few letters at
// least, with the small word before them; -1 where none stands there.
func (l *look) dayBehind(text string) int {
	if !hasFigure(text) {
		return -1
	}
	from := -1
	for _, r := range find.Ranges(text, l.langs) {
		if r.Lack == find.Whole && len(r.Readings) > 0 && r.Readings[0].Start.After(eventsSince) && (from < 0 || r.From < from) {
			from = r.From
		}
	}
	for _, d := range find.Dates(text, l.langs) {
		if days := d.Days(); d.Lack == find.Whole && len(days) > 0 && days[0].After(eventsSince) && (from < 0 || d.From < from) {
			from = d.From
		}
	}
	if from < 0 {
		return -1
	}
	m := toDay.FindStringIndex(text[:from])
	if m == nil || m[0] < 4 || !strings.ContainsFunc(text[:m[0]], isLetter) {
		return -1
	}
	return m[0]
}

// withoutEnd cuts the day and the code off a title.
func (l *look) withoutEnd(text string) string {
	if k := l.dayBehind(text); k > 0 {
		text = strings.TrimRight(text[:k], " ,;:–—-(|·")
	}
	if m := fileAtEnd.FindStringIndex(text); m != nil && len(strings.Fields(text[:m[0]])) > 1 && !standard.MatchString("("+strings.TrimLeft(text[m[0]:], " ")) {
		text = text[:m[0]]
	}
	if m := codeAtEnd.FindStringIndex(text); m != nil && m[0] > 3 && !standard.MatchString(text[m[0]:]) {
		text = text[:m[0]]
	}
	return text
}

// fileFirst is the number of a file before the title that it is kept under: "JKS-25-0417.R2 Salt Glazes
// at Low Heat".
var fileFirst = matching(`^\p{Lu}{2,6}[-/ ]\d{2,4}[-/.]\d[\p{Lu}\d./-]*[\s:–-]+\p{Lu}\p{Ll}`)

// lastLetters returns the two letters with which a text ends.
func lastLetters(text string) string {
	_, n := utf8.DecodeLastRuneInString(text)
	_, m := utf8.DecodeLastRuneInString(text[:len(text)-n])
	return text[len(text)-n-m:]
}

// noTitle is a count or a share, which no title is: "5 of 7", "46 von 50 gut", "11 Personen".
var noTitle = matching(`(?i)^\d{1,2}(?:e|ère|re|er|\.|st|nd|rd|th|º|\.?[ºª])? (?:année|ann[ée]e d['’]apprentissage|lehrjahr|year|curso|jaar|semester|trimestre)s?(?:$|[\s,].{0,30}$)|^\d{1,4}(?:[.,]\d+)?\s?(?:of|out of|from|von|aus|sur|de|van(?: de)?|uit|/)\s?\d{1,4}(?:[.,]\d+)?(?:\s\p{L}+){0,2}(?:\s?\([^()]{2,30}\))?$|^\d{1,4} (?:persons?|people|participants?|students?|personen|teilnehm\p{L}+|studierende|personnes|stagiaires|étudiants|personas|participantes|alumnos|deelnemers|studenten|points?|punkte|puntos|punten|percent|prozent|%)$`)
