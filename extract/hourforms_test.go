package extract_test

import "testing"

// hourForms are papers that give the time of one and their number apart, or hours that are none of
// the contact time beside those that are.
var hourForms = []hoursCase{
	// the time of each and how many there were, at labels of their own
	{"en-talk", "Talks given: 6\nLength of each: 40 minutes", "240"},
	{"en-talk", "Duration per session: 2 hours\nNumber of sessions: 5", "600"},
	{"de-talk", "Dauer je Vortrag: 50 Minuten\nAnzahl der Vorträge: 4", "200"},
	{"de-talk", "Termine vorgesehen: 9\nTermine gehalten: 8\nUmfang je Termin: 2 Unterrichtsstunden zu je 45 Minuten", "720"},
	{"fr", "Durée par séance : 1 h 30\nNombre de séances : 4", "360"},
	{"es", "Duración de cada sesión: 2 horas\nSesiones impartidas: 7\nSesiones asistidas: 6", "720"},
	{"nl", "Duur per bijeenkomst: 90 minuten\nAantal bijeenkomsten: 5\nBijeenkomsten bijgewoond: 4", "360"},
	// counted in a sentence
	{"es-talk", "Lo dictó en tres encuentros de 2 horas cada uno.", "360"},
	{"es-talk", "Impartió en total cuatro clases de 90 minutos.", "360"},
	// what was done at home
	{"en-talk", "She gave 4 talks of 45 minutes each. Preparing them took her about 12 hours.", "180"},
	{"en-talk", "By her own reckoning the journeys required a further 9 hours; the talk lasted 50 minutes.", "50"},
	{"de-talk", "Der Vortrag dauerte 60 Minuten. Nach ihrer Angabe kostete die Vorbereitung sie weitere 8 Stunden.", "60"},
	{"es-talk", "La ponencia duró 40 minutos. La preparación le llevó otras 6 horas, que no se acreditan.", "40"},
	{"nl", "De cursus duurde 5 uur. De voorbereiding vergde nog eens 3 uur.", "300"},
	{"fr", "La journée a duré 6 heures. Les trajets ont pris 4 heures, qui ne sont pas comptées.", "360"},
	// the hours of each, and at which of them somebody was
	{"en-list", "Each evening runs from 6.30 pm to 8.30 pm, with a break of 15 minutes.\n3 February 2026 – Ash glazes (you were present)\n10 February 2026 – Slips (you were not there)\n17 February 2026 – Firing (you were present)", "210"},
	{"de-list", "Jeder Abend dauerte von 18.00 bis 19.30 Uhr.\n3. Februar 2026: Ascheglasur (anwesend)\n10. Februar 2026: Engobe (anwesend)\n17. Februar 2026: Brand (nicht da)", "180"},
	{"nl-list", "Elke avond liep van 19.30 tot 21.00 uur.\nDatum   Onderwerp   Aanwezig\n3 februari 2026   Asglazuur   x\n10 februari 2026   Engobe   afwezig\n17 februari 2026   Stoken   x\n24 februari 2026   Nazicht   x", "270"},
	{"fr-list", "Chaque soirée va de 18 h à 20 h.\nDate   Sujet   Code\n3 février 2026   Émaux   P\n10 février 2026   Engobes   E\n17 février 2026   Cuisson   P\nP = présente ; E = excusée", "240"},
	// columns of a list
	{"en-list", "Date   Min. credited   Signed in\n3 February 2026   90   yes\n10 February 2026   60   yes\n17 February 2026   90   absent – ill", "150"},
	{"de-list", "Abend   Min. angerechnet   Thema\nDi 3. Februar   90   Ascheglasur\nDi 10. Februar   75   Engobe\nDi 17. Februar   90   Brand", "255"},
	{"en", "Time   Session   Signed in\n9.15–   Ash glazes   OF\n10.30\n10.45–   Slips   OF\n12.15\n13.00–   Kilns   absent, called away\n14.00", "165"},
	{"fr", "Module   Intitulé   Durée indicative\n1   Émaux   1 h 15\n2   Engobes   45 min\n   Total   2 h 00", "120"},
	{"en", "8:30 AM   Session 1: glazes\n10:00 - 10:15   Break\n10:15   Session 2: slips\n12:00 - 12:45   Lunch\n12:45 PM   Session 3: kilns\n2:30 - 2:45   Break\n2:45   Session 4: firing\n4:00 PM   End", "375"},
	{"en", "Contact hours: 6.5 hours CPD units: 4", "390"},
	// a column of lessons of which a sentence says how long they are
	{"de-talk", "Tag   Std.-Nr.   UE\nFr, 10.01.2026   1–4   4\nFr, 17.01.2026   1–3   3\nFr, 24.01.2026   1–2   2\nEine UE dauert bei uns 45 Minuten.", "405"},
	{"en-talk", "Date   Room   Lessons\n10 January 2026   4   3\n17 January 2026   4   4\nA lesson lasts 50 minutes.", "350"},
	// hours in words, and questions after a talk
	{"en-talk", "She spoke from half past six until half past seven, and was kept for questions for a further fifteen minutes.", "75"},
	{"nl", "De dag duurde van half tien tot kwart voor vier, met een half uur pauze.", "345"},
	{"de", "Das Seminar ging von halb neun bis Viertel vor zwölf.", "195"},
	{"fr", "De neuf heures et demie à midi.", "150"},
	{"es", "De las nueve y media a las once menos cuarto.", "75"},
	{"en", "From / to: 6.00 pm / 7.40 pm", "100"},
	// a guide beside one's own time
	{"en-home", "Your study time: 3 h 10 min (guide value: 4 h)", "190"},
	// what somebody missed, what was only planned, gross and net
	{"en", "The seminar was advertised as 6 hours; owing to the late train it ran for 5 hours 15 minutes.", "315"},
	{"en", "Attended 3 of 4 modules of 90 minutes.", "270"},
	{"en-list", "Six evenings of two hours; she missed one.", "600"},
	{"de-list", "Sechs Abende zu je zwei Stunden, an einem war sie verhindert.", "600"},
	{"nl-list", "Vijf avonden van twee uur, waarvan vier bijgewoond.", "480"},
	{"fr-list", "Cinq séances de 1 h 30, toutes suivies.", "450"},
	{"es", "Con una carga horaria de 20 horas, de las que asistió a 16.", "960"},
	{"fr", "Durée : 7 h (dont 1 h de pause déjeuner).", "360"},
	{"de", "Gesamtdauer 8 Stunden, Netto-Unterrichtszeit 6 Stunden 45 Minuten.", "405"},
	{"en", "The minimum is 15 hours in two years; the seminar lasted 4 hours.", "240"},
	{"en", "Session 1: 90 min\nSession 2: 75 min\nSession 3: 60 min (not attended)", "165"},
	{"en", "Session 1: 90 min, session 2: 75 min (absent), session 3: 60 min", "150"},
	{"en-home", "Video 2 h 20 min, quiz 15 min, reading about 1 hour; listed length 3 h 35 min.", "215"},
	{"es-list", "Tres jornadas de 5 horas, con una ausencia.", "600"},
	{"es", "Asistencia: 36 de 40 horas", "2160"},
	{"de", "Gesamtumfang 40 Stunden, Fehlzeit 4 Stunden.", "2160"},
	{"fr", "Durée 35 h, absence 3 h 30.", "1890"},
	{"nl", "Totaal 24 uur, waarvan 20 uur aanwezig.", "1200"},
	{"de", "8 UE = 6 Stunden", "360"},
	{"de-list", "Drei Nachmittage, jeweils 14 bis 17 Uhr", "540"},
	{"fr-list", "Deux demi-journées de 3 h 30", "420"},
	{"en2", "3 March: 9:00–12:00\n4 March: 9:00–11:00", "300"},
	{"en", "Morning 3 h 15 min; afternoon 2 h 45 min.", "360"},
	// by what others are rounded
	{"en", "Hours attended: 4.5. Whoever comes late is credited from the next half hour.", "270"},
	{"de", "Besucht: 5 Stunden. Gerechnet wird jede angefangene Viertelstunde.", "300"},
	// a part of the whole, in words
	{"en", "As she had to leave at noon we can credit her with four of the six and a half hours.", "240"},
	{"de", "Frau Sandnagel war fünf der sieben Stunden anwesend.", "300"},
	{"de", "Frau Sandnagel kam um 10 Uhr; das Seminar dauerte von 9 bis 16 Uhr.", "360"},
	{"fr", "Elle a suivi quatre des six heures.", "240"},
	{"es", "La interesada cumplió cinco de las ocho horas.", "300"},
	{"nl-list", "De cursus werd gegeven op 5, 12 en 19 maart 2026. U was tweemaal aanwezig, zodat wij vier van de zes uur kunnen toekennen.", "240"},
	// how many there were, in other words
	{"de-talk", "Zahl der Abende: 6, stets mittwochs\nDauer je Abend: 75 Minuten", "450"},
	{"nl", "Hoeveel avonden: 4\nDuur per avond: 2 uur", "480"},
}

