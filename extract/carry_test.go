package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A message that only brings a document asks nothing: it is certain that the document
// is what counts, also when the message has no text at all.
func TestMessageThatCarriesADocumentIsCertainlyNone(t *testing.T) {
	part := page.Part{Name: "certificate.pdf", Type: "pdf", Data: []byte("%PDF-")}
	for _, body := range [][]string{{"Dear all,", "please find your certificate attached.", "Kind regards"}, nil} {
		doc := page.Document{Type: "eml", Mail: &page.Mail{Subject: "Your certificate"}, Pages: []page.Page{{Number: 1, Lines: body}}, Parts: []page.Part{part}}
		got := extract.Understand(doc, extract.Hints{})
		if len(got) != 1 || got[0].Outcome != paper.OutcomeNotEvidence || !got[0].Clear() || !got[0].Values[paper.FieldKind].Certain {
			t.Errorf("%q: got %+v", body, got)
		}
	}
}

// A reading is an event that is kept for ever, so what it quotes has an end.
func TestQuotesHaveAnEnd(t *testing.T) {
	line := "Certificate of Attendance " + strings.Repeat("a", 1<<20)
	doc := page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: []string{line, "3 March 2026", line}}}}
	for _, r := range extract.Understand(doc, extract.Hints{}) {
		for f, v := range r.Values {
			if n := len(v.Text) + len(v.Place.Quote); n > 5000 {
				t.Errorf("%s: %d bytes", f, n)
			}
		}
		for _, q := range r.Questions {
			if len(q.Text) > 5000 {
				t.Errorf("question on %s: %d bytes", q.Field, len(q.Text))
			}
		}
	}
}

// Slanted letters stand apart: an article that lost its vowel is put back to its word.
func TestElidedArticleStandsWithItsWord(t *testing.T) {
	doc := page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: []string{
		"Attestation de présence", "", "Formation : Exercice d’ évacuation d’ une télécabine", "Date : 12 juin 2025"}}}}
	got := extract.Understand(doc, extract.Hints{})
	if title := got[0].Values[paper.FieldTitle].Text; title != "Exercice d’évacuation d’une télécabine" {
		t.Errorf("title %q", title)
	}
}
