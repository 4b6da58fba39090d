package find_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract/find"
)

func TestCredits(t *testing.T) {
	tests := []struct {
		text string
		want []string // value, unit as printed, kind
		why  string
	}{
		{"1.5 CEU · 0.15 CEUs", []string{"1.5 CEU (ceu)", "0.15 CEUs (ceu)"}, "the unit as printed, one kind"},
		{"CEUs: 1.5", []string{"1.5 CEUs (ceu)"}, "the unit first"},
		{"Continuing education units (CEU): 1,50", []string{"1.50 Continuing education units (ceu)"}, "a decimal comma; the figures as printed"},
		{"Credits awarded 12", []string{"12 Credits (credit)"}, "a word between"},
		{"CPD points 12", []string{"12 CPD points (cpdpoint)"}, "a pair without a colon"},
		{"4.5 CPD hours; 6 hours of CPD; 3.25 CE hours", []string{"4.5 CPD hours (cpdhour)", "6 hours of CPD (cpdhour)", "3.25 CE hours (cehour)"}, "hours that are credits"},
		{"17.5 PDH", []string{"17.5 PDH (pdh)"}, "professional development hours"},
		{"It earns the holder four study credits, and 10 development points.", []string{"4 study credits (studycredits)", "10 development points (developmentpoints)"}, "a small word says of what sort they are"},
		{"three bullet points and two data points", nil, "points of another sort"},
		{"3 merit units; 8 AMS recertification units (RUs); 7 professional learning hours (PLH)", []string{"3 merit units (meritunits)", "8 AMS recertification units (amsrecertificationunits)", "7 professional learning hours (professionallearninghours)"}, "units that are written out"},
		{"3.25 AMA-style Category 1 Credits", []string{"3.25 AMA-style Category 1 Credits (amastylecategorycredits)"}, "a joined word and a digit before them"},
		{"Bewertung: 6 FP, 2 CP (Creditpoints), gewaardeerd met 6 PE", []string{"6 FP (fp)", "2 CP (cp)", "6 PE (pe)"}, "letters right behind the number"},
		{"CP 75001 Montclair, Anna Vey PE 12", nil, "a postcode, and letters behind a name"},
		{"soit 3 unités de valeur; acredita 4 unidades de desarrollo profesional (UDP)", []string{"3 unités de valeur (unitesdevaleur)", "4 unidades de desarrollo profesional (unidadesdedesarrolloprofesional)"}, "units with what they are of"},
		{"Weiterbildungskredite: 2", []string{"2 Weiterbildungskredite (weiterbildungskredite)"}, "another end of a compound"},
		{"Puntuación otorgada: 5 puntos. Puntuación: 8 puntos.", []string{"5 puntos (point)"}, "a rating that was granted, and a mark"},
		{"4 Fortbildungspunkte vergeben, 2 studiepunten, 4 créditos, 5 ECTS-Punkte", []string{"4 Fortbildungspunkte (fortbildungspunkt)", "2 studiepunten (studiepunt)", "4 créditos (credit)", "5 ECTS-Punkte (ects)"}, "five languages"},
		{"12 Society points", []string{"12 Society points (societypoints)"}, "the word that says whose they are"},
		{"(15 contact hours) 1.5 CEU", []string{"1.5 CEU (ceu)"}, "contact hours are time"},
		{"Contact hours: 7.5 CEU: 0.75", []string{"0.75 CEU (ceu)"}, "each label has its own number"},
		{"1 CEU = 10 contact hours; 10 contact hours = 1 CEU", nil, "a rate"},
		{"PE-punten: 6", []string{"6 PE-punten (pepunten)"}, "a unit of two parts"},
		{"6 verifiable CPD hours; CPD: 6 hours; 6 hours of continuing education", []string{"6 CPD hours (cpdhour)", "6 CPD hours (cpdhour)"}, "a quality is no part of the unit; the label may name it"},
		{"0.6 (zero point six) CEU", []string{"0.6 CEU (ceu)"}, "figures, then words"},
		{"2 Credits / 2 Points", []string{"2 Credits (credit)", "2 Points (point)"}, "a stroke between two units is no score"},
		{"twelve CPD points", []string{"12 CPD points (cpdpoint)"}, "words"},
		{"85 von 100 Punkten; score 85 points; 18 of 20 points; 90 points out of 100", nil, "marks of an examination"},
		{"18 von 20 Fragen richtig", nil, "questions"},
		{"credit card 4242, credit note 17", nil, "money"},
		{"Credits: 2026-03-04", nil, "a date"},
	}
	for _, tt := range tests {
		var got []string
		for _, c := range find.Credits(tt.text, nil) {
			got = append(got, c.Value+" "+c.Unit+" ("+c.Kind+")")
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestAmounts(t *testing.T) {
	tests := []struct {
		text string
		want []string
		why  string
	}{
		{"Total £518.40", []string{"518.40 GBP"}, "£ alone is GBP"},
		{"EUR 518,40; 1.368,50 €; 78,00 €", []string{"518.40 EUR", "1368.50 EUR", "78.00 EUR"}, "decimal comma, points for thousands"},
		{"£1,234.50 and 1 260,00 € and CHF 1'250.00", []string{"1234.50 GBP", "1260.00 EUR", "1250.00 CHF"}, "thousands marks"},
		{"$1,195.00", []string{"1195.00 USD|CAD|AUD|NZD|HKD|SGD|MXN"}, "a sign that several share"},
		{"US$ 45, C$16.40, $45 USD, CAD 3.03", []string{"45 USD", "16.40 CAD", "45 USD", "3.03 CAD"}, "what tells the country"},
		{"300 kr", []string{"300 SEK|NOK|DKK|ISK"}, "a bare kr"},
		{"Early booking discount 10 % –£48.00", []string{"-48.00 GBP"}, "a minus"},
		{"Refund total -$150.00", []string{"-150.00 USD|CAD|AUD|NZD|HKD|SGD|MXN refund"}, "money paid back"},
		{"Total: (120.00 USD)", []string{"-120.00 USD"}, "parentheses of book-keeping"},
		{"the fee (120.00 USD)", []string{"120.00 USD"}, "parentheses of a sentence"},
		{"Handling 1 £480.00 £480.00", []string{"480.00 GBP", "480.00 GBP"}, "the quantity has no currency"},
		{"1 x 1,50 480,00 €", []string{"480.00 EUR"}, "decimals are not run together with the next column"},
		{"Fr. 350.–, SFr. 350.00, Fr. 12.03.2026", []string{"350 CHF", "350.00 CHF"}, "francs, and a Friday"},
		{"€ 24,-", []string{"24 EUR"}, "no cents"},
		{"20 dollars 43 cents, dos euros y cinco céntimos", []string{"20.43 USD|CAD|AUD|NZD|HKD|SGD|MXN", "2.05 EUR"}, "words"},
		{"20260303, 16 hours, 1.5 CEU, All 70 of us", nil, "no money"},
	}
	for _, tt := range tests {
		var got []string
		for _, a := range find.Amounts(tt.text, nil) {
			s := a.Value + " " + a.Currency + strings.Join(a.Candidates, "|")
			if a.Refund {
				s += " refund"
			}
			got = append(got, s)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestFigure(t *testing.T) {
	tests := []struct {
		text, want string
		why        string
	}{
		{"1,195.00", "1195.00", "a column of prices"},
		{"-150.00", "-150.00", "a minus"},
		{"(150.00)", "-150.00", "parentheses"},
		{"1 of 2", "", "two numbers"},
		{"none", "", "no number"},
	}
	for _, tt := range tests {
		got, ok := find.Figure(tt.text)
		if ok != (tt.want != "") || ok && got.Value != tt.want {
			t.Errorf("%q (%s): %q, want %q", tt.text, tt.why, got.Value, tt.want)
		}
	}
}
