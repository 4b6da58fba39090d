package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// hourPages are papers of which the layout tells the time: marks in a table, a column of hours, a
// running order, hours of opening and closing under labels.
var hourPages = []valueCase{
	{"boxes of which one is empty", "Wendle Forum\n# Statement of Attendance\nName: Orla Fennimore\nConference: Kiln Week\nScanned   Day   Time   Session\n☑   3 March 2026   9:00–10:30   Vents\n☐   3 March 2026   11:00–12:30   Glazes\n☑   4 March 2026   9:00–11:00   Slip", "210"},
	{"a column of marks under an unknown head", "Wendle Forum\n# Attendance record\nName: Orla Fennimore\nCourse: Kiln Week\nDay   Time   Topic   Badge scanned\n3 March 2026   9:00–10:30   Vents   yes\n4 March 2026   9:00–10:30   Glazes   —\n5 March 2026   9:00–11:00   Slip   yes", "210"},
	{"hours offered and hours present", "Ovenhuis Ostmeer\n# Bewijs van deelname\nWieke Aldershof heeft deelgenomen aan de cursus Veilig stoken.\nBijeenkomst   Contacturen   Aanwezig\n12 maart 2026   4   4\n19 maart 2026   4   2,5 (eerder weg)\n2 april 2026   4   4", "630"},
	{"units whose length is said of others", "Brennhof Akademie\n# Besuchsbestätigung\nHerr Davard Eichstedt besuchte am 3. März 2026 das Seminar \"Ofenbau\".\nUmfang der Reihe: 18 UE à 45 Minuten. Besucht: 15 UE.", "675"},
	{"opened and adjourned under labels", "Larkspur Society of Potters\n# ATTENDANCE SLIP\nMember: Orla Fennimore\nMeeting: Quarterly Meeting of the Kiln Committee\nDate: 15 September 2026\nCalled to order:   5:30 p.m.\nDinner:   6:30 - 7:00 p.m. (not creditable)\nAdjourned:   8:15 p.m.", "135"},
	{"a running order", "Casa Barro\n# CONSTANCIA\nHerminia Zavaleta Poot estuvo presente en la jornada técnica «Esmaltes» el jueves 16 de abril de 2026 conforme al siguiente horario:\n9:30   Mesa 1: el material\n11:00   Descanso\n11:30   Mesa 2: ensayos\n14:00   Clausura", "240"},
	{"a whole beneath its parts", "Atelier Sud\n# Mes formations\nSolène Archambaud\nCuisson, du 12/06/2024 au 14/06/2024 · 21 h · validée\nÉmaux, du 07/11/2024 au 08/11/2024 · 14 h · validée\n2 actions validées – 35 h au total", "2100"},
	{"a total of hours and minutes beneath a sheet", "Ovenhuis Ostmeer\n# Urenstaat\nDocent: Wieke Aldershof\nCursus: Veilig stoken\nLesdatum   Begin   Eind   Pauze   Netto\n3 maart 2026   13.00   15.30   15 min   2 u 15\n10 maart 2026   13.00   16.00   15 min   2 u 45\nTotaal gegeven uren   5 u 00", "300"},
	{"a sum of hours taught", "Brennhof Akademie\n# Lehrnachweis\nDozentin: Ulrike Sandnagel\nKurs: Ofenbau\nTag   Beginn   Ende   Pause   Netto\n3. März 2026   9.00   12.00   20 min   2 h 40\n10. März 2026   9.00   11.00   10 min   1 h 50\nSumme erteilte Stunden   4 h 30", "270"},
	{"a column of hours without rows", "Registro Alfarero de Quelmo\n# HISTORIAL DE CAPACITACIÓN\nTitular: Herminia Zavaleta\nActividad   Desde   Hasta   Hs.   Créditos\nHornos   06/06/2024   07/06/2024   12   3\nEsmaltes   19/09/2024   19/09/2024   8   2\nMoldes   23/10/2025   23/10/2025   6   1", "1560"},
}

// TestHoursInPages: see [hourPages].
func TestHoursInPages(t *testing.T) {
	checkValues(t, paper.FieldDuration, hourPages)
}
