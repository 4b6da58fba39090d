package extract_test

import (
	"fmt"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestDaysOverSessions: each day of a programme stands over its sessions, of which breaks and what the
// person missed do not count; the day of issue may be one of them.
func TestDaysOverSessions(t *testing.T) {
	for _, c := range []struct{ why, text, start, end, minutes string }{
		{"breaks between the sessions", "Wendle Forum\n# Certificate of Attendance\nOrla Fennimore was present throughout the course Kiln Vents, held as follows.\nThursday, 5 March 2026\n9:00 – 10:30   Draughts\n10:30 – 10:45   Coffee\n10:45 – 12:15   Dampers\nFriday, 6 March 2026\n9:00 – 11:00   Site visit\nIssued on 6 March 2026",
			"2026-03-05", "2026-03-06", "300"},
		{"in German", "Brennhof Akademie\n# Teilnahmebescheinigung\nFrau Ulrike Sandnagel hat am Seminar \"Ofenbau\" teilgenommen.\n3. März 2026\n9.00–12.00 Uhr   Züge\n12.00–13.00 Uhr   Mittagspause\n13.00–15.00 Uhr   Klappen\n10. März 2026\n9.00–12.00 Uhr   Übung\nRingau, 12. März 2026",
			"2026-03-03", "2026-03-10", "480"},
		{"a session that was missed", "Ovenhuis Ostmeer\n# Bewijs van deelname\nWieke Aldershof nam deel aan de lessenreeks Veilig stoken.\n3 maart 2026\n9.00–10.30 uur   Trekken   aanwezig\n11.00–12.00 uur   Kleppen   afwezig\n10 maart 2026\n9.00–10.30 uur   Oefening   aanwezig\nUitgereikt op 12 maart 2026",
			"2026-03-03", "2026-03-10", "180"},
		{"what is said at tea is no break", "Wendle Forum\n# Certificate of Attendance\nOrla Fennimore was present throughout the course Kiln Vents.\n5 March 2026\n9:00 – 10:30   Draughts\n10:30 – 11:00   Tea session\n6 March 2026\n9:00 – 11:00   Site visit\nIssued on 9 March 2026",
			"2026-03-05", "2026-03-06", "240"},
		{"hours that stand with no day", "Wendle Forum\n# Certificate of Attendance\nOrla Fennimore attended the seminar Kiln Vents on 5 March 2026.\nThe seminar ran from 9:00 to 12:30.\nIssued by the office on\n6 March 2026",
			"2026-03-05", "2026-03-05", "210"},
	} {
		r := extract.Understand(pagesOf(c.text), extract.Hints{})[0]
		for f, want := range map[paper.Field]string{paper.FieldStart: c.start, paper.FieldEnd: c.end, paper.FieldDuration: c.minutes} {
			if got := r.Values[f]; got.Text != want {
				t.Errorf("%s: %s is %q, certain %v; want %q", c.why, f, got.Text, got.Certain, want)
			}
		}
	}
}

// TestDayAtTheHead: a place and a day over a paper is that of the paper, also where another day
// is called that of issue, which is asked about. Where nothing else is said of what took place,
// it is the day of that.
func TestDayAtTheHead(t *testing.T) {
	const lines = "Keramikschule Ostmark\nFeldkirch, 10. März 2026\n# Teilnahmebescheinigung\nGreta Lindqvist\nhat am Kurs\n# Glasuren ohne Blei\n%steilgenommen.\nAusgestellt am: 12. März 2026"
	r := extract.Understand(pagesOf(fmt.Sprintf(lines, "am 3. März 2026 ")), extract.Hints{})[0]
	if q, _ := r.Question(paper.FieldIssue); len(q.Candidates) != 2 || r.Values[paper.FieldEnd].Text != "2026-03-03" {
		t.Errorf("it ended on %s, and of the day of issue the question is %+v; want 3 March, and both days", r.Values[paper.FieldEnd].Text, q)
	}
	r = extract.Understand(pagesOf(fmt.Sprintf(lines, "")), extract.Hints{})[0]
	if r.Values[paper.FieldIssue].Text != "2026-03-12" {
		t.Errorf("issued on %s, want 12 March, as it says", r.Values[paper.FieldIssue].Text)
	}
}
