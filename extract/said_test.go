package extract_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// certified is a certificate in each language, into which the day and a statement are put.
var certified = map[string]struct{ paper, day string }{
	"en": {"Certificate of Attendance\nThis certifies that\nMona Arkell\nattended the course\nRope Inspection Refresher\n%s\n%s\nIssued 20 May 2026\nTannvale Training Trust", "on 14 May 2026"},
	"de": {"Teilnahmebescheinigung\nFrau Mona Arkell hat %s am Seminar\n„Seilprüfung Auffrischung“ teilgenommen.\n%s\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V.", "am 14. Mai 2026"},
	"fr": {"Attestation de présence\nNous attestons que Mme Mona Arkell a suivi %s la formation\n« Contrôle des câbles »\n%s\nFait le 20 mai 2026\nInstitut Tannval de formation", "le 14 mai 2026"},
	"es": {"Certificado de asistencia\nSe certifica que doña Mona Arkell asistió %s al curso\n«Inspección de cables»\n%s\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación", "el 14 de mayo de 2026"},
	"nl": {"Bewijs van deelname\nMevrouw Mona Arkell heeft %s deelgenomen aan de cursus\n\"Kabelinspectie\"\n%s\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen", "op 14 mei 2026"},
}

// TestLengthsAsTheyAreSaid reads how long it was in the ways in which people say it, each of which is
// certain to who reads it; 0 stands for none.
func TestLengthsAsTheyAreSaid(t *testing.T) {
	for _, c := range []struct {
		language string
		minutes  int
		says     string
		days     string // "" for one day
	}{
		{"en", 330, "The day ran from 9.30 am to 4.00 pm with one hour for lunch.", ""},
		{"en", 420, "It was given in two sessions of three and a half hours each.", "on 14 and 15 May 2026"},
		{"en", 480, "It was given on four Mondays, in sessions of two hours each.", "from 12 January to 2 February 2026"},
		{"de", 540, "Er fand an sechs Abenden statt, jeweils 90 Minuten.", "vom 7. Januar bis 11. Februar 2026"},
		{"fr", 600, "Elle a eu lieu quatre samedis, 2 h 30 chacun.", "du 10 janvier au 31 janvier 2026"},
		{"es", 360, "Se impartió en cuatro jueves, en sesiones de 90 minutos cada una.", "del 8 de enero al 29 de enero de 2026"},
		{"nl", 600, "De cursus werd gegeven op vijf dinsdagen, telkens 2 uur.", "van 6 januari tot 3 februari 2026"},
		{"en", 600, "She attended five of the six evenings; each evening lasts two hours.", "14 April to 19 May 2026"},
		{"en", 600, "Contact time of the course 12 h 30 min, of which 10 h were attended.", ""},
		{"en", 90, "Length of session: 1½ hours", ""},
		{"en", 75, "The webinar lasted an hour and a quarter.", ""},
		{"en", 135, "Duration 2:15 (hh:mm)", ""},
		{"en", 390, "Programme 08:30–16:00, breaks 10:15–10:30 and 12:15–13:00", ""},
		{"en", 1260, "Three days of seven hours' instruction", "12 to 14 May 2026"},
		{"en", 960, "Hours of instruction: 16 (two days)", "on 13 and 14 May 2026"},
		{"en", 450, "Participation: 7.5 clock hours", ""},
		{"en", 105, "Time: 18:00 to 19:45", ""},
		{"en", 240, "Start 13:00, finish 17:00", ""},
		{"en", 240, "Doors 12:30; lectures 13:00–17:00", ""},
		{"en", 360, "Attendance recorded: arrived 09:00, left 15:00", ""},
		{"en", 330, "Arrived 09:00, left 15:00; lunch break of 30 minutes deducted", ""},
		{"en", 480, "Contact hours: 8\nSelf-study: 4 hours", ""},
		{"en", 480, "8 contact hours plus 2 hours of preparatory reading", ""},
		{"en", 0, "CPD hours: 6", ""},
		{"en", 180, "3 hrs (net of breaks)", ""},
		{"en", 200, "Length: 200 min.", ""},
		{"en", 345, "5 h 45 min net; the course day ran from 9 to 16", ""},
		{"en", 375, "9.15 am to 4.45 pm, with breaks of 15 minutes in the morning and afternoon and 45 minutes for lunch", ""},
		{"en", 540, "Six Tuesday evenings, 18:30–20:00", "from 5 May to 9 June 2026"},
		{"en", 135, "Length: 2 h 30 m including a 15-minute break", ""},
		{"en", 320, "8 lessons of 40 minutes", ""},
		{"de", 375, "9:15–16:45 Uhr, Pausen 15 + 45 + 15 Minuten", ""},
		{"de", 135, "Dauer: zwei Stunden und eine Viertelstunde", ""},
		{"fr", 375, "de 9 h 15 à 16 h 45, pauses : 15 min, 45 min (déjeuner), 15 min", ""},
		{"fr", 540, "6 soirées de 18 h 30 à 20 h", "du 5 mai au 9 juin 2026"},
		{"fr", 165, "Durée : deux heures trois quarts", ""},
		{"es", 375, "de 9:15 a 16:45 h, con pausas de 15, 45 y 15 minutos", ""},
		{"es", 540, "6 tardes, de 18:30 a 20:00", "del 5 de mayo al 9 de junio de 2026"},
		{"nl", 375, "van 9.15 tot 16.45 uur, met pauzes van 15, 45 en 15 minuten", ""},
		{"nl", 135, "Duur: twee uur en een kwartier", ""},
		{"de", 420, "Umfang: 7 Zeitstunden", ""},
		{"de", 720, "Umfang: 16 UE à 45 Minuten", "am 13. und 14. Mai 2026"},
		{"de", 360, "8 Unterrichtseinheiten (1 UE = 45 min)", ""},
		{"de", 375, "Dauer: 6,25 Stunden", ""},
		{"de", 390, "9.00 bis 16.30 Uhr, abzüglich 60 Minuten Pause", ""},
		{"de", 270, "Dauer: viereinhalb Stunden", ""},
		{"de", 405, "Beginn 8.15 Uhr, Ende 15.45 Uhr, Mittagspause 45 Minuten", ""},
		{"de", 540, "Von den insgesamt zwölf Stunden hat sie neun besucht.", ""},
		{"de", 480, "Seminarzeiten: Mi 14–18 Uhr und Do 9–13 Uhr", "am 13. und 14. Mai 2026"},
		{"de", 150, "Gesamtdauer: 2 Std. 30 Min.", ""},
		{"de", 1170, "Der Lehrgang umfasste 26 Unterrichtsstunden zu je 45 Minuten.", "vom 11. bis 14. Mai 2026"},
		{"fr", 420, "Durée : 7 heures", ""},
		{"fr", 330, "de 9 h à 12 h 30 et de 14 h à 16 h", ""},
		{"fr", 840, "soit 14 heures réparties sur deux journées", "les 13 et 14 mai 2026"},
		{"fr", 210, "Durée totale : 3 h 30", ""},
		{"fr", 540, "Présence effective : 9 heures sur les 12 prévues", ""},
		{"fr", 1080, "trois modules de six heures", "du 12 au 14 mai 2026"},
		{"fr", 90, "une heure et demie", ""},
		{"fr", 450, "Nombre d'heures suivies : 7,5", ""},
		{"es", 1200, "con una duración de 20 horas lectivas", "del 11 al 14 de mayo de 2026"},
		{"es", 300, "en horario de 9:00 a 14:00", ""},
		{"es", 360, "en horario de 9:00 a 16:00, con una pausa de una hora", ""},
		{"es", 480, "Total de horas asistidas: 8 de 10", ""},
		{"es", 150, "dos horas y media", ""},
		{"es", 720, "cuatro sesiones de tres horas cada una", "del 11 al 14 de mayo de 2026"},
		{"es", 270, "Duración: 4 h 30 min", ""},
		{"nl", 390, "van 9.00 tot 16.30 uur, inclusief een uur lunchpauze", ""},
		{"nl", 180, "Duur: 3 uur", ""},
		{"de", 330, "vormittags drei, nachmittags zweieinhalb Stunden", ""},
		{"en", 330, "three in the morning and two and a half hours in the afternoon", ""},
		{"fr", 330, "le matin trois, l'après-midi deux heures et demie", ""},
		{"es", 330, "Duración: por la mañana tres y por la tarde dos horas y media", ""},
		{"nl", 300, "'s ochtends drie en 's middags twee uur", ""},
		{"nl", 450, "Aantal contacturen: 7,5", ""},
		{"nl", 360, "Totaal 8 uur, waarvan 6 uur bijgewoond", ""},
		{"nl", 210, "drieënhalf uur", ""},
		{"nl", 480, "twee dagdelen van vier uur", ""},
		{"nl", 540, "zes avonden van anderhalf uur", "van 7 april tot 12 mei 2026"},
		{"nl", 165, "Tijd: 19.00 - 21.45 uur", ""},
		{"en", 330, "Session 1: 09:00-10:30 / Session 2: 11:00-12:30 / Session 3: 13:30-16:00", ""},
		{"en", 180, "Total time in session: 3 hours, including questions", ""},
		{"en", 240, "4 hours (excluding lunch)", ""},
		{"en", 300, "The course is worth 5 hours of attendance", ""},
		{"en", 405, "Six and three-quarter hours of instruction", ""},
		{"en", 600, "10 hours of tuition delivered over five mornings", "11 to 15 May 2026"},
		{"en", 120, "a two-hour workshop", ""},
		{"en", 90, "A 90-minute online session", ""},
		{"en", 50, "Running time: 50 minutes", ""},
		{"en", 360, "Hours claimed: 6.00", ""},
		{"en", 480, "TOTAL HOURS ........ 8", ""},
		{"en", 465, "Net duration 7 hrs 45 mins", ""},
		{"en", 180, "14:00 – 17:00 hrs", ""},
		{"en", 240, "Sessions attended: 4\nLength of each session: 60 minutes", ""},
		{"en", 150, "Lecture 1 h 30; practical 1 h", ""},
		{"en", 600, "Classroom 6 hours, practical 4 hours", ""},
		{"en", 480, "The programme lasted 8 hours; the certificate is valid for 3 years.", ""},
		{"de", 210, "Zeit: 13:30 – 17:00 Uhr", ""},
		{"de", 240, "Nettozeit 4 h", ""},
		{"de", 600, "10 Stunden an zwei Tagen", "am 13. und 14. Mai 2026"},
		{"de", 120, "im zeitlichen Umfang von 120 Minuten", ""},
		{"de", 360, "Anwesenheit: 6 von 8 Stunden", ""},
		{"de", 90, "anderthalb Stunden", ""},
		{"de", 1440, "24 Stunden, verteilt auf sechs Abende", "vom 7. April bis 12. Mai 2026"},
		{"de", 675, "15 Unterrichtsstunden (je 45 Minuten)", "am 13. und 14. Mai 2026"},
		{"de", 420, "Zeitumfang: 7 h (ohne Pausen)", ""},
		{"de", 330, "Theorie 3 Std., Praxis 2,5 Std.", ""},
		{"de", 180, "Die Veranstaltung dauerte von 18 bis 21 Uhr.", ""},
		{"de", 270, "sechs Unterrichtseinheiten zu 45 Minuten", ""},
		{"de", 480, "8-stündige Fortbildung", ""},
		{"de", 960, "zweitägige Fortbildung mit insgesamt 16 Stunden", "am 13. und 14. Mai 2026"},
		{"fr", 150, "d'une durée de 2 h 30", ""},
		{"fr", 360, "Temps de présence : 6 heures", ""},
		{"fr", 420, "9h00-12h30 / 13h30-17h00", ""},
		{"fr", 1260, "21 heures, soit trois jours", "du 12 au 14 mai 2026"},
		{"fr", 180, "Volume horaire : 3h", ""},
		{"fr", 360, "deux demi-journées de trois heures", "les 13 et 14 mai 2026"},
		{"fr", 240, "formation de 4 heures en classe virtuelle", ""},
		{"fr", 600, "Total des heures réalisées : 10h00", ""},
		{"fr", 105, "1 h 45 min", ""},
		{"es", 300, "de 16:00 a 21:00 horas", ""},
		{"es", 1800, "Carga horaria: 30 horas", "del 4 de marzo al 6 de mayo de 2026"},
		{"es", 90, "hora y media", ""},
		{"es", 600, "equivalente a 10 horas cronológicas", ""},
		{"es", 240, "cuatro (4) horas", ""},
		{"es", 480, "8 h presenciales", ""},
		{"es", 720, "Doce horas, repartidas en tres jornadas", "del 12 al 14 de mayo de 2026"},
		{"es", 330, "Horario: 9:30 a 13:30 y 15:00 a 16:30", ""},
		{"nl", 150, "2,5 uur", ""},
		{"nl", 360, "Totale cursusduur: 6 uur (excl. pauzes)", ""},
		{"nl", 210, "13.30 – 17.00 uur", ""},
		{"nl", 720, "12 contacturen verdeeld over 4 avonden", "van 7 tot 28 april 2026"},
		{"nl", 240, "een halve dag (4 uur)", ""},
		{"nl", 75, "vijf kwartier", ""},
		{"nl", 480, "Studiebelasting: 8 uur", ""},
		{"nl", 90, "anderhalf uur", ""},
		{"en", 720, "Day 1: 09:00–16:00 (lunch 12:00–13:00); Day 2: 09:00–16:00 (lunch 12:00–13:00)", "on 13 and 14 May 2026"},
		{"de", 780, "13. Mai 9.00–16.30 Uhr (Mittag 60 Min.), 14. Mai 9.00–16.30 Uhr (Mittag 60 Min.)", "am 13. und 14. Mai 2026"},
		{"en", 450, "Six weekly sessions, each 1 h 15 min; attended: 6", "from 7 April to 12 May 2026"},
		{"en", 370, "Time in 08:50, time out 16:00, less 60 minutes: 6 h 10 min", ""},
		{"es", 405, "mañana de 9 a 12.15 y tarde de 13.30 a 17", ""},
		{"es", 840, "7 horas diarias (14 horas en total)", "los días 13 y 14 de mayo de 2026"},
		{"en", 330, "Morning session 9.00–12.00, afternoon session 1.00–3.30 pm", ""},
		{"en", 1020, "Two full days of 8½ hours", "on 13 and 14 May 2026"},
		{"en", 300, "Total duration 6 hours, one hour of which she missed", ""},
		{"en", 270, "The event ran for 4½ hours without a break.", ""},
		{"en", 345, "Attendance: 5 hours and 45 minutes out of a possible 6 hours and 30 minutes.", ""},
		{"en", 420, "Course hours: 10. Hours attended: 7.", ""},
		{"en", 360, "9 am – noon and 1 pm – 4 pm", ""},
		{"en", 180, "9 am to noon", ""},
		{"en", 480, "Hours: eight (8)", ""},
		{"en", 75, "Presentation (60 minutes) followed by questions (15 minutes)", ""},
		{"en", 1080, "3 days x 6 hrs", "12 to 14 May 2026"},
		{"en", 900, "5 x 3hr evening classes", "from 14 April to 12 May 2026"},
		{"en", 240, "Duration (hrs): 4.0", ""},
		{"en", 240, "Duration in minutes: 240", ""},
		{"en", 330, "5:30 hours of live instruction", ""},
		{"en", 330, "Live instruction 330 minutes (credit granted: 6.5)", ""},
		{"en", 0, "This activity has been approved for 6 hours of CPD.", ""},
		{"en", 0, "The holder has more than 10 years' experience.", ""},
		{"en", 0, "Our office is open Monday to Friday, 09:00–17:00.", ""},
		{"en", 0, "To verify this certificate allow up to 48 hours.", ""},
		{"en", 0, "This certificate was produced within 24 hours of the event.", ""},
		{"en", 360, "Our office is open Monday to Friday, 09:00–17:00. Length of course: 6 hours.", ""},
		{"en", 345, "Registration 8:30, start 9:00, close 15:30, lunch 45 min", ""},
		{"en", 390, "Time: 0900-1630 hrs, lunch 1200-1300", ""},
		{"en", 225, "Log in 17:58, log out 21:43. Time online: 3 h 45 min", ""},
		{"en", 720, "Total: 12 h (8 h theory + 4 h practice)", "on 13 and 14 May 2026"},
		{"en", 1200, "20 hours (10 sessions of 2 hours)", "from 3 February to 7 April 2026"},
		{"en", 1080, "She attended 9 of 10 sessions of 2 hours each.", "from 3 February to 7 April 2026"},
		{"en", 1080, "10 sessions of 2 hours each were held; the holder missed one.", "from 3 February to 7 April 2026"},
		{"en", 300, "6 contact hours of 50 minutes", ""},
		{"en", 420, "7 hours 0 minutes", ""},
		{"en", 405, "06:45 hrs", ""},
		{"en", 90, "an hour and a half", ""},
		{"en", 105, "one and three-quarter hours", ""},
		{"en", 2250, "37.5 hours over one working week", "11 to 15 May 2026"},
		{"de", 330, "vormittags von 9 bis 12 Uhr, nachmittags von 13 bis 15.30 Uhr", ""},
		{"de", 960, "an beiden Tagen jeweils 8 Stunden", "am 13. und 14. Mai 2026"},
		{"de", 840, "täglich 9 bis 17 Uhr mit einer Stunde Mittagspause", "am 13. und 14. Mai 2026"},
		{"de", 405, "Beginn: 9.00 Uhr, Ende: 17.00 Uhr, Pausen: insgesamt 75 Minuten", ""},
		{"de", 405, "9:00–17:00 Uhr (davon 75 Minuten Pause)", ""},
		{"de", 405, "9:00–17:00 Uhr, Kaffeepause 15 Minuten, Mittagspause 60 Minuten", ""},
		{"de", 90, "2 Unterrichtsstunden (à 45 Min.)", ""},
		{"de", 1800, "Lehrgangsumfang: 40 UE (45 Minuten/UE)", "vom 11. bis 15. Mai 2026"},
		{"de", 240, "halbtägig, 4 Stunden", ""},
		{"de", 300, "Das Seminar dauerte fünf Stunden (netto).", ""},
		{"de", 315, "Sie nahm an 7 von 8 Unterrichtseinheiten zu je 45 Minuten teil.", ""},
		{"de", 180, "von 18.30 Uhr bis 21.30 Uhr", ""},
		{"de", 150, "Vortrag 60 Minuten, Übung 90 Minuten", ""},
		{"de", 75, "fünf Viertelstunden", ""},
		{"de", 45, "Dauer: eine Dreiviertelstunde", ""},
		{"de", 105, "eindreiviertel Stunden", ""},
		{"de", 600, "2 Tage zu je 5 Stunden", "am 13. und 14. Mai 2026"},
		{"de", 1440, "drei Tage à 8 Std.", "vom 12. bis 14. Mai 2026"},
		{"de", 600, "5 × 2 Std.", "vom 7. April bis 5. Mai 2026"},
		{"de", 720, "12 Std. (4 Abende à 3 Std.)", "vom 7. bis 28. April 2026"},
		{"de", 360, "Gesamtstunden: 8, davon anwesend: 6", ""},
		{"de", 360, "Fehlzeit: 2 von 8 Stunden", ""},
		{"de", 360, "Sollstunden 8, Iststunden 6", ""},
		{"de", 390, "Dauer: 6 Stunden und 30 Minuten", ""},
		{"de", 390, "Dauer: 6½ Std.", ""},
		{"de", 0, "Das Zertifikat ist 24 Monate gültig.", ""},
		{"de", 0, "Bürozeiten: Mo–Fr 8–12 Uhr und 13–16 Uhr", ""},
		{"de", 0, "Die Veranstaltung wird mit 6 Fortbildungsstunden anerkannt.", ""},
		{"de", 420, "7 Std. Präsenz", ""},
		{"de", 900, "Präsenz 9 Std., Online 6 Std.", "am 13. und 14. Mai 2026"},
		{"fr", 405, "matin de 9 h à 12 h 15 et après-midi de 13 h 30 à 17 h", ""},
		{"fr", 840, "7 heures par jour, soit 14 heures au total", "les 13 et 14 mai 2026"},
		{"fr", 840, "de 9 h à 17 h chaque jour, avec une heure de pause déjeuner", "les 13 et 14 mai 2026"},
		{"fr", 420, "9 h – 17 h 30 (pause déjeuner de 12 h 30 à 14 h)", ""},
		{"fr", 390, "9 h – 17 h 30 (pause déjeuner de 12 h 30 à 14 h, deux pauses de 15 minutes)", ""},
		{"fr", 210, "une demi-journée (3 h 30)", ""},
		{"fr", 720, "12 h de formation dont 4 h de pratique", "les 13 et 14 mai 2026"},
		{"fr", 360, "Durée prévue : 7 h ; durée suivie : 6 h", ""},
		{"fr", 360, "Heures prévues : 8 – heures d'absence : 2", ""},
		{"fr", 105, "une heure trois quarts", ""},
		{"fr", 480, "huit heures de cours", ""},
		{"fr", 1200, "10 séances de 2 heures, du 3 février au 7 avril 2026", "du 3 février au 7 avril 2026"},
		{"fr", 180, "de 18 h 30 à 21 h 30 précises", ""},
		{"fr", 0, "soit 2 journées de DPC", ""},
		{"fr", 0, "Nos bureaux sont ouverts de 9 h à 17 h du lundi au vendredi.", ""},
		{"fr", 150, "Temps de connexion : 2 h 30 min", ""},
		{"fr", 151, "Temps de connexion : 02:31:00", ""},
		{"fr", 1050, "17,5 heures en présentiel", "du 12 au 14 mai 2026"},
		{"fr", 900, "présentiel : 9 h, à distance : 6 h", "les 13 et 14 mai 2026"},
		{"fr", 450, "7h30", ""},
		{"fr", 450, "7 h. 30", ""},
		{"es", 840, "de 9 a 17 h cada día, con una hora para comer", "los días 13 y 14 de mayo de 2026"},
		{"es", 360, "de 9:00 a 12:00 y de 16:00 a 19:00 horas", ""},
		{"es", 360, "Horas previstas: 8. Horas cursadas: 6.", ""},
		{"es", 1800, "30 horas (20 presenciales y 10 en línea)", "del 4 al 15 de mayo de 2026"},
		{"es", 1800, "20 h presenciales y 10 h a distancia", "del 4 al 15 de mayo de 2026"},
		{"es", 75, "una hora y cuarto", ""},
		{"es", 105, "una hora y tres cuartos", ""},
		{"es", 600, "cinco tardes de dos horas", "del 4 al 8 de mayo de 2026"},
		{"es", 600, "diez (10) horas académicas de 60 minutos", ""},
		{"es", 450, "diez (10) horas académicas de 45 minutos", ""},
		{"es", 0, "Horario de atención: lunes a viernes de 9:00 a 14:00", ""},
		{"es", 0, "El presente certificado tiene una vigencia de 2 años.", ""},
		{"es", 480, "jornada completa de 8 horas", ""},
		{"es", 330, "5 horas 30 minutos", ""},
		{"es", 330, "5,5 horas lectivas", ""},
		{"es", 330, "5 h 30'", ""},
		{"nl", 405, "'s morgens van 9 tot 12.15 uur en 's middags van 13.30 tot 17 uur", ""},
		{"nl", 840, "beide dagen van 9 tot 17 uur met een uur lunchpauze", "op 13 en 14 mei 2026"},
		{"nl", 840, "7 uur per dag, in totaal 14 uur", "op 13 en 14 mei 2026"},
		{"nl", 360, "Geplande uren: 8; gevolgde uren: 6", ""},
		{"nl", 360, "aanwezig: 6 van de 8 uur", ""},
		{"nl", 105, "zeven kwartier", ""},
		{"nl", 225, "5 lesuren van 45 minuten", ""},
		{"nl", 0, "Openingstijden kantoor: ma-vr 8.30-17.00 uur", ""},
		{"nl", 0, "Dit certificaat is 5 jaar geldig.", ""},
		{"nl", 150, "van half acht tot tien uur 's avonds", ""},
		{"nl", 600, "5 avonden van 2 uur", "van 7 april tot 5 mei 2026"},
		{"nl", 420, "netto 7 uur", ""},
		{"nl", 390, "09.00-16.30 uur (pauze 12.30-13.30)", ""},
		{"nl", 900, "9 uur klassikaal en 6 uur online", "op 13 en 14 mei 2026"},
		{"nl", 240, "contacttijd: 4 uur, zelfstudie: 6 uur", ""},
		{"de", 240, "Präsenzzeit: 4 Std., Selbststudium: 6 Std.", ""},
		{"fr", 240, "4 h en présentiel, 6 h de travail personnel", ""},
		{"es", 240, "4 horas presenciales y 6 horas de trabajo autónomo", ""},
	} {
		form := certified[c.language]
		if c.days == "" {
			c.days = form.day
		}
		r := extract.Understand(pagesOf(fmt.Sprintf(form.paper, c.days, c.says)), extract.Hints{})[0]
		v, found := r.Values[paper.FieldDuration]
		if want := strconv.Itoa(c.minutes); c.minutes > 0 && (v.Text != want || !v.Certain) || c.minutes == 0 && found {
			t.Errorf("%q %s: %q minutes, certain %v; want %d", c.says, c.days, v.Text, v.Certain, c.minutes)
		}
	}
}

