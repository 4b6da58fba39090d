package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A paper has days that are none of what it proves: until when it holds, when somebody was born,
// when a page was printed. Where no label that is known says so, their place in the calendar, the
// word above them or what their sentence speaks of does.

// setAside takes such days out of those that may be the event's or that of issue.
func (l *look) setAside() {
	for i := range l.days {
		d := &l.days[i]
		switch {
		case d.lack != find.Whole || len(d.spans) == 0:
		case (d.label == "" || d.guessed) && (l.toCome(*d) || l.ofOtherMeeting(*d)):
			d.role, d.sure = isOther, true
		case d.single && (holds(d.label) || d.label == "" && holds(l.headOver(d.at))):
			if !slices.Contains([]role{isStart, isEnd, isFinish, isIssue}, d.role) || d.guessed {
				d.role, d.sure = isOther, true
			}
		case d.single && l.loose(*d) && l.anniversary(*d):
			d.role, d.sure = isOther, true
		case d.single && minutesBefore.MatchString(fold(tail(l.passages[d.at.passage].text[:d.at.span.From], 90))) && approvedBehind.MatchString(fold(head(l.passages[d.at.passage].text[d.at.span.To:], 60))):
			d.role, d.sure = isOther, true
		case d.single && d.label == "" && l.cameOut(*d):
			d.role, d.sure = isPublished, true
		case d.role == isIssue && d.label == "" && ofReference.MatchString(fold(tail(l.passages[d.at.passage].text[:d.at.span.From], 110))):
			d.role, d.sure = isOther, true
		}
	}
}

// holds reports a label or a head for a day that is none of what took place, and not for that on which
// something was validated.
func holds(label string) bool {
	return holdsLabel.MatchString(label) && !validatedOn.MatchString(label)
}

var validatedOn = matching(`^(?:validated(?: on)?|validee?s?(?: le)?|validad[oa]s?(?: el)?|validiert(?: am)?|gevalideerd(?: op)?)$`)

// toCome reports a day whose sentence speaks of something that comes again, or until when or from when
// on something can be had: the next course, seats that are given back, the hours of an office.
func (l *look) toCome(d day) bool {
	before, after := l.ownSentence(d.at)
	return nextOne.MatchString(before) || againWord.MatchString(before+" ") && futureWord.MatchString(before+" ") || againWord.MatchString(" "+after+" ") && futureWord.MatchString(before+" ") ||
		takenBack.MatchString(before) || openFrom.MatchString(before)
}

var (
	nextOne    = matching(`^\W*(?:(?:our|the|der|das|die|unser\w*|notre|la|le|nuestro|nuestra|el|ons|onze|de|het) )?(?:next|following|upcoming|nachste[rsn]?|kommende[rsn]?|prochaine?s?|proxim[oa]s?|volgende|eerstvolgende) (?:\p{L}+ )?(?:congress|conference|symposium|convention|course|seminar|workshop|study day|webinar|meeting|session|kongress|tagung|konferenz|lehrgang|veranstaltung|fortbildung|sitzung|congres|colloque|conference|stage|formation|journee|seance|reunion|congreso|jornadas?|curso|taller|seminario|sesion|bijeenkomst|vergadering|studiedag|opleiding|series|season|term|round|run|intake|edition|date|class|reihe|seminarreihe|staffel|runde|durchgang|auflage|termin|kurs\w*|cycle|saison|session|edition|serie|ciclo|temporada|edicion|convocatoria|turno|reeks|lessenreeks|seizoen|ronde|editie|cursus\w*)\b`)
	againWord  = words(`again|once more|repeat(?:ed|s)?|re-?run|wiederholt|wiederholung|erneut|noch einmal|nochmals|wieder|a nouveau|de nouveau|une nouvelle fois|repris|reprogrammee?|repet(?:ira|iran|ido|ida|e)|nuevamente|de nuevo|otra vez|opnieuw|nogmaals|nog eens|herhaald|weer`)
	futureWord = words(`will|is to|are to|shall|is being|wird|werden|findet|finden|soll|sera|seront|aura|auront|est prevue?|tendra|tendran|volvera|volveran|repetira|repetiran|se repite|sera|wordt|worden|zal|zullen|vindt`)
	takenBack  = matching(`\b(?:refundable|exchangeable|transferable|cancellable|returnable|redeemable|bookable|cancel(?:led)? free|(?:ruck)?erstattbar|umtauschbar|stornierbar|einlosbar|ruckgabe|storno|umbuchbar|remboursables?|echangeables?|annulables?|reembolsables?|canjeables?|anulables?|restitueerbaar|terugbetaalbaar|inwisselbaar|annuleerbaar)\b[^.;\d]{0,24}$`)
	openFrom   = matching(`\b(?:(?:opening|office|winter|summer|holiday|business|shop|desk) hours|\w*(?:offnungs|sprech|geschafts|burozeit)\w*|horaires? d'(?:hiver|ete|ouverture)|horario de (?:invierno|verano|apertura|atencion)|(?:winter|zomer|openings?)(?:uren|tijden))\b[^.;\d]{0,24}$`)
)

