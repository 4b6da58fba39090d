package extract

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// Days that share a month or a year stand in lists of many shapes: "les 3 et 4 puis le 10
// juin 2026", "10.1., 17.1. und 24.1.2026", "29 November, 6 and 13 December 2025".

const (
	listMonth = `(?:jan(?:uary|uar|uari|vier)?|ene(?:ro)?|j[aä]n(?:ner)?|feb(?:ruary|ruar|ruari|rero)?|f[ée]v(?:rier)?|m[aä]rz|mar(?:ch|s|zo|t)?|maart|mrt|apr(?:il)?|avr(?:il)?|abr(?:il)?|ma[iy]|mayo|mei|june?|juni|juin|junio|july?|juli|juillet|juil|julio|aug(?:ust|ustus)?|ao[uû]t|ago(?:sto)?|sept?(?:ember|embre|iembre)?|o[ck]t(?:ober|obre|ubre)?|nov(?:ember|embre|iembre)?|de[cz](?:ember)?|d[ée]c(?:embre)?|dic(?:iembre)?)`
	listDay   = `\d{1,2}(?:\.|er|st|nd|rd|th|º|e|de)?`
	listName  = `(?:(?:mon|tue|wed|thu|fri|sat|sun)\p{L}*\.?,? |(?:lun|mar|mer|jeu|ven|sam|dim|mi[eé]|jue|vie|s[aá]b|dom|ma|di|wo|do|vr|za|zo|mo|mi|fr|sa|so|don|die|mit|fre|son|maa|din|woe|vri|zat|zon)\p{L}*\.?,? )?`
	listWord  = `(?:and|und|et|y|e|en|puis|then|sowie|dann|luego|dan|as well as|ainsi que|así como|alsook|plus)`
	listSmall = `(?:(?:on|am|le|les|el|los|op|den|du|the|also|auch|de|vom|from|van|del|to) )*`
	listUntil = ` ?(?:-|–|bis(?: zum)?|to|until|till|t/m|tot(?: en met)?|au|al|a) ?(?:le |den |the |el )?`
	listOne   = listName + listDay + `(?:` + listUntil + listName + listDay + `)?(?: ?(?:de )?` + listMonth + `\.?| ?\d{1,2}\.)?`
	listJoin  = `(?: ?[,;&/+] ?(?:` + listWord + ` )?| ` + listWord + ` | )`
)

var (
	listAhead   = matching(`(?i)(?:^|[\s(:,])((?:` + listOne + listJoin + listSmall + `)+)$`)
	listPart    = matching(`(?i)^(?:` + listSmall + `)` + listName + `(\d{1,2})(\.|er|st|nd|rd|th|º|e|de)?`)
	monthInPart = matching(`(?i)(?: |^|\d\.? ?)(` + listMonth + `)\.?|\d\.(\d{1,2})\.`)
	plainJoin   = matching(`(?i)(?:[,;&/+]| ` + listWord + ` |\.|st |nd |rd |th )`)
	monthFirst  = matching(`(?i)\b(` + listMonth + `)\.? (\d{1,2})(?: ?[-–] ?\d{1,2})?(?:(?:, | ?& ?|,? and )\d{1,2}(?: ?[-–] ?\d{1,2})?)* ?(?:, | ?& ?|,? and )(?:\d{1,2} ?[-–] ?)?(\d{1,2}),? ((?:19|20)\d\d)\b`)
	inBrackets  = matching(`(?i)\b(` + listMonth + `) ((?:19|20)\d\d) \((\d{1,2})(?:, ?\d{1,2})*(?:,| ` + listWord + `) ?(\d{1,2})\)`)
)

// daysInLists returns spans from the first to the last of several days of which the last, or a
// span at the end, is given whole.
func daysInLists(passage int, text string, ranges []find.Range, dates []find.Date, langs find.Languages) []day {
	var out []day
	for _, m := range monthFirst.FindAllStringSubmatchIndex(text, -1) {
		out = addListed(out, passage, find.Span{From: m[0], To: m[1]}, dayOf(text[m[4]:m[5]], text[m[2]:m[3]], text[m[8]:m[9]]), dayOf(text[m[6]:m[7]], text[m[2]:m[3]], text[m[8]:m[9]]))
	}
	for _, m := range inBrackets.FindAllStringSubmatchIndex(text, -1) {
		out = addListed(out, passage, find.Span{From: m[0], To: m[1]}, dayOf(text[m[6]:m[7]], text[m[2]:m[3]], text[m[4]:m[5]]), dayOf(text[m[8]:m[9]], text[m[2]:m[3]], text[m[4]:m[5]]))
	}
	end := func(s find.Span, first, last find.Reading) {
		if slices.ContainsFunc(out, func(d day) bool { return d.at.span.Overlaps(s) }) {
			return
		}
		if from, start, ok := firstListed(text[:s.From], first, langs); ok {
			out = addListed(out, passage, find.Span{From: from, To: s.To}, start, last.Last())
		}
	}
	for _, r := range ranges {
		if r.Lack == find.Whole && !r.Open && !r.Week && len(r.Readings) == 1 {
			end(r.Span, r.Readings[0].From, r.Readings[0].To)
		}
	}
	for _, d := range dates {
		if k := dayFirst(d); d.Lack == find.Whole && d.Form != find.Relative && k >= 0 {
			end(d.Span, d.Readings[k], d.Readings[k])
		}
	}
	return out
}

