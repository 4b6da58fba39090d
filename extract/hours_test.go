package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// hourPapers are short papers about one person, into which what they say of the time is put.
var hourPapers = map[string]string{
	"en":      "Wendle Forum\n# Certificate of Attendance\nThis certifies that Orla Fennimore attended the seminar Kiln Vents on 3 March 2026.\n%\nIssued on 5 March 2026",
	"en2":     "Wendle Forum\n# Certificate of Attendance\nThis certifies that Orla Fennimore attended the seminar Kiln Vents on 3 and 4 March 2026.\n%\nIssued on 5 March 2026",
	"de":      "Brennhof Akademie\n# Teilnahmebescheinigung\nFrau Ulrike Sandnagel hat am 3. März 2026 am Seminar \"Ofenbau\" teilgenommen.\n%\nRingau, 5. März 2026",
	"fr":      "Atelier Sud\n# Attestation de présence\nMadame Solène Archambaud a suivi le stage « Cuisson au bois » le 3 mars 2026.\n%\nFait le 5 mars 2026",
	"es":      "Taller Sur\n# Certificado de asistencia\nHerminia Zavaleta Poot asistió al curso «Esmaltes» el 3 de marzo de 2026.\n%\nExpedido el 5 de marzo de 2026",
	"nl":      "Ovenhuis Ostmeer\n# Bewijs van deelname\nWieke Aldershof nam op 3 maart 2026 deel aan de cursus Veilig stoken.\n%\nUitgereikt op 5 maart 2026",
	"de-talk": "Brennhof Akademie\n# Bestätigung\nFrau Ulrike Sandnagel hat am 3. März 2026 den Vortrag \"Ofenbau\" gehalten.\n%\nRingau, 5. März 2026",
	"en-talk": "Wendle Forum\n# Speaker confirmation\nOrla Fennimore gave the lecture \"Kiln Vents\" at our spring meeting on 3 March 2026.\n%\nIssued on 5 March 2026",
	"es-talk": "Taller Sur\n# HACE CONSTAR\nQue Herminia Zavaleta Poot impartió como docente el taller «Esmaltes» el 3 de marzo de 2026.\n%\nExpedido el 5 de marzo de 2026",
	"en-list": "Wendle Forum\n# Certificate of Attendance\nOrla Fennimore attended our evening series Kiln Vents.\n%\nIssued on 5 March 2026",
	"de-list": "Brennhof Akademie\n# Teilnahmebescheinigung\nFrau Ulrike Sandnagel hat an der Seminarreihe \"Ofenbau\" teilgenommen.\n%\nRingau, 5. März 2026",
	"fr-list": "Atelier Sud\n# Attestation de présence\nMadame Solène Archambaud a suivi le cycle « Cuisson au bois ».\n%\nFait le 5 mars 2026",
	"es-list": "Taller Sur\n# Certificado de asistencia\nHerminia Zavaleta Poot asistió al ciclo «Esmaltes».\n%\nExpedido el 5 de marzo de 2026",
	"nl2":     "Ovenhuis Ostmeer\n# Bewijs van deelname\nWieke Aldershof nam op 3 en 4 maart 2026 deel aan de cursus Veilig stoken.\n%\nUitgereikt op 5 maart 2026",
	"nl-list": "Ovenhuis Ostmeer\n# Bewijs van deelname\nWieke Aldershof nam deel aan de lessenreeks Veilig stoken.\n%\nUitgereikt op 5 maart 2026",
	"en-home": "Wendle Forum\n# Certificate of Completion\nOrla Fennimore has completed the home study course Kiln Vents on 3 March 2026.\n%\nIssued on 5 March 2026",
	"nl-home": "Ovenhuis Ostmeer\n# Certificaat\nWieke Aldershof rondde op 3 maart 2026 de e-learning Veilig stoken af.\n%\nUitgereikt op 5 maart 2026",
}

// A hoursCase is what a paper says of the time, with the minutes that a careful reader takes from
// it; "" where there are none.
type hoursCase struct{ in, says, want string }

