package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestSureValues: what two signs, a price that comes to the total, or a usual grade say is certain;
// several grades, and a price that comes to nothing, are asked about.
func TestSureValues(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		field      paper.Field
		want       string
		certain    bool
	}{
		{"the only grade", "Ordre des Potiers\n# ATTESTATION\nNous attestons que Mme Ysaline Trébuchon est inscrite comme membre titulaire pour l'année 2026, cotisation acquittée.\nVannelle, le 9 mai 2026", paper.FieldTitle, "membre titulaire", true},
		{"two grades", "Ordre des Potiers\n# ATTESTATION\nNous attestons que Mme Ysaline Trébuchon est à jour de sa cotisation pour l'année 2026.\nmembre titulaire : 90 €, membre stagiaire : 40 €\nVannelle, le 9 mai 2026", paper.FieldTitle, "?", false},
		{"somebody completed it", "Wickmoor Learning Hub\n# Certificate of Completion\nOrla Fennimore has completed the self-paced online course \"Ash for the Nervous\" on 14 October 2025.", paper.FieldKind, "completion", true},
		{"a name in two lines of a narrow column", "Wickmoor Pottery School Ltd\n# INVOICE 26-57\nBill to: Orla Fennimore\nDescription   Places   Amount\nGlaze Walls and Kiln Building Safety: Notices and Awards   1   £420.00\nTotal payable   1   £420.00", paper.FieldTitle, "Glaze Walls and Kiln Building Safety: Notices and Awards", true},
	} {
		v := extract.Understand(pagesOf(tt.text), extract.Hints{})[0].Values[tt.field]
		if tt.want != "?" && v.Text != tt.want || v.Certain != tt.certain {
			t.Errorf("%s: the %s is %q, certain %v; want %q, %v", tt.name, tt.field, v.Text, v.Certain, tt.want, tt.certain)
		}
	}
}

// TestWordsOfForms: what a form asks of the one who fills it in says nothing of what was done.
func TestWordsOfForms(t *testing.T) {
	kind := askedFor(paper.FieldKind)
	checkAsked(t, []asked{
		kind("to be completed in block capitals", "Wickmoor Pottery Trust\n# Record of attendance at a glaze day\nTo be completed in block capitals\nName   Orla Fennimore\nTitle of glaze day   Ash for the Nervous\nDate of attendance   14 October 2025\nArrived 09:15   Left 16:45", "attendance"),
		kind("somebody completed it", "Wickmoor Learning Hub\n# Certificate of Completion\nOrla Fennimore has completed the self-paced online course \"Ash for the Nervous\" on 14 October 2025.", "completion"),
	})
}