// dayFirst is which reading of a date has the day first, or is the only one; -1 if none.
func dayFirst(d find.Date) int {
	if len(d.Readings) == 1 {
		return 0
	}
	return slices.IndexFunc(d.Readings, func(r find.Reading) bool { return r.Order == find.DayFirst })
}

func addListed(out []day, passage int, s find.Span, start, end credit.Date) []day {
	if start.IsZero() || end.IsZero() || !start.Before(end) || end.Sub(start) > 200 {
		return out
	}
	from, to := find.Reading{Day: start}, find.Reading{Day: end}
	return append(out, day{at: at{passage, s}, spans: []find.Stretch{{Start: start, End: end, From: from, To: to}}})
}

// firstListed reads the first of the days that stand in front of a whole one in a list, and
// where it begins.
func firstListed(before string, whole find.Reading, langs find.Languages) (from int, start credit.Date, ok bool) {
	near := tail(before, 400)
	m := listAhead.FindStringSubmatchIndex(near)
	if m == nil || !plainJoin.MatchString(near[m[2]:]) {
		return 0, start, false
	}
	list := near[m[2]:]
	if len(list) == len(before) && numberedDay.MatchString(list) {
		return 0, start, false // "1. Tuesday 7 April 2026"
	}
	p := listPart.FindStringSubmatch(list)
	if p == nil {
		return 0, start, false
	}
	n, _ := strconv.Atoi(p[1])
	month, year := whole.Month, whole.Year
	if own := monthInPart.FindStringSubmatch(list); own != nil {
		if month = monthOf(own[1], own[2], langs); month == 0 {
			return 0, start, false
		}
	} else if listed := strings.ContainsAny(list, ",;/&+") && !plainWords.MatchString(list); listed {
		return 0, start, false // "Room 3, 10 June 2026"
	}
	if month > whole.Month {
		year--
	}
	start, ok = credit.ValidDay(year, int(month), n)
	return len(before) - len(list), start, ok
}

// numberedDay is the number of an item that begins with its day.
var numberedDay = matching(`^\d{1,2}\. ?$`)

// plainWords joins the days of a list beyond doubt.
var plainWords = matching(`(?i) ` + listWord + ` |\d\.|&`)

// monthOf is the month of a name or number.
func monthOf(name, number string, langs find.Languages) time.Month {
	if name == "" {
		n, err := strconv.Atoi(number)
		if err != nil || n > 12 {
			return 0
		}
		return time.Month(n)
	}
	for _, l := range []find.Languages{langs, nil} {
		if d := find.Dates("1 "+name+" 2024", l); len(d) == 1 && len(d[0].Readings) == 1 {
			return d[0].Readings[0].Month
		}
	}
	return 0
}

// dayOf is a day of a named month; zero where there is none.
func dayOf(n, month, year string) credit.Date {
	d, err1 := strconv.Atoi(n)
	y, err2 := strconv.Atoi(year)
	m := monthOf(month, "", nil)
	if err1 != nil || err2 != nil || m == 0 {
		return credit.Date{}
	}
	out, _ := credit.ValidDay(y, int(m), d)
	return out
}

// oneListOneRole gives days that stand in one list, of which nothing says what they are, the role of the
// event that the next of them has: "Friday 6 May, 17:00 to 21:00, and Saturday 7 May".
func (l *look) oneListOneRole() {
	for i := range l.days {
		for k := range l.days {
			d, o := &l.days[i], l.days[k]
			if d.role == noRole && o.role == isEvent && d.label == "" && d.single && o.single && d.lack == find.Whole && o.lack == find.Whole && (l.inOneList(*d, o) || l.inOneList(o, *d)) {
				d.role, d.hangs = isEvent, o.hangs
			}
		}
	}
}
