package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	grandWord   = words(`in hohe von|in the amount of|a hauteur de|por importe de|ten bedrage van|grand total|invoice total|total(?: due| paid| amount| usd| eur| gbp| ttc| incl\S*)?|amount (?:paid|due|received)|paid|received|(?:we have )?received|gesamt(?:betrag|summe|preis)?|rechnungsbetrag|endbetrag|summe|zu zahlen|bezahlt|erhalten|betrag(?: von)?|(?:la )?somme(?: de)?|montant(?: total| ttc)?|net a payer|total ttc|reglee?|cotisation(?: reglee?)?|ttc|importe(?: total| de)?|cantidad de|(?:la )?suma de|pagad[oa]|totaal(?:bedrag)?|(?:een )?bedrag(?: van)?|betaald|te betalen|fee|dues|refund(?: total| of)?|refunded|erstattung|erstattet|remboursement(?: de)?|devolucion(?: de)?|terugbetaling(?: van)?|ontvangen|contributie|beitrag|cuota|sum of`)
	partWord    = words(`(?:we )?keep|retain\w*|withh\w+|less|processing (?:charge|fee)|einbehalten|abzuglich|bearbeitungsgebuhr|hst|gst|pst|qst|sub-?total|zwischensumme|sous-total|subtotaal|net|netto|ht|hors taxes?|base imponible|excl\S*|without|vat|tax|sales tax|ust\.?|mwst\.?|mehrwertsteuer|umsatzsteuer|tva|iva|btw|dont|davon|darin|waarvan|discount|rabatt|remise|descuento|korting|already paid|(?:re)?paid (?:to-?day|now|originally)|originally paid|balance paid|heute (?:be|ge)zahlt|ursprunglich (?:be|ge)zahlt|(?:regle|paye|verse)e? (?:ce jour|aujourd'hui|initialement)|(?:pagado|abonado) (?:hoy|en su dia|inicialmente|originalmente)|vandaag betaald|oorspronkelijk betaald|(?:bereits|schon) (?:be|ge)zahlt|deja (?:paye|regle)\w*|ya pagado|(?:reeds|al) betaald|balance|restbetrag|solde|saldo|still to pay|deposit|anzahlung|acompte|anticipo|aanbetaling|original(?: invoice)?|unit price|each|cash|change|tendered|visa|card|from|instead of|statt|per`)
	refundWords = words(`credit note|refund\w*|gutschrift|ruckerstattung|erstattung|erstattet|storno\w*|stornorechnung|avoir|remboursement|rembours\w+|nota de credito|factura rectificativa|abono|devolucion|reembolso|creditnota|creditfactuur|terugbetaling|terugbetaald|paid back|reimburse\w*`)
)

// findTotal settles the whole sum of a receipt or of dues.
func (l *look) findTotal() {
	if l.kind != paper.Receipt && l.kind != paper.Membership || len(l.sums) == 0 {
		return
	}
	list := l.weighSums()
	slices.SortStableFunc(list, func(a, b weighed) int { return b.score - a.score })
	for _, w := range list {
		l.note(paper.FieldTotal, guess{text: strings.TrimSpace(w.hit.amount.Value + " " + w.hit.amount.Currency), score: w.score, at: w.hit.at, why: w.why, sure: w.score >= 45})
	}
	top := list[0]
	if top.score < 20 && l.kind == paper.Membership {
		return
	}
	var rivals []guess
	for _, c := range l.currencies(top.hit) {
		rivals = append(rivals, l.asTotal(top, c))
	}
	if len(rivals) == 0 {
		return
	}
	v := l.value(rivals[0])
	sum, unlike := taxUnlike(top, list)
	switch {
	case len(rivals) > 1:
		l.question(paper.FieldTotal, &v, rivals, fmt.Sprintf("Which currency is %s? The paper does not show the country.", quoted(v.Place.Quote)))
	case unlike && !strings.HasPrefix(v.Text, "-"):
		_, currency, _ := strings.Cut(v.Text, " ")
		other := guess{text: paper.Money{Amount: sum.Rat().FloatString(2), Currency: currency}.String(), at: top.hit.at, why: "it is what net and tax come to"}
		rivals = append(rivals, other)
		l.question(paper.FieldTotal, &v, rivals, fmt.Sprintf("Which is the whole sum: %s? Net and tax come to %s.", orList(rivals, func(g guess) string { return g.text }), other.text))
	case top.score >= 45 && l.surelyPaid() && !l.centsLost(top.hit.at) && v.Score >= leastScore[paper.FieldTotal] && l.onlyTotal(list) && l.legible(top.hit.at, v.Place):
		v.Certain = true
	default:
		l.askTotal(&v, rivals[0], list)
	}
	l.out.Values[paper.FieldTotal] = v
}

