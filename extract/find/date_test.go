package find_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract/find"
)

// showDate writes a date as "SPAN = reading | reading", with what else is known of it.
func showDate(text string, d find.Date) string {
	var readings []string
	for _, r := range d.Readings {
		s := r.Day.String()
		switch d.Lack {
		case find.NoYear:
			s = fmt.Sprintf("--%02d-%02d", r.Month, r.DayOfMonth)
		case find.MonthOnly:
			s = fmt.Sprintf("%d-%02d", r.Year, r.Month)
		}
		if d.HasWeekday && r.Weekday {
			s += "*"
		}
		readings = append(readings, s)
	}
	if d.Form == find.Relative {
		readings = append(readings, fmt.Sprintf("%+d", d.Offset))
	}
	return d.Of(text) + " = " + strings.Join(readings, " | ")
}

func TestDates(t *testing.T) {
	tests := []struct {
		text string
		l    find.Languages
		want []string // an asterisk: the weekday given is that of the day
		why  string
	}{
		{"3 March 2026", nil, []string{"3 March 2026 = 2026-03-03"}, "a month in words settles the order"},
		{"March 3rd, 2026", nil, []string{"March 3rd, 2026 = 2026-03-03"}, "month first, ordinal"},
		{"on the 22nd of January 2026.", nil, []string{"22nd of January 2026 = 2026-01-22"}, "the full stop is no part of it"},
		{"Mar 13, 2025", nil, []string{"Mar 13, 2025 = 2025-03-13"}, "mar is a Tuesday elsewhere, but no day follows it"},
		{"le 1er mars 2026", nil, []string{"1er mars 2026 = 2026-03-01"}, "French ordinal"},
		{"Hainrode, 20. Oktober 2025", nil, []string{"20. Oktober 2025 = 2025-10-20"}, "German ordinal"},
		{"el 2 de octubre de 2026", nil, []string{"2 de octubre de 2026 = 2026-10-02"}, "Spanish, twice de"},
		{"4e juli van 2025", nil, []string{"4e juli van 2025 = 2025-07-04"}, "Dutch ordinal"},
		{"03/04/2026", nil, []string{"03/04/2026 = 2026-04-03 | 2026-03-04"}, "nothing settles the order: both, day first before month first"},
		{"03/04/2026", find.Languages{find.German}, []string{"03/04/2026 = 2026-04-03"}, "German puts the day first"},
		{"03/04/2026", find.Languages{find.German, find.English}, []string{"03/04/2026 = 2026-04-03 | 2026-03-04"}, "one of the languages may put the month first"},
		{"21/11/2025", nil, []string{"21/11/2025 = 2025-11-21"}, "there is no month 21"},
		{"09/30/2026", nil, []string{"09/30/2026 = 2026-09-30"}, "there is no month 30"},
		{"03/03/2026", nil, []string{"03/03/2026 = 2026-03-03"}, "both orders give the same day"},
		{"Tue 05/12/2026 8:30", nil, []string{"Tue 05/12/2026 = 2026-12-05 | 2026-05-12*"}, "both are kept, the weekday speaks for one"},
		{"Friday, August 7, 2026", nil, []string{"Friday, August 7, 2026 = 2026-08-07*"}, "weekday before"},
		{"9 June 2026, Monday", nil, []string{"9 June 2026, Monday = 2026-06-09"}, "weekday behind, and wrong"},
		{"Mar 3, 2026; Mar. 3, 2026; Mar-3-2026", nil, []string{"Mar 3, 2026 = 2026-03-03", "Mar. 3, 2026 = 2026-03-03", "Mar-3-2026 = 2026-03-03"}, "a Tuesday in Spanish, and March"},
		{"2020/23/Sep, 23-2020-September", nil, []string{"2020/23/Sep = 2020-09-23", "23-2020-September = 2020-09-23"}, "a month in words leaves no doubt in any order"},
		{"9 de 8 de 1971", nil, []string{"9 de 8 de 1971 = 1971-08-09"}, "the month by its number, Spanish"},
		{"am 3ten März 2026", nil, []string{"3ten März 2026 = 2026-03-03"}, "German ordinal with letters"},
		{"des 22.11.2026", nil, []string{"22.11.2026 = 2026-11-22"}, "the German genitive is no since"},
		{"Montag 29.5 am Abend, heute Morgen", find.Languages{find.German}, []string{"Montag 29.5 = --05-29", "heute = +0"}, "am is at, and this morning is not tomorrow"},
		{"2026-03-03", nil, []string{"2026-03-03 = 2026-03-03"}, "ISO 8601-1, 5.2.2.1"},
		{"20260303", nil, []string{"20260303 = 2026-03-03"}, "ISO 8601-1, basic form"},
		{"3.3.26", nil, []string{"3.3.26 = 2026-03-03"}, "two-digit year"},
		{"3. 3. 2026", nil, []string{"3. 3. 2026 = 2026-03-03"}, "spaces behind the points"},
		{"03\u00a0March\u00a02026", nil, []string{"03\u00a0March\u00a02026 = 2026-03-03"}, "no-break spaces"},
		{"03‑03‑2026 and 03−04−2026", nil, []string{"03‑03‑2026 = 2026-03-03", "03−04−2026 = 2026-04-03 | 2026-03-04"}, "no-break hyphen, minus"},
		{"18 May 2O26, O3/14/2026, l2.13.2026", nil, []string{"18 May 2O26 = 2026-05-18", "O3/14/2026 = 2026-03-14", "l2.13.2026 = 2026-12-13"}, "letters that a scan takes for figures"},
		{"3 Marcn 2026, 4 Octohar 2026, Marsh 3", nil, []string{"3 Marcn 2026 = 2026-03-03"}, "one letter wrong, with day and year"},
		{"14.10 .2025", nil, []string{"14.10 .2025 = 2025-10-14"}, "a space that a scan sees"},
		{"3 III 2026", nil, []string{"3 III 2026 = 2026-03-03"}, "Roman month"},
		{"Thu Oct 26 11:00:09 2023", nil, []string{"Thu Oct 26 11:00:09 2023 = 2023-10-26*"}, "the time stands in the middle"},
		{"this tenth day of March, 2026", nil, []string{"tenth day of March, 2026 = 2026-03-10"}, "written out"},
		{"Register by February 6!", nil, []string{"February 6 = --02-06"}, "no year"},
		{"am 13.12. nachmittags", nil, []string{"13.12. = --12-13"}, "no year, German"},
		{"sept. 2025 and 11/2016", nil, []string{"sept. 2025 = 2025-09", "11/2016 = 2016-11"}, "months"},
		{"gestern", nil, []string{"gestern = -1"}, "relative: no reading, only the offset"},
		{"31 February 2026, 30/02/2026", nil, []string{"February 2026 = 2026-02"}, "no such day"},
		{"29 February 2026", nil, []string{"February 2026 = 2026-02"}, "no leap year"},
		{"Version 1.10.30, 10.1, 35.49, 1-2-3", nil, nil, "numbers, no dates"},
		{"No. 2025-418, RE-2026-0093, 8812-44017, 12.34.5.6", nil, nil, "codes"},
		{"au numéro 2/2026", nil, nil, "the number of an issue"},
		{"you may 10 times", nil, nil, "may is no month here"},
		{"3–5 March 2026", nil, nil, "a range is left to Ranges"},
	}
	for _, tt := range tests {
		var got []string
		for _, d := range find.Dates(tt.text, tt.l) {
			got = append(got, showDate(tt.text, d))
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%q (%s): -want +got\n%s", tt.text, tt.why, diff)
		}
	}
}