// TestNamesAndCreditsAsTheyAreSaid: what stands alone with nothing that speaks against it is certain,
// what may be several things is asked about, and a course is nobody's name.
func TestNamesAndCreditsAsTheyAreSaid(t *testing.T) {
	checkValues(t, paper.FieldAttendee, []valueCase{
		{"a small letter with an apostrophe", "# Certificate of Attendance\nPresented to\nHuguette d'Orbec\nfor attending Glazing without Lead\non 3 March 2026\nOstmark Pottery School", "Huguette d'Orbec"},
	})
	for _, c := range []struct {
		field   paper.Field
		text    string
		want    string // "" for none
		certain bool
	}{
		{paper.FieldAttendee, "Dear Greta,\nThis confirms you attended our Glaze Chemistry Basics workshop on 3 March 2026 (3 hours).\nKind regards\nOstmark Pottery School", "", false},
		{paper.FieldCredits, "# Certificate of Attendance\nGreta Lindqvist attended Glazing without Lead on 3 March 2026.\n8 contact hours = 0.8 CEU\nOstmark Pottery School", "0.8 CEU", true},
		{paper.FieldCredits, "# Certificate of Attendance\nGreta Lindqvist attended Glazing without Lead on 3 March 2026.\n10 contact hours = 1 CEU\nOstmark Pottery School", "", false},
		{paper.FieldCredits, "# Certificate of Attendance\nGreta Lindqvist attended Glazing without Lead on 3 March 2026.\nCredits: 3 clinical, 2 general\nOstmark Pottery School", "3 Credits", false},
		{paper.FieldEnd, "# Certificate of Attendance\nGreta Lindqvist\nGlazing without Lead\n3 March 2026\n4 hours\nIssued 9 March 2026\nOstmark Pottery School", "2026-03-03", true},
		{paper.FieldEnd, "# Certificate of Attendance\nGreta Lindqvist\nGlazing without Lead\n11 March 2026\n4 hours\nIssued 9 March 2026\nOstmark Pottery School", "2026-03-11", false},
	} {
		r := extract.Understand(pagesOf(c.text), extract.Hints{})[0]
		if v := r.Values[c.field]; v.Text != c.want || v.Certain != c.certain {
			t.Errorf("%s of %q: %q, certain %v; want %q, %v", c.field, c.text, v.Text, v.Certain, c.want, c.certain)
		}
	}
}

