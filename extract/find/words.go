package find

import (
	"strings"
	"time"
)

// The names of months and days of the week are those of the Unicode CLDR 44
// (calendars/gregorian, wide and abbreviated, format and stand-alone) for en, de,
// fr, es and nl, folded; added are the abbreviations that papers print besides
// (sept, janv, mrt, märz as maerz), and those Italian and Portuguese names that are no
// words of the other languages.
const monthData = `
1 january jan janner januar jaenner janvier janv enero ene januari gennaio genn janeiro
2 february feb februar feber fevrier fevr febrero februari febbraio febbr fevereiro fev
3 march mar marz maerz mrz mars marzo maart mrt
4 april apr avril avr abril abr aprile
5 may mai mayo mei maggio maio
6 june jun juni juin junio giugno junho
7 july jul juli juillet juil julio luglio julho
8 august aug aout agosto ago augustus
9 september sep sept septembre septiembre setiembre settembre sett setembro
10 october oct oktober okt octobre octubre ottobre outubro
11 november nov novembre noviembre novembro
12 december dec dezember dez decembre diciembre dic dicembre dezembro
`

const weekdayData = `
0 sunday sun sonntag so dimanche dim domingo dom zondag zo sonntags
1 monday mon montag mo lundi lun lunes maandag ma montags
2 tuesday tue tues dienstag di mardi mar martes dinsdag dienstags
3 wednesday wed weds mittwoch mi mercredi mer miercoles mie woensdag wo mittwochs
4 thursday thu thur thurs donnerstag do jeudi jeu jueves jue donderdag donnerstags
5 friday fri freitag fr vendredi ven viernes vie vrijdag vr freitags
6 saturday sat samstag sa sonnabend samedi sam sabado sab zaterdag za samstags
`

var (
	monthNames   = numbered(monthData)
	weekdayNames = numbered(weekdayData)
)

func numbered(data string) map[string]int {
	m := make(map[string]int)
	for line := range strings.Lines(data) {
		f := strings.Fields(line)
		for _, w := range f[min(1, len(f)):] {
			n := 0
			for _, c := range f[0] {
				n = n*10 + int(c-'0')
			}
			if _, ok := m[w]; !ok {
				m[w] = n
			}
		}
	}
	return m
}

func set(words string) map[string]bool {
	m := make(map[string]bool)
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

var (
	ordinalMarks = set("st nd rd th er re e eme de ste sten ten ter o a")
	dayWords     = set("day days jour jours dia dias")
	monthWords   = set("month mois mes")
	ofWords      = set("of de del d van the l in en im en")
	// leads stand before a date, so that 07/09 after one is a day.
	leads = set("on am vom bis den le el op from to ab du au dem until till zum seit since beim")
	// toWords part the two ends of a range.
	toWords  = set("to till til until untill through thru bis zum au jusqu a tot hasta al t")
	andWords = set("and und et y e en & + sowie")
	// beforeNumber are words whose number stands behind them.
	beforeNumber = set("level stufe niveau nivel part teil partie parte deel module modul modulo grade grad class classe clase klasse step phase fase stage tier block bloc bloque blok unit unite unidad einheit lesson lektion leccion session seance sesion sitzung room raum salle sala zaal hall halle section sektion group gruppe groupe grupo groep volume band tome tomo")
	// betweens stand before a range whose ends are joined by an and-word.
	betweens = set("between zwischen entre tussen")
	sinces   = set("since seit depuis desde sinds dès des")
	todays   = set("today date present now heute heden hoy actualidad fecha dato presente")
)

// monthAt reads a month's name, with its point, and returns the token after it.
// "may" and "mar" must look like a month where nothing else says so; who asks
// sees to that.
func (t *tokens) monthAt(i int) (time.Month, int) {
	k := t.at(i)
	if k.kind != word {
		return 0, i
	}
	m, ok := monthNames[k.s]
	if !ok {
		return 0, i
	}
	i++
	if len(k.s) <= 5 && t.is(i, ".") && !t.at(i).spaced {
		i++
	}
	return time.Month(m), i
}

// weekdayAt reads a day of the week with point and comma; two-letter ones count only with a
// point, comma or figure after them.
func (t *tokens) weekdayAt(i int) (time.Weekday, int) {
	k := t.at(i)
	if k.kind != word {
		return 0, i
	}
	d, ok := weekdayNames[k.s]
	if !ok {
		return 0, i
	}
	if len(k.s) <= 3 && k.raw == k.s && len(k.s) == 2 {
		return 0, i // "so", "do", "ma" in running text
	}
	return time.Weekday(d), i + 1
}
