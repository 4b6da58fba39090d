package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// tallied is a kind with what speaks for it.
type tallied struct {
	kind    paper.Kind
	score   int
	because string
	title   bool     // a heading says it
	said    string   // the words that say it, folded
	words   []string // all words that speak for it, none within another
	share   int      // of 100, how far the words of the paper as a whole speak for it
	forms   int      // how many things beside words speak for it: labels, money, rows, days
}

// speak notes words that speak for a kind; a heading counts twice.
func (t *tallied) speak(words string, head bool) {
	words = strings.Trim(words, " .,:;()\n\t\"")
	if slices.ContainsFunc(t.words, func(o string) bool { return strings.Contains(o, words) || strings.Contains(words, o) }) {
		return
	}
	t.words = append(t.words, words)
	if head {
		t.forms++ // where it stands is a second sign
	}
}

// agreed reports that two signs that do not depend on each other speak for the kind at the
// head of the list, one of them in words, or that one does which is strong, and no word
// speaks for another kind: on a paper of a kind never seen one word may mean something else.
func agreed(list []tallied) bool {
	top := list[0]
	if len(top.words) == 0 {
		return top.kind == paper.Receipt && top.forms > 1 // sums say it without words
	}
	if len(top.words)+top.forms > 1 {
		return true
	}
	return top.score >= 60 && !slices.ContainsFunc(list[1:], func(t tallied) bool { return len(t.words) > 0 && t.score > 0 || t.score >= 20 })
}

// taughtAsWell reports a paper that is headed as one of attendance, and says nowhere but there that somebody
// attended, while a sentence says that somebody taught.
func (l *look) taughtAsWell(list []tallied) bool {
	top, heads := list[0], l.headings()
	return top.kind == paper.Attendance && top.title && !slices.ContainsFunc(top.words, func(said string) bool { return !strings.Contains(heads, said) }) && slices.ContainsFunc(list[1:], func(t tallied) bool {
		return t.kind == paper.Instruction && !t.title && len(t.words) > 0 && t.score >= 40
	})
}

// say keeps the words that speak for a kind: those of a heading before others.
func (t *tallied) say(words string, head bool) {
	if t.said == "" || head && !t.title {
		t.said = strings.Trim(words, " .,:;()\n\t\"")
	}
}

// shown returns where the words stand that show the kind; else the first line.
func (l *look) shown(t tallied) at {
	for i, p := range l.passages {
		if k := strings.Index(l.folded[i], t.said); k < 0 || t.said == "" {
			continue
		}
		n := len(strings.Fields(t.said))
		var starts []int
		for k := range p.text {
			if k == 0 || p.text[k-1] == ' ' {
				starts = append(starts, k)
			}
		}
		for k := 0; k+n <= len(starts); k++ {
			to := len(p.text)
			if k+n < len(starts) {
				to = starts[k+n] - 1
			}
			if strings.Contains(fold(p.text[starts[k]:to]), t.said) {
				return l.passageAt(i).within(starts[k], to-starts[k])
			}
		}
		return l.passageAt(i)
	}
	for i := range l.passages { // a sign of a form: its heading
		if provesHead.MatchString(l.folded[i]) && len(l.folded[i]) < 80 {
			return l.passageAt(i)
		}
	}
	return l.passageAt(0)
}

// after0 is the folded text without its first line, which names who made the paper.
func (l *look) after0() string {
	if len(l.folded) < 2 || !l.isBody(l.passages[0].text) && strings.Contains(l.passages[0].text, ".") {
		return l.said(0)
	}
	return l.said(1)
}

// taughtTime is a length, and says nothing of who taught.
var taughtTime = matching(`taught (?:time|hours|units|content)|(?:hours?|minutes|lessons|units|h|min) (?:was|were) taught|taught (?:live|in live classes|\w*work|sessions?|components?|elements?|part|study|programme)`)

// said is the folded text from a passage on, without who signs as what: the office of
// somebody says nothing about the paper.
func (l *look) said(from int) string {
	var b strings.Builder
	for i, text := range l.folded[from:] {
		if !l.closing.signs[from+i] {
			b.WriteString(taughtTime.ReplaceAllString(text, "time"))
			b.WriteByte('\n')
		}
	}
	return b.String()
}

