package find_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// tongue writes days and ranges as papers of one language do. In a form %d is the day of
// the month, %M the month, %m its abbreviation, %W the weekday, %Y the year, %y its last
// two figures; of a range %e is the second day.
type tongue struct {
	lang                find.Lang
	months, short, days string
	dates, ranges       []string
}

// The names are those of Unicode CLDR 44, calendars/gregorian, format wide and abbreviated.
var tongues = []tongue{
	{find.English, "January February March April May June July August September October November December", "Jan Feb Mar Apr May Jun Jul Aug Sept Oct Nov Dec",
		"Sunday Monday Tuesday Wednesday Thursday Friday Saturday",
		[]string{"%d %M %Y", "%M %d, %Y", "%W, %d %M %Y", "%W, %M %d, %Y", "the %d. of %M, %Y", "%d %m %Y", "%m %d, %Y", "%d-%m-%Y", "%m-%d-%Y", "%d %m. %Y", "%d %M '%y"},
		[]string{"%d–%e %M %Y", "%d to %e %M %Y", "%M %d-%e, %Y", "from %d to %e %M %Y", "%d and %e %M %Y", "%M %d & %e, %Y", "between %d and %e %M %Y", "%d %M – %e %M %Y", "%d/%e %M %Y"}},
	{find.German, "Januar Februar März April Mai Juni Juli August September Oktober November Dezember", "Jan Feb Mär Apr Mai Jun Jul Aug Sept Okt Nov Dez",
		"Sonntag Montag Dienstag Mittwoch Donnerstag Freitag Samstag",
		[]string{"%d. %M %Y", "%W, den %d. %M %Y", "%W, %d. %M %Y", "am %d. %M %Y", "%d. %m. %Y", "%d. %m %y"},
		[]string{"vom %d. bis %e. %M %Y", "%d.–%e. %M %Y", "%d. - %e. %M %Y", "%d. und %e. %M %Y", "%d. u. %e. %M %Y", "%d./%e. %M %Y", "%d. %M bis %e. %M %Y"}},
	{find.French, "janvier février mars avril mai juin juillet août septembre octobre novembre décembre", "janv févr mars avr mai juin juil août sept oct nov déc",
		"dimanche lundi mardi mercredi jeudi vendredi samedi",
		[]string{"%d %M %Y", "le %d %M %Y", "le %W %d %M %Y", "%W %d %M %Y", "%d %m. %Y"},
		[]string{"du %d au %e %M %Y", "les %d et %e %M %Y", "%d-%e %M %Y", "du %d %M au %e %M %Y", "entre le %d et le %e %M %Y"}},
	{find.Spanish, "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre", "ene feb mar abr may jun jul ago sept oct nov dic",
		"domingo lunes martes miércoles jueves viernes sábado",
		[]string{"%d de %M de %Y", "el %d de %M de %Y", "%W, %d de %M de %Y", "%d de %M del %Y", "%d %m %Y", "%d-%m-%Y"},
		[]string{"del %d al %e de %M de %Y", "los días %d y %e de %M de %Y", "%d-%e de %M de %Y", "del %d de %M al %e de %M de %Y", "entre el %d y el %e de %M de %Y"}},
	{find.Dutch, "januari februari maart april mei juni juli augustus september oktober november december", "jan feb mrt apr mei jun jul aug sep okt nov dec",
		"zondag maandag dinsdag woensdag donderdag vrijdag zaterdag",
		[]string{"%d %M %Y", "%W %d %M %Y", "op %d %M %Y", "%d %m. %Y", "%d %m %Y", "%de %M %Y"},
		[]string{"van %d tot %e %M %Y", "%d t/m %e %M %Y", "%d en %e %M %Y", "%d-%e %M %Y", "%d tot en met %e %M %Y", "tussen %d en %e %M %Y"}},
}

// write fills a form with days a and b.
func (t tongue) write(form string, a, b credit.Date) string {
	y, m, d := a.YMD()
	_, _, e := b.YMD()
	return strings.NewReplacer("%d", fmt.Sprint(d), "%e", fmt.Sprint(e), "%M", strings.Fields(t.months)[m-1], "%m", strings.Fields(t.short)[m-1],
		"%W", strings.Fields(t.days)[a.Weekday()], "%Y", fmt.Sprint(y), "%y", fmt.Sprintf("%02d", y%100)).Replace(form)
}

// TestFormsOfDays writes a day of every month in every form of every language; each
// gives one date, that day, whether the language is told or not.
func TestFormsOfDays(t *testing.T) {
	for _, tongue := range tongues {
		for _, form := range tongue.dates {
			for _, day := range []int{1, 3, 12, 13, 28} {
				for month := range 12 {
					want := credit.Day(2026, 1, 1).AddMonths(month).AddDays(day - 1)
					text := tongue.write(form, want, want)
					for _, l := range []find.Languages{nil, {tongue.lang}} {
						got := find.Dates("Held: "+text+".", l)
						if len(got) != 1 || !slices.Contains(got[0].Days(), want) || got[0].Ambiguous() || len(find.Ranges(text, l)) > 0 {
							t.Errorf("%s %q in %v: %+v, want %v", tongue.lang, text, l, got, want)
						}
					}
				}
			}
		}
	}
}

// TestFormsOfRanges does the same with ranges whose ends share month and year.
func TestFormsOfRanges(t *testing.T) {
	for _, tongue := range tongues {
		for _, form := range tongue.ranges {
			for _, day := range []int{2, 9, 12, 24} {
				for month := range 12 {
					from := credit.Day(2026, 1, 1).AddMonths(month).AddDays(day - 1)
					to := from.AddDays(3)
					text := tongue.write(form, from, to)
					if strings.Contains(form, "and") || strings.Contains(form, " et %e") || strings.Contains(form, "&") || strings.Contains(form, "/%e") {
						to = from.AddDays(1)
						text = tongue.write(form, from, to)
					}
					for _, l := range []find.Languages{nil, {tongue.lang}} {
						got := find.Ranges("Held "+text+".", l)
						if len(got) != 1 || got[0].Readings[0].Start != from || got[0].Readings[0].End != to || len(find.Dates("Held "+text+".", l)) > 0 {
							t.Errorf("%s %q in %v: %+v, want %v to %v", tongue.lang, text, l, got, from, to)
						}
					}
				}
			}
		}
	}
}
