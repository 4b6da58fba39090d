package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// Of several times on a paper one is this person's. What stands around each tells whether it is
// that of every day or evening, the whole of them, what others got, or what was done at home.

const (
	someCount = `(\d{1,2}|\p{L}{3,9})`

	// sessionNoun is one session or several.
	sessionNoun = `(?:evenings?|sessions?|days?|class(?:es)?|lectures?|meetings?|mornings?|afternoons?|walks?|visits?|seminars?|workshops?|tutorials?|webinars?|talks?|lessons?|` +
		`abende?n?|termine?n?|sitzung(?:en)?|tage?n?|vormittage?n?|nachmittage?n?|einheit(?:en)?|veranstaltung(?:en)?|rundgange?n?|begehung(?:en)?|fuhrung(?:en)?|vortrage?n?|treffen|stunden|` +
		`soirees?|seances?|jours?|journees?|visites?|ateliers?|conferences?|matinees?|apres-midis?|rencontres?|` +
		`sesion(?:es)?|tardes?|dias?|clases?|jornadas?|visitas?|charlas?|taller(?:es)?|mananas?|encuentros?|` +
		`avond(?:en)?|bijeenkomst(?:en)?|dag(?:en)?|lessen|sessies?|ochtend(?:en)?|middag(?:en)?|wandeling(?:en)?|bezoek(?:en)?|dagde(?:el|len)|keer)`
)

