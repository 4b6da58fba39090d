package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
)

// footDays gives the role of issue to a day at the foot that only a place, a body or who signs
// stands with, where the paper has another day for what took place and none of issue.
func (l *look) footDays() {
	if slices.ContainsFunc(l.days, func(d day) bool { return d.role == isIssue && d.lack == find.Whole && d.single && !d.weak }) {
		return
	}
	last := -1
	for i := range l.days {
		if l.closesPaper(&l.days[i]) {
			last = i
		}
	}
	if last < 0 || !slices.ContainsFunc(l.days, func(d day) bool {
		told := d.role == isOther && (!d.single || slices.Contains([]dependence{onHire, onPost, onAward}, d.hangs))
		return d.at != l.days[last].at && (told || !slices.Contains([]role{isOther, isPaid, isIssue}, d.role))
	}) {
		return
	}
	l.days[last].role, l.days[last].sure, l.days[last].weak = isIssue, true, false
}

// closesPaper reports such a day in one of the last lines.
func (l *look) closesPaper(d *day) bool {
	if !d.single || d.lack != find.Whole || d.label != "" && !d.guessed || l.inTable(l.cellAt(d.at)) || d.at.passage < len(l.passages)-5 {
		return false
	}
	if d.role != noRole && d.role != isEvent && d.role != isBare && !(d.role == isOther && d.hangs == onNothing) {
		return false
	}
	text := l.passages[d.at.passage].text
	before, after := text[:d.at.span.From], strings.Trim(text[d.at.span.To:], " ")
	if i := max(lastEnd(before), l.lastDayBefore(d.at)); i > 0 {
		before = before[i:]
	}
	before = strings.TrimSpace(before)
	body, place, parted := strings.Cut(before, ", ")
	if namesEvent.MatchString(fold(before)) {
		return false
	}
	if before != "" && !namesPlace(before) && !(parted && l.isBody(body) && len(strings.Fields(body)) < 8 && (namesPlace(place) || smallOnly(place) || placeGiven(place))) {
		return false
	}
	rest := strings.Trim(after, " .,;-–")
	signs := rest != "" && strings.IndexAny(after, ".,;-–") == 0 && l.signsBehind(rest)
	return rest == "" && before != "" || signs
}

// lastEnd is where the last sentence of a text begins; 0 where it is the only one.
func lastEnd(text string) int {
	for i := len(text) - 2; i > 0; i-- {
		if text[i] == '.' && text[i+1] == ' ' && !shortens(fold(text[:i+1])) {
			return i + 1
		}
	}
	return 0
}

// namesPlace reports a text of names alone that ends with a comma or a small word: a place, or
// a body with its place.
func namesPlace(text string) bool {
	text = strings.TrimSpace(signedMark.ReplaceAllString(text, ""))
	words := strings.Fields(text)
	comma := false
	for i, w := range words {
		comma = comma || strings.HasSuffix(w, ",") || w == "–" || w == "-"
		if !capitalised(w) && !placeSmall.MatchString(fold(w)) || hasFigure(w) || i > 0 && strings.ContainsAny(words[i-1], ".:") && len(words[i-1]) > 4 {
			return false
		}
	}
	return comma && len(words) < 11 && capitalised(text)
}

// smallOnly reports a text of small words: "den", "a".
func smallOnly(text string) bool {
	return !slices.ContainsFunc(strings.Fields(text), func(w string) bool { return len(w) > 4 || !placeSmall.MatchString(fold(w)) })
}

// placeSmall are small words within the name of a place or a body, and between it and a day.
var placeSmall = words(`de|del|de la|la|las|los|el|le|les|du|des|d|a|en|y|e|et|of|the|for|and|at|in|on|this|der|die|das|des|fur|und|im|am|zu|bei|den|van|voor|het|te|op|het|e\.|v\.|&|-`)

// signsBehind reports who signs behind a day: an office, a name, or a body.
func (l *look) signsBehind(rest string) bool {
	marked := handMark.MatchString(rest)
	rest = strings.TrimSpace(startsSigner.ReplaceAllString(rest, ""))
	if n := len(strings.Fields(rest)); marked && n > 0 && n < 4 && capitalised(rest) && !hasFigure(rest) {
		return true
	}
	if len(strings.Fields(rest)) > 8 || hasFigure(rest) || rest == "" {
		return false
	}
	name, _, to, _ := person(rest)
	full, _ := nameWords(name)
	return full > 1 && (strings.Trim(rest[to:], " .,") == "" || officeWord.MatchString(fold(rest[to:]))) || officeWord.MatchString(fold(rest)) || capitalised(rest) && l.isBody(rest)
}

// handMark stands before who signed.
var handMark = matching(`(?i)^(?:gez\.|gezeichnet|sgd\.?|signed|signé|firmado|fdo\.|getekend|w\.g\.) `)

var startsSigner = matching(`(?i)^(?:(?:el|la|le|der|die|de|the|i\.\s?a\.|gez\.|sgd\.|für|for|voor|pour|por|signed)(?: die| den| the| la| de)? )`)

// billHead begins the line that says which bill a paper is.
var billHead = matching(`^(?:\p{L}+[ -])?(?:invoice|receipt|credit note|bill|rechnung|quittung|gutschrift|facture|recu|avoir|factura|recibo|abono|factuur|kwitantie|creditnota)\b[^;:]{0,40}$`)

// billDay returns the day that stands with the number of a bill in its head.
func (l *look) billDay() *pick {
	for _, d := range l.days {
		if l.headsBill(d) {
			p := starts(d)
			p.sure = true
			return &p
		}
	}
	return nil
}

// headsBill reports such a day.
func (l *look) headsBill(d day) bool {
	if !d.single || d.lack != find.Whole || d.at.passage > 3 && 2*d.at.passage > len(l.passages) {
		return false
	}
	before := fold(l.passages[d.at.passage].text[:d.at.span.From])
	if d.at.passage > 3 {
		return d.label == "" && billNumber.MatchString(before)
	}
	return billHead.MatchString(before) && !bareOrder.MatchString(before) && !otherBill.MatchString(before)
}

// billNumber is what a line has before the day of the bill where its number begins the line.
var billNumber = matching(`^(?:tax |vat |pro forma |fiscal )?(?:invoice|receipt|rechnung|quittung|facture|recu|factura|recibo|factuur|kwitantie)(?: (?:no|nr|n[°º]|number|nummer|numero)\.?)?:? \S*\d\S*,?(?: (?:of|dated|vom|du|de|del|van|d\.d\.))? ?$`)

// otherBill begins a line that refers to another bill.
var otherBill = matching(`^(?:against|cancels?|re|regarding|your|our|original|previous|to|on|zu|zur|auf|zum|alte|ursprungliche|sur|suite|votre|sobre|su|anula|bij|op|uw|betreft) `)

// bareOrder is a line that speaks of what was ordered or is due rather than of the bill.
var bareOrder = words(`order|bestellung|commande|pedido|due|fallig|zahlbar|echeance|vence|for|fur|pour|para|voor`)
