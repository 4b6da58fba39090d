package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestUnfamiliarWords: what papers in unfamiliar words have shown. A value "-" is one that the reading must not have; one
// that ends with "?" must not be certain.
func TestUnfamiliarWords(t *testing.T) {
	tests := []struct {
		why   string
		lines []string
		field paper.Field
		want  string
	}{
		{"points that keep a credential alive", []string{"We are pleased to tell you that you passed the examination held on May 16, 2026.",
			"The certification expires on May 31, 2029 and may be renewed with 30 CEUs."}, paper.FieldCredits, "-"},
		{"points on condition of which it is valid", []string{"You PASSED the examination Lubrication Analyst, Level II on February 20, 2026.",
			"Your number is LA2-04417. It is valid through February 28, 2029, provided that you report 30 recertification points."}, paper.FieldCredits, "-"},
		{"who was taught", []string{"Dear Miss Fennimore,", "Our day book has you down for Retaining Walls, from Monday 6 July to Friday 10 July 2026.",
			"Of the thirty hours taught you therefore had twenty-eight. The mason who taught you sends his regards."}, paper.FieldKind, "attendance?"},
		{"a certificate of attendance for who taught", []string{"SLATEFORD CENTRE FOR JOINERY", "ATTENDANCE CERTIFICATE (TUTORS)",
			"This confirms that Mr Hamish Orrell led both days of our workshop", "\"Sash Windows\"", "Saturday 9 May 2026"}, paper.FieldKind, "instruction"},
		{"money that is not paid back", []string{"LARCH COUNTY EXTENSION OFFICE", "03/17/2026  2:41 PM", "Customer: Nettie Brackwater", "PRESSURE CANNING SAFELY   45.00",
			"PROCESSING FEE   1.35", "TOTAL   $46.35", "NO REFUNDS WITHIN 7 DAYS OF CLASS", "Larch Creek, MT 59000"}, paper.FieldTotal, "46.35 USD"},
		{"what is left to pay today", []string{"VAT RECEIPT No. 841", "Hedge Laying   £220.00", "Tool hire   £62.00", "Total   £282.00", "Less deposit received   −£50.00", "Paid today   £232.00"}, paper.FieldTotal, "282.00 GBP"},
		{"until when one has access", []string{"Attestation de fin de parcours", "Apprenant : Bastien Corvoisier", "Parcours en ligne : Les allergènes",
			"Dernière activité validée : 27 février 2026", "Accès maintenu jusqu’au : 27 février 2027"}, paper.FieldEnd, "2026-02-27"},
		{"the length of the course is not that of the person", []string{"Presentiebewijs", "Duur: 5 uur", "Datum: zaterdag 18 april 2026",
			"Ondergetekende bevestigt dat Evelien Drijfholt aanwezig was. De bijeenkomst omvatte in totaal 6 uur onderwijs."}, paper.FieldDuration, "?"},
		{"both halves", []string{"Percival Oduya taught both halves of the unit Colour Theory on October 6, 2026.", "Each half ran from 1:00 PM to 2:40 PM without a break."}, paper.FieldDuration, "200?"},
		{"pauses with their names in a column", []string{"Record of attendance", "Delegate: Philippa Garstang", "Short course: Lameness in the Dairy Herd",
			"Day\tFrom\tUntil\tNot counted", "Friday 12 June 2026\t10.00\t17.00\tlunch 12.30–13.15, tea 15.00–15.20", "Saturday 13 June 2026\t09.00\t13.00\tcoffee 10.45–11.05"}, paper.FieldDuration, "575"},
		{"the day of a talk while it is open whether somebody gave it", []string{"Certificate of Participation", "Sixth Peatland Congress · Kirkrannoch, 3–5 September 2026", "Mr Torquil Ainsley gave the paper",
			"Counting Sphagnum from the Air", "in Session 7 on Friday 4 September 2026, from 14:10 to 14:55.", "14 September 2026"}, paper.FieldStart, "2026-09-03?"},
		{"a heading behind a label", []string{"Forum Bauen Nordharz", "Online-Live-Seminar: Bescheinigung der Teilnahme", "Ole Burmeister war am Montag, 9. November 2026, im Online-Live-Seminar",
			"", "Rampen, Schwellen, Türbreiten", "", "von 18:00 Uhr bis 20:15 Uhr durchgehend zugeschaltet."}, paper.FieldTitle, "Rampen, Schwellen, Türbreiten"},
		{"what those get who listened", []string{"Certificate of Participation", "Mr Torquil Ainsley gave the paper \"Counting Sphagnum\" on Friday 4 September 2026.",
			"Delegates who stayed all three days receive a separate certificate for 16 CPD hours."}, paper.FieldCredits, "-"},
		{"for whom a copy was made", []string{"ASOCIACIÓN DE RESTAURADORES DEL CIERZO", "Acta n.º 63", "Reunión: Grupo de Trabajo de Policromía", "Fecha: martes 17 de febrero de 2026",
			"Asisten: Casilda Moncayo (preside), Rodrigo Urrea, Inés Gallur", "Se libra la presente copia a favor de D.ª Inés Gallur, que asistió a toda la reunión, en Villacierzo, a 20 de febrero de 2026."}, paper.FieldAttendee, "Inés Gallur"},
		{"when a copy was made", []string{"Feuille d’émargement", "Formation : Lecture de plans", "Dates : lundi 8 et mardi 9 juin 2026", "Stagiaires : Hélène Brassanges, Loup Cazeneuil",
			"Copie remise à Mme Hélène Brassanges pour valoir justificatif de présence, le 10 juin 2026."}, paper.FieldIssue, "2026-06-10"},
		{"two surnames with a form of address", []string{"Revista Ibérica de Cartografía Menor", "Zuerilla, 5 de marzo de 2026", "Estimada Sra. Garrigós Montull:",
			"Su manuscrito «Los caminos que el mapa olvidó» ha sido aceptado el 27 de febrero de 2026.", "Aparecerá firmado por Nuria Garrigós Montull en el número 52."}, paper.FieldAttendee, "Nuria Garrigós Montull"},
		{"a town behind a name", []string{"Gilde van Rietdekkers in Merland", "Verklaring van lidmaatschap",
			"Ondergetekende, secretaris van het gilde, verklaart dat de heer Harmannus Boelstra te Zuidhorn als gewoon lid staat ingeschreven van 1 juli 2025 tot en met 30 juni 2026."}, paper.FieldAttendee, "?"},
		{"when somebody was paid more", []string{"VERIFICATION OF EMPLOYMENT", "Employee: Winifred Delacroix", "Position: Pathology Assistant", "Date of hire: 08/14/2019", "Last step increase: 09/01/2025", "Date signed: 02/06/2026",
			"Cobalt Harbor School District, Astoria, OR 97103"}, paper.FieldEnd, "-"},
		{"who wrote a course", []string{"Campus des Sources", "Attestation de fin de parcours", "Mme Capucine Lestrade a parcouru en ligne le module Chasser les fuites la nuit et répondu à 17 des 20 questions.",
			"Concepteur du module : Gaspard Orfeuil, hydrogéologue", "Module terminé le 9 octobre 2026"}, paper.FieldTitle, "Chasser les fuites la nuit?"},
		{"when access was opened", []string{"Campus des Sources", "Attestation de fin de parcours", "Apprenante : Mme Capucine Lestrade", "Parcours en ligne : Chasser les fuites la nuit",
			"Ouverture de l’accès : 1er septembre 2026", "Module terminé le 9 octobre 2026"}, paper.FieldStart, "-"},
		{"when a row was entered", []string{"Instituto Robledo de Calidad", "EXPEDIENTE FORMATIVO", "Alumna: Herminia Castro Lamas", "Fecha\tActividad\tHoras\tRegistrado el",
			"09/01/2026\tAlérgenos en la línea\t5\t12/01/2026", "04/03/2026\tCatas a ciegas\t3,5\t06/03/2026", "02/07/2026\tAuditoría interna\t12\t07/07/2026"}, paper.FieldEnd, "2026-07-02"},
		{"what there was to earn beside what was earned", []string{"Blue Mesa Mapping Forum", "Participant: Marguerite Dunn", "Event: Parcel Maps, Roads and Rivers", "Held: October 6-7, 2026",
			"SESSION\tOFFERED\tEARNED", "Acequias\t6.0\t6.0", "Old deeds\t6.0\t3.5", "PDH\t12.0\t9.5"}, paper.FieldCredits, "9.5 PDH"},
		{"parts of a course", []string{"Certificate of achievement", "Learner: Oswin Tregarth", "Course: Safer Handling of People Who Fall", "Finished online on 22 January 2026.",
			"Six learning units with films"}, paper.FieldCredits, "-"},
		{"the optional part that was left out", []string{"CERTIFICAT", "La Passerelle Soignante certifie que Solveig Tardivel a suivi à distance la formation Veiller sans réveiller",
			"Durée de la formation, hors test final : 5 heures 30. Durée de l’atelier facultatif, non suivi : 2 heures."}, paper.FieldDuration, "330"},
		{"lessons of which another sentence gives the length", []string{"DAKSCHOOL", "Gerlof Huizenga was aanwezig bij alle lessen van de cursus Riet op steile kappen op 19, 20 en 26 februari 2026.",
			"samen 16 lessen*", "* Een les duurt bij ons 50 minuten."}, paper.FieldDuration, "800"},
		{"what a unit stands for", []string{"Lehrgangsbescheinigung", "Quirin Achtermann hat am Lehrgang Estrich im Altbau vom 20. bis 22. April 2026 teilgenommen.",
			"Dauer: 20 UE, vollständig besucht", "Eine UE (Unterrichtseinheit) dauert 45 Minuten."}, paper.FieldDuration, "900"},
		{"periods of so many minutes", []string{"Certificate of Attendance", "Tom Veyard attended the workshop Pond Liners on 4 March 2026 (four 45-minute periods)."}, paper.FieldDuration, "180"},
		{"a talk and the discussion behind it", []string{"D.ª Nekane Recalde presentó como ponente la comunicación «Ruido de fondo» el miércoles 22 de octubre de 2025, de 17:15 a 18:00 horas, seguida de un coloquio de 15 minutos."},
			paper.FieldDuration, "60"},
		{"days of a month in words", []string{"Certificate of Attendance", "Mr Alasdair Finn attended the workshop Leaf Casting on the eleventh and twelfth of March 2026."}, paper.FieldStart, "2026-03-11"},
		{"an invitation in which much else is said", []string{"Vereniging van Gerechtstolken Maasdrecht", "Aan alle leden", "Uitnodiging voor de algemene ledenvergadering op donderdag 28 mei 2026",
			"Het bestuur nodigt u van harte uit. Wie aanwezig is tekent de presentielijst en krijgt 2 punten.", "Agenda", "Contributie 2027"}, paper.FieldKind, "?"},
		{"initials that the paper writes in full", []string{"Bulletin of Applied Borehole Studies", "Professor G. Amankwah-Lister", "Dear Professor Amankwah-Lister,",
			"the paper “Slug Tests in Leaky Sands” by Gideon Amankwah-Lister was accepted on 5 June 2026."}, paper.FieldAttendee, "Gideon Amankwah-Lister"},
		{"where an examination was sat", []string{"NORTHMOOR EXAMINATIONS BOARD", "Notification of Examination Result", "Candidate: Agnes Thornbury", "Centre: Wexley Steam Museum (centre 114)",
			"Qualification: Boiler House Operator, Class II", "Outcome: PASS"}, paper.FieldProvider, "NORTHMOOR EXAMINATIONS BOARD"},
		{"a body in quotation marks that helped", []string{"Sociedad Castreña de Enfermería", "Certifica que D.ª María Belén Urresti asistió al curso", "Diabetes tipo 1 en el aula", "los días 7 y 8 de mayo de 2026.",
			"Colabora la Asociación de Familias «Glucosa y Recreo»."}, paper.FieldTitle, "Diabetes tipo 1 en el aula?"},
		{"a talk's day without its year", []string{"Jornadas de Acústica, Altamar, 21, 22 y 23 de octubre de 2025", "D.ª NEKANE RECALDE presentó como ponente la comunicación", "«Ruido de fondo»",
			"en la sesión 5, el miércoles 22 de octubre, de 17:15 a 18:00 horas."}, paper.FieldEnd, "2025-10-22"},
		{"when the term begins", []string{"COLLEGE SHOP", "11 APR 2026   14:22", "Lab notebook, ruled   19.95", "Flash cards   38.50", "TOTAL   $58.45", "Term starts 4 May 2026"}, paper.FieldStart, "-"},
		{"lunch that comes with it", []string{"FACTUUR", "De heer W.A. Hoogstraate", "Aantal\tOmschrijving\tBedrag", "1\tCursus Veilig werken langs het spoor, 2 en 3 juni 2026, inclusief lunch\t€ 845,00", "Totaal te voldoen\t\t€ 845,00"},
			paper.FieldTitle, "Veilig werken langs het spoor"},
		{"a body in two lines that stands in one elsewhere", []string{"Bramble & Quill", "Academy of Estimating", "RECEIPT No. 3306", "Date: 8 July 2026", "Received from Rosalind Peverell", "Place on the course “Tender Pricing”   640.00", "Total received   $640.00",
			"Bramble & Quill Academy of Estimating · 12 Old Row"}, paper.FieldProvider, "Bramble & Quill Academy of Estimating"},
		{"who held it", []string{"La Sociedad Altamareña de Acústica, entidad organizadora, hace constar que D.ª Nekane Recalde asistió al curso Ruido de fondo el 3 de marzo de 2026."}, paper.FieldProvider, "Sociedad Altamareña de Acústica"},
		{"several days of one examination", []string{"National Register of Crane Examiners", "Notification of outcome", "Candidate: Tamsin Eleri Goodenough", "Written papers sat on 9 March 2026", "Practical and oral sat on 11 March 2026",
			"The board has PASSED the candidate.", "Qualification: Tower Crane Examiner, Grade B"}, paper.FieldStart, "2026-03-09"},
		{"when it was given", []string{"Escuela Montemanil", "Constancia de asistencia", "Persona: Don Seredio Salcegrande", "Nombre del curso: Consentimiento", "Desde: 13.02.2026", "Termina: 16.02.2026", "Dado el: 02/03/2026"}, paper.FieldIssue, "2026-03-02"},
		{"a span in which something was finished", []string{"ULRIMAR HAGELSTEDT hat den Online-Lehrgang \"Drehmomentlisten\" vom", "25.12.23 bis 08.01.24 absolviert."}, paper.FieldStart, "2023-12-25"},
		{"a talk within an event", []string{"Sixth Peatland Congress, Kirkrannoch, 3–5 September 2026", "Mr Torquil Ainsley gave the lecture \"Counting Sphagnum\"",
			"in Session 7 on Friday 4 September 2026, from 14:10 to 14:55."}, paper.FieldStart, "2026-09-04"},
	}
	for _, tt := range tests {
		doc := page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: tt.lines}}}
		v := extract.Understand(doc, extract.Hints{})[0].Values[tt.field]
		want, doubted := strings.CutSuffix(tt.want, "?")
		switch {
		case want == "-" && v.Text != "":
			t.Errorf("%s: %s is %q, want none", tt.why, tt.field, v.Text)
		case want != "-" && want != "" && v.Text != want:
			t.Errorf("%s: %s is %q, want %q", tt.why, tt.field, v.Text, want)
		case doubted && v.Certain:
			t.Errorf("%s: %s is %q for certain", tt.why, tt.field, v.Text)
		}
	}
}

