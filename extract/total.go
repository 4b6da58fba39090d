package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

var (
	grandWord   = words(`in hohe von|in the amount of|a hauteur de|por importe de|ten bedrage van|grand total|invoice total|total(?: due| paid| amount| usd| eur| gbp| ttc| incl\S*)?|amount (?:paid|due|received)|paid|received|(?:we have )?received|gesamt(?:betrag|summe|preis)?|rechnungsbetrag|endbetrag|summe|zu zahlen|bezahlt|erhalten|betrag(?: von)?|(?:la )?somme(?: de)?|montant(?: total| ttc)?|net a payer|total ttc|reglee?|cotisation(?: reglee?)?|ttc|importe(?: total| de)?|cantidad de|(?:la )?suma de|pagad[oa]|totaal(?:bedrag)?|(?:een )?bedrag(?: van)?|betaald|te betalen|fee|dues|refund(?: total| of)?|refunded|erstattung|erstattet|remboursement(?: de)?|devolucion(?: de)?|terugbetaling(?: van)?|ontvangen|contributie|beitrag|cuota|sum of`)
	partWord    = words(`(?:we )?keep|retain\w*|withh\w+|less|processing (?:charge|fee)|einbehalten|abzuglich|bearbeitungsgebuhr|hst|gst|pst|qst|sub-?total|zwischensumme|sous-total|subtotaal|net|netto|ht|hors taxes?|base imponible|excl\S*|without|vat|tax|sales tax|ust\.?|mwst\.?|mehrwertsteuer|umsatzsteuer|tva|iva|btw|dont|davon|darin|waarvan|discount|rabatt|remise|descuento|korting|already paid|(?:bereits|schon) (?:be|ge)zahlt|deja (?:paye|regle)\w*|ya pagado|(?:reeds|al) betaald|balance|restbetrag|solde|saldo|still to pay|deposit|anzahlung|acompte|anticipo|aanbetaling|original(?: invoice)?|unit price|each|cash|change|tendered|visa|card|from|instead of|statt|per`)
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
	value := top.hit.amount.Value
	if refundWords.MatchString(l.all) && !strings.HasPrefix(value, "-") && l.refund() {
		value = "-" + value
	}
	currencies := l.currencies(top.hit)
	var rivals []guess
	for _, c := range currencies {
		rivals = append(rivals, guess{text: paper.Money{Amount: value, Currency: c}.String(), at: top.hit.at, score: top.score, why: top.why})
	}
	if len(rivals) == 0 {
		return
	}
	v := l.value(rivals[0])
	text := ""
	switch {
	case len(rivals) > 1:
		text = fmt.Sprintf("Which currency is %s? The paper does not show the country.", quoted(v.Place.Quote))
	case top.score >= 45 && v.Score >= leastScore[paper.FieldTotal] && l.onlyTotal(list) && l.legible(top.hit.at, v.Place):
		v.Certain = true
	default:
		for _, w := range list[1:] {
			if w.score >= top.score-15 && w.hit.amount.Value != top.hit.amount.Value && len(rivals) < 4 {
				rivals = append(rivals, guess{text: paper.Money{Amount: w.hit.amount.Value, Currency: currencies[0]}.String(), at: w.hit.at, why: w.why})
			}
		}
		text = fmt.Sprintf("Is %s the whole sum, with tax and after discount?", rivals[0].text)
		if len(rivals) > 1 {
			text = fmt.Sprintf("Which is the whole sum: %s?", orList(rivals, func(g guess) string { return g.text }))
		}
	}
	if !v.Certain {
		l.question(paper.FieldTotal, &v, rivals, text)
	}
	l.out.Values[paper.FieldTotal] = v
}

// withTax says that a sum is the whole one, though it names the tax.
var withTax = matching(`(?:,? \(?(?:incl\S*|inkl\S*|including|inclusive of|con|avec|mit|with|toutes))(?: \d+ ?%)? (?:vat|tax(?:es)?|gst|hst|mwst|ust|umsatzsteuer|mehrwertsteuer|tva|iva|btw)\.?\)?`)

