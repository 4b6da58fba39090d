package extract_test

import (
	"fmt"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestWhoWhatAndBy: names, titles and bodies told by grammar and layout, each in words and
// tongues of its own.
func TestWhoWhatAndBy(t *testing.T) {
	checkValues(t, paper.FieldAttendee, []valueCase{
		{"letters without a vowel are a calling", "Töpferhof Wendel\n# Bestätigung\nWir bestätigen, dass\nHerr KFM Ulfried Sandnagel\nam 3. März 2026 an der Schulung\n# Glasuren mischen\nteilgenommen hat.", "Ulfried Sandnagel"},
		{"a profession before the name", "Töpferhof Wendel e. V.\n# Teilnahmebestätigung\nFrau Heilpraktikerin Bauingenieurin Ulrike Sandnagel\nhat am 3. März 2026 an der Schulung Glasuren mischen teilgenommen.", "Ulrike Sandnagel"},
		{"capitals with points in Spanish", "Instituto Alfarero de Quelmo\n# CONSTANCIA\nse otorga a la\n# L.C. Herminia Zavaleta Poot\npor haber asistido al curso\n# Esmaltes de baja temperatura\nrealizado el 3 de marzo de 2026.", "Herminia Zavaleta Poot"},
		{"a line that ends by giving, of any verb", "Conservatoire du Biscuit\n# Diplôme\nla présidence confère à\n# Ysaline Trébuchon\nle titre de\n# Maître émailleur\nVannelle, le 3 mars 2026", "Ysaline Trébuchon"},
		{"who signs stands beneath the office", "Potters' Guild of Wendle\n# Certificate\nPresented to\n# Orla Fennimore\nfor completing the course\n# Glazes without Lead\non 3 March 2026\nThe Chair\nMr Tobias Crake", "Orla Fennimore"},
		{"a label whose verb asks for a person", "Keramiekkring Ostmeer\n# Bewijs\nGevolgd door:   Wieke Aldershof, kleimeester te Ost\nCursus:   Glazuren zonder lood\nDatum:   3 maart 2026", "Wieke Aldershof"},
		{"a label that says for whom it was made", "Töpferhof Wendel\n# Kursnachweis\nDieser Nachweis wurde erstellt für: Ulrike Sandnagel\nKurs: Glasuren mischen\nDatum: 3. März 2026", "Ulrike Sandnagel"},
		{"a verb behind brackets", "Instituto Alfarero de Quelmo\n# CERTIFICADO\nLa profesora Herminia Zavaleta Poot (D.N.I. 11.222.333) ha asistido al curso Esmaltes de baja temperatura el 3 de marzo de 2026.", "Herminia Zavaleta Poot"},
		{"the next label in the line is no part of the name", "Töpferhof Wendel\n# Teilnahmebestätigung\nName: Sandnagel, Ulrike Werkstatt: Ofenhaus Nord\nKurs: Glasuren mischen\nDatum: 3. März 2026", "Ulrike Sandnagel"},
		{"a profession behind the name is no first name", "Töpferhof Wendel\n# Teilnahmebestätigung\nKursteilnehmerin: Ulrike Sandnagel, Apothekerin\nKurs: Glasuren mischen\nDatum: 3. März 2026", "Ulrike Sandnagel"},
	})
	checkValues(t, paper.FieldTitle, []valueCase{
		{"a subtitle in the value of a label", "Töpferhof Wendel\n# Kursausweis\nName:   Ulrike Sandnagel\nabsolvierter Lehrgang   Glasuren mischen: Blei vermeiden\nKurs-Nr.   12\nDatum   3. März 2026\nDauer   4 Stunden", "Glasuren mischen: Blei vermeiden"},
		{"a larger line within the sentence", "Potters' Board of Wendle\n# Certificate\nThis is to certify that\n# Orla Fennimore\nhaving satisfied the examiners at Wendle on 3 March 2026, is recognised as\n# Master Glazier, Class B\nand may use the mark of the guild.", "Master Glazier, Class B"},
		{"a relative clause ends the title", "Keramiekhogeschool Ostmeer\nOstmeer, 24 februari 2026\nGeachte mevrouw Aldershof,\nGraag danken wij u voor het gastcollege Glazuren zonder lood dat u op 19 februari 2026 voor onze studenten hebt verzorgd.", "Glazuren zonder lood"},
		{"a participle behind a comma ends the title", "Conservatoire du Biscuit\n# Attestation\nNous attestons que Madame Ysaline Trébuchon a suivi le cours Émaux sans plomb, animé dans nos ateliers le 3 mars 2026.", "Émaux sans plomb"},
	})
	checkValues(t, paper.FieldProvider, []valueCase{
		{"the firm of the person did not hold the course", "Töpferhof Wendel e. V.\n# Kursausweis\nName   Ulrike Sandnagel\nFirma   Ofenbau Nord GmbH\nKurs   Glasuren mischen\nDatum   3. März 2026", "Töpferhof Wendel e. V."},
		{"a legal form in capitals with points", "Red Alfarera de Quelmo, A.C.\n# CONSTANCIA\nse otorga a\n# Herminia Zavaleta Poot\npor haber asistido al curso\n# Esmaltes de baja temperatura\nrealizado el 3 de marzo de 2026.", "Red Alfarera de Quelmo, A.C."},
		{"the body whose board stands above it", "# Diploma\nDe examencommissie van de\n# Kamer der Pottenbakkers\nverklaart dat\n# Wieke Aldershof\nmet goed gevolg het examen heeft afgelegd van\n# Meester in glazuren\nen die titel mag voeren.\nUitgereikt te Ostmeer op 3 maart 2026", "Kamer der Pottenbakkers"},
	})
}

// TestTwoSpellingsInAnyOrder: the surname first and in capitals hides no second spelling.
func TestTwoSpellingsInAnyOrder(t *testing.T) {
	const lines = "Keramiekkring Ostmeer vzw\n# Bewijs van deelname\nNaam:   ALDERSHOFF Wieke\nCursus:   Glazuren zonder lood\nDatum:   3 maart 2026\nDe kring verklaart dat mevrouw Wieke Aldershof de cursus heeft bijgewoond."
	if q, asked := extract.Understand(pagesOf(lines), extract.Hints{})[0].Question(paper.FieldAttendee); !asked || len(q.Candidates) != 2 {
		t.Errorf("the question is %+v, want one with both spellings", q)
	}
}

// TestSurnameOfTheAddress: a letter that greets somebody by nearly the name that it certifies
// is asked about; a colleague of nearly the same name is not.
func TestSurnameOfTheAddress(t *testing.T) {
	const body = "# Keramikschule Ostmark\n%s,\nhiermit bestätigen wir, dass Greta Lindqvist am 3. März 2026 am Kurs „Glasuren ohne Blei“ teilgenommen hat.\n%s\nOstmark, 10. März 2026"
	for _, c := range []struct {
		greeting, foot string
		asked          bool
	}{
		{"Sehr geehrte Frau Lindkvist", "", true},
		{"Sehr geehrte Frau Lindqvist", "", false},
		{"Sehr geehrte Frau Lindkvist", "Kursleitung: Olga Lindkvist", false},
		{"Sehr geehrte Frau Lohmann", "", false},
	} {
		lines := fmt.Sprintf(body, c.greeting, c.foot)
		q, _ := extract.Understand(pagesOf(lines), extract.Hints{})[0].Question(paper.FieldAttendee)
		if two := len(q.Candidates) == 2; two != c.asked {
			t.Errorf("%s, %s: the question is %+v, want two spellings asked about: %v", c.greeting, c.foot, q, c.asked)
		}
	}
}