// TestAnswered: the message that an answer stands above is none of it.
func TestAnswered(t *testing.T) {
	doc := page.Document{Type: "eml", Mail: &page.Mail{From: "Beatrix Hollowood <b@stanmoor.invalid>", To: "Fergus Adebayo <f@lunt.invalid>", Subject: "RE: letter for my file", Date: "2025-11-07T12:04:50Z"},
		Pages: []page.Page{{Number: 1, Lines: []string{"Dear Fergus,", "You taught the class \"Sterilisation Logs\" to our second-year students on Wednesday 5 November 2025.",
			"We ran from 9.30 am to 12.30 pm.", "Beatrix", "From: Fergus Adebayo <f@lunt.invalid>", "Sent: 6 November 2025 21:15", "To: Beatrix Hollowood <b@stanmoor.invalid>", "Subject: letter for my file",
			"I also have the class on \"Waterline Testing\" pencilled for 11 March 2026, 2 hours."}}}}
	r := extract.Understand(doc, extract.Hints{})[0]
	if got := r.Values[paper.FieldDuration].Text; got != "180" {
		t.Errorf("took %q minutes, want 180", got)
	}
	if got := r.Values[paper.FieldEnd].Text; got != "2025-11-05" {
		t.Errorf("ended on %q, want 2025-11-05", got)
	}
}

