package extract

import (
	"slices"

	"evidencevault/extract/find"
)

// currencyWord is a currency that a paper names apart from its sums.
var currencyWord = matching(`(?:^|[\s(])(EUR|GBP|USD|CHF|CAD|AUD|NZD|€|£)(?:[\s).:,]|$)`)

// totalsUnsigned takes the bare price at the end of a row that names a whole sum, where the sign
// that the other sums of the paper bear stands apart from it: in the next line, or nowhere.
func (l *look) totalsUnsigned() {
	sign := ""
	for _, s := range l.sums {
		if s.amount.Sign == "" || sign != "" && s.amount.Sign != sign {
			return
		}
		sign = s.amount.Sign
	}
	if sign == "" {
		return
	}
	for _, row := range l.rows {
		if len(row) < 2 || !wholeWord.MatchString(fold(l.cells[row[0]].text)+" ") {
			continue
		}
		l.addPrice(row, sign)
	}
}

// plainSums takes the prices at the end of rows for sums where the paper names one
// currency apart from them, as till slips and ledgers do.
func (l *look) plainSums() {
	if l.pricedRows() < 2 {
		return
	}
	var currency string
	for _, p := range l.passages {
		for _, m := range currencyWord.FindAllStringSubmatchIndex(p.text, -1) {
			code := p.text[m[2]:m[3]]
			switch code {
			case "€":
				code = "EUR"
			case "£":
				code = "GBP"
			}
			if currency != "" && currency != code {
				return
			}
			currency = code
		}
	}
	if currency == "" {
		return
	}
	for _, row := range l.rows {
		if len(row) > 1 {
			l.addPrice(row, currency)
		}
	}
}

// addPrice takes the price at the end of a row for a sum in a currency, by its code or sign, where
// no sum was found.
func (l *look) addPrice(row []int, currency string) {
	a := l.whole(row[len(row)-1])
	text := l.text(a)
	if !priceCell.MatchString(text) || slices.ContainsFunc(l.sums, func(s sumHit) bool { return s.at.overlaps(a) }) {
		return
	}
	found := find.Amounts(currency+" "+text, l.langs)
	if len(found) != 1 {
		return
	}
	h := sumHit{at: a, amount: found[0]}
	if p, ok := l.labelOf(a); ok {
		h.role, h.label = p.role, p.label
	}
	l.sums = append(l.sums, h)
}