// hourFormsNot look like those of [hourForms] and say something else.
var hourFormsNot = []hoursCase{
	{"en-talk", "Length of each: 40 minutes", ""},                                              // of how many nobody says
	{"en-talk", "Talks planned: 6\nLength of each: 40 minutes", ""},                            // nor how many were given
	{"en", "She attended for the last half hour and the preparation course took 2 hours.", ""}, // which of them is open
	{"en-list", "Our office is open from 9 am to 5 pm.\n3 February 2026 – Ash glazes (you were present)\n10 February 2026 – Slips (you were not there)", ""},
	{"de-talk", "Tag   Raum   UE\nFr, 10.01.2026   14   4\nFr, 17.01.2026   13   3", ""}, // of what length nobody says
	{"en", "Programme: 9.00 to 16.30, lunch 12.30 to 13.15. Ms Fennimore left after lunch at 13.15.", ""},
	{"en", "Seminar length 7 hours. Sign-in 09:10, sign-out 15:40.", ""},
	{"en-list", "3 February 2026   18:30–20:30   present\n10 February 2026   18:30–20:30   arrived 19:00\n17 February 2026   18:30–20:30   present", ""},
	{"en", "Session 2 of the series: 90 min.", "90"},
	{"nl2", "Begin en einde: 13:30–17:30 uur elke dag.\nLesduur: 12 uur.", ""}, // no lesson is so long
	{"es", "40 horas lectivas, asistencia del 90 %", ""},
	{"en", "Attendance: 80 % of 20 hours.", ""},
	{"en", "Three of the nine hours are private study.", ""}, // how much of the rest took place is open
	{"de", "Frau Sandnagel war zwei der sieben Stunden nicht anwesend.", ""},
	{"de", "Der Kurs Vorbereitung dauerte 8 Stunden.", "480"},
	{"en", "The full hour of discussion was attended by all; the seminar lasted 3 hours.", "180"},
}

// TestHoursInForms: the time of one times their number, and hours that do not count.
func TestHoursInForms(t *testing.T) {
	runHours(t, "forms", hourForms, len(hourForms))
	runHours(t, "no forms", hourFormsNot, 0)
}