// asTotal is a sum as the total in that currency, negative where it was paid back.
func (l *look) asTotal(w weighed, currency string) guess {
	value := w.hit.amount.Value
	if refunds(l.all) && !strings.HasPrefix(value, "-") && l.refund() {
		value = "-" + value
	}
	return guess{text: paper.Money{Amount: value, Currency: currency}.String(), at: w.hit.at, score: w.score, why: w.why}
}

// askTotal asks which of the sums is the whole one; the first of the list was taken for it.
func (l *look) askTotal(v *paper.Value, top guess, list []weighed) {
	rivals := []guess{top}
	_, currency, _ := strings.Cut(top.text, " ")
	for _, w := range list[1:] {
		if w.score >= list[0].score-15 && w.hit.amount.Value != list[0].hit.amount.Value && len(rivals) < 4 {
			rivals = append(rivals, l.asTotal(w, currency))
		}
	}
	text := fmt.Sprintf("Is %s the whole sum, with tax and after discount?", top.text)
	if len(rivals) > 1 {
		text = fmt.Sprintf("Which is the whole sum: %s?", orList(rivals, func(g guess) string { return g.text }))
	}
	l.question(paper.FieldTotal, v, rivals, text)
}

// withTax says that a sum is the whole one, though it names the tax.
var withTax = matching(`(?:,? \(?(?:incl\S*|inkl\S*|including|inclusive of|con|avec|mit|with|toutes))(?: \d+ ?%)? (?:vat|tax(?:es)?|gst|hst|mwst|ust|umsatzsteuer|mehrwertsteuer|tva|iva|btw)\.?\)?`)

// freeOfTax says that there is no tax, and names no sum of it.
var freeOfTax = matching(`\(?(?:vrijgesteld van|vrij van|geen|zonder|exempt (?:from|of)|free of|no|exonere\w* de|non (?:assujettie?|soumise?) a la|sans|exent[oa] de|sin|frei von|ohne|keine) (?:vat|tax|gst|mwst|ust|umsatzsteuer|mehrwertsteuer|tva|iva|btw)\b\.?\)?|(?:umsatz|mehrwert)?steuerfrei|(?:vat|gst|tax)[ -](?:exempt|free)|(?:tva|vat|tax) (?:non applicable|not applicable)|iva exento|btw-vrij(?:gesteld)?`)

// A weighed sum is one that may be the total, with what speaks for it.
type weighed struct {
	hit   sumHit
	value credit.Amount
	score int
	why   string

	context string // the words that say what it is, folded
	part    bool   // they say that it is a part of the whole, or was taken off
	within  bool   // it is a tax within another sum
}

func (l *look) weighSums() []weighed {
	var list []weighed
	var most credit.Amount
	named := false // one of them is called the total
	for _, h := range l.sums {
		w := l.weighSum(h)
		if w.value.Cmp(most) > 0 {
			most = w.value
		}
		named = named || w.score >= 85
		list = append(list, w)
	}
	for i := range list {
		w := &list[i]
		if named && w.score < 85 && w.score > 40 && feeWord.MatchString(w.context) {
			w.score = 40 // what is asked for one thing, where the whole is named
		}
		if w.value.Equal(most) {
			w.score += 8
		}
		for _, a := range list {
			for _, b := range list {
				if w.value.Sign() > 0 && a.value.Add(b.value).Equal(w.value) && b.value.Sign() > 0 && a.value.Cmp(b.value) > 0 {
					w.score += 4
				}
			}
		}
		w.score = min(w.score, 100)
	}
	l.proveSums(list)
	return list
}