func TestDateFacts(t *testing.T) {
	one := func(text string) find.Date {
		t.Helper()
		got := find.Dates(text, nil)
		if len(got) != 1 {
			t.Fatalf("%q: %d dates, want 1", text, len(got))
		}
		return got[0]
	}
	if d := one("03/04/2026"); !d.Ambiguous() || len(d.Days()) != 2 || d.Readings[0].Order != find.DayFirst || d.Readings[1].Order != find.MonthFirst {
		t.Errorf("03/04/2026: %+v", d)
	}
	if d := one("3 March '26"); !d.TwoDigitYear || d.Form != find.Spelt {
		t.Errorf("3 March '26: %+v", d)
	}
	if d := one("29 February"); len(d.Days()) != 0 {
		t.Errorf("29 February: %+v, want no day", d)
	} else if _, ok := d.Readings[0].In(2026); ok {
		t.Error("29 February 2026 is no day")
	}
	if d := one("February 2026"); d.Readings[0].First().String() != "2026-02-01" || d.Readings[0].Last().String() != "2026-02-28" {
		t.Errorf("February 2026: %v to %v", d.Readings[0].First(), d.Readings[0].Last())
	}
}

func TestRangeWeekdays(t *testing.T) {
	for text, want := range map[string]bool{
		"Monday 2 – Wednesday 4 March 2026": true, "Monday 2 – Thursday 4 March 2026": false, "Tuesday 3 to Wednesday 4 March 2026": true, "3–4 March 2026": false,
	} {
		got := find.Ranges(text, nil)
		if len(got) != 1 || got[0].Readings[0].Weekday != want {
			t.Errorf("%q: %+v, want weekdays that agree: %v", text, got, want)
		}
	}
}