// cameOut reports the day on which a number of a periodical came out.
func (l *look) cameOut(d day) bool {
	before, after := l.ownSentence(d.at)
	return numberOfText.MatchString(before) && (outBehind.MatchString(after) || outAhead.MatchString(before))
}

var (
	numberOfText = matching(`(?:^|\b(?:the|this|our|that|das|dieses|unser|die|diese|der|le|ce|notre|la|cette|el|este|nuestro|nuestra|het|dit|ons|deze|de) )(?:heft|ausgabe|nummer|band|zeitschrift|issue|number|volume|magazine|numero|livraison|revue|revista|nummer|aflevering|tijdschrift)\b[^.;]{0,60}$`)
	outBehind    = matching(`^ ?(?:ausgegeben|ausgeliefert|erschienen|versandt|verschickt|out|uitgegeven|verschenen|verzonden)\b`)
	outAhead     = matching(`\b(?:came out|appeared|went out|was (?:issued|released|mailed|sent out|distributed)|erschien|est paru|est parue|a paru|est sortie?|a ete (?:diffusee?|distribuee?)|salio|aparecio|se publico|se distribuyo|verscheen|kwam uit)(?: (?:on|am|le|el|op))?\s*$`)
)

// What is said of the minutes of an earlier meeting.
var (
	minutesBefore  = matching(`\b(?:minutes|protokoll|niederschrift|compte rendu|proces-verbal|acta|notulen|verslag)\b(?:[^.;]|\d\.){0,60}$`)
	approvedBehind = matching(`^[^.;]{0,30}\b(?:approved|adopted|accepted|confirmed|genehmigt|angenommen|approuvee?|adoptee?|aprobad[oa]|aprueba|goedgekeurd|vastgesteld)\b`)
)

// loose reports a day that nothing but its place, or a small word, says anything of.
func (l *look) loose(d day) bool {
	return (d.label == "" || d.guessed || d.role == isNumber) && slices.Contains([]role{noRole, isBare, isEvent, isNumber}, d.role) &&
		(d.hangs == onNothing || d.hangs == onUnknown)
}

// anniversary reports that a day lies whole years after another of the paper, or a day less: what
// was obtained on that one holds until this.
func (l *look) anniversary(d day) bool {
	if len(l.tables) > 0 && l.inTable(l.cellAt(d.at)) && l.rowsWithDays() > 2 {
		return false
	}
	return slices.ContainsFunc(l.days, func(o day) bool {
		if !o.single || o.lack != find.Whole || len(o.spans) != 1 || len(d.spans) == 0 || o.role == isOther {
			return false
		}
		return slices.ContainsFunc(d.spans, func(s find.Stretch) bool { return yearsLater(o.spans[0].Start, s.Start) })
	})
}

// rowsWithDays counts the rows of tables that have a day.
func (l *look) rowsWithDays() int {
	n := 0
	for _, t := range l.tables {
		for _, columns := range t.lines {
			if len(l.daysIn(slices.Concat(columns...))) > 0 {
				n++
			}
		}
	}
	return n
}

