package extract

import (
	"strings"

	"evidencevault/extract/find"
)

// ownThing is a card, a record or the like of one person, with the word behind it that says
// whose: "Stamp card of", "Fortbildungsheft von", "Carnet de formation de".
var ownThing = matching(`(?i)^(?:(?:the|der|die|das|dies(?:e[rs]?)?|le|la|les|el|los|las|de|het|dit|deze|this|ce|cette|este|esta)\s)?(?:` +
	`(?:[\p{L}’-]+\s){0,3}(?:card|record|log|logbook|log book|passport|booklet|account|transcript|diary|portfolio|history|sheet|stamp book|learning|courses|trainings|activit(?:y|ies))(?:\s(?:card|record|log|sheet|book))?\s(?:of|for)|` +
	`(?:\p{L}+e[rs]?\s)?\p{L}*(?:karte|heft|blatt|pass|konto|auszug|nachweis|ausweis|übersicht|bildung|bildungen|kurse|schulungen|seminare|stunden|akte|mappe|buch|zettel|kärtchen|büchlein)\s(?:von|für|der|des)|` +
	`(?:carte|carnet|livret|fiche|relevé|dossier|compte|passeport|formations|parcours|historique|heures|feuille|registre|bulletin)(?:\s(?:de|des|du|d['’])?\s?[\p{L}-]+){0,2}\s(?:de|du|d['’]|pour)|` +
	`(?:carné|carnet|cartilla|ficha|historial|expediente|cuenta|pasaporte|formación|cursos|hoja|libreta|registro|tarjeta)(?:\s(?:de|del|de la)?\s?[\p{L}-]+){0,2}\s(?:de|del|para)|` +
	`(?:\p{L}+e?\s)?\p{L}*(?:kaart|boekje|pas|overzicht|dossier|account|rekening|scholing|scholingen|opleidingen|cursussen|uren|blad|staat|paspoort|logboek|formulier|lijst)\s(?:van|voor)` +
	`)\s?$`)

// whoseEnds ends in front of the one whose card or record it is.
var whoseEnds = matching(`\s(?:(?:of|for|von|für|der|des|de|du|pour|del|para|van|voor)\s|d['’])`)

// openedBy stands before the one whose a card, a booklet or an account is.
var openedBy = matching(`(?i)(?:^|[\s.(])(?:(?:logged|signed) in(?: as)?|belongs to|is the property of|(?:angemeldet|eingeloggt)(?: als)?|gehört|connectée?(?: en tant que)?|identifiée?(?: comme)?|appartient à|(?:conectad[oa]|identificad[oa]) como|sesión (?:iniciada|de)(?: como| por)?|pertenece a|(?:ingelogd|aangemeld)(?: als)?|behoort (?:toe )?aan|is eigendom van)\s?:?\s+`)

// genitiveOf stands behind the name of the one whose record or the like it is.
var genitiveOf = matching(`^['’]s (?:[\p{L}-]+ ){0,3}(?:records?|log|logbook|portfolio|passport|card|account|transcript|training|learning|development|education|hours|courses|activit(?:y|ies)|attendance|participation|presence|membership|certificates?|history|points|credits)\b`)

// copyTo stands before the one for whom a copy of a paper that speaks of several was made.
var copyTo = matching(`(?i)(?:^|[.;:!]\s+)(?:se\s(?:libra|expide|extiende|entrega)\s)?(?:(?:this|the|a|dies(?:e[rs]?)?|der|den|die|das|eine?|cette?|ce|la|le|el|los|esta?|una?|dit|deze|de|het|een)\s)?(?:(?:certified|true|signed|beglaubigte[rs]?|conforme|compulsada|gewaarmerkt)\s)?(?:(?:present[ea]?|presente)\s)?(?:copy|copies|extract|excerpt|transcript|duplicate|auszug|abschrift|kopie|zweitschrift|ausfertigung|copie|extrait|ampliation|exemplaire|copia|extracto|ejemplar|traslado|afschrift|uittreksel|exemplaar)(?:\s(?:(?:is |was |are )?(?:certified|handed|given)|(?:est |a été )?remise?|(?:ist |wurde )?ausgehändigt|(?:es )?(?:remitid|entregad)[oa]|overhandigd|conforme|compulsada|beglaubigt|made|issued|made out|gefertigt|ausgestellt|délivrée?|établie?|expedid[oa]|emitid[oa]|verstrekt|opgemaakt))?\s?(?:for|to|für|an|a favor de|pour|à|para|a|voor|aan)\s?:?\s+(?:(?:the |die |den |das |le |la |les |el |het |de )?(?:(?:cpd|cpe|ce|training|personal|fortbildungs|personal-?|professional)\s)?(?:files?|records?|portfolio|personal file|akten?|unterlagen|personalakte|dossiers?|expediente|archivo|legajo|administratie) (?:of|von|der|des|de|del|van) )?(?:(?:the )?member |(?:das |unser )?mitglied |(?:la |le )?membre |(?:el |la )?soci[oa] |(?:het )?lid )?`)

