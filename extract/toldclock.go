package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/find"
)

// A sentence tells the hours of an event with verbs: "We began at 9.45 am and let everybody go at
// 4.30 pm". From the hour behind a word for beginning to that behind a word for ending it is a
// span of the day like any other.

const (
	toldHour   = `(\d{1,2}(?: ?[.:] ?\d\d| ?[hu] ?\d\d)?(?: ?(?:[ap]\.? ?m\b\.?|uhr(?: \d\d)?|uur|heures?(?: \d\d)?|horas?|hrs|h\b|o'clock))?|noon|midday|midnight|midi|mediodia|(?:half past|(?:an? )?quarter (?:past|to)|halb|(?:ein )?viertel (?:nach|vor)|dreiviertel|half|(?:een )?kwart (?:over|voor)) \p{L}+(?: (?:o'clock|uhr|uur))?|(?:` + hourNames + `) (?:o'clock|uhr|uur|heures(?: (?:et (?:demie|quart)|moins le quart))?)|las (?:` + hourNames + `)(?: (?:y (?:media|cuarto)|menos cuarto))?)`
	hourNames  = `one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|eins|zwei|drei|vier|funf|sechs|sieben|acht|neun|zehn|elf|zwolf|een|twee|vijf|zes|zeven|negen|tien|twaalf|une|deux|trois|quatre|cinq|sept|huit|neuf|dix|onze|douze|una|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|once|doce`
	toldLead   = `(?: (?:at|about|around|shortly|just|punctually|promptly|um|gegen|kurz|punkt|a|las|la|vers|om|rond|tegen|omstreeks|for|us|the day|the session|only|first|erst|dann|wieder|then|finally))*:? `
	toldBegins = `(?:beg[au]n|begins?|beginning|start(?:s|ed|ing)?|open(?:s|ed|ing)?|commenc(?:es?|ed|ing)|kicked off|convened|assembled|met|called to order|welcomed everybody|` +
		`beginn|begann(?:en)?|beginnt|startete|eroffnet|anfang|fing(?:en)?|losgegangen|angefangen|begonnen|` +
		`commence[er]?|a commence|debute[er]?|debut(?:ait)?|ouverte?s?|ouvre|ouverture|demarre[er]?|commencait|` +
		`comenzo|comenzaron|comienza|comenzando|empezo|empieza|inicio|inicia|se abrio|abrio|apertura|dio comienzo|` +
		`begon(?:nen)?|begint|aanvang|startte|geopend|opende|opent|ving aan)`
	toldEnds = `(?:end(?:s|ed|ing)?|finish(?:es|ed|ing)?|clos(?:es?|ed|ing)|conclud(?:es|ed|ing)|stopp(?:ed|ing)|broke up|wound up|wrapped up|packed up|came down|finished up|adjourned|was over|were over|let (?:everybody|everyone|us|them|you|people) go|sent (?:everybody|everyone|us|them|you|people) home|went home|dispersed|until|` +
		`end(?:e|ete|et|eten)|schluss|schloss(?:en)?|schliesst|geendet|geschlossen|beendet(?:en)?|ging(?:en)? bis|dauerte bis|` +
		`termine[er]?|s'est terminee?|se termine|a pris fin|prit fin|prend fin|fini[te]?|achevee?|levee?|cloture[er]?|cloturee|fin|s'achevait|` +
		`termino|terminaron|termina|terminando|finalizo|finaliza|concluyo|concluye|cerro|acabo|clausuro|clausura|cierre|` +
		`eindig(?:de|den|t)|einde|hamer|klaar|sloot|sluit|gesloten|sluiting|afgelopen|duurde tot|stopten?|gingen|ging|hielden op|stoppten|horten auf)`
)