var (
	// onEachDay stands behind the time of every day or evening: "of instruction on each of the two days".
	onEachDay = matching(`^ ?(?:[^\d\s.;,]+ ){0,4}?(?:on |an |am |in |bei |a |en |op |bij |lors de |durant |pendant |over |at )?(?:each|every|both|jedem|jeden|jeder|beiden|allen|chacune?s?|chaque|les deux|cada(?: un[oa])?|ambos|ambas|elke?|iedere?|beide)\b(?: (?:of|der|des|de|d'|von|van) (?:the |these |our |las |los |les |ces |de |deze )?)?(?: ?` + someCount + `)? ?` + sessionNoun + `\b`)

	// eachOfMany ends in front of a time that each of a number of things took: "Op elk van de vier avonden werd".
	eachOfMany = matching(`\b(?:each|every one|jede[rsnm]?|chacune?|cada un[oa]|elke?|iedere?) (?:of|der|des|de|von|van) (?:(?:the|our|these|those|les|nos|ces|las|los|estas|estos|de|onze|deze) )?(\d{1,2}|\p{L}+) \p{L}{4,}[^.;\d]{0,40}$`)

	// onBothDays ends in front of a time that every day had.
	onBothDays = matching(`\b(?:both (?:days|evenings|mornings|afternoons)|beiden (?:tagen|abenden)|les deux (?:jours|soirs|soirees)|(?:ambos|los dos) dias|beide (?:dagen|avonden))\b[^.;\d]{0,40}$`)
	// everyOnce ends in front of a time after which something comes again.
	everyOnce = matching(`\bevery\s*$`)

	// wholeBehind stands behind the whole of several times, and wholeAhead before it.
	wholeBehind = matching(`^ ?(?:in all|altogether|in total|total|all told|insgesamt|im ganzen|zusammen|en tout|au total|en total|en conjunto|in totaal|samen|bij elkaar)\b`)
	wholeAhead  = matching(`\b(?:in all|altogether|making|in total|a total of|insgesamt|zusammen|im ganzen|en tout|au total|un total de|soit|en total|o sea|in totaal|samen)(?: also| dus| de| of| von| van)?\W{0,2}$`)

	// inAll is a whole of which the unit was said before: "twelve in all", "insgesamt zwölf".
	inAll = matching(`(?:^|[ ,;(])(?:` + someCount + ` (?:in all|altogether|in total|all told|in sum|insgesamt|im ganzen|zusammen|en tout|au total|en total|en conjunto|in totaal|samen|bij elkaar)|(?:in all|altogether|making|that is|insgesamt|zusammen|im ganzen|also|en tout|au total|soit|en total|o sea|in totaal|samen|dus)(?: also| dus)? ` + someCount + `)(?:[.,;)]|$)`)

	// wasAt says at how many of the sessions somebody was.
	wasAt = matching(`\b(?:present|was there|was with us|came|came along|walked with us|joined us|took part|attended|anwesend|dabei|zugegen|besuchte|besucht|presente?|assiste|suivi|participe|estuvo|asistio|asistido|participo|aanwezig|bijgewoond|gevolgd|volgde|woonde|kwam|bezocht|visited|completed)(?: (?:on|at|in|for|to|an|bei|a|aux|en|de|op|bij|naar|las|los|les|the|and signed in))*(?: (?:just|only|nur|seulement|solo|slechts))? ` + someCount + `(?: (?:of (?:the|these|them)))? ` + sessionNoun + `\b`)
	// wasAtLast says it with the verb at the end, as German and Dutch do.
	wasAtLast = matching(`\b(?:an|bei|op|bij|zu|de) ` + someCount + ` ` + sessionNoun + `[^.;\d]{0,24} (?:anwesend|dabei|zugegen|teilgenommen|gekommen|erschienen|aanwezig|geweest|gekomen|bijgewoond|gevolgd|besucht)\b`)

	// fulfilled ends in front of the time that somebody was there.
	fulfilled = matching(`\b(?:completed|attended|stayed(?: for)?|remained(?: for)?|sat(?: in)?(?: for)?|was (?:there|present|with us)(?: for)?|took part(?: in)?(?: for)?|put in|` +
		`absolvierte|besuchte|war sie|war er|blieb|nahm(?: \w+)? teil|leistete|anwesend(?: war)?(?: sie| er)?(?: waren)?|` +
		`a suivi|en a suivi|a siege|siegea|a assiste(?: a)?|a participe|a accompli|a effectue|a totalise|est reste[e]?|etait presente?|` +
		`cumplio|cumplimento|(?:que|y|ella|interesad[oa]|alumn[oa]|participante|asistente|profesional|solo) (?:completo|curso)|realizo|asistio(?: a)?|acumulo|permanecio|estuvo(?: presente)?|` +
		`volgde|woonde|bleef|verbleef|was (?:zij|hij)|was aanwezig|voltooide|was er)(?: (?:a total of|altogether|in all|insgesamt|im ganzen|davon|nur|only|just|au total|en tout|seulement|pendant|durant|en total|solo|durante|un total de|in totaal|slechts|gedurende|the full|the whole|all|las|los|les|de|die|fur|effectivement|efectivamente|sie|er))*:? ?$`)
	fulfilledBehind = matching(`^ ?(?:(?:lang|long|davon|ervan) )?(?:attended|present|anwesend|zugegen|dabei(?: gewesen)?|absolviert|teilgenommen|suivies?|effectuees?|realisees?|de presence|cumplidas?|cursadas?|realizadas?|asistidas?|presenciales|aanwezig|gevolgd|bijgewoond|voltooid)\b`)

	// ofOthers ends in front of the time that others got.
	ofOthers = matching(`\b(?:participants|attendees|delegates|students|trainees|the audience|candidates|teilnehme\w+|teilnehmende\w*|besucher\w*|horer\w*|zuhorer\w*|lernende\w*|stagiaires|auditeurs|auditrices|eleves|etudiants|inscrits|asistentes|alumn[oa]s|participantes|cursillistas|inscritos|deelnemers|cursisten|toehoorders|studenten|leerlingen)\b[^.;]{0,20}\b(?:received?|recei\w+|earned|obtained|got|get|were (?:given|credited)|are credited|erhielten|erhalten|bekamen|bekommen|recoivent|ont recu|obtiennent|ont obtenu|recibieron|reciben|obtuvieron|obtienen|kregen|krijgen|ontvingen|ontvangen)\b[^.;]{0,50}$`)

	// atHome is study, preparation and travel that is none of the contact time.
	atHome = words(`private study|self[- ]?study|own study|independent study|prepar\w*|homework|travel(?:ling)?|at home|selbststudium|eigenstudium|vorbereitung\w*|nachbereitung|hausarbeit|hausaufgaben|anreise|fahrzeit|zu hause|travail personnel|travail a la maison|preparation|trajet|deplacement|a la maison|chez (?:elle|lui|soi)|estudio (?:personal|individual|autonomo)|trabajo (?:personal|autonomo)|preparacion|en casa|viaje|zelfstudie|voorbereiding\w*|huiswerk|thuis|reistijd`)
	// homeBehind stands right behind such a time.
	homeBehind = matching(`^ ?(?:of |for |an |de |d'|aan |zur |pour |para )?(?:at home|private study|self[- ]?study|reading at|zu hause|selbststudium|eigenstudium|a la maison|chez (?:elle|lui|soi)|de travail personnel|de estudio (?:personal|individual)|en casa|thuis|zelfstudie)\b`)
)

