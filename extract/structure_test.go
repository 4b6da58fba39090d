package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestLabelsWhereverTheyStand: a value belongs to its label beside it, beneath it, above it,
// in a box with a letter, behind a row of dots, or in a row of headings.
func TestLabelsWhereverTheyStand(t *testing.T) {
	want := map[paper.Field]string{paper.FieldAttendee: "Ivor Pennyfeather", paper.FieldTitle: "Slinging Signals", paper.FieldEnd: "2026-07-01", paper.FieldDuration: "240", paper.FieldProvider: "Marrowgate Safety Centre"}
	const head = "# Certificate of Attendance\n\n"
	tests := []struct{ name, text string }{
		{"in the line", "Participant: Ivor Pennyfeather\nCourse: Slinging Signals\nDate of course: 1 July 2026\nContact hours: 4\nProvider: Marrowgate Safety Centre"},
		{"beside", "Participant   Ivor Pennyfeather\nCourse title   Slinging Signals\nDate of course   1 July 2026\nContact hours   4\nProvider   Marrowgate Safety Centre"},
		{"two pairs to a row", "Participant   Ivor Pennyfeather   Date of course   1 July 2026\nCourse title   Slinging Signals   Contact hours   4\nProvider   Marrowgate Safety Centre"},
		{"beneath", "Participant\n# Ivor Pennyfeather\n\nCourse title\n# Slinging Signals\n\nDate of course\n# 1 July 2026\n\nContact hours\n# 4\n\nProvider\n# Marrowgate Safety Centre"},
		{"boxes", "A. Participant\n# Ivor Pennyfeather\n\nB. Course title\n# Slinging Signals\n\nC. Date of course\n# 1 July 2026\n\nD. Contact hours\n# 4\n\nE. Course provider\n# Marrowgate Safety Centre"},
		{"dots", "Participant ............ Ivor Pennyfeather\nCourse title ........... Slinging Signals\nDate of course ......... 1 July 2026\nContact hours .......... 4\nProvider ............... Marrowgate Safety Centre"},
		{"headings over one row", "Participant   Course title   Date\nIvor Pennyfeather   Slinging Signals   1 July 2026\n\nContact hours: 4\nProvider: Marrowgate Safety Centre"},
	}
	for _, tt := range tests {
		forms := map[string]paper.Reading{}
		if tt.name != "dots" {
			forms["page"] = extract.Understand(invented{lines: strings.Split(head+tt.text, "\n")}.asPage(), extract.Hints{})[0]
		}
		if tt.name != "beneath" && tt.name != "boxes" {
			forms["text"] = extract.Understand(invented{lines: strings.Split(head+tt.text, "\n")}.asText(), extract.Hints{})[0]
		}
		for form, r := range forms {
			for f, v := range want {
				if got := r.Values[f]; got.Text != v {
					t.Errorf("%s, as %s: %s is %q, want %q", tt.name, form, f, got.Text, v)
				}
			}
		}
	}
}

// TestListsOfSessions: without a stated total the sessions add up, each less what was not
// attended; the days are the first and the last of the list; a sum that is printed has to
// agree, or it is asked about.
func TestListsOfSessions(t *testing.T) {
	const head = "Quillmere Institute of Metrology\n# Certificate of Attendance\nParticipant: Corina Dunnrigg\nCourse title: Thread Gauges\n\n"
	tests := []struct{ name, list, start, end, minutes, asked string }{
		{"hours", "Session   Date   Hours\nTypes of thread   3 March 2026   2\nRing gauges   10 March 2026   2.5\nWear   17 March 2026   1.5", "2026-03-03", "2026-03-17", "360", ""},
		{"hours and their sum", "Session   Date   Hours\nTypes of thread   3 March 2026   2\nRing gauges   10 March 2026   2.5\nWear   17 March 2026   1.5\nTotal      6", "2026-03-03", "2026-03-17", "360", ""},
		{"clock times", "Date   Time   Subject\n3 March 2026   18:00-20:00   Types of thread\n10 March 2026   18:00-20:30   Ring gauges\n17 March 2026   18:00-19:30   Wear", "2026-03-03", "2026-03-17", "360", ""},
		{"another total", "Session   Date   Hours\nTypes of thread   3 March 2026   2\nRing gauges   10 March 2026   2.5\nWear   17 March 2026   1.5\n\nTotal contact time: 7 hours", "2026-03-03", "2026-03-17", "420", "420 360"},
		{"one was missed", "Date   Hours   Attended\n3 March 2026   2   yes\n10 March 2026   2.5   no\n17 March 2026   1.5   yes", "2026-03-03", "2026-03-17", "210", ""},
	}
	for _, tt := range tests {
		for form, r := range map[string]paper.Reading{
			"page": extract.Understand(invented{lines: strings.Split(head+tt.list, "\n")}.asPage(), extract.Hints{})[0],
			"text": extract.Understand(invented{lines: strings.Split(head+tt.list, "\n")}.asText(), extract.Hints{})[0],
		} {
			asked := ""
			if _, open := r.Question(paper.FieldDuration); open {
				asked = shownDays(r, paper.FieldDuration)
			}
			if s, e, m := r.Values[paper.FieldStart].Text, r.Values[paper.FieldEnd].Text, r.Values[paper.FieldDuration].Text; s != tt.start || e != tt.end || m != tt.minutes || asked != tt.asked || r.Kind() != paper.Attendance {
				t.Errorf("%s, as %s: %s, %s to %s, %s minutes, asked %q; want %s to %s, %s, %q", tt.name, form, r.Kind(), s, e, m, asked, tt.start, tt.end, tt.minutes, tt.asked)
			}
		}
	}
}