func TestRanges(t *testing.T) {
	tests := []struct {
		text string
		l    find.Languages
		want []string
		why  string
	}{
		{"3–5 March 2026", nil, []string{"3–5 March 2026 = 2026-03-03/2026-03-05"}, "shared month and year"},
		{"March 3-5, 2026", nil, []string{"March 3-5, 2026 = 2026-03-03/2026-03-05"}, "month first"},
		{"September 14-16, 2026", nil, []string{"September 14-16, 2026 = 2026-09-14/2026-09-16"}, "16 is no year"},
		{"28 Feb to 2 Mar 2026", nil, []string{"28 Feb to 2 Mar 2026 = 2026-02-28/2026-03-02"}, "shared year"},
		{"28 December to 2 January 2026", nil, []string{"28 December to 2 January 2026 = 2025-12-28/2026-01-02"}, "the start lies in the year before"},
		{"30 April – 1 May 2026", nil, []string{"30 April – 1 May 2026 = 2026-04-30/2026-05-01"}, "en dash with spaces"},
		{"vom 3. bis 5. März 2026", nil, []string{"3. bis 5. März 2026 = 2026-03-03/2026-03-05"}, "German"},
		{"03.-05.03.2026", nil, []string{"03.-05.03.2026 = 2026-03-03/2026-03-05 | 2026-05-03/2026-05-03"}, "figures"},
		{"13.-15.03.2026", nil, []string{"13.-15.03.2026 = 2026-03-13/2026-03-15"}, "15 is no month"},
		{"15.08. - 16.08.2017", nil, []string{"15.08. - 16.08.2017 = 2017-08-15/2017-08-16"}, "day and month, then all"},
		{"11/10/2025 - 11/11/2025", nil, []string{"11/10/2025 - 11/11/2025 = 2025-10-11/2025-11-11 | 2025-11-10/2025-11-11"}, "11/11 is one day, and leaves the order of the other open"},
		{"du 3 au 5 mars 2026", nil, []string{"3 au 5 mars 2026 = 2026-03-03/2026-03-05"}, "French"},
		{"les 1er et 2 décembre 2025, pour", nil, []string{"1er et 2 décembre 2025 = 2025-12-01/2025-12-02"}, "two days joined by and"},
		{"el 9 y el 10 de febrero de 2026", nil, []string{"9 y el 10 de febrero de 2026 = 2026-02-09/2026-02-10"}, "Spanish"},
		{"van 10 tot 22 augustus 2025", nil, []string{"10 tot 22 augustus 2025 = 2025-08-10/2025-08-22"}, "Dutch"},
		{"3, 10 and 17 March 2026", nil, []string{"3, 10 and 17 March 2026 = 2026-03-03/2026-03-17 listed"}, "a list: first and last"},
		{"March 3, 4 and 5, 2026; March 3, 10 seats", nil, []string{"March 3, 4 and 5, 2026 = 2026-03-03/2026-03-05 listed"}, "a list, month first; without the year none"},
		{"03.03.2026 09:00 Uhr bis 04.03.2026 17:00 Uhr", nil, []string{"03.03.2026 09:00 Uhr bis 04.03.2026 = 2026-03-03/2026-03-04 | 2026-03-03/2026-04-03"}, "a time behind the first day; nothing settles the order of the second"},
		{"van 2 tot en met 4 maart 2026", nil, []string{"2 tot en met 4 maart 2026 = 2026-03-02/2026-03-04"}, "Dutch, in full"},
		{"3 up to and including 5 March 2026, 3. bis einschließlich 5. März 2026", nil, []string{"3 up to and including 5 March 2026 = 2026-03-03/2026-03-05", "3. bis einschließlich 5. März 2026 = 2026-03-03/2026-03-05"}, "both ends, in full"},
		{"week ending 10 July 2026, w/c 6 July 2026", nil, []string{"week ending 10 July 2026 = 2026-07-04/2026-07-10 week", "w/c 6 July 2026 = 2026-07-06/2026-07-12 week"}, "the last day is given, and the first"},
		{"2016, the third quarter; letztes Quartal 2016", nil, []string{"2016, the third quarter = 2016-07-01/2016-09-30 months", "letztes Quartal 2016 = 2016-10-01/2016-12-31 months"}, "the year first, the last quarter"},
		{"novembre de l’année 2016", nil, nil, "a month, not the year"},
		{"dès 3 mars 2026", nil, []string{"dès 3 mars 2026 = 2026-03-03/ open"}, "since"},
		{"KW 28/2026", nil, []string{"KW 28/2026 = 2026-07-06/2026-07-12 week"}, "ISO 8601-1, 4.3.4"},
		{"pour l’année 2026", nil, []string{"2026 = 2026-01-01/2026-12-31 years"}, "a year that is a period"},
		{"07/01/2026 – 06/30/2027", nil, []string{"07/01/2026 – 06/30/2027 = 2026-07-01/2027-06-30"}, "the end settles the order of both"},
		{"01/05/2026 - 02/04/2026", nil, []string{"01/05/2026 - 02/04/2026 = 2026-01-05/2026-02-04"}, "day first would end before it starts"},
		{"03/04/2026 to 05/04/2026", nil, []string{"03/04/2026 to 05/04/2026 = 2026-04-03/2026-04-05 | 2026-03-04/2026-05-04"}, "both orders hold"},
		{"Kurswoche: 6. Juli 2026", nil, []string{"Kurswoche: 6. Juli 2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"in der Woche ab dem 6.7.2026", find.Languages{find.German}, []string{"Woche ab dem 6.7.2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"la semana que empieza el 6 de julio de 2026", nil, []string{"semana que empieza el 6 de julio de 2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"la semaine débutant le 6 juillet 2026", nil, []string{"semaine débutant le 6 juillet 2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"lesweek vanaf 6 juli 2026", nil, []string{"lesweek vanaf 6 juli 2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"28. Kalenderwoche 2026", nil, []string{"28. Kalenderwoche 2026 = 2026-07-06/2026-07-12 week"}, "ISO 8601-1, 4.3.4"},
		{"semaine 28 (2026)", nil, []string{"semaine 28 (2026) = 2026-07-06/2026-07-12 week"}, "ISO 8601-1, 4.3.4"},
		{"week 28 van 2026", nil, []string{"week 28 van 2026 = 2026-07-06/2026-07-12 week"}, "ISO 8601-1, 4.3.4"},
		{"Kurswoche 6.–10. Juli 2026", find.Languages{find.German}, []string{"6.–10. Juli 2026 = 2026-07-06/2026-07-10"}, "the days stand there"},
		{"in the week of 6 July 2026.", nil, []string{"week of 6 July 2026 = 2026-07-06/2026-07-12 week"}, "to be asked"},
		{"September 2025 to March 2026", nil, []string{"September 2025 to March 2026 = 2025-09-01/2026-03-31 months"}, "months, first to last day"},
		{"Q3 2019", nil, []string{"Q3 2019 = 2019-07-01/2019-09-30 months"}, "a quarter"},
		{"2019–2021", nil, []string{"2019–2021 = 2019-01-01/2021-12-31 years"}, "years"},
		{"Wintersemester 2025/26", nil, []string{"2025/26 = 2025-01-01/2026-12-31 years"}, "a year over new year"},
		{"since 4 January 2021. He", nil, []string{"since 4 January 2021 = 2021-01-04/ open"}, "it goes on"},
		{"1 March 2019 to date", nil, []string{"1 March 2019 to date = 2019-03-01/ open"}, "it goes on"},
		{"3/3/15, 3-7-27", nil, nil, "dates, no days joined to a month"},
		{"No. 2025-26, RE-2026-2027", nil, nil, "codes"},
		{"Rigging Level 2, 14–15 May 2026; Teil 3, 4. bis 6. Mai 2026", nil, []string{"14–15 May 2026 = 2026-05-14/2026-05-15", "4. bis 6. Mai 2026 = 2026-05-04/2026-05-06"}, "the number of a level is no day"},
		{"Levels, 2, 14 and 15 May 2026", nil, []string{"2, 14 and 15 May 2026 = 2026-05-02/2026-05-15 listed"}, "no number of that word"},
		{"5 March 2026 to 3 March 2026", nil, nil, "the end lies before the start"},
	}
	for _, tt := range tests {
		var got []string
		for _, r := range find.Ranges(tt.text, tt.l) {
			var readings []string
			for _, st := range r.Readings {
				readings = append(readings, st.Start.String()+"/"+st.End.String())
			}
			s := r.Of(tt.text) + " = " + strings.Join(readings, " | ")
			for _, f := range []struct {
				is   bool
				name string
			}{{r.Listed, "listed"}, {r.Week, "week"}, {r.Lack == find.MonthOnly, "months"}, {r.Lack == find.YearOnly, "years"}, {r.Open, "open"}} {
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