var (
	toldThenEnd = matching(`\b` + toldBegins + `\b[^\d;]{0,34}?` + `(?:\b|^)` + toldHour + `\b[^\d;]{1,44}?\b` + toldEnds + `\b(?:[^\d;]{0,18}?)` + toldLead + toldHour + `(?:\W|$)`)
	toldFirst   = matching(`(?:\b|^)(?:um|om) ` + toldHour + `\b(?: \w+){0,2} (?:begonnen|angefangen|losgegangen|gestartet|eroffnet|gestart|geopend|van start gegaan)\b[^\d;]{1,44}?\b(?:um|om|bis|tot) ` + toldHour + `(?:\W|$)`)
	toldAtEnd   = matching(`\b` + toldBegins + `\b[^\d;]{0,34}?` + `(?:\b|^)` + toldHour + `\b[^\d;]{1,30}? (?:um|om|at) ` + toldHour + ` (?:zu ende|vorbei|aus\b|beendet|geschlossen|schluss|afgelopen|gesloten|ten einde)`)

	// openHouse are things that open and close whatever event there is.
	openHouse = words(`offices?|car park|parking|reception|library|canteen|shop|bar|barrier|gates?|hotline|help ?desk|buro|geschaftsstelle|sekretariat|bibliothek|parkplatz|kantine|schranke|secretariat|bureaux?|accueil|bibliotheque|cantine|guichet|oficinas?|secretaria|biblioteca|aparcamiento|cafeteria|kantoor|bibliotheek|parkeerterrein|secretariaat|balie`)

	// talkedOn follows a talk: the discussion of it went on until an hour.
	talkedOn = matching(`^[^\d]{0,60}\b(?:discussions?|discussed|questions|debate|q ?& ?a|diskussion|aussprache|fragen|fragerunde|gesprach|debat|echanges?|discussion|coloquio|preguntas|discusion|vragen\w*|nagesprek|discussie)\b[^.\d]{0,70}?\b(?:until|till|to|end(?:ed|ing|s)|closed|over|bis|endete|ging|jusqu'a|s'est terminee?|terminee?|termino|hasta|acabo|concluyo|tot|eindigde|duurde)\b[^.\d]{0,14}?` + toldHour + `(?:\W|$)`)
)

// toldClocks adds the spans of the day that sentences tell, and lets a talk go on with the
// discussion of it.
func (l *look) toldClocks() {
	for i, text := range l.folded {
		for _, p := range []*pattern{toldThenEnd, toldAtEnd, toldFirst} {
			m := p.FindStringSubmatch(text)
			if m == nil || ofHouse(text, m[0]) || slices.ContainsFunc(l.clocks, func(c clockHit) bool {
				return c.at.passage == i && (len(c.clock.Breaks) == 0 || strings.Contains(m[0], fold(l.text(c.at))) || !dayName.MatchString(text))
			}) {
				continue
			}
			found := find.Clocks(colons(m[1])+" - "+colons(m[2]), l.langs)
			if len(found) != 1 || found[0].Minutes <= 0 || found[0].PastMidnight {
				continue
			}
			c := found[0]
			for _, b := range find.Breaks(l.onwards(i), l.langs) {
				if b.To > b.From && b.To <= 720 && b.From < c.From && b.To+720 <= c.To {
					b.From, b.To = b.From+720, b.To+720
				}
				if b.From == b.To || b.From >= c.From && b.To <= c.To {
					if b.Span.To > len(l.passages[i].text) {
						b.Span = find.Span{}
					}
					c.Breaks = append(c.Breaks, b)
				}
			}
			l.breaksBehind(i, text, m[0], &c)
			a := l.toldAt(i, m[1], m[2])
			c.Span = a.span
			l.clocks = append(l.clocks, clockHit{a, c})
		}
	}
	for i := range l.clocks {
		l.discussed(&l.clocks[i])
		l.restedIn(&l.clocks[i])
	}
	slices.SortStableFunc(l.clocks, func(a, b clockHit) int { return a.at.passage - b.at.passage })
}

// breaksBehind leaves to a told span of the day, of those of its passage, the breaks that are told behind
// it, and takes them from those that stand before.
func (l *look) breaksBehind(i int, text, told string, c *find.Clock) {
	pos := strings.Index(text, told)
	if len(text) != len(l.passages[i].text) || !slices.ContainsFunc(l.clocks, func(o clockHit) bool { return o.at.passage == i && o.at.span.From < pos }) {
		return
	}
	c.Breaks = slices.DeleteFunc(c.Breaks, func(b find.Break) bool { return b.Span.From < pos })
	for k := range l.clocks {
		if o := &l.clocks[k]; o.at.passage == i && o.at.span.From < pos {
			o.clock.Breaks = slices.DeleteFunc(o.clock.Breaks, func(b find.Break) bool { return b.Span.From > pos })
		}
	}
}

// colons writes an hour with a colon before its minutes, as which no decimal is read.
func colons(hour string) string {
	return hourPoint.ReplaceAllString(strings.TrimRight(hour, " ."), "$1:$2")
}

var hourPoint = matching(`^(\d{1,2}) ?\. ?(\d\d)`)

