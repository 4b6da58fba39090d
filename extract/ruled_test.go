package extract_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// ruledPage sets a heading over the rows of a ruled table whose columns end at edges; what has no room in its cell
// goes on in further lines, and cells with fewer lines than others stand level with their middle.
func ruledPage(heads []string, edges []int, rows [][]string, foot ...string) page.Document {
	const size, line = 1000, 1250
	p := page.Page{Number: 1, Width: 59500, Height: 84200}
	y := 6000
	alone := func(text string) {
		p.Words = append(p.Words, inked(text, edges[0], y, size, 450)...)
		y += 2200
	}
	for _, h := range heads {
		alone(h)
	}
	for _, row := range rows {
		cells, most := make([][]string, len(row)), 1
		for k, text := range row {
			room := (edges[k+1] - edges[k] - 600 + 280) / 450
			for _, w := range strings.Fields(text) {
				if n := len(cells[k]); n > 0 && utf8.RuneCountInString(cells[k][n-1])+1+utf8.RuneCountInString(w) <= room {
					cells[k][n-1] += " " + w
				} else {
					cells[k] = append(cells[k], w)
				}
			}
			most = max(most, len(cells[k]))
		}
		bottom := y + most*line + 500
		for k, lines := range cells {
			at := y + 250 + (most-len(lines))*line/2
			for _, text := range lines {
				p.Words = append(p.Words, inked(text, edges[k]+300, at, size, 450)...)
				at += line
			}
			for _, x := range [2]int{edges[k], edges[k+1]} {
				p.Rules = append(p.Rules, [4]int{x, y, x + 50, bottom})
			}
		}
		for _, at := range [2]int{y, bottom} {
			p.Rules = append(p.Rules, [4]int{edges[0], at, edges[len(edges)-1], at + 50})
		}
		y = bottom
	}
	y += 1500
	for _, f := range foot {
		alone(f)
	}
	return page.Document{Type: "pdf", Pages: []page.Page{p}}
}

// TestRuledCells: lines of one ruled cell belong together, and those of two do not, wherever they stand.
func TestRuledCells(t *testing.T) {
	wide := []int{6000, 17000, 36000}
	for _, c := range []struct {
		doc  page.Document
		want map[paper.Field]string
	}{
		{ruledPage([]string{"Ironbeck Guild of Crane Trainers", "Certificate of Attendance"}, wide, [][]string{
			{"Participant", "Harriet Dunmore"},
			{"Course", "Rigging Around Hydraulic Excavators"},
			{"Date", "Wednesday 4 March 2026, 09:00 to 12:00, break 10:15 to 10:30"},
			{"Place", "Slater’s Yard, Otterbourne Great Marsh"},
		}, "Issued: 9 March 2026"), map[paper.Field]string{
			paper.FieldTitle: "Rigging Around Hydraulic Excavators", paper.FieldAttendee: "Harriet Dunmore",
			paper.FieldStart: "2026-03-04", paper.FieldEnd: "2026-03-04", paper.FieldIssue: "2026-03-09", paper.FieldDuration: "165",
		}},
		{ruledPage([]string{"Kollegium der Orgelbauer Weserkamp", "Rechnung Nr. 2026-118", "Rechnungsdatum: 3. Mai 2026", "Frau Almut Reinsdorf"}, []int{6000, 24000, 31000, 39000, 47000}, [][]string{
			{"Bezeichnung", "Termin", "Menge", "Betrag"},
			{"Seminar Windladen abdichten mit Leder und Papier im Vergleich", "25. und 26.04.2026", "1", "240,00"},
			{"Gesamtbetrag EUR", "", "", "240,00"},
		}), map[paper.Field]string{
			paper.FieldTitle: "Seminar Windladen abdichten mit Leder und Papier im Vergleich",
			paper.FieldStart: "2026-04-25", paper.FieldEnd: "2026-04-26", paper.FieldIssue: "2026-05-03", paper.FieldTotal: "240.00 EUR",
		}},
		{ruledPage([]string{"Registre des maîtres verriers du Val d’Orlane", "Relevé de formation de Madame Capucine Haudry", "Relevé certifié conforme le 19 octobre 2026."}, []int{6000, 14000, 24000, 36000, 43000}, [][]string{
			{"Date", "Organisme", "Intitulé", "Durée"},
			{"14/01/2026", "Université populaire", "Soufflage amiable et cas pratiques du vitrail ancien", "7 h 00"},
			{"05/03/2026", "Orlane", "Servitudes de passage et règles du chantier voisin", "3 h 30"},
			{"01/10/2026", "La Chambre", "Responsabilité", "5 h 00"},
		}), map[paper.Field]string{
			paper.FieldStart: "2026-01-14", paper.FieldEnd: "2026-10-01", paper.FieldDuration: "930", paper.FieldAttendee: "Capucine Haudry",
		}},
	} {
		got := extract.Understand(c.doc, extract.Hints{})[0]
		for field, want := range c.want {
			if v := got.Values[field]; v.Text != want {
				t.Errorf("%s: %s is %q, want %q", got.Values[paper.FieldKind].Text, field, v.Text, want)
			}
		}
	}
}