var (
	didIt       = words(`(?:has|have|having|who|you|he|she|and|was|were) (?:\w+ ){0,2}(?:attended|participated|taken part|completed|finished|present|passed|taught|lectured|joined|gave|presented)|attended the|let it be known|be it known|given under (?:my|our|the) (?:hand|seal)|sat (?:through|in on)|a (?:participe|assiste|pris part) (?:a|aux?)|ha (?:asistido|participado)|participo (?:en|al?)|certify that|certifies that|is to certify|hereby certif\w+|awarded to|presented to|teilgenommen|hiermit (?:wird )?(?:bestatig\w+|bescheinig\w+)|(?:bescheinigen|bestatigen) wir|wir (?:bescheinigen|bestatigen)|(?:wird|werden) (?:hiermit )?(?:bescheinigt|bestatigt)|nous (?:soussignes? )?(?:attestons|certifions)|je soussigne|(?:atteste|certifie) que|a suivi|(?:se )?certifica(?:mos)? que|hace constar|asistio|hierbij verklaren|verklaart (?:hierbij )?dat|verklaren (?:wij )?dat|hiermee (?:wordt )?verklaar\w*|heeft deelgenomen|wordt verklaard|in recognition of|(?:pour|de) (?:sa|votre|leur) participation|d'avoir (?:participe|assiste|suivi)|por (?:su|haber)|issued to|decernee? a|delivre a|otorgado a|uitgereikt aan|verliehen an|attended:|proof of|record of|certificate of|we confirm`)
	examWords   = words(`exam\w*|prufung\w*|examens?|epreuves?|passed|bestanden|degree|grad|grade|diplome de|titulo|qualifi\w*|examinado|geslaagd|behaald|reussi|aprobado|conferred|verliehen|decerne\w*|level|niveau|nivel|stufe|competen\w*`)
	teachWords  = words(`tutor|lecturer|speaker|presenter|instructor|trainer|teacher|given by|taught by|presented by|delivered by|referent(?:in)?|dozent(?:in)?|vortragende[rn]?|kursleit\w+|ausbilder(?:in)?|formateur|formatrice|intervenante?|conferencier(?:e)?|orateur|oratrice|ponente|docente|conferenciante|profesora?|spreker|spreekster|docent|inleider|opleider`)
	tillWords   = words(`girocard|ec-?cash|kartenzahlung|card|cash|visa|mastercard|change|tendered|register|karte|ec-?karte|bar|ruckgeld|carte bancaire|cb|especes|efectivo|tarjeta|pin|kas|pinbetaling|thank you|vielen dank|merci|gracias|bedankt`)
	rulesWords  = words(`terms (?:and|&) conditions|terms of (?:use|service|business)|general (?:terms|conditions)|privacy (?:policy|notice)|allgemeine (?:geschafts)?bedingungen|teilnahmebedingungen|datenschutz\S*|conditions generales|condiciones generales|algemene voorwaarden|reglement (?:des|de la|relatif aux) (?:\p{L}+, )*\p{L}+|examination regulations|reglamento (?:de|del) \p{L}+|examenreglement`)
	provesHead  = words(`certificate|statement of (?:\w+ )?(?:completion|attendance|participation|achievement)|attendance (?:slip|record|certificate)|bescheinigung|bestatigung|\S*(?:bescheinigung|nachweis|zeugnis|testat)|(?:score|examination|exam) report|attestation|certificat|certificado|zertifikat|bewijs van|\S*attest|getuigschrift|verklaring|diploma|diplome|urkunde|acreditacion|accreditation|justificatif|constancia|justificante|transcript|proof of attendance`)
	duesWords   = words(`dues|membership|membresia|cotisation|mitgliedsbeitrag|cuota (?:de socio|anual|de colegiado)|contributie|subscription|adhesion|lidmaatschap\w*|beitragsjahr|mitgliedschaft`)
	paysWords   = words(`paid|payment|received|receipt|invoice|bezahlt|rechnung|quittung|reglee?|payee?|recu|facture|pagad[oa]|recibo|factura|betaald|factuur|kwitantie|beitrag|amount|total`)
	distance    = signs[5].re
	billWords   = signs[14].re
	liveWords   = words(`webinar|live webinar|classroom|in person|held at|venue|prasenz|presencial|en presentiel|op locatie|room|raum|salle|sala|zaal`)
	courseWords = words(`course|seminar|workshop|training|webinar|conference|congress|study day|lehrgang|schulung|kurs|tagung|formation|stage|seminaire|curso|taller|jornada|cursus|opleiding|studiedag`)
)