var hourSentences = []hoursCase{
	// from the one hour to the other, told by verbs
	{"en", "We began at 9.45 am and let everybody go at 4.30 pm.", "405"},
	{"en", "The day started at 10 am and finished at 4 pm.", "360"},
	{"en", "It opened at 6.45 pm and ended at 8.15 pm without an interval.", "90"},
	{"de", "Das Seminar begann um 9 Uhr und endete um 16.30 Uhr.", "450"},
	{"fr", "La journée a commencé à 9 h et s'est terminée à 16 h 30.", "450"},
	{"es", "La jornada comenzó a las 9:00 y terminó a las 14:30.", "330"},
	{"nl", "De middag begon om 13.00 uur en eindigde om 17.15 uur.", "255"},
	// breaks told by verbs
	{"en", "9.45 am to 4.30 pm. Coffee took a quarter of an hour in the morning and tea the same in the afternoon; lunch lasted fifty minutes.", "325"},
	{"en", "The hours were 9.00 to 13.00; there was an interval of twenty minutes.", "220"},
	{"de", "Die Veranstaltung dauerte von 9.00 bis 17.00 Uhr. Die Mittagspause dauerte eine Stunde, die Kaffeepause eine Viertelstunde.", "405"},
	{"de", "Beginn 15 Uhr, Ende 18.30 Uhr. Dazwischen von 16.30 bis 17 Uhr Kaffeetafel.", "180"},
	{"fr", "De 9 h à 17 h, le repas de midi ayant duré une heure.", "420"},
	{"es", "De 14:00 a 17:30 horas, con un receso de veinte minutos.", "190"},
	{"nl", "Van 9.00 tot 16.00 uur; de lunch duurde drie kwartier.", "375"},
	// the time of each day, with the whole or without
	{"en2", "There were six hours of instruction on each of the days, twelve in all.", "720"},
	{"en2", "There were six hours of instruction on each of the two days.", "720"},
	{"en2", "Teaching lasted five and a half hours on each day.", "660"},
	{"de", "An vier Abenden wurde je anderthalb Stunden geübt, insgesamt sechs Stunden.", "360"},
	{"nl", "Op elk van de vier avonden werd anderhalf uur geoefend.", "360"},
	// how often somebody came
	{"en", "Each evening goes on for an hour and a half. She was therefore present on four evenings.", "360"},
	{"de", "Jeder Abend dauerte 90 Minuten. Sie war an fünf Abenden anwesend.", "450"},
	{"fr", "Chaque séance durait deux heures. Elle a été présente à quatre séances.", "480"},
	{"es", "Cada sesión duró dos horas. Estuvo presente en cinco sesiones.", "600"},
	{"nl", "Elke avond duurde twee uur. Zij was op vijf avonden aanwezig.", "600"},
	// what was attended, against what was offered
	{"en", "The course runs to 20 hours; she completed 17 hours 30 minutes.", "1050"},
	{"es", "Carga horaria total de 20 h. Según el registro estuvo presente los tres días y cumplió 17 h 30 min.", "1050"},
	{"fr", "La formation compte 21 heures ; elle en a suivi 18 heures.", "1080"},
	{"fr", "La commission a siégé de 14 h à 17 h 20. Madame Archambaud a siégé deux heures dix minutes.", "130"},
	{"de", "Der Lehrgang umfasst 24 Stunden, anwesend war sie 20 Stunden.", "1200"},
	{"nl", "De cursus omvat 24 uur, daarvan was zij 20 uur aanwezig.", "1200"},
	// a talk and the discussion after it
	{"de-talk", "Sie hat von 9:15 bis 10:00 Uhr vorgetragen; die anschließende Diskussion endete um 10:20 Uhr.", "65"},
	{"en-talk", "She spoke from 9.15 to 10.00 am, and the discussion went on until 10.20.", "65"},
	// the time of others, or of something else
	{"es-talk", "De 14:00 a 17:30 horas. Los asistentes recibieron certificado por 18 horas.", "210"},
	{"en-talk", "The lecture lasted 50 minutes. Participants received a certificate for 6 hours.", "50"},
	{"en-home", "Live tutorials   8 of 75 minutes each\nPrivate study (our guess)   20 hours", "600"},
	{"nl-home", "De module is begroot op 2 u 15 min studietijd.", "135"},
	{"nl-home", "Studietijd: 2u15", "135"},
	{"nl-home", "Geschatte studielast: 1 u. 45 min.", "105"},
	// count and length apart
	{"en-talk", "She examined eleven candidates. Each viva lasts thirty minutes; she also gave about four hours at home to reading.", "330"},
	{"en", "She stayed for the full 2½ hours.", "150"},
}

// runHours counts how many of the cases are read as they should; none may be certain and wrong.
func runHours(t *testing.T, name string, cases []hoursCase, least int) {
	t.Helper()
	right := 0
	for _, c := range cases {
		r := extract.Understand(pagesOf(strings.Replace(hourPapers[c.in], "%", c.says, 1)), extract.Hints{})[0]
		v := r.Values[paper.FieldDuration]
		if v.Text == c.want {
			right++
			continue
		}
		t.Logf("%s: %q gives %q, certain %v, of a paper of the kind %s; want %q", name, c.says, v.Text, v.Certain, r.Values[paper.FieldKind].Text, c.want)
		if v.Certain {
			t.Errorf("%s: %q gives %q for certain, want %q", name, c.says, v.Text, c.want)
		}
	}
	if right < least {
		t.Errorf("%s: %d of %d right, want %d", name, right, len(cases), least)
	}
}