// weighSum weighs one sum by the words around it.
func (l *look) weighSum(h sumHit) weighed {
	w := weighed{hit: h, value: magnitude(h.amount.Value), score: 20, why: "it is the only kind of sum"}
	before, after := l.around(h.at)
	if m := shortTax.FindString(fold(tail(l.passages[h.at.passage].text[:h.at.span.From], 24))); m != "" {
		before = m // the point behind it ends no sentence
	}
	context := h.label + " " + tail(before, 42)
	if h.label == "" {
		context += " " + l.rowLabel(h.at)
	}
	context = withTax.ReplaceAllString(context, " ttc")
	context = freeOfTax.ReplaceAllString(context, " ")
	if h.amount.Negative && !refunds(l.all) {
		context += " discount" // what was taken off, or paid before
	}
	w.context = context + " "
	w.within = l.taxWithin(h.at)
	switch part, grand := lastMatch(partWord, w.context), lastMatch(grandWord, w.context); {
	case h.role == isPartSum || part > grand || w.within:
		w.score, w.part = 5, true
	case h.role == isGrandTotal || grand >= 0:
		w.score, w.why = 70, "it stands with "+quoted(strings.TrimSpace(tail(context, 30)))
		if strings.Contains(context, "total") || strings.Contains(context, "gesamt") || strings.Contains(context, "totaal") || strings.Contains(context, "ttc") || strings.Contains(context, "net a payer") {
			w.score = 85
		}
	}
	if h.role == isGrandTotal && refundWords.MatchString(h.label) || l.refund() && (refundBefore.MatchString(before) || refundBehind.MatchString(after)) {
		w.score, w.why = 95, "it stands with "+quoted(strings.TrimSpace(tail(context, 30)))
	}
	if len(l.sums) == 1 && l.kind == paper.Receipt {
		w.score, w.why = max(w.score, 70), "it is the only sum"
	}
	if len(l.sums) == 1 && w.score < 70 && feeBefore.MatchString(before) && paidBehind.MatchString(after) {
		w.score, w.why = 80, "it is the only sum, and the sentence says that it was paid"
	}
	if grossAfter.MatchString(" " + head(after, 14)) {
		w.score = max(60, w.score+15)
	}
	if h.amount.Sign == "" && h.amount.Currency == "" {
		w.score -= 12
	}
	return w
}

var (
	feeWord = words(`fee|dues|cuota|contributie|beitrag|cotisation|betrag|paid|price`)

	// refundBefore ends in front of the sum that is paid back, refundBehind begins behind it.
	refundBefore = matching(`\b(?:refund(?:ed|ing)?|reimburse[ds]?|paid (?:you )?back|credited|erstatten|uberweisen|rembours\w+|restitu\w+|devuelto|devolvemos|reembols\w+|abonamos|betalen|terugbetaald)(?: (?:you|to you|the amount of|an amount of|the sum of|of|ihnen|einen betrag von|den betrag von|la somme de|un montant de|el importe de|la suma de|u|een bedrag van|het bedrag van|wir|wij|hebben|nous avons|hemos))*\s*$`)
	refundBehind = matching(`^(?:[^.;€£$\d]{0,24}(?:erstattet|zuruckerstattet|zuruckgezahlt|zuruckuberwiesen|terugbetaald|teruggestort)| ?(?:has been|have been|was|were|is being|will be) (?:refunded|paid back|reimbursed)| ?(?:a|ont|vous a|vous ont) ete rembourse| ?(?:ha sido|se ha|le ha sido|fue) (?:devuelt|reembolsad))`)

	// feeBefore ends in front of the only sum of a paper, and paidBehind begins behind it: "The dues
	// of £90 have been paid".
	feeBefore  = matching(`(?:fees?|dues|subscription|\p{L}*(?:beitrag|gebuhr|entgelt)s?|cotisation|droits?|frais|cuota|importe|matricula|contributie|lidmaatschapsgeld|bijdrage|inschrijfgeld)(?: (?:of|von|in hohe von|uber|de|d'un montant de|por importe de|por valor de|van|ten bedrage van|for (?:the year )?\d{4}|fur(?: das jahr)? \d{4}|pour \d{4}|para \d{4}|voor \d{4}))*\s*$`)
	paidBehind = matching(`^,? ?(?:(?:for|fur|pour|para|voor) (?:the year |das jahr |l'annee |el ano |het jaar )?\d{4} )?(?:(?:has|have) been|was|were|is|are|ist|sind|wurden?|a ete|est|ont ete|ha sido|fue|esta|is|zijn|werd) (?:duly |fully |in full |bereits |vollstandig |entierement |integramente |volledig )?(?:paid|received|settled|bezahlt|beglichen|entrichtet|eingegangen|uberwiesen|payee?s?|reglee?s?|acquittee?s?|versee?s?|recue?s?|pagad[oa]s?|abonad[oa]s?|satisfech[oa]s?|betaald|voldaan|ontvangen)\b`)

	shortTax = matching(`\b(?:ust|mwst|inkl|zzgl|abzgl|incl|excl)\.[^.;]{0,14}$`)
	taxWord  = words(`vat|tax(?:es)?|sales tax|gst|hst|pst|qst|ust\.?|mwst\.?|mehrwertsteuer|umsatzsteuer|tva|iva|btw`)
	netWord  = words(`sub-?total|net|netto|net amount|nettobetrag|zwischensumme|sous-total|montant ht|total ht|ht|base imponible|subtotaal|excl\S*`)
)

