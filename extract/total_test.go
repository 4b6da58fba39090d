package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestWholeSums: the whole sum is with tax and after discount, not what was paid before or
// is still open, and negative when money was paid back. It is asked about where net and
// tax do not come to it, however the lines are set.
func TestWholeSums(t *testing.T) {
	const bill = "Ferrygate School of Surveying\n# INVOICE\nInvoice no. 4471\nInvoice date: 20 June 2026\nBill to: Davard Oakstead\nCourse: Pump Seals\n"
	const rechnung = "Ferrygate Akademie\n# Rechnung\nRechnungsdatum: 20. Juni 2026\nAn: Davard Oakstead\nSeminar Pumpen | 400,00 €\n"
	tests := []struct{ name, text, want, asked, why string }{
		{"net and tax", bill + "Net | £300.00\nVAT 20 % | £60.00\nTotal | £360.00", "360.00 GBP", "", "they come to it"},
		{"another total", bill + "Net | £300.00\nVAT 20 % | £60.00\nTotal | £390.00", "390.00 GBP", "360.00 GBP", "they do not"},
		{"discount, deposit, balance", bill + "Course fee Pump Seals | £400.00\nEarly booking discount 10 % | -£40.00\nSubtotal | £360.00\nVAT 20 % | £72.00\nTotal due | £432.00\nPaid deposit | £100.00\nBalance due | £332.00",
			"432.00 GBP", "", "the deposit is a part of it"},
		{"discount without tax", bill + "Course fee | £400.00\nLess early booking discount | £40.00\nTotal | £360.00", "360.00 GBP", "", "the fee is what one thing costs before it"},
		{"tax beside the price", bill + "Course fee | £400.00\nVAT 20 % | £80.00", "400.00 GBP", "480.00 GBP", "the whole is not printed"},
		{"German", rechnung + "Frühbucherrabatt 10 % | -40,00 €\nNetto | 360,00 €\nUSt. 19 % | 68,40 €\nGesamtbetrag | 428,40 €\nAnzahlung | 100,00 €\nRestbetrag | 328,40 €", "428.40 EUR", "", "likewise"},
		{"German, another total", rechnung + "Netto | 400,00 €\nUSt. 19 % | 76,00 €\nGesamtbetrag | 467,00 €", "467.00 EUR", "476.00 EUR", "two digits were turned round"},
		{"two rates", strings.Replace(rechnung, "400,00", "300,00", 1) + "Netto 7 % | 100,00 €\nNetto 19 % | 200,00 €\nUSt. 7 % | 7,00 €\nUSt. 19 % | 38,00 €\nZwischensumme | 300,00 €\nGesamtbetrag | 345,00 €", "345.00 EUR", "", "all parts come to it"},
		{"tax within", "Ferrygate School of Surveying\n# Receipt\n20 June 2026\nReceived from Davard Oakstead for the course Pump Seals: £432.00 (incl. £72.00 VAT)", "432.00 GBP", "", "the tax is a part of it"},
		{"refund", "Ferrygate School of Surveying\n# CREDIT NOTE\nDate: 20 June 2026\nTo: Davard Oakstead\nOriginal invoice | £432.00\nCancellation fee | £32.00\nRefund | £400.00", "-400.00 GBP", "", "what was paid back"},
		{"refund in a letter", "Ferrygate School of Surveying\n# Refund\n20 June 2026\nDear Davard Oakstead\nYou paid £432.00 for the course Pump Seals. We keep a fee of £32.00 and have refunded £400.00 to your card.", "-400.00 GBP", "", "likewise, in a sentence"},
		{"refund in German", "Ferrygate Akademie\n# Gutschrift\n20. Juni 2026\nHerrn Davard Oakstead\nSie hatten 432,00 € gezahlt. Abzüglich einer Gebühr von 32,00 € haben wir Ihnen 400,00 € erstattet.", "-400.00 EUR", "", "the verb stands behind it"},
	}
	for _, tt := range tests {
		for _, cells := range []string{"   ", " "} {
			lines := strings.Split(strings.ReplaceAll(tt.text, " | ", cells), "\n")
			for name, of := range map[string]func(invented) (r paper.Reading){
				"text": func(p invented) paper.Reading { return extract.Understand(p.asText(), extract.Hints{})[0] },
				"page": func(p invented) paper.Reading { return extract.Understand(p.asPage(), extract.Hints{})[0] },
			} {
				r := of(invented{lines: lines})
				v := r.Values[paper.FieldTotal]
				q, asked := r.Question(paper.FieldTotal)
				if v.Text != tt.want || asked != (tt.asked != "") || asked && (len(q.Candidates) != 2 || q.Candidates[1].Text != tt.asked) || v.Certain == asked {
					t.Errorf("%s, as %s with cells apart by %q: %q, certain %v, %q; want %q, asked about %q: %s", tt.name, name, cells, v.Text, v.Certain, q.Text, tt.want, tt.asked, tt.why)
				}
			}
		}
	}
}
