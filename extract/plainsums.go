package extract

import (
	"slices"

	"evidencevault/extract/find"
)

// currencyWord is a currency that a paper names apart from its sums.
var currencyWord = matching(`(?:^|[\s(])(EUR|GBP|USD|CHF|CAD|AUD|NZD|SGD|HKD|SEK|NOK|DKK|MXN|€|£|(?:NZ|AU?|CAN?|C|US|HK|S|MX)?\$)(?:[\s).:,]|$)`)

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
	currency := l.currencyApart()
	if currency == "" {
		return
	}
	for _, row := range l.rows {
		if len(row) > 1 || len(row) == 1 && l.underPrice(row[0]) {
			l.addPrice(row, currency)
		}
	}
}

// addPrice takes the price at the end of a row for a sum in a currency, by its code or sign, where
// no sum was found.
func (l *look) addPrice(row []int, currency string) {
	a := l.whole(row[len(row)-1])
	text := l.text(a)
	if m := priceLast.FindStringSubmatchIndex(text); m != nil && l.underPrice(row[len(row)-1]) {
		a = a.within(m[2], m[3]-m[2]) // "Total incl. GST 1,152.30"
		text = l.text(a)
	}
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

// currencyApart returns the one currency that the paper names apart from its sums; "" where it
// names none or several.
func (l *look) currencyApart() string {
	currency := ""
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
				return ""
			}
			currency = code
		}
	}
	return currency
}

// priceLast is a price behind the words that say what it is, in one cell.
var priceLast = matching(`^\p{L}[^\d:;]*(?:\d{1,2}(?:[.,]\d)? ?%)?[^\d:;]{0,24}?:? ([-−]?\d{1,3}(?:[.,' ]?\d{3})*[.,]\d\d)$`)

// underPrice reports a cell that ends where a price of another row ends: its last figures stand
// in the column of the prices.
func (l *look) underPrice(ci int) bool {
	c := &l.cells[ci]
	if !l.boxed || !priceLast.MatchString(c.text) {
		return false
	}
	return slices.ContainsFunc(l.cells, func(o cell) bool {
		return o.page == c.page && o.row != c.row && abs(o.box[2]-c.box[2]) < 150 && priceCell.MatchString(o.text)
	})
}