// taxUnlike returns what net and tax come to where they are not the sum taken for the
// whole: no two or three of the sums add up to it, or it is the price of one thing and the
// tax stands beside it. ok is false where nothing contradicts it.
func taxUnlike(top weighed, list []weighed) (whole credit.Amount, ok bool) {
	var tax, net credit.Amount
	parts := 0
	for _, w := range list {
		isTax, isNet := lastMatch(taxWord, w.context), lastMatch(netWord, w.context)
		switch {
		case !w.part || w.within || w.value.Sign() <= 0:
		case isTax > isNet:
			tax = tax.Add(w.value)
			parts++
		case isNet >= 0 && w.value.Cmp(net) > 0:
			net = w.value
		}
	}
	switch {
	case parts == 0 || parts > 3 || addsUp(top.value, list):
		return credit.Amount{}, false
	case net.Sign() > 0:
		return net.Add(tax), true
	case top.score < 85 && !withinWord.MatchString(top.context) && atRate(tax, top.value):
		return top.value.Add(tax), true
	}
	return credit.Amount{}, false
}

// rates are usual rates of tax on sums, in tenths of a percent.
var rates = []int64{50, 55, 60, 70, 77, 80, 81, 90, 100, 120, 130, 135, 150, 160, 190, 200, 210, 220, 230, 250}

// atRate reports that a tax is what a usual rate comes to on top of a price, to the cent,
// and so hardly within it.
func atRate(tax, price credit.Amount) bool {
	return slices.ContainsFunc(rates, func(r int64) bool {
		d := price.Mul(credit.Fraction(r, 1000)).Sub(tax)
		return d.Cmp(credit.Fraction(1, 100)) < 0 && credit.Fraction(-1, 100).Cmp(d) < 0
	})
}

var withinWord = words(`ttc|brutto|incl\S*|inkl\S*|gross|total`)

// addsUp reports that two or three other sums, one of which may be taken off, come to a whole.
func addsUp(whole credit.Amount, list []weighed) bool {
	for i, a := range list {
		for j, b := range list {
			if i == j || a.value.Sign() <= 0 || b.value.Sign() <= 0 || a.value.Equal(whole) || b.value.Equal(whole) {
				continue
			}
			two := a.value.Add(b.value)
			if two.Equal(whole) {
				return true
			}
			for k, c := range list {
				if k != i && k != j && (two.Add(c.value).Equal(whole) || two.Equal(whole.Add(c.value))) && c.value.Sign() > 0 {
					return true
				}
			}
		}
	}
	return false
}

// taxWithin reports a sum that is said to be the tax within another: "(incl. 53,89 btw)".
func (l *look) taxWithin(a at) bool {
	text := l.passages[a.passage].text
	return taxBefore.MatchString(fold(text[:a.span.From])) && taxBehind.MatchString(fold(head(text[a.span.To:], 16)))
}