// ofHouse reports that what opens and closes in a part of a text is an office or a car park.
func ofHouse(text, told string) bool {
	k := strings.Index(text, told)
	before := tail(text[:k], 40)
	if i := strings.LastIndexAny(before, ".;:"); i >= 0 {
		before = before[i:]
	}
	if i := strings.IndexAny(told, "0123456789"); i > 0 {
		told = told[:i]
	}
	return openHouse.MatchString(before + told + " ")
}

// houseOpen reports a span of the day during which an office or a car park is said to be open.
func (l *look) houseOpen(a at) bool {
	before, after := l.ownSentence(a)
	if l.boxed && officeHours.MatchString(l.overColumn(a)+" ") || a.passage > 0 && !l.boxed && officeLabel.MatchString(l.folded[a.passage-1]) {
		return true
	}
	if officeHours.MatchString(before+" ") || isOpenFrom.MatchString(before) {
		return true
	}
	if n := l.eventDays(); (n < 3 || n > 15) && weekdayRange.MatchString(tail(before, 60)) {
		return true // from Monday to Friday, though the event had one day or two
	}
	said := before + " " + head(after, 30) + " "
	return openHouse.MatchString(said) && isOpen.MatchString(said)
}

var isOpen = words(`open(?:s|ed)?|reached|available|staffed|closed|geoffnet|besetzt|erreichbar|offen|ouverte?s?|joignables?|fermee?s?|abiert[oa]s?|atiende|disponibles?|geopend|bereikbaar|bezet`)

// officeHours stand before the hours at which somebody can be reached.
var officeHours = words(`office hours|opening hours|(?:telefonische )?(?:sprech|offnungs|buro|geschafts|service|telefon)zeiten|heures d'ouverture|horario de (?:atencion|apertura|oficina|secretaria)(?: al publico)?|openings(?:tijden|uren)|bezoektijden|kantooruren|(?:telefonisch )?spreekuur|sprechstunden?|surgery hours|permanences?|horas de consulta`)

// officeLabel is a line of its own over such hours.
var officeLabel = matching(`^(?:office hours|opening hours|(?:telefonische )?(?:sprech|offnungs|buro|geschafts|service|telefon)zeiten|heures d'ouverture|horario de (?:atencion|apertura|oficina|secretaria)|openings(?:tijden|uren)) ?:?$`)

var (
	// isOpenFrom ends in front of the hours from which a thing is open, whatever it is.
	isOpenFrom = matching(`\b(?:is|are|ist|sind|est|sont|esta|estan|zijn)(?: \p{L}+){0,2}? (?:open|geoffnet|ouverte?s?|abiert[oa]s?|geopend)(?: \p{L}+){0,3} ?$|\b(?:geoffnet|open|ouverte?s?|abiert[oa]s?|geopend)\b[^.;\d]{0,24}$|\b(?:te koop|for sale|on sale|collected|picked up|abgeholt|zum verkauf|erhaltlich|en vente|retirees?|a la venta|recog\w+|afgehaald|verkrijgbaar)\b[^.;\d]{0,40}$`)
	// weekdayRange ends in front of hours that hold on all days of a week.
	weekdayRange = matching(`(?:^|[\s,(:])(?:(?:mon(?:day)?s?|mo|montags?|lundi|lun|lunes|ma(?:andag)?)\.? ?(?:-|–|to|through|thru|bis|au|a|t/m|tot(?: en met)?) ?(?:fri(?:day)?s?|fr|freitags?|vendredi|ven?|viernes|vie|vrijdag|vr|thurs?(?:day)?s?|do|donnerstags?|jeudi|jeu|jueves|donderdag|sat(?:urday)?s?|sa|samstags?|samedi|sam|sabado|sab|zaterdag|za)|weekdays|working days|business days|werktags|werktaglich|en semaine|jours (?:ouvrables|ouvres)|dias (?:laborables|habiles)|werkdagen|wochentags)\b[^\d]{0,16}(?:\d{1,2}(?:[.:h]\d\d)?(?: ?(?:uhr|uur|h|[ap]\.?m\.?))? ?[-–] ?\d{1,2}(?:[.:h]\d\d)?(?: ?(?:uhr|uur|h|[ap]\.?m\.?))?[^\d]{1,12})?$`)
)