// TestTitlesAsTheyAreSaid reads what it was called from certificates, records, letters and messages as
// they are written every day.
func TestTitlesAsTheyAreSaid(t *testing.T) {
	for _, c := range []struct {
		want    string
		certain bool
		text    string
	}{
		{"Wire Rope Inspection", false, "Certificate of Attendance\nMona Arkell attended Wire Rope Inspection on 14 May 2026.\nDuration: 6 hours\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Certificate of Attendance\nThis is to certify that Mona Arkell participated in the one-day course Wire Rope Inspection held on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Certificate of Completion\nMona Arkell\nhas successfully completed\nWire Rope Inspection\n14 May 2026\n6 hours\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Attendance record\nName: Mona Arkell\nSubject: Wire Rope Inspection\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Attendance record\nName: Mona Arkell\nSession: Wire Rope Inspection\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Attendance record\nDelegate: Mona Arkell\nEvent: Wire Rope Inspection\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Attendance record\nDelegate: Mona Arkell\nActivity title: Wire Rope Inspection\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Attendance record\nDelegate: Mona Arkell\nProgramme: Wire Rope Inspection\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", false, "Attendance record\nAttendee: Mona Arkell\nWhat: Wire Rope Inspection\nWhen: 14 May 2026\nWhere: Tannvale\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Dear Ms Arkell,\nthank you for joining our webinar “Wire Rope Inspection” on 14 May 2026. This message confirms your attendance.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection", true, "Dear Mona,\nThis confirms you attended our Wire Rope Inspection workshop on 14 May 2026 (3 hours).\nKind regards\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Refresher Training for Lift Inspectors", true, "Certificate of Attendance\nMona Arkell attended the Refresher Training for Lift Inspectors on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Annual Conference on Lifting Safety", true, "Certificate of Attendance\nThis certifies that Mona Arkell was present at the Annual Conference on Lifting Safety, Leeds, 14–15 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Ropes, Chains and Slings: What Fails First", true, "Certificate of Attendance\nParticipant: Mona Arkell\nLecture: Ropes, Chains and Slings: What Fails First\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Module 3 – Load Charts", false, "Certificate\nMona Arkell completed Module 3 – Load Charts on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Wire Rope Inspection (Level 2)", true, "Certificate of Attendance\nCourse: Wire Rope Inspection (Level 2)\nParticipant: Mona Arkell\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Seilprüfung in der Praxis", true, "Teilnahmebescheinigung\nMona Arkell hat am 14. Mai 2026 an der Fortbildung Seilprüfung in der Praxis teilgenommen.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Teilnahmebescheinigung\nName: Mona Arkell\nThema: Seilprüfung in der Praxis\nDatum: 14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Teilnahmebescheinigung\nTeilnehmerin: Mona Arkell\nVeranstaltung: Seilprüfung in der Praxis\nDatum: 14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Zertifikat\nFrau Mona Arkell\nhat den Lehrgang\nSeilprüfung in der Praxis\nam 14. Mai 2026 erfolgreich abgeschlossen.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Sehr geehrte Frau Arkell,\nhiermit bestätigen wir Ihre Teilnahme am Online-Seminar „Seilprüfung in der Praxis“ am 14. Mai 2026.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Bescheinigung\nüber die Teilnahme an der Schulung\nSeilprüfung in der Praxis\nMona Arkell\n14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Fachtagung Krane und Hebezeuge", true, "Teilnahmebestätigung\nMona Arkell war Teilnehmerin der Fachtagung Krane und Hebezeuge am 14. Mai 2026.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Seilprüfung in der Praxis", true, "Teilnahmebescheinigung\nMona Arkell\nKurs: Seilprüfung in der Praxis (Kurs-Nr. 4471)\n14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Contrôle des câbles en service", true, "Attestation de présence\nMme Mona Arkell a participé à la formation Contrôle des câbles en service le 14 mai 2026.\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Attestation\nNom : Mona Arkell\nIntitulé de la formation : Contrôle des câbles en service\nDate : 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Attestation\nParticipante : Mona Arkell\nThème : Contrôle des câbles en service\nDate : 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Certificat de réalisation\nMme Mona Arkell a suivi l'action de formation suivante :\nContrôle des câbles en service\nle 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Madame,\nnous confirmons votre participation au webinaire « Contrôle des câbles en service » du 14 mai 2026.\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Attestation de participation\ndélivrée à Mona Arkell\npour sa participation au séminaire\nContrôle des câbles en service\nle 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Journée technique Levage et manutention", true, "Attestation de présence\nMme Mona Arkell a assisté à la Journée technique Levage et manutention, le 14 mai 2026.\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Contrôle des câbles en service", true, "Attestation\nModule : Contrôle des câbles en service\nStagiaire : Mona Arkell\n14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Inspección de cables de acero", true, "Certificado de asistencia\nDoña Mona Arkell ha asistido al curso Inspección de cables de acero, celebrado el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Inspección de cables de acero", true, "Certificado\nNombre: Mona Arkell\nActividad: Inspección de cables de acero\nFecha: 14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Inspección de cables de acero", true, "Certificado\nParticipante: Mona Arkell\nTítulo del curso: Inspección de cables de acero\nFecha: 14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Inspección de cables de acero", true, "Diploma\notorgado a\nMona Arkell\npor haber completado el curso\nInspección de cables de acero\n14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Inspección de cables de acero", false, "Estimada Mona:\nconfirmamos su asistencia al seminario web «Inspección de cables de acero» el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Jornada sobre seguridad en izajes", true, "Certificado de asistencia\nSe certifica que Mona Arkell asistió a la Jornada sobre seguridad en izajes el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Inspección de cables de acero", true, "Constancia\nTaller: Inspección de cables de acero\nAsistente: Mona Arkell\n14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Staalkabels keuren in de praktijk", true, "Bewijs van deelname\nMona Arkell heeft op 14 mei 2026 deelgenomen aan de training Staalkabels keuren in de praktijk.\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Staalkabels keuren in de praktijk", true, "Bewijs van deelname\nNaam: Mona Arkell\nOnderwerp: Staalkabels keuren in de praktijk\nDatum: 14 mei 2026\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Staalkabels keuren in de praktijk", true, "Certificaat\nDeelnemer: Mona Arkell\nScholing: Staalkabels keuren in de praktijk\nDatum: 14 mei 2026\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Staalkabels keuren in de praktijk", true, "Certificaat\nuitgereikt aan\nMona Arkell\nvoor het volgen van de cursus\nStaalkabels keuren in de praktijk\nop 14 mei 2026\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Staalkabels keuren in de praktijk", false, "Beste Mona,\nhierbij bevestigen wij je deelname aan het webinar 'Staalkabels keuren in de praktijk' op 14 mei 2026.\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Studiedag Hijsen en Heffen", true, "Bewijs van deelname\nMevrouw Mona Arkell was aanwezig op de Studiedag Hijsen en Heffen van 14 mei 2026.\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Splicing Steel Ropes", true, "Certificate of Attendance\nParticipant   Mona Arkell\nTopic   Splicing Steel Ropes\nDate   14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Certificate of Attendance\nName of participant\nMona Arkell\nName of course\nSplicing Steel Ropes\nDate\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Certificate of Attendance\nMona Arkell has attended the following course:\nSplicing Steel Ropes\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "CPD Certificate\nEvent name: Splicing Steel Ropes\nDelegate name: Mona Arkell\nEvent date: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", false, "Confirmation of attendance\nWe are pleased to confirm that Mona Arkell attended Splicing Steel Ropes, a one-day course held on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Certificate of Completion\nThis is to certify that Mona Arkell has completed the online module\n\"Splicing Steel Ropes\"\non 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Attendance certificate\nfor\nMona Arkell\nwho attended\nSplicing Steel Ropes\non 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Mona Arkell\nattended the CPD lecture\nSplicing Steel Ropes\ngiven by Prof. Paul Whitmore\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Certificate of Participation\nMona Arkell participated in the masterclass Splicing Steel Ropes presented by Paul Whitmore on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", true, "Training record\nEmployee: Mona Arkell\nTraining: Splicing Steel Ropes\nTrainer: Paul Whitmore\nDate: 14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Splicing Steel Ropes", false, "Certificate of Achievement\nAwarded to Mona Arkell for successful completion of Splicing Steel Ropes\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Safe Use of Winches – Part 2", true, "Certificate of Attendance\nTitle of session: Safe Use of Winches – Part 2\nAttendee: Mona Arkell\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Lifting in Confined Spaces: Planning and Rescue", true, "Certificate of Attendance\nMona Arkell attended\nLifting in Confined Spaces: Planning and Rescue\n14 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"42nd Tannvale Lifting Symposium", true, "Certificate of Attendance\nMona Arkell\nwas a registered delegate at the\n42nd Tannvale Lifting Symposium\n14–15 May 2026\nIssued 20 May 2026\nTannvale Training Trust"},
		{"How to Read a Rope", true, "Certificate of Attendance\nMona Arkell watched the recorded webinar How to Read a Rope on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Ethics for Inspectors", false, "This certificate confirms that Mona Arkell has earned 2 CPD points by attending Ethics for Inspectors on 14 May 2026.\nIssued 20 May 2026\nTannvale Training Trust"},
		{"Winden sicher bedienen", true, "Teilnahmebescheinigung\nTeilnehmer/in: Mona Arkell\nSeminartitel: Winden sicher bedienen\nSeminardatum: 14.05.2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", false, "Zertifikat\nWir bescheinigen Frau Mona Arkell die Teilnahme an unserem Workshop\nWinden sicher bedienen\nam 14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", true, "Fortbildungsnachweis\nName: Mona Arkell\nBezeichnung der Maßnahme: Winden sicher bedienen\nDatum: 14.05.2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", true, "Unterweisungsnachweis\nInhalt: Winden sicher bedienen\nUnterwiesene Person: Mona Arkell\nDatum: 14.05.2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", true, "Bestätigung\nHiermit wird bestätigt, dass Mona Arkell den E-Learning-Kurs „Winden sicher bedienen“ am 14. Mai 2026 abgeschlossen hat.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", true, "Teilnahmebestätigung\nMona Arkell\nFachvortrag: Winden sicher bedienen\n14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Winden sicher bedienen", true, "Sehr geehrte Frau Arkell,\nvielen Dank für Ihre Teilnahme am Seminar Winden sicher bedienen, das am 14. Mai 2026 in Tannau stattfand.\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"12. Tannauer Krantag", false, "Teilnahmebestätigung\nMona Arkell hat am 12. Tannauer Krantag teilgenommen.\n14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Lasten richtig anschlagen (Aufbaukurs)", true, "Teilnahmebescheinigung\nKursbezeichnung\nLasten richtig anschlagen (Aufbaukurs)\nTeilnehmerin\nMona Arkell\nDatum\n14. Mai 2026\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V."},
		{"Utiliser un treuil en sécurité", true, "Attestation de formation\nStagiaire : Mona Arkell\nFormation : Utiliser un treuil en sécurité\nDate : 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Utiliser un treuil en sécurité", true, "Attestation de fin de formation\natteste que Mme Mona Arkell a suivi la formation\n« Utiliser un treuil en sécurité »\nle 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Utiliser un treuil en sécurité", true, "Certificat de participation\nNom du participant : Mona Arkell\nTitre : Utiliser un treuil en sécurité\nDate : 14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Utiliser un treuil en sécurité", true, "Attestation\nMme Mona Arkell a participé à l'atelier Utiliser un treuil en sécurité organisé le 14 mai 2026.\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Utiliser un treuil en sécurité", true, "Attestation\nObjet : Utiliser un treuil en sécurité\nBénéficiaire : Mona Arkell\n14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"3e Congrès tannvalois du levage", true, "Attestation de présence\nMme Mona Arkell a participé au 3e Congrès tannvalois du levage, le 14 mai 2026.\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Utiliser un treuil en sécurité", true, "Certificat\ndécerné à\nMona Arkell\npour avoir suivi avec succès le cours\nUtiliser un treuil en sécurité\n14 mai 2026\nFait le 20 mai 2026\nInstitut Tannval de formation"},
		{"Uso seguro de cabrestantes", true, "Certificado\nSe otorga a Mona Arkell por su participación en el taller Uso seguro de cabrestantes, realizado el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Uso seguro de cabrestantes", true, "Certificado de aprovechamiento\nCurso: Uso seguro de cabrestantes\nAlumna: Mona Arkell\nFecha: 14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Uso seguro de cabrestantes", true, "Constancia\nhace constar que Mona Arkell asistió a la conferencia «Uso seguro de cabrestantes» el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Uso seguro de cabrestantes", true, "Certificado\nDenominación de la actividad: Uso seguro de cabrestantes\nAsistente: Mona Arkell\n14 de mayo de 2026\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"V Congreso Tanvalés de Izaje", true, "Certificado de asistencia\nMona Arkell asistió al V Congreso Tanvalés de Izaje el 14 de mayo de 2026.\nExpedido el 20 de mayo de 2026\nInstituto Tanval de Formación"},
		{"Veilig werken met lieren", true, "Certificaat\nCursist: Mona Arkell\nCursus: Veilig werken met lieren\nDatum: 14 mei 2026\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Veilig werken met lieren", true, "Bewijs van deelname\nHierbij verklaren wij dat Mona Arkell de workshop Veilig werken met lieren heeft bijgewoond op 14 mei 2026.\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"Veilig werken met lieren", true, "Deelnamebewijs\nTitel bijeenkomst: Veilig werken met lieren\nDeelnemer: Mona Arkell\n14 mei 2026\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
		{"7e Tanvelds Hijscongres", false, "Bewijs van deelname\nMona Arkell nam deel aan het 7e Tanvelds Hijscongres op 14 mei 2026.\nAfgegeven op 20 mei 2026\nInstituut Tanveld Opleidingen"},
	} {
		r := extract.Understand(pagesOf(c.text), extract.Hints{})[0]
		if v := r.Values[paper.FieldTitle]; v.Text != c.want || c.certain && !v.Certain {
			t.Errorf("%q: %q, certain %v; want %q, %v", c.text, v.Text, v.Certain, c.want, c.certain)
		}
	}
}

// TestOtherPapersAsTheyAreWritten: a bill for an event to come, a reference of an employer whose people
// test machines, and the minutes of a meeting.
func TestOtherPapersAsTheyAreWritten(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       map[paper.Field]string
	}{
		{"the day behind what was paid for", "Ostmark Pottery School\n# RECEIPT\nReceipt no. 441\nDate: 9 March 2026\nReceived from: Greta Lindqvist\nFor: Glazing without Lead, 14 April 2026\nAmount: £120.00\nPaid by card",
			map[paper.Field]string{paper.FieldStart: "2026-04-14", paper.FieldIssue: "2026-03-09", paper.FieldTitle: "Glazing without Lead"}},
		{"a small word before the day", "Keramikschule Ostmark e. V.\n# Rechnung Nr. 2026-114\nDatum: 09.03.2026\nFrau Greta Lindqvist\nSeminar Glasuren ohne Blei am 14.04.2026\nRechnungsbetrag 238,00 €",
			map[paper.Field]string{paper.FieldTitle: "Glasuren ohne Blei"}},
		{"labels for both ends of employment", "Ostmark Kilns Ltd\n# Employment verification\nEmployee: Greta Lindqvist\nPosition: Senior Kiln Inspector\nEmployed from: 4 March 2019\nEmployed to: 31 December 2025",
			map[paper.Field]string{paper.FieldStart: "2019-03-04", paper.FieldEnd: "2025-12-31", paper.FieldKind: "employment"}},
		{"who tests machines examines nobody", "Ofenbau Ostmark GmbH\n# Arbeitszeugnis\nFrau Greta Lindqvist war vom 1. März 2019 bis zum 31. Dezember 2025 als Kesselprüferin in unserem Betrieb tätig.\nOstmark, 31. Dezember 2025",
			map[paper.Field]string{paper.FieldKind: "employment", paper.FieldTitle: "Kesselprüferin", paper.FieldEnd: "2025-12-31"}},
		{"who examines candidates does", "Kammer der Ofenbauer\n# Bescheinigung\nFrau Greta Lindqvist war am 3. März 2026 als Prüferin bei der Gesellenprüfung tätig.\nOstmark, 9. März 2026",
			map[paper.Field]string{paper.FieldKind: "instruction"}},
		{"opened and closed", "Guild of Ostmark Potters\n# Minutes of the Glaze Committee\n3 March 2026\nPresent: Greta Lindqvist, Paul Sand, Rita Moor\nThe chair opened the meeting at 14:00.\n1. Minutes of the last meeting were approved.\nThe meeting closed at 16:15.",
			map[paper.Field]string{paper.FieldKind: "meeting", paper.FieldStart: "2026-03-03", paper.FieldDuration: "135"}},
	} {
		r := extract.Understand(pagesOf(c.text), extract.Hints{})[0]
		for f, want := range c.want {
			if v := r.Values[f]; v.Text != want || !v.Certain && f != paper.FieldTitle && want != string(paper.Instruction) {
				t.Errorf("%s: %s is %q, certain %v; want %q", c.name, f, v.Text, v.Certain, want)
			}
		}
	}
}

// TestOtherMeetingsOnTheAgenda: minutes speak of the meeting before and of the next one; the meeting
// is the one at their head.
func TestOtherMeetingsOnTheAgenda(t *testing.T) {
	for _, c := range []struct{ text, title string }{
		{"Landesverband Grünflächen Westerholz e. V.\nProtokoll\n\nFachausschuss Baumpflege, 18. Sitzung\n\nDonnerstag, 22. Januar 2026, 14:00 bis 17:15 Uhr (Pause 15:30 bis 15:45 Uhr), Bürgerhaus\nAusfertigung für: Irmgard Stelzhammer\n\nAnwesend: Bodo Rautenstrauch (Vorsitz), Irmgard Stelzhammer\n\nTOP 1 Protokoll der 17. Sitzung vom 16. Oktober 2025\n\nOhne Änderung genehmigt.\n\nTOP 4 Nächste Sitzung\n\n23. April 2026, 14:00 Uhr, gleicher Ort.\n\nProtokoll gefertigt am 29.01.2026", "Fachausschuss Baumpflege, 18. Sitzung"},
		{"Westerholt Association of Green Spaces\nMinutes\n\nTree Care Committee, 18th meeting\n\nThursday, 22 January 2026, 14:00 to 17:15 (break 15:30 to 15:45), Town Hall\nCopy for: Irma Stelham\n\nPresent: Boris Rowton (chair), Irma Stelham\n\nItem 1 Minutes of the 17th meeting of 16 October 2025\n\nApproved without change.\n\nItem 4 Next meeting\n\n23 April 2026, 14:00, same place.\n\nMinutes drawn up on 29 January 2026", "Tree Care Committee, 18th meeting"},
		{"Association des espaces verts de Valbois\nCompte rendu\n\nCommission des arbres, 18e réunion\n\nJeudi 22 janvier 2026, de 14 h 00 à 17 h 15 (pause de 15 h 30 à 15 h 45), mairie\nExemplaire pour : Irène Stelhamer\n\nPrésents : Basile Rautin (président), Irène Stelhamer\n\nPoint 1 Compte rendu de la 17e réunion du 16 octobre 2025\n\nApprouvé sans modification.\n\nPoint 4 Prochaine réunion\n\n23 avril 2026, 14 h 00, même lieu.\n\nCompte rendu rédigé le 29 janvier 2026", "Commission des arbres, 18e réunion"},
		{"Asociación de Zonas Verdes de Valdebosque\nActa\n\nComisión de Arbolado, 18.ª reunión\n\nJueves, 22 de enero de 2026, de 14:00 a 17:15 (pausa de 15:30 a 15:45), Casa Consistorial\nCopia para: Irene Estelar Muro\n\nPresentes: Basilio Rauto Gil (presidente), Irene Estelar Muro\n\nPunto 1 Acta de la 17.ª reunión del 16 de octubre de 2025\n\nAprobada sin cambios.\n\nPunto 4 Próxima reunión\n\n23 de abril de 2026, 14:00, mismo lugar.\n\nActa redactada el 29 de enero de 2026", "Comisión de Arbolado, 18.ª reunión"},
		{"Vereniging Groenbeheer Westerhout\nNotulen\n\nCommissie Boomverzorging, 18e vergadering\n\nDonderdag 22 januari 2026, 14.00 tot 17.15 uur (pauze 15.30 tot 15.45 uur), gemeentehuis\nExemplaar voor: Irma Stelhamer\n\nAanwezig: Bob Routenstra (voorzitter), Irma Stelhamer\n\nPunt 1 Notulen van de 17e vergadering van 16 oktober 2025\n\nZonder wijziging goedgekeurd.\n\nPunt 4 Volgende vergadering\n\n23 april 2026, 14.00 uur, zelfde plaats.\n\nNotulen opgemaakt op 29 januari 2026", "Commissie Boomverzorging, 18e vergadering"},
	} {
		got := extract.Understand(page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: strings.Split(c.text, "\n")}}}, extract.Hints{})[0].Values
		for field, want := range map[paper.Field]string{paper.FieldTitle: c.title, paper.FieldStart: "2026-01-22", paper.FieldEnd: "2026-01-22", paper.FieldIssue: "2026-01-29", paper.FieldDuration: "180"} {
			if v := got[field]; v.Text != want || !v.Certain {
				t.Errorf("%.30q: %s is %q, certain %v; want %q", c.text, field, v.Text, v.Certain, want)
			}
		}
	}
}