// TestPrintedMessages: messages printed one behind another are papers of their own, also of one person.
func TestPrintedMessages(t *testing.T) {
	mail := func(n int, from, day string, lines ...string) page.Page {
		return page.Page{Number: n, Lines: append([]string{"From: " + from, "Date: " + day, "To: Orla Fennimore <o@post.invalid>"}, lines...)}
	}
	doc := page.Document{Type: "pdf", Pages: []page.Page{
		mail(1, "Quelm Study Club <desk@quelm.invalid>", "Mon, Jan 12, 2026 at 4:17 PM", "Hi Orla,", "Your seat at Implant Records on Friday, February 20, 2026 is reserved."),
		mail(2, "Larch Education Store <shop@larch.invalid>", "Sat, Jan 31, 2026 at 9:02 AM", "Thank you, Orla Fennimore!", "Radiograph Refresher (online)   $79.00", "Charged to card ending 1907   $79.00"),
		mail(3, "Prairie Academy <records@prairie.invalid>", "Thu, Mar 19, 2026 at 11:40 PM", "Dear Orla Fennimore,", "you completed the distance learning course Antibiotics on March 18, 2026."),
	}}
	if got := extract.Understand(doc, extract.Hints{}); len(got) != 3 {
		t.Errorf("%d papers, want 3", len(got))
	}
}