// toldAt is the place from one hour to another in a passage, or the passage where they are not
// found as they stand.
func (l *look) toldAt(i int, from, to string) at {
	whole := l.passageAt(i)
	text := strings.ToLower(l.passages[i].text)
	figures := func(s string) string { return head(s, strings.IndexFunc(s+" ", func(r rune) bool { return r == ' ' })) }
	a := strings.Index(text, figures(from))
	if a < 0 || len(text) != len(l.passages[i].text) {
		return whole
	}
	b := strings.Index(text[a+1:], figures(to))
	if b < 0 {
		return whole
	}
	return whole.within(a, b+1+len(figures(to)))
}

// onwards is a passage with the next one, where that goes on in small letters.
func (l *look) onwards(i int) string {
	text := l.passages[i].text
	if i+1 < len(l.passages) && startsLower(l.passages[i+1].text) {
		text += " " + l.passages[i+1].text
	}
	return text
}

// restedIn takes for a break what a sentence adds to a span of the day, whatever it was for: "from
// 9.30 to 3.45, with half an hour for soup".
func (l *look) restedIn(c *clockHit) {
	if len(c.clock.Breaks) > 0 {
		return
	}
	rest := head(l.passages[c.at.passage].text[c.at.span.To:], 160)
	for _, d := range find.Durations(rest, l.langs) {
		if d.Break || d.From > 60 || d.Minutes <= 0 || d.Minutes > 90 || 3*d.Minutes > c.clock.Minutes {
			continue
		}
		between, behind := fold(rest[:d.From]), fold(head(rest[d.To:], 24))
		if restBefore.MatchString(between) && !sentenceEnd.MatchString(between) && restBehind.MatchString(behind) && !discussWord.MatchString(behind+" ") {
			span := find.Span{From: c.at.span.To + d.From, To: c.at.span.To + d.To}
			c.clock.Breaks = append(c.clock.Breaks, find.Break{Span: span, Minutes: d.Minutes, Count: 1})
			return
		}
	}
}

var restBehind = matching(`^ ?(?:for|off|rest|at noon|fur|zum|zur|pour|para|voor|de repos|rust|$|[.,;)])`)

var restBefore = matching(`^[^\d]{0,24}\b(?:with|less|minus|apart from|except|but for|mit|abzuglich|ausser|bis auf|avec|moins|hormis|con|menos|salvo|met|minus|behalve)(?: (?:a|an|one|only|just|just a|eine[rm]?|un|une|una|een))?\s*$`)

// discussed lets a span of the day go on to the hour until which what was said was discussed.
func (l *look) discussed(c *clockHit) {
	if len(c.clock.Breaks) == 0 && l.talkedFurther(c) {
		return
	}
	m := talkedOn.FindStringSubmatch(fold(head(l.passages[c.at.passage].text[c.at.span.To:], 200)))
	if m == nil || len(c.clock.Breaks) > 0 {
		return
	}
	for _, noon := range []int{0, 720} { // "3.15 pm … until 3.40"
		if c.clock.To < noon {
			return
		}
		found := find.Clocks(hourOf(c.clock.To-noon)+" - "+m[1], l.langs)
		if len(found) == 1 && found[0].Minutes > 0 && found[0].Minutes <= 120 && !found[0].PastMidnight {
			c.clock.To += int(found[0].Minutes)
			c.clock.Minutes += found[0].Minutes
			return
		}
	}
}

// talkedFurther adds to a span of the day the time for which its sentence says that questions were
// answered after it: "and members kept her for questions for a further ten minutes".
func (l *look) talkedFurther(c *clockHit) bool {
	rest := head(l.passages[c.at.passage].text[c.at.span.To:], 160)
	for _, d := range find.Durations(rest, l.langs) {
		between, behind := rest[:d.From], fold(head(rest[d.To:], 30))
		if d.Minutes <= 0 || d.Minutes > 90 || d.Break || len(between) > 90 || sentenceEnd.MatchString(between) || hasFigure(between) {
			continue
		}
		said := fold(between) + " "
		if addedTime.MatchString(strings.TrimRight(said, " ")) && (discussWord.MatchString(said) || discussWord.MatchString(" "+behind+" ")) {
			c.clock.To += int(d.Minutes)
			c.clock.Minutes += d.Minutes
			return true
		}
	}
	return false
}

// hourOf writes minutes after midnight as an hour of the day.
func hourOf(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }

// restOf reports a length that is a break of a span of the day.
func (l *look) restOf(a at) bool {
	return slices.ContainsFunc(l.clocks, func(c clockHit) bool {
		return c.at.passage == a.passage && slices.ContainsFunc(c.clock.Breaks, func(b find.Break) bool { return b.Span.Overlaps(a.span) })
	})
}
