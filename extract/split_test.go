package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// pagesOf sets each text on a page of its own.
func pagesOf(texts ...string) page.Document {
	doc := page.Document{Type: "pdf"}
	for i, text := range texts {
		pg := invented{lines: strings.Split(text, "\n")}.asPage().Pages[0]
		pg.Number = i + 1
		doc.Pages = append(doc.Pages, pg)
	}
	return doc
}

const (
	forDunn = "Quillmere Institute of Metrology\n# Certificate of Attendance\nThis is to certify that\n# Corina Dunnrigg\nattended the seminar\n# Thread Gauges for Reviewers\non 3 March 2026.\nIssued on 5 March 2026"
	forAsh  = "Ferrygate School of Surveying\n# Attendance confirmation\nName of participant:   Tamora Ashbeck\nEvent title:   Lease Schedules\nHeld on:   9 April 2026\nIssued:   12 April 2026"
	forPell = "Ferrygate School of Surveying\n# Statement of Completion\nThis is to certify that\n# Winton Pellgate\ncompleted the online course\n# Boiler Logs\non 2 May 2026."
	bill    = "Copper Falls Learning Trust\n# INVOICE\nBill to:   Davard Oakstead\nInvoice date:   20 June 2026\nCourse fee Pump Seals   £300.00\nTotal   £300.00"
	dunnDue = "Quillmere Institute of Metrology\n# INVOICE\nBill to:   Corina Dunnrigg\nInvoice date:   20 January 2026\nSeminar fee   £120.00\nTotal   £120.00"
)

// TestPapersOfOneFile: each person's certificate is a paper of its own, and what is
// stapled behind one does not speak for it.
func TestPapersOfOneFile(t *testing.T) {
	tests := []struct {
		name, why string
		texts     []string
		ends      []int // last page of each paper
		who       []string
	}{
		{"three certificates", "heading and person change", []string{forDunn, forAsh, forPell}, []int{1, 2, 3}, []string{"Corina Dunnrigg", "Tamora Ashbeck", "Winton Pellgate"}},
		{"invoice of another person", "it is about somebody else", []string{forDunn, bill}, []int{1, 2}, []string{"Corina Dunnrigg", "Davard Oakstead"}},
		{"own invoice behind", "it goes with the certificate", []string{forDunn, dunnDue}, []int{2}, []string{"Corina Dunnrigg"}},
		{"programme behind", "it names nobody and says nothing of anybody", []string{forDunn, "# Programme\n09:00 Welcome\n10:00 Thread gauges\n12:00 Lunch"}, []int{2}, []string{"Corina Dunnrigg"}},
	}
	for _, tt := range tests {
		got := extract.Understand(pagesOf(tt.texts...), extract.Hints{})
		if len(got) != len(tt.ends) {
			t.Errorf("%s: %d papers, want %d: %s", tt.name, len(got), len(tt.ends), tt.why)
			continue
		}
		for i, r := range got {
			if r.To != tt.ends[i] || r.Values[paper.FieldAttendee].Text != tt.who[i] {
				t.Errorf("%s: paper %d ends on page %d and is about %q, want page %d and %q: %s", tt.name, i+1, r.To, r.Values[paper.FieldAttendee].Text, tt.ends[i], tt.who[i], tt.why)
			}
		}
	}
	r := extract.Understand(pagesOf(forDunn, dunnDue), extract.Hints{})[0]
	if issue, title := r.Values[paper.FieldIssue].Text, r.Values[paper.FieldTitle].Text; issue != "2026-03-05" || title != "Thread Gauges for Reviewers" {
		t.Errorf("with its invoice behind: issued %s, title %q; want the certificate's own", issue, title)
	}
}