var (
	taxBefore = matching(`(?:incl\S*|inkl\S*|including|dont|davon|enthalt\S*|waarvan|inclusief|incluye|incluid[oa]s?|de los cuales|di cui|y compris|tax|btw|iva|tva|mwst|vat|:)\s*$`)
	taxBehind = matching(`^ ?(?:de |d'|\d+ ?% )?(?:btw|tva|iva|mwst|ust|vat|tax|mehrwertsteuer)`)
)

var grossAfter = words(`ttc|brutto|incl\S*|inkl\S*|iva incluido|gross|toutes taxes`)

func magnitude(value string) credit.Amount { return amount(strings.TrimPrefix(value, "-")) }

// rowLabel returns what stands in the row of a sum, folded: what stands first in it, and
// what stands nearest to the sum before it.
func (l *look) rowLabel(a at) string {
	ci := l.cellAt(a)
	row := l.rows[l.cells[ci].row]
	k := slices.Index(row, ci)
	if k <= 0 {
		return ""
	}
	first := fold(l.cells[row[0]].text)
	for j := k - 1; j > 0; j-- {
		if text := l.cells[row[j]].text; strings.ContainsFunc(text, isLetter) && !l.hasSum(text) {
			return first + " " + fold(text)
		}
	}
	return first
}

// linesAddUp is the sign of a total that its own lines prove.
const linesAddUp = "the lines above add up to it"

// onlyTotal reports that no other sum has as good a claim to be the total, and that none is
// larger but those that are said to be something else, from which something was taken off, or
// of which only a part was paid back.
func (l *look) onlyTotal(list []weighed) bool {
	top := list[0]
	for _, w := range list[1:] {
		if w.score >= top.score-5 && !w.value.Equal(top.value) {
			return false
		}
		off := slices.ContainsFunc(list, func(o weighed) bool { return o.value.Sign() > 0 && top.value.Add(o.value).Equal(w.value) })
		if w.score >= 20 && w.value.Cmp(top.value) > 0 && !off && top.score < 95 && top.why != linesAddUp {
			return false
		}
	}
	return true
}

// refund reports that the paper pays money back, rather than telling how that works.
func (l *look) refund() bool {
	return refunds(l.headings()) || refundDone.MatchString(l.all)
}

// refunds reports words for money that is paid back. In French one of them is also the verb
// of a sentence such as "reconnaît avoir reçu".
func refunds(text string) bool {
	return refundWords.MatchString(noRefund.ReplaceAllString(avoirVerb.ReplaceAllString(text, " "), " "))
}

// noRefund says that money is not paid back, or under which conditions it would be.
var noRefund = matching(`\b(?:no|non|not|without|never) ?-?(?:\S+ )?refund\w*|\brefunds? (?:policy|terms|only|within|until|up to|are not|is not|not|less)\b|\b(?:keine?|ohne) (?:\S+ )?(?:ruck)?erstattung|\b(?:pas de|sans|aucun) remboursement|\b(?:sin|no hay|no se admiten) (?:devolucion(?:es)?|reembolsos?)|\b(?:geen|zonder) (?:terugbetaling|restitutie)`)

var avoirVerb = matching(`\bavoir (?:\w+ment |bien |deja |egalement )?(?:recu|ete|eu|suivi|participe|paye|regle|verse|assiste|pris|fait|rempli|acquitte|encaisse|percu|enseigne|anime|obtenu|reussi|passe|effectue|realise|accompli|choisi|rejoint|renouvele|adhere|cotise|contribue|presente|termine|consacre|accepte)e?s?\b`)

var refundDone = words(`(?:re)?funded to (?:you|your)|refunded in full|(?:amount|sum|total) refunded|erstatt(?:ungsbetrag|eter betrag|et an (?:sie|ihr))|(?:montant|somme) rembourse\w*|rembourse\w* (?:a|sur) (?:vous|votre)|(?:importe|total|suma) (?:devuelt|reembolsad)[oa]|(?:devuelt|reembolsad)[oa] a (?:usted|su)|terugbetaald (?:bedrag|aan)|(?:bedrag|totaal) terugbetaald|(?:have|has been|was|were|is|been) (?:refunded|reimbursed|paid back)|we (?:have )?refund\w*|refund total|erstatten wir|wurde erstattet|haben wir .{0,40}erstattet|avons rembourse|hemos devuelto|hebben wij .{0,40}terugbetaald`)

