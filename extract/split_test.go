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

const (
	inGerman = "Quillmere Institute of Metrology\n# Teilnahmebescheinigung\nHiermit wird bescheinigt, dass\n# Corina Dunnrigg\nam Seminar\n# Gewindelehren für Prüfer\nam 3. März 2026 teilgenommen hat.\nAusgestellt am 5. März 2026"
	modules  = "Quillmere Institute of Metrology\n# Record of modules\nName:   Corina Dunnrigg\nModule 1 Ring gauges   3 hours\nModule 2 Plug gauges   3 hours"
	listed   = "Quillmere Registry\n# Training record\nName:   Corina Dunnrigg\n3 March 2026   Ring Gauges   2 points\n9 April 2026   Plug Gauges   3 points\nPage 1 of 2"
	accepted = "Journal of Small Gauges\n5 June 2026\nDear Ms Corina Dunnrigg,\nyour paper \"Wear of Ring Gauges\" was accepted for publication on 2 June 2026 and will stand on\npages 2 to 9 of volume 12.\nYours sincerely\nTamora Ashbeck, editor"
)

// sameForm is the certificate for Dunn filled in for another event.
func sameForm(title, day string) string {
	return strings.NewReplacer("Thread Gauges for Reviewers", title, "3 March 2026", day).Replace(forDunn)
}

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
		{"invoice of another body for another thing", "nothing joins it to the certificate", []string{forDunn, strings.Replace(bill, "Davard Oakstead", "Corina Dunnrigg", 1)}, []int{1, 2}, []string{"Corina Dunnrigg", "Corina Dunnrigg"}},
		{"three of one person on one form", "each tells of another event", []string{forDunn, sameForm("Ring Gauges", "4 March 2026"), sameForm("Plug Gauges", "9 April 2026")}, []int{1, 2, 3}, []string{"Corina Dunnrigg", "Corina Dunnrigg", "Corina Dunnrigg"}},
		{"the same in another language", "it is one certificate", []string{forDunn, inGerman}, []int{2}, []string{"Corina Dunnrigg"}},
		{"list of modules behind", "it is headed like the certificate and says less", []string{forDunn, modules}, []int{2}, []string{"Corina Dunnrigg"}},
		{"second page of a list", "it calls itself one", []string{listed, strings.Replace(listed, "1 of 2", "2 of 2", 1)}, []int{2}, []string{"Corina Dunnrigg"}},
		{"pages of an article", "they are not those of the file", []string{forDunn, accepted}, []int{1, 2}, []string{"Corina Dunnrigg", "Corina Dunnrigg"}},
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

// TestWhatIsStapledBehind: the figures of a programme do not pass for the certificate's;
// what only another page says, which names nobody, is asked about.
func TestWhatIsStapledBehind(t *testing.T) {
	const programme = "# Programme\nSeminar week, 14 to 16 April 2026\n09:00 - 17:00 Thread gauges\nTotal 24 hours\n2.4 CEU\nIssued 1 January 2026"
	const contents = "# What was covered\nGauges and their wear\nTotal 24 hours\nGrouped by thread"
	tests := []struct {
		name, behind, minutes, why string
		asked                      bool
	}{
		{"programme", programme, "", "it is the event's, not the person's", false},
		{"programme in German", strings.Replace(programme, "Programme", "Ablauf des Seminars", 1), "", "likewise", false},
		{"contents", contents, "1440", "it may be the certificate's overleaf", true},
		{"second page", "Page 2 of 2\nContact time: 6 hours", "360", "it is the certificate's own", false},
		{"letter that goes on", "and the contact time was 6 hours in all, as Corina Dunnrigg wished.", "360", "it is the certificate's own", false},
	}
	for _, tt := range tests {
		got := extract.Understand(pagesOf(forDunn, tt.behind), extract.Hints{})
		r := got[0]
		v := r.Values[paper.FieldDuration]
		_, asked := r.Question(paper.FieldDuration)
		if len(got) != 1 || r.To != 2 || v.Text != tt.minutes || asked != tt.asked || v.Certain == tt.asked && tt.minutes != "" {
			t.Errorf("%s: %d papers, pages to %d, %q minutes, certain %v, asked %v; want %q, asked %v: %s", tt.name, len(got), r.To, v.Text, v.Certain, asked, tt.minutes, tt.asked, tt.why)
		}
		for f, want := range map[paper.Field]string{paper.FieldStart: "2026-03-03", paper.FieldEnd: "2026-03-03", paper.FieldIssue: "2026-03-05", paper.FieldCredits: ""} {
			if v := r.Values[f]; v.Text != want || want != "" && !v.Certain {
				t.Errorf("%s: %s is %q, certain %v; want the certificate's own %q", tt.name, f, v.Text, v.Certain, want)
			}
		}
	}
}

// TestDoubtfulCutsAreAsked: where a page may begin a paper or not, the person is asked.
func TestDoubtfulCutsAreAsked(t *testing.T) {
	tests := []struct {
		name   string
		texts  []string
		papers int
		ask    string // of the last paper; "" if it is clear where it is cut
	}{
		{"no heading", []string{forDunn, "Corina Dunnrigg attended the seminar Ring Gauges on 4 March 2026."}, 2, "Is this a paper of its own? Page 2 has no day of issue and may belong"},
		{"heading without a name", []string{forDunn, "Certificate\nRing Gauges, 4 March 2026\nQuillmere"}, 1, "Is this one paper? Page 2 has a heading of its own"},
		{"somebody else", []string{forDunn, "Notes\nTamora Ashbeck was also there, on 4 March 2026, 6 hours"}, 1, "Is this one paper? Page 2 names somebody else, Tamora Ashbeck"},
		{"own heading and name", []string{forDunn, forAsh}, 2, ""},
		{"invoice behind", []string{forDunn, dunnDue}, 1, ""},
	}
	for _, tt := range tests {
		got := extract.Understand(pagesOf(tt.texts...), extract.Hints{})
		r := got[len(got)-1]
		q, asked := r.Question(paper.FieldKind)
		if len(got) != tt.papers || asked != (tt.ask != "") || !strings.HasPrefix(q.Text, tt.ask) || r.Values[paper.FieldKind].Certain == asked {
			t.Errorf("%s: %d papers, %q; want %d, %q", tt.name, len(got), q.Text, tt.papers, tt.ask)
		}
		one := extract.Understand(pagesOf(tt.texts...), extract.Hints{Pages: [2]int{r.From, r.To}})[0]
		if q, _ := one.Question(paper.FieldKind); strings.HasPrefix(q.Text, "Is this ") {
			t.Errorf("%s: once it was cut or joined by a person it is asked again: %q", tt.name, q.Text)
		}
	}
}