const madeForOne = "a copy was made for this person"

// namesOfThings finds the person by a thing that is theirs, and by the copy that was made for
// one of those whom the paper names.
func (l *look) namesOfThings(add func(at, string, int, string)) {
	for i, p := range l.passages {
		for _, m := range copyTo.FindAllStringIndex(p.text, 2) {
			if name, a, b, titled := person(p.text[m[1]:]); a == 0 || titled {
				if full, _ := nameWords(name); full > 1 || titled && full == 1 {
					add(l.passageAt(i).within(m[1]+a, b-a), name, 99, madeForOne)
				}
			}
		}
		if name, a, b, _ := person(p.text); genitiveOf.MatchString(p.text[b:]) && strings.Contains(name, " ") {
			add(l.passageAt(i).within(a, b-a), name, 80, "it says whose it is")
		}
		for _, m := range openedBy.FindAllStringIndex(p.text, 2) {
			if name, a, b, _ := person(p.text[m[1]:]); a == 0 && isPersonal(name) {
				add(l.passageAt(i).within(m[1], b), name, 84, "it says whose it is")
			}
		}
		for _, m := range whoseEnds.FindAllStringIndex(head(p.text, 90), -1) {
			rest := p.text[m[1]:]
			name, a, b, _ := person(rest)
			after := rest[b:]
			if full, _ := nameWords(name); full < 2 || full > 4 || strings.Contains(name, ",") || !ownThing.MatchString(p.text[:m[1]]) || !(after == "" || strings.ContainsAny(after[:1], ".,;:(–") || startsLower(strings.TrimLeft(after, " "))) {
				continue
			}
			add(l.passageAt(i).within(m[1]+a, b-a), name, 84, "it says whose it is")
		}
	}
}

// oneOfSeveral leaves, where a copy was made for somebody, no other name near theirs.
func oneOfSeveral(list []guess) []guess {
	whose := ""
	for _, g := range list {
		if g.why == madeForOne {
			whose = g.text
		}
	}
	for i, g := range list {
		if full, _ := nameWords(g.text); g.why == madeForOne && full > 1 {
			list[i].sure = true
		}
		if whose != "" && !samePerson(g.text, whose) {
			list[i].score = min(g.score, 40)
		}
	}
	return list
}

// dayOfCopy stands between whom a copy was made for and the day on which it was, which ends its sentence.
var dayOfCopy = matching(`^[^.;]{0,80}?,? (?:on|le|am|den|el|a|op|à|,)(?: día)? ?$`)

// copyDays takes the day that ends the sentence about a copy for the day of issue: "Copie remise à Mme Anne Vey pour
// valoir justificatif, le 10 juin 2026".
func (l *look) copyDays() {
	for k := range l.days {
		d := &l.days[k]
		if !d.single || d.lack != find.Whole || d.role != noRole && d.role != isEvent && d.role != isBare || d.label != "" {
			continue
		}
		text := l.passages[d.at.passage].text
		before, after := text[:d.at.span.From], strings.TrimSpace(text[d.at.span.To:])
		m := copyTo.FindAllStringIndex(before, -1)
		if len(m) == 0 || after != "" && !strings.ContainsAny(after[:1], ".:;") {
			continue
		}
		rest := before[m[len(m)-1][1]:]
		if _, _, b, _ := person(rest); b > 0 && dayOfCopy.MatchString(rest[b:]) {
			d.role, d.sure, d.weak = isIssue, true, false
		}
	}
}