// currencies returns the currency of a sum: the one printed, else one that the
// paper's other sums or its addresses show, else all that the sign allows.
func (l *look) currencies(h sumHit) []string {
	if h.amount.Currency != "" {
		return []string{h.amount.Currency}
	}
	for _, o := range l.sums {
		if o.amount.Currency != "" && (h.amount.Sign == "" || slices.Contains(h.amount.Candidates, o.amount.Currency)) {
			return []string{o.amount.Currency}
		}
	}
	if h.amount.Sign == "" && len(h.amount.Candidates) == 0 {
		for _, o := range l.sums {
			if len(o.amount.Candidates) > 0 {
				h.amount.Candidates, h.amount.Sign = o.amount.Candidates, o.amount.Sign
				break
			}
		}
	}
	if code := l.currencyNamed(h); code != "" {
		return []string{code}
	}
	at := l.countries()
	for country, currency := range map[string]string{"US": "USD", "CA": "CAD", "AU": "AUD", "NZ": "NZD", "SE": "SEK", "DK": "DKK", "NO": "NOK", "GB": "GBP", "SG": "SGD", "HK": "HKD", "MX": "MXN"} {
		if at[country] && len(at) == 1 && (slices.Contains(h.amount.Candidates, currency) || h.amount.Sign == "") {
			return []string{currency}
		}
	}
	return h.amount.Candidates
}

// currencyNamed returns the one currency that the paper names apart from its sums and that
// the sign of h allows: by its code, or pesos by the country; "" if there is none or several.
func (l *look) currencyNamed(h sumHit) string {
	found := ""
	for _, p := range l.passages {
		for _, m := range codeWord.FindAllStringSubmatchIndex(p.text, -1) {
			code := p.text[m[2]:m[3]]
			if !slices.Contains(h.amount.Candidates, code) || found != "" && found != code {
				return ""
			}
			found = code
		}
	}
	if found != "" || h.amount.Sign != "$" || l.lang != find.Spanish {
		return found
	}
	for _, c := range pesoCountries {
		if c.named.MatchString(l.all) {
			if found != "" {
				return ""
			}
			found = c.code
		}
	}
	return found
}

// codeWord is the code of a currency.
var codeWord = matching(`(?:^|[\s(])(EUR|GBP|USD|CHF|CAD|AUD|NZD|HKD|SGD|MXN|SEK|NOK|DKK)(?:[\s).:,$]|$)`)

// pesoCountries are countries that write the sign of the dollar for their peso, with what
// names them: the country itself, or how its tax number is called.
var pesoCountries = []struct {
	code  string
	named *pattern
}{
	{"CLP", words(`chile|pesos chilenos|r\.u\.t\.`)},
	{"ARS", words(`argentina|pesos argentinos|c\.?u\.?i\.?t\.?|c\.a\.b\.a\.`)},
	{"MXN", words(`mexico|pesos mexicanos|r\.f\.c\.`)},
	{"COP", words(`colombia|pesos colombianos`)},
	{"UYU", words(`uruguay|pesos uruguayos`)},
}

// surelyPaid reports that whatever the paper may be, it is one of money: where dues are named
// on one that may prove something else, their sum is not surely that of the paper.
func (l *look) surelyPaid() bool {
	q, _ := l.out.Question(paper.FieldKind)
	return l.kind == paper.Receipt || !slices.ContainsFunc(q.Candidates, func(c paper.Candidate) bool {
		return c.Text != string(paper.Receipt) && c.Text != string(paper.Membership)
	})
}

// centsLost reports a sum of which the figures behind the point were lost: the point stands at
// the end of a line without any word.
func (l *look) centsLost(a at) bool {
	text := l.passages[a.passage].text
	rest := strings.TrimSpace(text[a.span.To:])
	return (rest == "." || rest == ",") && !strings.ContainsFunc(text, isLetter)
}