var (
	// ownPace are the words by which a paper itself calls the course one at a distance.
	ownPace = words(`self-?paced|at (?:your|his|her|their) own pace|on-?demand|distance learning|e-?learning|a son rythme|(?:suivi|cours|formation|enseignement|parcours|module)e?s? (?:a distance|en ligne)|autoformation|en autonomie|(?:actividad|curso|formacion|modalidad|modulo|taller):? (?:\S+ )?(?:a distancia|en linea|online|on-line|virtual|no presencial)|a (?:su|tu) (?:propio )?ritmo|teleformacion|op afstand|in eigen tempo|online (?:cursus|module|training|opleiding)|(?:fern|selbst)(?:lehrgang|kurs|studium|lernkurs|unterricht)|im eigenen tempo|online-?(?:kurs|lehrgang|schulung)|formazione a distanza|a distancia`)
	// decidedAt names a meeting as that at which something was decided on.
	decidedAt = words(`(?:at|in|during) (?:its|their|our) (?:\w+ ){0,2}(?:meeting|session)|(?:lors de|dans|en|au cours de) (?:sa|leur|notre|son) (?:\w+ )?(?:reunion|seance|session)|in (?:ihrer|seiner|unserer) (?:\w+ )?(?:sitzung|versammlung|tagung)|in (?:haar|zijn|hun|onze|de) (?:\w+ )?(?:vergadering|zitting)(?: van)? (?:\d|d\.d\.|van)|en (?:su|nuestra) (?:\w+ )?(?:reunion|sesion)|proces-verbal (?:du jury|(?:de deliberation|des deliberations) du jury|d'examen)|acta (?:de examen|del tribunal)|prufungsprotokoll`)
)

// examBodies are those whose minutes say who passed.
var examBodies = words(`jury|examen|tribunal|prufungs\S*`)

// seasonOf is what a series of talks or evenings is called.
var seasonOf = words(`(?:lecture|talk|seminar|webinar|evening|winter|summer|spring|autumn)s? (?:\w+ )?(?:season|series)|season (?:19|20)\d\d|(?:vortrags|abend|seminar|ring)(?:reihe|vorlesung)|cycle (?:de|annuel de) conferences|ciclo de (?:conferencias|charlas)|(?:lezingen|avond)(?:reeks|cyclus)`)

// volumeNumber is how an issue of a periodical is counted, and textWords what stands about a text in it.
var (
	volumeNumber = matching(`\b(?:vol(?:ume|umen|\.)?|band|bd\.|tome|jahrgang|jg\.?|jaargang|ano)\s?\d{1,3}\b.{0,12}\b(?:no|number|issue|heft|nr|n°|nº|numero|nummer|num)\.?\s?\d`)
	textWords    = words(`published|manuscript|received|accepted|authors?|abstract|summary|doi|pages?|pp\.?|zusammenfassung|autor(?:in)?|eingegangen|veroffentlicht|resume|resumen|recibido|publicado|samenvatting|auteurs?|verschenen`)
)

// inPerson says that people met for it.
var inPerson = words(`in person|face[ -]to[ -]face|on site|presencial|en presentiel|op locatie|in prasenz|prasenz(?:veranstaltung|kurs|seminar)`)

// pricedRows counts the rows that end with a price, as on a till slip.
func (l *look) pricedRows() int {
	n := 0
	for _, row := range l.rows {
		if len(row) > 1 && priceAtEnd.MatchString(l.cells[row[len(row)-1]].text) {
			n++
		}
	}
	return n
}

// atMeeting says that somebody was at a meeting, whatever the paper is headed.
var atMeeting = words(`(?:a assiste|a participe|assistait) a (?:la|une) reunion|(?:asistio|participo) (?:a|en) la reunion|an der sitzung .{0,80}(?:teilgenommen|anwesend)|according to the minutes|laut (?:dem )?protokoll|selon le proces-verbal|segun el acta|volgens de notulen|(?:present|took part|presente?|assiste|participe|asistio|participo|anwesend|aanwezig|teilgenommen|deelgenomen)(?: (?:at|in|a|en|bei|bij|an|aan))?(?: the| der| dem| la| le| el| de| het| une?| una?)?(?: \S+){0,2} (?:committee|working group|general meeting|section meeting|ausschuss\S*|arbeitskreis\S*|comite|groupe de travail|grupo de trabajo|assemblee|asamblea|werkgroep)`)

// meetingLabel is a label for the meeting that somebody attended.
var meetingLabel = matching(`^(?:name of |date of |subject of )?(?:the )?(?:\w+ )?(?:meeting|committee|working group|sitzung|gremium|ausschuss|arbeitskreis|reunion|comite|asamblea|vergadering|werkgroep|overleg|besprechung|commission|comision|commissie|organe|organo)$|^(?:sitzung|vergadering|reunion) (?:des|der|van|de|del)`)

