package find_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract/find"
)

func TestPersons(t *testing.T) {
	tests := []struct {
		text string
		want []string
		why  string
	}{
		{"Herr Dipl.-Ing. Tobias Wendelhorst hat", []string{"Tobias Wendelhorst"}, "titles of several parts"},
		{"Rowan Ashby-Thorne, RN, PhD", []string{"Rowan Ashby-Thorne"}, "degrees behind"},
		{"Received from Marlen Oakhurst, member 20331", []string{"Marlen Oakhurst"}, "no title"},
		{"Mme Verdancourt", []string{"Verdancourt"}, "a title makes one word a name"},
		{"Dr. med. Anna van der Berg", []string{"Anna van der Berg"}, "particles"},
		{"Dª Ximena Altarriba Sotogrande", []string{"Ximena Altarriba Sotogrande"}, "two surnames"},
		{"Certificate of Attendance", nil, "a heading"},
		{"Pelican Ridge Metrology School", nil, "a body"},
	}
	for _, tt := range tests {
		var got []string
		for _, p := range find.Persons(tt.text) {
			got = append(got, p.Name)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestBare(t *testing.T) {
	for give, want := range map[string]string{
		"Dr. A. Vey, RN": "A. Vey", "Vey, Anna": "Anna Vey", "Frau  Anna\tVey": "Anna Vey", "Anna Vey MSc": "Anna Vey", "": "", "Dr.": "Dr.",
	} {
		if got := find.Bare(give); got != want {
			t.Errorf("%q: %q, want %q", give, got, want)
		}
	}
}

func TestOrganisations(t *testing.T) {
	tests := []struct {
		text string
		want []string
		why  string
	}{
		{"Harrow Institute of Measurement, 12 High Street", []string{"Harrow Institute of Measurement"}, "ends at the comma"},
		{"Prüfkreis Messtechnik e. V.", []string{"Prüfkreis Messtechnik e. V."}, "a legal form in two parts"},
		{"der Werkstoffakademie Eulenfurt", []string{"Werkstoffakademie Eulenfurt"}, "the end of a compound"},
		{"Greyling & Foss Fabrications Ltd", []string{"Greyling & Foss Fabrications Ltd"}, "an ampersand"},
		{"Société Française d’Optique", []string{"Société Française d’Optique"}, "an elided word"},
		{"School", nil, "the word alone names nothing"},
		{"Rowan Ashby-Thorne", nil, "a person"},
	}
	for _, tt := range tests {
		var got []string
		for _, o := range find.Organisations(tt.text) {
			got = append(got, o.Name)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestCountry(t *testing.T) {
	tests := []struct {
		text string
		want []string // what speaks for a country
		why  string
	}{
		{"Tel +44 20 7946 0958", []string{"GB"}, "ITU-T E.164"},
		{"01632 960 417", []string{"GB"}, "Ofcom's numbers for drama"},
		{"+353 1 496 0000", []string{"IE"}, "ITU-T E.164"},
		{"918-555-0142", []string{"US"}, "NANP, Oklahoma"},
		{"+1 416 555 0100", []string{"CA"}, "NANP, Toronto"},
		{"Boise, ID 83702", []string{"US"}, "state and ZIP"},
		{"Ottersby OT4 9ZZ", []string{"GB"}, "the form of a postcode"},
		{"Dublin 2, D02 X285", []string{"IE"}, "Eircode"},
		{"Hainrode, Germany", []string{"DE"}, "a country that stands by itself"},
		{"the Ireland question, 0231 1234567, VAT no. 000 4471 22", nil, "nothing tells a country"},
	}
	for _, tt := range tests {
		var got []string
		for _, p := range find.Phones(tt.text) {
			got = append(got, p.Country)
		}
		for _, a := range find.Addresses(tt.text) {
			got = append(got, a.Country)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestNumbers(t *testing.T) {
	tests := []struct{ text, label, number string }{
		{"Candidate no. 2026-0411", "Candidate no.", "2026-0411"},
		{"Reçu n° 2025-418", "Reçu n°", "2025-418"},
		{"Rechnung Nr. RE-2026-0093", "Rechnung Nr.", "RE-2026-0093"},
		{"Certificate LS2/40917", "Certificate", "LS2/40917"},
	}
	for _, tt := range tests {
		got := find.Numbers(tt.text)
		if len(got) != 1 || got[0].Label != tt.label || got[0].Text != tt.number {
			t.Errorf("%q: %+v, want %s, %s", tt.text, got, tt.label, tt.number)
		}
	}
	if got := find.Numbers("Certificate of Attendance, no breaks"); len(got) != 0 {
		t.Errorf("no number holds no figure: %+v", got)
	}
}

func TestLanguage(t *testing.T) {
	for text, want := range map[string]find.Lang{
		"This is to certify that the person attended the course":       find.English,
		"hat an der Schulung teilgenommen, die vom 3. bis 4. März war": find.German,
		"a suivi la formation pour une durée totale de 13 h 30":        find.French,
		"ha asistido al curso celebrado el 9 de febrero, con una":      find.Spanish,
		"heeft deelgenomen aan de bijeenkomst van het instituut":       find.Dutch,
		"12345": "",
	} {
		if got := find.Language(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
