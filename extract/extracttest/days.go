package extracttest

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// role says for which field a printed date stands.
type role string

const (
	roleStart role = "start_date"
	roleEnd   role = "end_date"
	roleIssue role = "issue_date"
	roleOther role = "" // a distractor
)

// printedDate is a date as it was printed.
type printedDate struct {
	date    credit.Date
	roles   []role
	numeric bool // day and month as numbers, the year not first
	weekday bool
}

// tokens returns the values of the placeholders of a date; suffix is "", "1" or "2".
func (s *sheet) tokens(d credit.Date, suffix string) []string {
	y, m, day := d.YMD()
	month, week := s.w["months"][m-1], s.w["weekdays"][d.Weekday()]
	short := func(word string, n int) string {
		if utf8.RuneCountInString(word) <= n+1 {
			return word
		}
		return string([]rune(word)[:n])
	}
	pad := func(n int) string {
		if n < 10 {
			return "0" + strconv.Itoa(n)
		}
		return strconv.Itoa(n)
	}
	mon := short(month, 3)
	if list := s.w["mon"]; len(list) == 12 { // "mrt", "juil": not the first letters
		mon = list[m-1]
	}
	weekLetters := 3
	if s.lang == "de" || s.lang == "nl" {
		weekLetters = 2
	}
	return []string{"d" + suffix, strconv.Itoa(day), "dd" + suffix, pad(day), "m" + suffix, strconv.Itoa(int(m)), "mm" + suffix, pad(int(m)),
		"M" + suffix, month, "MON" + suffix, strings.ToUpper(mon), "Mon" + suffix, mon, "W" + suffix, week, "Wa" + suffix, short(week, weekLetters),
		"y" + suffix, strconv.Itoa(y), "yy" + suffix, pad(y % 100), "o" + suffix, s.ordinal(day)}
}

// ordinal returns what follows the number of a day in words of the language.
func (s *sheet) ordinal(day int) string {
	switch {
	case s.lang == "fr" && day == 1:
		return "er"
	case s.lang != "en":
		return ""
	case day%10 == 1 && day != 11:
		return "st"
	case day%10 == 2 && day != 12:
		return "nd"
	case day%10 == 3 && day != 13:
		return "rd"
	}
	return "th"
}

func numericForm(form string) bool {
	return (strings.Contains(form, "{m}") || strings.Contains(form, "{mm}")) && !strings.HasPrefix(form, "{y}")
}

// form draws a way to write a date. Where nothing tells the country it is often one
// that leaves the order of day and month to the other dates.
func (s *sheet) form() string {
	if s.open && s.chance(40) {
		if s.dayFirst {
			return "{dd}/{mm}/{y}"
		}
		return "{mm}/{dd}/{y}"
	}
	return s.say("date")
}

// day writes one date and remembers how.
func (s *sheet) day(d credit.Date, roles ...role) string {
	form := s.form()
	if s.open && len(roles) > 0 && roles[0] == roleOther && numericForm(form) {
		form = s.settlingForm(d, form)
	}
	return s.write(form, d, roles...)
}

// settlingForm keeps distractors of a paper whose order may stay open from deciding
// it by anything but a number above 12.
func (s *sheet) settlingForm(d credit.Date, form string) string {
	if _, _, day := d.YMD(); day > 12 {
		return form
	}
	return "{y}-{mm}-{dd}"
}

func (s *sheet) write(form string, d credit.Date, roles ...role) string {
	s.dates = append(s.dates, printedDate{d, roles, numericForm(form), strings.Contains(form, "{W")})
	return fill(form, s.tokens(d, "")...)
}

func sameMonth(a, b credit.Date) bool {
	ay, am, _ := a.YMD()
	by, bm, _ := b.YMD()
	return ay == by && am == bm
}

func both(a, b credit.Date, s *sheet) []string {
	return append(append(s.tokens(a, "1"), s.tokens(b, "2")...), s.tokens(b, "")...)
}

// span writes the days of an event as a value beside a label.
func (s *sheet) span(a, b credit.Date) string {
	switch {
	case a == b:
		return s.day(a, roleStart, roleEnd)
	case sameMonth(a, b) && s.chance(60):
		s.spelt(a, b)
		return s.say("span", both(a, b, s)...)
	}
	form := s.form()
	joiner := s.say("joiner")
	return s.write(form, a, roleStart) + joiner + s.write(form, b, roleEnd)
}

func (s *sheet) spelt(a, b credit.Date) {
	s.dates = append(s.dates, printedDate{date: a, roles: []role{roleStart}}, printedDate{date: b, roles: []role{roleEnd}})
}

// when writes the days of an event as a part of a sentence.
func (s *sheet) when(a, b credit.Date) string {
	switch {
	case a == b:
		return s.say("when.day", "date", s.day(a, roleStart, roleEnd))
	case sameMonth(a, b) && b.Sub(a) == 1 && s.chance(60):
		s.spelt(a, b)
		return s.say("when.two", both(a, b, s)...)
	case sameMonth(a, b) && s.chance(70):
		s.spelt(a, b)
		return s.say("when.span", both(a, b, s)...)
	}
	form := s.form()
	return s.say("when.long", "a", s.write(form, a, roleStart), "b", s.write(form, b, roleEnd))
}

// otherWay returns d with day and month changed over, and whether that is a date.
func otherWay(d credit.Date) (credit.Date, bool) {
	y, m, day := d.YMD()
	return credit.ValidDay(y, day, int(m))
}

// settle leaves dates open whose order of day and month nothing settles.
func (s *sheet) settle() {
	if s.loc != "en" {
		return
	}
	other := map[role]credit.Date{roleStart: s.f.start, roleEnd: s.f.end, roleIssue: s.f.issue}
	turned := map[role]credit.Date{}
	for _, p := range s.dates {
		if !p.numeric {
			continue
		}
		alt, ok := otherWay(p.date)
		if !ok || p.weekday && alt.Weekday() != p.date.Weekday() || s.speltToo(p.date) {
			return
		}
		for _, r := range p.roles {
			if r != roleOther && alt != p.date {
				turned[r] = alt
				other[r] = alt
			}
		}
	}
	if !s.possible(other[roleStart], other[roleEnd], other[roleIssue]) {
		if len(turned) > 0 {
			s.why("the order of day and month is forced by the other dates")
		}
		return
	}
	for _, r := range []role{roleStart, roleEnd, roleIssue} {
		into := map[role]**string{roleStart: &s.t.Start, roleEnd: &s.t.End, roleIssue: &s.t.Issue}[r]
		if alt, ok := turned[r]; ok && *into != nil {
			s.ask(paper.Field(r), **into, alt.String())
			*into = nil
			s.why("nothing settles the order of day and month")
		}
	}
}

// possible reports whether these days of a paper of this kind can be: an event ends
// before it is certified, but is paid for, and a membership confirmed, at any time.
func (s *sheet) possible(start, end, issue credit.Date) bool {
	switch s.t.Kind {
	case paper.Receipt, paper.Membership:
		return inOrder(start, end)
	case paper.Employment:
		return inOrder(start, end) && inOrder(start, issue)
	}
	return inOrder(start, end) && inOrder(end, issue) && inOrder(start, issue)
}

func inOrder(a, b credit.Date) bool { return a.IsZero() || b.IsZero() || !b.Before(a) }

func (s *sheet) speltToo(d credit.Date) bool {
	for _, p := range s.dates {
		if !p.numeric && p.date == d {
			return true
		}
	}
	return false
}
