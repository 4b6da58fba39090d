package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestMailSigns: who is greeted in a message that was sent to them is whom it is about, unless its
// text says it of another; who sent it and signs with it made it.
func TestMailSigns(t *testing.T) {
	tests := []struct {
		why, from, to string
		lines         []string
		who, by       string
		whoSure       bool
		bySure        bool
	}{
		{"the surname is greeted", "Kiln Lane Workshops <desk@kilnlane.invalid>", "Perpetua Lindquay <p@post.invalid>",
			[]string{"Dear Ms Lindquay,", "we confirm that you attended the workshop Kiln Vents on 14 May 2026.", "Kind regards", "Kiln Lane Workshops"}, "Perpetua Lindquay", "Kiln Lane Workshops", true, true},
		{"the first name is greeted, with a comma before it, in Spanish", "Talleres de Cerámica Almarza <hola@almarza.invalid>", "Itziar Larralde <i@correo.invalid>",
			[]string{"Hola, Itziar:", "Terminaste el curso en línea «Esmaltes» el 14 de mayo de 2026.", "Un saludo,", "Talleres de Cerámica Almarza"}, "Itziar Larralde", "Talleres de Cerámica Almarza", true, false},
		{"the name of the sender has an office before it, in Dutch", "Cursusadministratie Ovenhuis Zuidwal <info@zuidwal.invalid>", "Fenna Oldersma <f@post.invalid>",
			[]string{"Geachte mevrouw Oldersma,", "u hebt op 14 mei 2026 deelgenomen aan de cursus Glazuren.", "Met vriendelijke groet,", "Bram Tollebeek", "Ovenhuis Zuidwal"}, "Fenna Oldersma", "Ovenhuis Zuidwal", true, false},
		{"the text is about another than the one it was sent to", "Kiln Lane Workshops <desk@kilnlane.invalid>", "Orla Fennimore <o@firm.invalid>",
			[]string{"Dear Ms Fennimore,", "this is to certify that Perpetua Lindquay attended the workshop Kiln Vents on 14 May 2026.", "Kind regards", "Kiln Lane Workshops"}, "Perpetua Lindquay", "Kiln Lane Workshops", false, true},
	}
	for _, tt := range tests {
		doc := page.Document{Type: "eml", Mail: &page.Mail{From: tt.from, To: tt.to, Subject: "Your attendance", Date: "2026-05-19T10:00:00+02:00"}, Pages: []page.Page{{Number: 1, Lines: tt.lines}}}
		r := extract.Understand(doc, extract.Hints{})[0]
		who, by := r.Values[paper.FieldAttendee], r.Values[paper.FieldProvider]
		if who.Text != tt.who || by.Text != tt.by {
			t.Errorf("%s: about %q by %q, want %q by %q", tt.why, who.Text, by.Text, tt.who, tt.by)
		}
		if tt.whoSure && !who.Certain || tt.bySure && !by.Certain {
			t.Errorf("%s: certain %v, %v; want %v, %v", tt.why, who.Certain, by.Certain, tt.whoSure, tt.bySure)
		}
	}
}

// TestPersonWhoSends: somebody who signs with the name from which the message came is no body.
func TestPersonWhoSends(t *testing.T) {
	doc := page.Document{Type: "eml", Mail: &page.Mail{From: "Bram Tollebeek <b@tollebeek.invalid>", To: "Fenna Oldersma <f@post.invalid>", Subject: "Your talk", Date: "2026-05-19T10:00:00+02:00"},
		Pages: []page.Page{{Number: 1, Lines: []string{"Dear Ms Oldersma,", "thank you for your talk Woad on 14 May 2026.", "Kind regards", "Bram Tollebeek"}}}}
	if v := extract.Understand(doc, extract.Hints{})[0].Values[paper.FieldProvider]; v.Text == "Bram Tollebeek" && v.Certain {
		t.Errorf("held by %q for certain", v.Text)
	}
}
