package extract_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// A sheet is a page that is drawn for one test.
type drawnSheet struct {
	*fpdf.Fpdf
	y float64
}

// line sets a line at x, and goes one line down.
func (s *drawnSheet) line(x, size float64, text string) {
	s.SetFont("Helvetica", "", size)
	s.Text(x, s.y, text)
	s.y += size * 1.4
}

// spaced sets a line whose letters stand apart.
func (s *drawnSheet) spaced(x, size, gap float64, text string) {
	s.SetFont("Helvetica", "", size)
	for _, c := range text {
		s.Text(x, s.y, string(c))
		x += s.GetStringWidth(string(c)) + gap
	}
	s.y += size * 2
}

// columns sets two columns side by side, line by line.
func (s *drawnSheet) columns(left, right string) {
	a, b := strings.Split(left, "|"), strings.Split(right, "|")
	for i := range max(len(a), len(b)) {
		y := s.y
		if i < len(b) {
			s.line(320, 11, b[i])
		}
		s.y = y
		if i < len(a) {
			s.line(60, 11, a[i])
		}
		s.y = y + 15
	}
}

// TestLinesOfAPage draws pages and reads the text that comes of them: letters that stand
// apart are words, a word that a line broke is one, and of two columns of running text
// each is read to its end.
func TestLinesOfAPage(t *testing.T) {
	tests := []struct {
		name string
		draw func(s *drawnSheet)
		says []string // passages, or parts of them, in this order
		want map[paper.Field]string
	}{
		{"letters apart", func(s *drawnSheet) {
			s.spaced(60, 20, 6, "CERTIFICATE OF ATTENDANCE")
			s.line(60, 11, "This is to certify that")
			s.spaced(60, 16, 5, "Ivor Pennyfeather")
			s.line(60, 11, "attended the course")
			s.spaced(60, 16, 6, "SLINGING SIGNALS")
			s.line(60, 11, "on 1 July 2026.")
		}, []string{"CERTIFICATE OF ATTENDANCE", "Ivor Pennyfeather", "SLINGING SIGNALS"},
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldAttendee: "Ivor Pennyfeather", paper.FieldTitle: "SLINGING SIGNALS"}},
		{"letters apart by spaces", func(s *drawnSheet) {
			s.line(60, 18, "C E R T I F I C A T E   O F   A T T E N D A N C E")
			s.line(60, 11, "Participant: Ivor Pennyfeather")
			s.line(60, 11, "Course: Slinging Signals")
			s.line(60, 11, "Held on: 1 July 2026")
		}, []string{"CERTIFICATE OF ATTENDANCE", "Participant: Ivor"}, map[paper.Field]string{paper.FieldKind: "attendance"}},
		{"letters apart by one space, words by two", func(s *drawnSheet) {
			s.line(60, 18, "C E R T I F I C A T E  O F  A T T E N D A N C E")
			s.line(60, 11, "Participant: Ivor Pennyfeather")
			s.line(60, 14, "Course: S L I N G I N G  S I G N A L S")
			s.line(60, 11, "Held on: 1 July 2026")
		}, []string{"CERTIFICATE OF ATTENDANCE", "Participant: Ivor", "SLINGING SIGNALS"}, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: "SLINGING SIGNALS"}},
		{"broken words", func(s *drawnSheet) {
			s.line(60, 18, "Certificate of Attendance")
			for _, l := range []string{"This is to certify that Ivor Pennyfeather took part in the course \"Signal-", "ling with Self-made Slings and Commu-", "nication on Site\" on 1 July 2026. It was held by Marrowgate Safety Cen-", "tre and took 4 hours."} {
				s.line(60, 11, l)
			}
		}, []string{"Signalling with Self-made Slings and Communication on Site"},
			map[paper.Field]string{paper.FieldTitle: "Signalling with Self-made Slings and Communication on Site", paper.FieldProvider: "Marrowgate Safety Centre", paper.FieldDuration: "240"}},
		{"two columns", func(s *drawnSheet) {
			s.line(60, 18, "Certificate of Attendance")
			s.columns("This is to certify that|Ivor Pennyfeather took part in|the course Slinging Signals at|our hall on 1 July 2026. It was|held by Marrowgate Safety Centre|and took 4 hours. The certificate|was handed over at the door.",
				"The centre was founded on|9 May 1987 and has trained|more than 600 people since. It|has a hall with two cranes and|owns a library of books on|ropes, which is open to all|who are members of it.")
		}, []string{"Ivor Pennyfeather took part in", "held by Marrowgate Safety Centre", "handed over at the door", "was founded on", "9 May 1987", "open to all"},
			map[paper.Field]string{paper.FieldAttendee: "Ivor Pennyfeather", paper.FieldStart: "2026-07-01", paper.FieldEnd: "2026-07-01", paper.FieldDuration: "240"}},
		{"a form is no columns of text", func(s *drawnSheet) {
			s.line(60, 18, "Certificate of Attendance")
			s.columns("Name|Course|Held on|Contact time|Issued", "Ivor Pennyfeather|Slinging Signals|1 July 2026|4 hours|3 July 2026")
		}, []string{"Name", "Ivor Pennyfeather", "Course", "Slinging Signals"},
			map[paper.Field]string{paper.FieldAttendee: "Ivor Pennyfeather", paper.FieldTitle: "Slinging Signals", paper.FieldIssue: "2026-07-03"}},
	}
	r := newKept(t)
	for _, tt := range tests {
		s := &drawnSheet{fpdf.New("P", "pt", "A4", ""), 80}
		s.AddPage()
		tt.draw(s)
		var b bytes.Buffer
		if err := s.Output(&b); err != nil {
			t.Fatal(err)
		}
		papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(b.Bytes()), extract.Hints{Trace: true})
		if err != nil || len(papers) != 1 {
			t.Fatalf("%s: %d papers, %v", tt.name, len(papers), err)
		}
		var text strings.Builder
		for _, p := range papers[0].Trace.Text {
			text.WriteString(p.Text + "\n")
		}
		rest := text.String()
		for _, want := range tt.says {
			_, after, ok := strings.Cut(rest, want)
			if !ok {
				t.Errorf("%s: %q is not there, or not in that order, in\n%s", tt.name, want, text.String())
				break
			}
			rest = after
		}
		for f, want := range tt.want {
			if v := papers[0].Reading.Values[f]; v.Text != want {
				t.Errorf("%s: %s is %q, want %q", tt.name, f, v.Text, want)
			}
		}
	}
}