// TestUnreadDay: a list on a picture in which recognition made no day of one row's figures has no certain days.
func TestUnreadDay(t *testing.T) {
	for _, c := range []struct {
		third   string
		certain bool
	}{{"23.09.2025", true}, {"23.09.20Z55", false}} {
		p := page.Page{Number: 1, Width: 59500, Height: 84200, Picture: true}
		y := 6000
		put := func(texts ...string) {
			for k, text := range texts {
				for _, w := range inked(text, 6000+k*12000, y, 1000, 450) {
					w.Confidence = 95
					p.Words = append(p.Words, w)
				}
			}
			y += 2000
		}
		put("Pflegeschule am Lindenwall")
		put("Teilnahmebescheinigung")
		put("Rosalind Ketteler hat an der Fortbildung Wundmanagement teilgenommen.")
		put("Tag", "Uhrzeit", "anwesend")
		put("09.09.2025", "08.30-12.00", "ja")
		put("10.09.2025", "08.30-12.00", "ja")
		put(c.third, "08.30-12.00", "ja")
		got := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
		if v := got.Values[paper.FieldEnd]; v.Certain != c.certain {
			t.Errorf("%s: the end is %q, certain %v", c.third, v.Text, v.Certain)
		}
	}
}

// TestColumnOfAPicture: what stands in a narrow column beside the text of a picture is not read into its lines.
func TestColumnOfAPicture(t *testing.T) {
	p := page.Page{Number: 1, Width: 84200, Height: 59500, Picture: true}
	put := func(text string, x, y, size int) {
		for _, w := range inked(text, x, y, size, size*45/100) {
			w.Confidence = 95
			p.Words = append(p.Words, w)
		}
	}
	put("Teilnahmebescheinigung", 26000, 6000, 2200)
	for k, text := range []string{"Pflegeschule am Lindenwall", "Lindenwall 3", "01450 Ostermoor", "Telefon 0990 41770", "HRB 91450", "Steuer 000 531", "Konto 9904", "Zimmer 12"} {
		put(text, 4000, 10350+k*1430, 900)
	}
	for k, text := range []string{"Frau Rosalind Ketteler hat am Dienstag, den 9. September 2025 in Ostermoor an der", "Fortbildung Wundmanagement beim diabetischen Fuß mit einem Umfang von acht Stunden", "zu je sechzig Minuten teilgenommen. Die Veranstaltung fand im Hörsaal des Hauses am", "Lindenwall statt und schloss mit einem Gespräch, an dem die Teilnehmenden sich rege", "beteiligt haben. Diese Bescheinigung wird ohne Unterschrift nicht anerkannt von uns."} {
		put(text, 26000, 10000+k*1900, 1100)
	}
	got := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
	for field, want := range map[paper.Field]string{paper.FieldTitle: "Wundmanagement beim diabetischen Fuß", paper.FieldAttendee: "Rosalind Ketteler", paper.FieldDuration: "480"} {
		if v := got.Values[field]; v.Text != want {
			t.Errorf("%s is %q, want %q", field, v.Text, want)
		}
	}
}