// inAllLabel stands for the label of a whole that a sentence gives by its number alone.
const inAllLabel = "in all"

// wholesInAll adds the whole of which a sentence gives only the number, behind the time of each.
func (l *look) wholesInAll() {
	for _, h := range slices.Clone(l.lengths) {
		text := l.passages[h.at.passage].text
		after := fold(head(text[h.at.span.To:], 90))
		if i := sentenceEnd.FindStringIndex(after); i != nil {
			after = after[:i[0]+1]
		}
		m := inAll.FindStringSubmatch(after)
		if m == nil || h.length.Unit != find.Hour && h.length.Unit != find.Minute || h.length.Minutes <= 0 || h.length.Break {
			continue
		}
		n := int64(numberOf(m[1] + m[2]))
		each := int64(60)
		if h.length.Unit == find.Minute {
			each = 1
		}
		total := credit.Minutes(n * each)
		if n == 0 || total <= h.length.Minutes || total%h.length.Minutes != 0 {
			continue
		}
		d := find.Duration{Unit: h.length.Unit, Count: credit.Whole(n), Minutes: total}
		k := max(0, strings.Index(strings.ToLower(text[h.at.span.To:]), m[1]+m[2]))
		l.lengths = append(l.lengths, lengthHit{at: at{h.at.passage, find.Span{From: h.at.span.To + k, To: h.at.span.To + k + len(m[1]+m[2])}}, length: d, role: isDuration, label: inAllLabel})
	}
}

// notMine reports a time that is not one of this person's contact: what others got, or what was
// done at home where the paper gives other times.
func (l *look) notMine(h lengthHit, before, after string) bool {
	if l.kind == paper.Instruction && ofOthers.MatchString(before) {
		return true
	}
	if l.kind == paper.Meeting && spokeFor.MatchString(before) {
		return true
	}
	if anotherEvent.MatchString(before) {
		return true
	}
	if len(l.lengths)+len(l.clocks) < 2 {
		return false
	}
	if i := h.at.passage; i > 0 && len(strings.Fields(l.folded[i-1])) < 7 && offered.MatchString(l.folded[i-1]+" ") {
		return true // "You may also like"
	}
	if homeBehind.MatchString(after) || atHomeThere(l.ownSentence(h.at)) || offered.MatchString(before+" ") {
		return true
	}
	return strings.TrimSpace(l.passages[h.at.passage].text[:h.at.span.From]) == "" && atHome.MatchString(l.rowLabel(h.at)+" ")
}

// anotherEvent begins a sentence about what is still to come.
var anotherEvent = matching(`(?:^|[.;:!?] ?)(?:(?:our|the|der|das|die|unser\w*|notre|la|le|nuestro|nuestra|el|ons|onze|de|het) )?(?:next|following|upcoming|nachste[rsn]?|kommende[rsn]?|prochaine?|suivante?|proxim[oa]|siguiente|volgende|eerstvolgende) (?:course|seminar|workshop|study day|event|meeting|webinar|kurs|lehrgang|seminar|veranstaltung|fortbildung|cours|stage|formation|journee|seance|curso|taller|jornada|seminario|sesion|cursus|bijeenkomst|training|studiedag|opleiding)\w*\b[^.;]*$`)

// wholeOfSentence takes from several times the one that its sentence calls the whole: what is
// less and stands in the same passage is a part of it.
func (l *look) wholeOfSentence(list []timed) []timed {
	for _, whole := range list {
		before, after := l.around(whole.at)
		if whole.level != 4 || len(whole.open) > 0 || !wholeBehind.MatchString(after) && !wholeAhead.MatchString(before) {
			continue
		}
		all := comeTo(list, whole.at, whole.minutes)
		return slices.DeleteFunc(slices.Clone(list), func(t timed) bool {
			return (all || t.at.passage == whole.at.passage) && t.minutes < whole.minutes && t.level < 5 && t.level != 3
		})
	}
	return list
}

