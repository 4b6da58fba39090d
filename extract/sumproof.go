package extract

import (
	"cmp"
	"slices"

	"evidencevault/credit"
)

// proveSums raises the sum that those right before it come to, line by line: what is charged,
// less what is taken off, with the tax. It is no part, whatever it says of a tax, and what it
// is made of is not the whole. A sum in brackets only tells something of another one. Where
// several are proven, the one that others of them come to is the whole, else the last that is
// neither a sum before tax nor what is left to pay.
func (l *look) proveSums(list []weighed) {
	lines := l.printedSums(list)
	var proven []int
	for k := range lines {
		if run := runBefore(list, lines, k); run > 0 {
			proven = append(proven, lines[k])
		}
	}
	best := -1
	for k, i := range proven {
		switch {
		case leftOver.MatchString(list[i].context) || beforeTax(list[i].context):
		case k > 1 && runBefore(list, proven, k) == k:
			best = i
		case best < 0 || runBefore(list, proven, slices.Index(proven, best)) == 0:
			best = i
		}
	}
	if best < 0 {
		return
	}
	w := &list[best]
	w.part, w.within = false, false
	w.score = max(w.score, 90)
	w.why = linesAddUp
	for _, i := range lines {
		if i != best && list[i].score >= 45 && !list[i].value.Equal(w.value) {
			list[i].score = 40 // a line of what was added up, or what is left of it
		}
	}
}

// leftOver are words for what is still to pay of a whole sum, or was paid of it.
var leftOver = words(`balance|(?:paid|payment|received) (?:to-?day|now)|heute (?:be|ge)zahlt|(?:regle|paye|verse)e? (?:ce jour|aujourd'hui)|pagado hoy|vandaag betaald|still to pay|outstanding|remaining|restbetrag|offener? (?:betrag|rest|posten)|noch offen|offen|verbleib\w*|left to pay|still (?:due|owing|owed)|amount due after|reste du|reste a (?:payer|regler)|queda(?:n)? (?:por pagar|pendientes?)|falta por pagar|nog openstaand|resteert|resterend\w*|noch zu zahlen|solde|reste a payer|saldo|pendiente|resto|restant|nog te (?:betalen|voldoen)|openstaand|deposit|anzahlung|acompte|anticipo|aanbetaling|change|cash|tendered`)

// beforeTax reports that the last thing said of a sum is that it is one before tax.
func beforeTax(context string) bool {
	net := lastMatch(netWord, context)
	return net >= 0 && net >= lastMatch(wholeWord, context)
}

// wholeWord are words for the whole sum.
var wholeWord = words(`grand total|total(?: due| paid| amount| ttc)?|ttc|gesamt\w*|rechnungsbetrag|endbetrag|zu zahlen|net a payer|totaal\w*|te betalen|a pagar`)

// printedSums returns which of the sums stand as lines of their own, in the order in which
// they are printed; the same sum once more in its line counts once.
func (l *look) printedSums(list []weighed) []int {
	var order []int
	for i := range list {
		if list[i].value.Sign() != 0 && !list[i].within && !l.inBrackets(list[i].hit.at) {
			order = append(order, i)
		}
	}
	place := func(i int) (row, from int) {
		a := list[i].hit.at
		ci := l.cellAt(a)
		return l.cells[ci].row, ci*10000 + a.span.From
	}
	slices.SortStableFunc(order, func(a, b int) int {
		ra, fa := place(a)
		rb, fb := place(b)
		return cmp.Or(cmp.Compare(ra, rb), cmp.Compare(fa, fb))
	})
	return slices.CompactFunc(order, func(a, b int) bool {
		ra, _ := place(a)
		rb, _ := place(b)
		return ra == rb && list[a].value.Equal(list[b].value)
	})
}

// inBrackets reports a sum in round brackets.
func (l *look) inBrackets(a at) bool {
	text := l.passages[a.passage].text[:a.span.From]
	open := 0
	for _, r := range text {
		switch r {
		case '(':
			open++
		case ')':
			open = max(0, open-1)
		}
	}
	return open > 0
}

// runBefore returns how many of the sums right before the k-th come to it together, at least
// two; 0 if none do.
func runBefore(list []weighed, lines []int, k int) int {
	var sum credit.Amount
	whole := signed(list[lines[k]])
	for j := k - 1; j >= 0 && k-j < 12; j-- {
		sum = sum.Add(signed(list[lines[j]]))
		if j < k-1 && (sum.Equal(whole) || sum.Equal(list[lines[k]].value)) {
			return k - j
		}
	}
	return 0
}

// signed is a sum with its sign: what is taken off is less than nothing.
func signed(w weighed) credit.Amount {
	if w.hit.amount.Negative || w.hit.amount.Value != "" && w.hit.amount.Value[0] == '-' || takenOff.MatchString(w.context) && !wholeWord.MatchString(w.context) {
		return credit.Amount{}.Sub(w.value)
	}
	return w.value
}

// takenOff are words for what makes a sum less.
var takenOff = words(`discount|rebate|less|minus|voucher|rabatt|nachlass|abzuglich|abzgl\.?|gutschein|remise|rabais|reduction|deduction|descuento|bonificacion|korting|aftrek`)