// periods returns spans of days that are long enough for a membership.
func (l *look) periods() []day {
	var out []day
	for _, d := range l.days {
		if s := d.spans[0]; !d.single && s.End.Sub(s.Start) > 80 || d.single && d.lack >= 3 {
			out = append(out, d)
		}
	}
	return out
}

// spansDays reports an event of two to ten days.
func (l *look) spansDays() bool {
	return slices.ContainsFunc(l.days, func(d day) bool {
		n := d.spans[0].End.Sub(d.spans[0].Start)
		return !d.single && n > 0 && n < 10
	})
}

// headings returns the folded lines that stand out: near the top, large, or in capitals.
func (l *look) headings() string {
	size := l.bodySize()
	var b strings.Builder
	seen := 0
	for i := range l.cells {
		c := &l.cells[i]
		if len(c.text) > 70 || c.page > 1 && c.page != l.pages[0].Number {
			continue
		}
		if c.passage > 0 && endsEvent.MatchString(l.passages[c.passage-1].text) && !beginsAsHeading(c.text) && len(strings.Fields(l.passages[c.passage-1].text)) > 1 {
			seen++
			continue // the title that the line before announces
		}
		if l.formed[i] || c.text != strings.ToUpper(c.text) && l.hasPair(i) || l.aside(c.passage) || len(find.Clocks(c.text, l.langs)) > 0 {
			continue
		}
		seen++
		top := seen <= 5
		if l.boxed {
			top = c.size*10 >= size*12 || seen <= 4 || c.bold && seen < 8
		}
		if (top || allCaps(c.text)) && !strings.Contains(c.text, ": ") {
			b.WriteString(fold(c.text))
			b.WriteString(" ")
			if len(c.text) > 24 {
				b.WriteString("\n ")
			}
		}
	}
	if l.doc.Mail != nil {
		b.WriteString("\n" + fold(l.doc.Mail.Subject))
	}
	return b.String()
}

// bodySize is the size of most of the letters.
func (s *sheet) bodySize() int {
	count := map[int]int{}
	for _, c := range s.cells {
		count[c.size] += len(c.text)
	}
	best := 0
	for size, n := range count {
		if n > count[best] || n == count[best] && size < best {
			best = size
		}
	}
	return best
}

// kindByForm finds the kind of a paper that is headed as a proof, or laid out as one,
// but in words that no sign knows, by what its labels speak of.
func (l *look) kindByForm(top tallied) (tallied, bool) {
	person, day := len(l.withRole(isPerson)) > 0 || l.certifies() || len(l.withRole(isSigner)) > 0 && provesHead.MatchString(l.headings()), slices.ContainsFunc(l.days, func(d day) bool { return d.lack == find.Whole && d.role != isOther })
	if !person || !day || len(l.sums) > 0 || l.doc.Type == "ics" || !provesHead.MatchString(l.headings()) && !l.certifies() && len(l.withRole(isTitle, isExam)) == 0 {
		return tallied{}, false
	}
	t := tallied{kind: paper.Attendance, score: 31, because: "it names a person and a day, as a proof does"}
	switch {
	case len(l.withRole(isPosition)) > 0:
		t.kind = paper.Employment
	case len(l.withRole(isGrade)) > 0:
		t.kind = paper.Membership
	case len(l.withRole(isExam)) > 0:
		t.kind = paper.Credential
	case top.kind != paper.NotEvidence && top.score > 0:
		t.kind = top.kind
	}
	return t, true
}

// kindByTrace guesses the kind of a paper in words that are not known: what most speaks for, or
// that somebody was there, where a person signs, a whole day and a time stand on it, and no
// word says that it announces or asks. It is always asked about.
func (l *look) kindByTrace(list []tallied) (tallied, bool) {
	against := slices.ContainsFunc(list, func(t tallied) bool { return t.kind == paper.NotEvidence && len(t.words) > 0 })
	signed := len(l.closing.signs) > 0 || slices.ContainsFunc(l.days, func(d day) bool { return d.role == isIssue })
	day := slices.ContainsFunc(l.days, func(d day) bool { return d.lack == find.Whole && d.role != isOther })
	if against || !signed || !day || len(l.sums) > 0 || l.doc.Type == "ics" {
		return tallied{}, false
	}
	t := tallied{kind: paper.Attendance, score: 30, because: "somebody signs it, and it gives a day and a time"}
	if top := list[0]; top.kind != paper.NotEvidence && top.score >= 12 {
		t.kind, t.because = top.kind, top.because
		return t, true
	}
	return t, len(l.clocks)+len(l.lengths) > 0
}