// TestHoursInSentences: a sentence says from when to when something went on, how long the breaks
// were, how often somebody came and what of the whole was theirs.
func TestHoursInSentences(t *testing.T) {
	runHours(t, "sentences", hourSentences, len(hourSentences))
}

// hourApart were written with the rules and not run before these were finished.
var hourApart = []hoursCase{
	{"en", "Doors closed at nine: we started at 9.15 a.m. and wound up at 12.45 p.m.", "210"},
	{"en", "The afternoon commenced at 1.30 pm and finished promptly at 5 pm, with a tea interval of half an hour.", "180"},
	{"de", "Die Übung begann um 18.30 Uhr und war um 21 Uhr zu Ende.", "150"},
	{"fr", "La soirée a débuté à 19 h et s'est achevée à 21 h 30.", "150"},
	{"es", "El taller se inició a las 16:00 y finalizó a las 20:00 horas.", "240"},
	{"nl", "Aanvang 19.30 uur, einde 22.00 uur.", "150"},
	{"nl", "De dag startte om 9.30 uur en was om 16.00 uur afgelopen; de lunchpauze duurde een half uur.", "360"},
	{"fr", "De 9 h 30 à 12 h, entracte de quinze minutes.", "135"},
	{"es", "De 9:00 a 13:00, con dos recesos de diez minutos.", "220"},
	{"de", "9 bis 16.30 Uhr, abzüglich einer Stunde Mittagspause und zweier Kaffeepausen von je 15 Minuten.", "360"},
	{"en2", "On both days there were five hours of teaching, ten hours altogether.", "600"},
	{"en2", "Four hours on the first day and three hours on the second, seven hours in all.", "420"},
	{"de", "Drei Stunden an jedem der vier Tage.", "720"},
	{"fr", "Trois heures lors de chacune des quatre séances, soit douze heures.", "720"},
	{"es", "Dos horas en cada una de las cinco sesiones.", "600"},
	{"nl", "Op ieder van de drie middagen werd twee uur geoefend.", "360"},
	{"en", "Every session runs for two hours. Mrs Fennimore attended seven of the eight sessions.", "840"},
	{"de", "Jeder Termin dauert drei Stunden. Frau Sandnagel hat an sechs Terminen teilgenommen.", "1080"},
	{"fr", "Chaque atelier dure 90 minutes. Elle a assisté à trois ateliers.", "270"},
	{"es", "Cada charla dura una hora. Asistió a cuatro charlas.", "240"},
	{"nl", "Iedere les duurt 50 minuten. Zij volgde zes lessen.", "300"},
	{"en", "The programme comprises 30 hours. Orla Fennimore stayed for 26 hours.", "1560"},
	{"de", "Angeboten wurden 16 Stunden; Frau Sandnagel absolvierte 14 Stunden.", "840"},
	{"es", "Se ofrecieron 25 horas; la interesada cursó 22 horas.", "1320"},
	{"nl", "Aangeboden: 12 uur. Zij woonde 9 uur bij.", "540"},
	{"en-talk", "The talk ran from 2.00 to 2.45 pm; questions went on until 3.00 pm.", "60"},
	{"de-talk", "Der Vortrag ging von 19.00 bis 20.00 Uhr, die Fragerunde bis 20.30 Uhr.", "90"},
	{"de-talk", "Der Vortrag dauerte 45 Minuten. Die Teilnehmenden erhielten eine Bestätigung über 7 Stunden.", "45"},
	{"es-talk", "La ponencia duró 40 minutos. Los participantes obtuvieron un certificado de 12 horas.", "40"},
	{"en-home", "Online seminars   5 of 60 minutes each\nOwn study   15 hours", "300"},
	{"nl-home", "Verwachte studietijd: 3 u 30 min", "210"},
	{"en-talk", "She examined four groups. Each examination takes 45 minutes.", "180"},
}

// hourNone are sentences with hours that are none of the person's time: nothing in them may be
// taken for certain.
var hourNone = []hoursCase{
	{"en", "Our office opens at 9 am and closes at 5 pm.", ""},
	{"de", "Unser Büro öffnet um 8 Uhr und schließt um 16 Uhr.", ""},
	{"en", "The car park opens at 7.30 am and the barrier closes at 11 pm.", ""},
	{"en", "Our next seminar lasts six hours on each of the two days.", ""},
	{"es", "Duración: 12 horas. Horas totales del curso: 14 h (teoría 8 h, práctica 6 h)", ""},
	{"fr", "Le secrétariat ouvre à 9 h et ferme à 17 h.", ""},
}

// TestHoursApart is [TestHoursInSentences] with other sentences.
func TestHoursApart(t *testing.T) {
	runHours(t, "apart", hourApart, len(hourApart))
	runHours(t, "none", hourNone, 0)
}