// A weighed sum is one that may be the total, with what speaks for it.
type weighed struct {
	hit   sumHit
	value credit.Amount
	score int
	why   string
}

func (l *look) weighSums() []weighed {
	var list []weighed
	var most credit.Amount
	for _, h := range l.sums {
		w := weighed{hit: h, value: magnitude(h.amount.Value), score: 20, why: "it is the only kind of sum"}
		label := h.label
		before, after := l.around(h.at)
		context := label + " " + tail(before, 42)
		if label == "" {
			context += " " + l.rowLabel(h.at)
		}
		context = withTax.ReplaceAllString(context, " ttc")
		if h.amount.Negative && !refundWords.MatchString(l.all) {
			context += " discount" // what was taken off, or paid before
		}
		switch part, grand := lastMatch(partWord, context+" "), lastMatch(grandWord, context+" "); {
		case h.role == isPartSum || part > grand || l.taxWithin(h.at):
			w.score = 5
		case h.role == isGrandTotal || grand >= 0:
			w.score, w.why = 70, "it stands with "+quoted(strings.TrimSpace(tail(context, 30)))
			if strings.Contains(context, "total") || strings.Contains(context, "gesamt") || strings.Contains(context, "totaal") || strings.Contains(context, "ttc") || strings.Contains(context, "net a payer") {
				w.score = 85
			}
		}
		if h.role == isGrandTotal && refundWords.MatchString(label) {
			w.score, w.why = 90, "it stands with "+quoted(label)
		}
		if len(l.sums) == 1 && l.kind == paper.Receipt {
			w.score, w.why = max(w.score, 70), "it is the only sum"
		}
		if grossAfter.MatchString(" " + head(after, 14)) {
			w.score += 15
		}
		if h.amount.Sign == "" && h.amount.Currency == "" {
			w.score -= 12
		}
		if w.value.Cmp(most) > 0 {
			most = w.value
		}
		list = append(list, w)
	}
	for i := range list {
		if list[i].value.Equal(most) {
			list[i].score += 8
		}
		for _, a := range list {
			for _, b := range list {
				if list[i].value.Sign() > 0 && a.value.Add(b.value).Equal(list[i].value) && b.value.Sign() > 0 && a.value.Cmp(b.value) > 0 {
					list[i].score += 4
				}
			}
		}
		list[i].score = min(list[i].score, 100)
	}
	return list
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

// rowLabel returns what stands first in the row of a sum, folded.
func (l *look) rowLabel(a at) string {
	ci := l.cellAt(a)
	row := l.rows[l.cells[ci].row]
	if row[0] == ci {
		return ""
	}
	return fold(l.cells[row[0]].text)
}

// onlyTotal reports that no other sum has as good a claim to be the total.
func (l *look) onlyTotal(list []weighed) bool {
	for _, w := range list[1:] {
		if w.score >= list[0].score-5 && !w.value.Equal(list[0].value) {
			return false
		}
	}
	return true
}

// refund reports that the paper pays money back, rather than telling how that works.
func (l *look) refund() bool {
	return refundWords.MatchString(l.headings()) || refundDone.MatchString(l.all)
}

var refundDone = words(`(?:have|has been|was|were|is|been) (?:refunded|reimbursed|paid back)|we (?:have )?refund\w*|refund total|erstatten wir|wurde erstattet|haben wir .{0,40}erstattet|avons rembourse|hemos devuelto|hebben wij .{0,40}terugbetaald`)

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
	at := l.countries()
	for country, currency := range map[string]string{"US": "USD", "CA": "CAD", "AU": "AUD", "NZ": "NZD", "SE": "SEK", "DK": "DKK", "NO": "NOK", "GB": "GBP"} {
		if at[country] && len(at) == 1 && (slices.Contains(h.amount.Candidates, currency) || h.amount.Sign == "") {
			return []string{currency}
		}
	}
	return h.amount.Candidates
}