// yearsLater reports that b is the same day of the year as a, or the day before it, one to ten
// years later.
func yearsLater(a, b credit.Date) bool {
	for _, day := range []credit.Date{b, b.AddDays(1)} {
		y1, m1, d1 := a.YMD()
		y2, m2, d2 := day.YMD()
		if m1 == m2 && d1 == d2 && y2 > y1 && y2 <= y1+10 {
			return true
		}
	}
	return false
}

// headOver returns the text right above a place that stands by itself in its column, as the head
// of a column or of a box does; "" where there is none without figures.
func (l *look) headOver(a at) string {
	if !l.boxed {
		return ""
	}
	c := l.cells[l.cellAt(a)]
	best := -1
	for i, o := range l.cells {
		if i == l.cellAt(a) || o.page != c.page || o.box[3] > c.box[1]+2 || c.box[1]-o.box[3] > 2*(c.box[3]-c.box[1]) || o.clearOf(&c) {
			continue
		}
		if best < 0 || o.box[3] > l.cells[best].box[3] {
			best = i
		}
	}
	if best < 0 || hasFigure(strings.TrimLeft(l.cells[best].text, "0123456789.) ")) || len(strings.Fields(l.cells[best].text)) > 6 {
		return ""
	}
	return strings.Trim(fold(l.cells[best].text), " :.0123456789)")
}

// holdsLabel is a label, or the head of a box, for a day that is none of what took place: until
// when something holds or can be used, when somebody was born, when a page was printed.
var holdsLabel = matching(`\b(?:valid\w*|expir\w*|laps(?:es?|ed|ing)|renew\w*|runs out|holds until|good (?:until|through)|access (?:until|to|ends?|expires)|available until|next \w+|due|birth|born|d\.?o\.?b\.?|print(?:ed)?|retrieved|` +
	`\w*gultig\w*|\w*ablauf\w*|verfall\w*|verfallt|lauft ab|erneuer\w*|\w*verlanger\w*|rezertif\w*|zugang (?:bis|endet)|abrufbar bis|fallig\w*|geburt\w*|geboren|geb\.|gedruckt|ausdruck|` +
	`valables?|validite|echeance|peremption|perime|renouvel\w*|acces (?:jusqu\S*|ouvert jusqu\S*)|jusqu'au|a renouveler|naissance|nee? le|imprime|` +
	`validez|vigencia|vigente|venc(?:e|imiento)|caduc\w*|renovacion|renovar|acceso hasta|nacimiento|nacid[oa]|impres[oa]|` +
	`\w*geldig\w*|verval\w*|verloop\w*|verloopt|houdbaar\w*|verleng\w*|hercertif\w*|toegang (?:tot|eindigt)|geboorte\w*|geboren|afgedrukt|geprint)(?:\b|$)`)

// ofReference ends in front of the day of another paper that is only referred to: an order, a
// letter, somebody's identity card.
var ofReference = matching(`\b(?:(?:order|circular|memo(?:randum)?|notification|sanction|resolution|scheme|decree|act|licen[cs]e|passport|identity card|id card|permit|` +
	`\w*(?:erlass|verfugung|bescheid|rundschreiben|ausweis\w*|reisepass\w*|genehmigung|beschluss)|` +
	`(?:l'|d'|un |cet |par |vu )arrete|decret|circulaire|decision|deliberation|carte (?:nationale )?d'identite|passeport|agrement|autorisation|` +
	`resolucion|orden|decreto|circular|acuerdo|cedula|d\.?n\.?i\.?|pasaporte|carne|documento de identidad|licencia|` +
	`besluit|beschikking|circulaire|identiteitskaart|paspoort|rijbewijs|vergunning)\b[^.;]{0,12}(?:\b(?:no|nr|num|n[°º])\b)?[^;]{0,60}?)(?:dated|dt\.?|issued|made|ausgestellt|erteilt|vom|datiert|delivree?|datee?|du|en date du|le|expedid[oa]|fechad[oa]|de fecha|emitid[oa]|del?|afgegeven|uitgereikt|gedateerd|d\.d\.|van)\b[^.;:]{0,30}$`)
