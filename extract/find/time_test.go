package find_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract/find"
)

func TestClocks(t *testing.T) {
	tests := []struct {
		text string
		want []string // from–to, net minutes, breaks
		why  string
	}{
		{"09:00–17:30 (breaks: 10:30–10:45, 12:30–13:30, 15:15–15:30)", []string{"09:00–17:30 net 420 breaks 3"}, "510 − 15 − 60 − 15"},
		{"von 13:30 bis 17:00 Uhr (Pause 15:00–15:15)", []string{"13:30–17:00 net 195 breaks 1"}, "one break, German"},
		{"9 am to 5.30 pm, less 45 min lunch", []string{"09:00–17:30 net 465 breaks 1"}, "a length of break"},
		{"from 8:00 ‘AM to 12:00 noon, with a 20-minute\nbreak", []string{"08:00–12:00 net 220 breaks 1"}, "a speck before AM, a break over the line"},
		{"9.00 bis 17.00 Uhr, 30 Min. Pause", []string{"09:00–17:00 net 450 breaks 1"}, "points"},
		{"two 15-minute breaks, 09:00-12:00", []string{"09:00–12:00 net 150 breaks 1"}, "twice"},
		{"09:00 - 17:00 Uhr inkl. 45 Minuten Mittagspause und 2 Kaffeepausen à 15 Minuten", []string{"09:00–17:00 net 405 breaks 2"}, "compounds"},
		{"9h30-12h et 13h30-17h", []string{"09:30–12:00 net 150 breaks 0", "13:30–17:00 net 210 breaks 0"}, "two spans, French"},
		{"13.30 - 17.00 uur (pauze 15.00-15.20 uur)", []string{"13:30–17:00 net 190 breaks 1"}, "Dutch"},
		{"de 9 h 00 à 12 h 30", []string{"09:00–12:30 net 210 breaks 0"}, "spaces around h"},
		{"Tue 05/12/2026 12:45 PM 2:15 PM Lockout", []string{"12:45–14:15 net 90 breaks 0"}, "two columns of a table"},
		{"11:30 AM 12:45 PM Lunch –", nil, "a break"},
		{"12-3pm", []string{"12:00–15:00 net 180 breaks 0"}, "twelve is noon"},
		{"10:10pm to 3", []string{"22:10–03:00 net 290 breaks 0 past midnight"}, "the next 3 o'clock"},
		{"22:00–02:00", []string{"22:00–02:00 net 240 breaks 0 past midnight"}, "over midnight"},
		{"from half past nine to a quarter to five; von halb neun bis Viertel vor zwölf; van half tien tot twaalf uur", []string{"09:30–16:45 net 435 breaks 0", "08:30–11:45 net 195 breaks 0", "09:30–12:00 net 150 breaks 0"}, "hours in words"},
		{"de neuf heures et demie à midi; de las nueve y cuarto a las once menos cuarto", []string{"09:30–12:00 net 150 breaks 0", "09:15–10:45 net 90 breaks 0"}, "hours in words"},
		{"two to three hours, drie tot vier uur, de deux à trois heures, ten to five", nil, "lengths in words"},
		{"9:00–5:30", []string{"09:00–17:30 net 510 breaks 0 guessed"}, "nothing tells the half of the day"},
		{"08:30 to 12:30, no breaks", []string{"08:30–12:30 net 240 breaks 0"}, "none listed"},
		{"Start 09:00, end 17:30", []string{"09:00–17:30 net 510 breaks 0"}, "a word for the end"},
		{"Start: 2026-03-03T09:00 End: 2026-03-03T17:00", []string{"09:00–17:00 net 480 breaks 0"}, "the same day before both"},
		{"03.03.2026 09:00 bis 04.03.2026 17:00", nil, "two days: no span of one"},
		{"evening lecture from 7 to 9", []string{"19:00–21:00 net 120 breaks 0"}, "a word for the half of the day"},
		{"9–12 und 13–17 Uhr", []string{"09:00–12:00 net 180 breaks 0", "13:00–17:00 net 240 breaks 0"}, "one unit for both"},
		{"de las 9 a las 11, entre las 9 y las 11 horas", []string{"09:00–11:00 net 120 breaks 0", "09:00–11:00 net 120 breaks 0"}, "the article of hours"},
		{"de las 10 a las 20 personas", nil, "people"},
		{"02.05.26 1930-2000", []string{"19:30–20:00 net 30 breaks 0"}, "behind a day these are no years"},
		{"3 March between 8 and 9; pages between 8 and 9", []string{"08:00–09:00 net 60 breaks 0"}, "a day makes them hours"},
		{"hier soir entre 7h et 9h30", []string{"19:00–21:30 net 150 breaks 0"}, "an evening right before the times"},
		{"9h-12h, conférence du soir 19h-21h", []string{"09:00–12:00 net 180 breaks 0", "19:00–21:00 net 120 breaks 0"}, "the evening of other times"},
		{"10 - 11 at night", []string{"22:00–23:00 net 60 breaks 0"}, "a word for the half of the day"},
		{"9:00 Uhr bis 16:30 Uhr, inkl. 1 Std. Mittagspause", []string{"09:00–16:30 net 390 breaks 1"}, "an hour's break"},
		{"2019-2021, pages 10-12, 0.50 - 1.25", nil, "years, pages, decimals"},
		{"18th september 2017 - 06:25", nil, "a date and one time"},
	}
	for _, tt := range tests {
		var got []string
		for _, c := range find.Clocks(tt.text, nil) {
			s := fmt.Sprintf("%s–%s net %d breaks %d", clock(c.From), clock(c.To), c.Net(), len(c.Breaks))
			if c.PastMidnight {
				s += " past midnight"
			}
			if c.HalfGuessed {
				s += " guessed"
			}
			got = append(got, s)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestDurations(t *testing.T) {
	tests := []struct {
		text string
		want []string
		why  string
	}{
		{"Scheduled length 21.0 hours", []string{"21.0 hours = 1260"}, "decimal point"},
		{"7,5 Stunden", []string{"7,5 Stunden = 450"}, "decimal comma"},
		{"Duration 2 hours 40 minutes", []string{"2 hours 40 minutes = 160"}, "hours and minutes"},
		{"durée totale de 13 h 30.", []string{"13 h 30 = 810"}, "bare minutes behind h"},
		{"1½ hours, 450 min, PT7H30M", []string{"1½ hours = 90", "450 min = 450", "PT7H30M = 450"}, "a fraction, and ISO 8601-1, 5.5.2"},
		{"4 x 90 min live classes", []string{"4 x 90 min = 360"}, "count times length"},
		{"4 sessions of 90 minutes; four 90-minute sessions", []string{"4 sessions of 90 minutes = 360", "four 90-minute sessions = 360"}, "sessions"},
		{"12 séances d’une heure et demie; 8 soirées de deux heures et demie; 4 séances de trois quarts d'heure", []string{"12 séances d’une heure et demie = 1080", "8 soirées de deux heures et demie = 1200", "4 séances de trois quarts d'heure = 180"}, "the length of one in French words"},
		{"12 sesiones de hora y media; 6 tardes de dos horas y media; 3 sesiones (hora y media cada una)", []string{"12 sesiones de hora y media = 1080", "6 tardes de dos horas y media = 900", "3 sesiones (hora y media cada una) = 270"}, "and in Spanish"},
		{"12 sessions of an hour and a half; four times an hour and a half", []string{"12 sessions of an hour and a half = 1080", "four times an hour and a half = 360"}, "and in English"},
		{"4 lessen van drie kwartier; twee dagdelen van ieder 3 uur", []string{"4 lessen van drie kwartier = 180", "twee dagdelen van ieder 3 uur = 360"}, "and in Dutch"},
		{"15 Termine zu je 90 Minuten", []string{"15 Termine zu je 90 Minuten = 1350"}, "German sessions"},
		{"16 Unterrichtseinheiten zu je 45 Minuten", []string{"16 Unterrichtseinheiten zu je 45 Minuten = 720"}, "lessons with their length"},
		{"Umfang: 10 UE", []string{"10 UE = [450 500 600]"}, "lessons without: 45, 50 or 60 minutes"},
		{"8 UE (1 UE = 45 Minuten)", []string{"8 UE = 360", "1 UE = 45 Minuten = 45"}, "the text defines a lesson"},
		{"fifteen (15) contact hours", []string{"15) contact hours = 900 contact"}, "words and figures"},
		{"1 CEU = 10 contact hours, 10 contact hours = 1 CEU", nil, "a rate"},
		{"5 evenings, 2 hours each; 3 Tage à 8 Stunden; 2 Tage (16 Stunden)", []string{"5 evenings, 2 hours each = 600", "3 Tage à 8 Stunden = 1440", "2 Tage = 0", "16 Stunden = 960"}, "each is said, or it is the whole"},
		{"18 of 21 hours", []string{"18 of 21 hours = [1080 1260]"}, "either may be meant"},
		{"Contact time (hours)  7.5", []string{"hours)  7.5 = 450"}, "the unit in brackets"},
		{"1:45 h", nil, "a time, or a length"},
		{"45–60 minutes", []string{"45–60 minutes = [45 60]"}, "a span is to be asked"},
		{"two and a half days (15 contact hours)", []string{"two and a half days = 0", "15 contact hours = 900 contact"}, "days have no length"},
		{"12,5 horas lectivas", []string{"12,5 horas = 750"}, "horas lectivas have 60 minutes"},
		{"tweeënhalf uur, een kwartier", []string{"tweeënhalf uur = 150", "een kwartier = 15"}, "Dutch words"},
		{"anderthalb Stunden", []string{"anderthalb Stunden = 90"}, "German words"},
		{"zweieinhalbstündige Übung, 90-minütiges Webinar, achtstündig; zuständig", []string{"zweieinhalbstündige = 150", "90-minütiges = 90", "achtstündig = 480"}, "German adjectives"},
		{"vijf kwartier, hora y media", []string{"vijf kwartier = 75", "hora y media = 90"}, "quarters of an hour, and an hour without its number"},
		{"une heure et demie", []string{"une heure et demie = 90"}, "French words"},
		{"tres cuartos de hora", []string{"tres cuartos de hora = 45"}, "Spanish words"},
		{"three-quarters of an hour", []string{"three-quarters of an hour = 45"}, "English words"},
		{"Contact hours: 15", []string{"hours: 15 = 900 contact"}, "the unit first"},
		{"1.250 Minuten, 1,250 minutes; 1,250 hours", []string{"1.250 Minuten = 1250", "1,250 minutes = 1250", "1,250 hours = [75 75000]"}, "three figures behind a mark are thousands, or nothing tells"},
		{"deux jours et demi, dos días y medio, tweeënhalve dag", []string{"deux jours et demi = 0", "dos días y medio = 0", "tweeënhalve dag = 0"}, "days and a half"},
		{"10 unités de 45 minutes, 6 units of 50 minutes, 2 units", []string{"10 unités de 45 minutes = 450", "6 units of 50 minutes = 300"}, "units with their length are time"},
		{"8 LE à 45 min, 8 U.-Std. (45 min), le 8", []string{"8 LE à 45 min = 360", "8 U.-Std. (45 min) = 360"}, "lessons in short"},
		{"(37.5 hours a week)", []string{"37.5 hours = 2250 rate"}, "a rate is no length"},
		{"with a 20-minute break", []string{"20-minute = 20 break"}, "a break"},
		{"CPD: 2 hours 15 minutes", []string{"2 hours 15 minutes = 135"}, "minutes behind the hours: a length"},
		{"6 CPD hours, 1.5 CE hours, 6 hours of CPD, 15 PDH, 0.75 CEU", nil, "credits, no time"},
		{"Contact hours: 7.5 CEU: 0.75", []string{"hours: 7.5 = 450 contact"}, "each label has its own number"},
		{"code 7H2K-0819-2290", nil, "a code"},
		{"09:00–17:30, à 13 h 30", nil, "times of day"},
	}
	for _, tt := range tests {
		var got []string
		for _, d := range find.Durations(tt.text, nil) {
			s := fmt.Sprintf("%s = %d", d.Of(tt.text), d.Minutes)
			if len(d.Candidates) > 0 {
				s = fmt.Sprintf("%s = %v", d.Of(tt.text), d.Candidates)
			}
			for _, f := range []struct {
				is   bool
				name string
			}{{d.Contact, "contact"}, {d.PerWeek, "rate"}, {d.Break, "break"}} {
				if f.is {
					s += " " + f.name
				}
			}
			got = append(got, s)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}