// wholeOfParts takes from several times the one that a label calls the length where the others
// come to it together: the modules of a course, the days of a week.
func (l *look) wholeOfParts(list []timed) []timed {
	for _, h := range l.lengths {
		sum, called := h.length.Minutes, h.role == isDuration || h.role == isGrandTotal || totalWord.MatchString(l.rowLabel(h.at)+" ") || l.calledLength(h.at)
		if !called || sum <= 0 || len(h.length.Candidates) > 0 || !comeTo(list, h.at, sum) {
			continue
		}
		whole := timed{minutes: sum, level: 4}
		whole.guess = guess{text: minutesText(sum), at: h.at, score: 84, why: "its parts add up to it", sure: true}
		return append(slices.DeleteFunc(slices.Clone(list), func(t timed) bool { return t.level <= 4 && len(t.open) == 0 }), whole)
	}
	return list
}

// calledLength reports a length right before which the sentence calls it that of the whole.
func (l *look) calledLength(a at) bool {
	before, _ := l.ownSentence(a)
	return wholeCalled.MatchString(before)
}

var wholeCalled = matching(`\b(?:length|duration|total|dauer|umfang|gesamtdauer|gesamtzeit|duree|duree totale|duracion|duur|omvang|totaal|total(?: de)?)(?: \p{L}+)?[ :=]*$`)

// timesEach multiplies the time of one by how often the person was there, or by how many there
// were: "Each evening goes on for 90 minutes. She was present on four evenings."
func (l *look) timesEach(t timed, n int, why string, level int) timed {
	t.level, t.why, t.minutes = level, why, t.minutes*credit.Minutes(n)
	t.text = minutesText(t.minutes)
	return t
}

// onEach takes a time for that of each of the days or evenings behind it, which it may count.
func (l *look) onEach(t timed, after string) timed {
	if n := numberOf(onEachDay.FindStringSubmatch(after)[1]); n > 1 {
		return l.timesEach(t, n, "count times length", 1)
	}
	return l.eachOf(t)
}

// examinedEach is how many persons or groups a passage says that somebody taught or examined one
// after another, where it names just one number of them; else 0.
func (l *look) examinedEach(passage int) int {
	found := takenInTurn.FindAllStringSubmatch(l.folded[passage], -1)
	if l.kind != paper.Instruction || len(found) != 1 {
		return 0
	}
	return numberOf(found[0][1])
}

var takenInTurn = matching(`(?:^|[\s(])(\d{1,2}|\p{L}{3,12}) (?:candidates?|examinees|groups?|teams|trainees|pruflinge?n?|prufungen|kandidat\w*|gruppen|candidat\w*|groupes|stagiaires|grupos|equipos|aspirantes|kandidaten|groepen)\b`)

// fulfilledThere reports that a time is said to be that of which the person was there, rather
// than the one behind it: "24 hours, of these present: 20 hours".
func fulfilledThere(before, after string) bool {
	if fulfilled.MatchString(before) {
		return true
	}
	m := fulfilledBehind.FindStringIndex(after)
	return m != nil && !strings.HasPrefix(strings.TrimLeft(after[m[1]:], " "), ":") && !hasFigure(head(after[m[1]:], 4))
}

// withoutParts takes from the times that are stated those of a part of what the clock times span:
// the questions at the end, or whatever filled a while of a meeting.
func (l *look) withoutParts(list []timed, clock timed) []timed {
	return slices.DeleteFunc(list, func(t timed) bool {
		if t.level != 4 || len(t.open) > 0 || t.minutes >= clock.minutes {
			return false
		}
		before, after := l.around(t.at)
		if asked := discussWord.MatchString(" " + head(after, 24) + " "); asked {
			return true
		}
		p, labelled := l.labelOf(t.at)
		return l.kind == paper.Meeting && !(labelled && (p.role == isDuration || p.role == isAttended)) && !itLasted.MatchString(before)
	})
}

// itLasted ends in front of the time that a whole thing took.
var itLasted = matching(`\b(?:lasted|lasting|took|duration|total|present for|attended|dauerte|gedauert|dauer|insgesamt|anwesend|dure|duree|a duree?|durant|pendant|siege|duro|duracion|durante|duurde|duur|gedurende|aanwezig|for)[^.;\d]{0,24}$`)
