package extracttest

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

func (s *sheet) employment() {
	s.t.Title = text(s.say("job"))
	s.f.start = credit.Day(s.between(2010, 2023), oneOf(s.draw, months...), 1)
	s.f.end = credit.Date{}
	ended := s.chance(45)
	if ended {
		s.f.end = s.f.start.AddMonths(12 * s.between(1, 8)).AddDays(-1)
		if s.f.end.After(credit.MustDate("2026-12-31")) {
			s.f.end = credit.MustDate("2026-09-30")
		}
	}
	s.f.issue = credit.Date{}
	if s.chance(85) {
		s.f.issue = credit.Day(2026, 10, s.between(1, 28))
		if ended {
			s.f.issue = s.f.end.AddDays(s.between(0, 10))
		}
	}
	s.t.Start = isoDate(s.f.start)
	s.frame("l.employee", "l.position")
	form := s.form()
	switch {
	case s.labelled && ended:
		s.item("l.first", s.write(form, s.f.start, roleStart))
		s.item("l.last", s.write(form, s.f.end, roleEnd))
	case s.labelled:
		s.item("l.since", s.write(form, s.f.start, roleStart))
	case ended:
		s.sentence("lines.employed", "when", s.say("fromto", "a", s.write(form, s.f.start, roleStart), "b", s.write(form, s.f.end, roleEnd)))
	default:
		s.sentence("lines.employment", "when", s.say("since", "a", s.write(form, s.f.start, roleStart)))
	}
	if s.labelled && s.chance(50) {
		s.item("l.employer", s.provider)
		s.c.top = s.chance(50)
	} else {
		s.c.top = true
	}
	if s.chance(50) {
		s.c.says = append(s.c.says, s.say("weekly", "n", oneOf(s.draw, "20", "30", "35", "38", "40")))
	}
	if s.chance(20) && !s.open {
		s.item("l.birth", s.day(credit.Day(s.between(1960, 2000), 3, s.between(1, 300)), roleOther))
	}
	s.address()
	s.signIssue()
}

func (s *sheet) membership() {
	s.t.Title = text(s.say("grade"))
	s.c.top = true
	s.frame("l.member", "l.grade")
	year := s.between(2024, 2026)
	s.f.start, s.f.end = credit.Day(year, 1, 1), credit.Day(year, 12, 31)
	calendar := s.chance(50)
	if !calendar {
		s.f.start = credit.Day(year, oneOf(s.draw, months...), 1)
		s.f.end = s.f.start.AddMonths(12).AddDays(-1)
	}
	if !s.f.issue.IsZero() {
		s.f.issue = s.f.start.AddDays(s.between(0, 40))
	}
	var period string
	if calendar {
		period = s.say("year", "y", strconv.Itoa(year))
	} else {
		form := s.form()
		period = s.say("fromto", "a", s.write(form, s.f.start, roleStart), "b", s.write(form, s.f.end, roleEnd))
	}
	if s.labelled {
		if calendar {
			period = strconv.Itoa(year)
		}
		s.item("l.period", period)
	} else {
		s.sentence("lines.membership", "when", period)
	}
	if s.chance(35) {
		amount, currency, written := s.sum(s.between(30, 240), 0)
		s.c.items = append(s.c.items, item{s.say("l.fee"), written})
		s.setTotal(amount, currency)
	}
	if s.chance(50) {
		s.c.notes = append(s.c.notes, s.say("memberno", "n", s.digits(5)))
	}
	s.address()
	s.signIssue()
}

func (s *sheet) publication() {
	s.t.Title = text(s.compose("title"))
	s.provider = s.compose("journal")
	s.t.Provider = text(s.provider)
	s.c.top = true
	s.f.end, s.f.start = s.f.start, credit.Date{}
	s.moveIssue()
	s.frame("l.author", "l.article")
	if s.labelled {
		s.item("l.accepted", s.day(s.f.end, roleEnd))
		if s.chance(40) {
			s.item("l.journal", s.provider)
		}
	} else {
		s.sentence("lines.publication", "when", s.say("when.day", "date", s.day(s.f.end, roleEnd)))
	}
	if s.chance(50) && !s.open {
		s.item("l.received", s.day(s.f.end.AddDays(-s.between(30, 200)), roleOther))
	}
	if s.chance(30) {
		s.c.notes = append(s.c.notes, s.say("l.code")+" "+s.code())
	}
	s.address()
	s.signIssue()
}

func (s *sheet) credential() {
	degree := s.chance(30)
	if degree {
		s.t.Title = text(s.compose("degree.title"))
		s.f.end, s.f.start = s.f.start, credit.Date{}
	} else {
		s.t.Title = text(s.compose("award.title"))
		s.f.end = s.f.start
	}
	s.moveIssue()
	s.frame("l.holder", "l.award")
	switch {
	case s.labelled && degree:
		s.item("l.awarded", s.day(s.f.end, roleEnd))
	case s.labelled:
		s.item("l.exam", s.day(s.f.end, roleStart, roleEnd))
	case degree:
		s.sentence("lines.degree", "when", s.say("when.day", "date", s.day(s.f.end, roleEnd)))
	default:
		s.sentence("lines.credential", "when", s.say("when.day", "date", s.day(s.f.end, roleStart, roleEnd)))
	}
	if s.chance(40) && !degree {
		s.item("l.score", s.say("score.text", "a", "17", "b", "20", "p", "85"))
	}
	s.provide()
	s.distract()
	if degree && s.f.issue == s.f.end {
		s.f.issue = s.f.issue.AddDays(3)
	}
	if degree && s.f.issue.IsZero() {
		s.also(paper.FieldIssue, s.f.end.String()) // awarding may be taken for issuing
	}
	s.signIssue()
}

// transcript lists several courses of one person.
func (s *sheet) transcript() {
	s.t.Provider = text(s.provider)
	s.c.heading = s.say("head.transcript")
	s.labelled, s.layout = true, oneOf(s.draw, "pairs", "pairs", "columns", "above", "boxes")
	s.item("l.holder", s.shown(s.holder))
	n := s.between(3, 8)
	header := strings.Split(s.say("t.cols"), "|")
	unit := header[3]
	if unit == "{unit}" {
		unit = s.say("unit")
		header[3] = unit
	}
	form := s.form()
	hours, credits := s.chance(70), s.chance(70)
	if !hours && !credits {
		hours = true
	}
	s.f.start = s.f.start.AddDays(-300)
	var dates []credit.Date
	for range n {
		dates = append(dates, s.f.start.AddDays(s.between(0, 300)))
	}
	slices.SortFunc(dates, credit.Date.Compare)
	s.f.start, s.f.end = dates[0], dates[n-1]
	minutes, sum := 0, credit.Amount{}
	grid := [][]string{keep(header, hours, credits)}
	backwards := s.chance(25)
	for i, d := range dates {
		r := roleOther
		if d == s.f.start && i == 0 {
			r = roleStart
		} else if i == n-1 {
			r = roleEnd
		}
		m := oneOf(s.draw, 60, 90, 120, 180, 240, 390, 420, 450)
		v := credit.Fraction(int64(m), 60)
		if unit == "CEU" {
			v = credit.Fraction(int64(m), 600)
		}
		minutes, sum = minutes+m, sum.Add(v)
		grid = append(grid, keep([]string{s.write(form, d, r), s.compose("title"), s.decimal(credit.Fraction(int64(m), 60)), s.decimal(v)}, hours, credits))
	}
	if backwards {
		slices.Reverse(grid[1:])
	}
	if s.chance(60) {
		grid = append(grid, keep([]string{"", s.say("t.total"), s.decimal(credit.Fraction(int64(minutes), 60)), s.decimal(sum)}, hours, credits))
	}
	s.c.grid = grid
	if hours {
		s.t.Duration = number(minutes)
	}
	if credits {
		s.setCredits(unit, sum)
	}
	s.moveIssue()
	s.t.Title = nil
	s.provide()
	s.signIssue()
	s.printed()
}

// keep drops the columns of hours and of credits where they are not wanted.
func keep(row []string, hours, credits bool) []string {
	out := row[:2:2]
	if hours {
		out = append(out, row[2])
	}
	if credits {
		out = append(out, row[3])
	}
	return out
}

func (s *sheet) code() string {
	return string(rune('A'+s.r.IntN(26))) + string(rune('A'+s.r.IntN(26))) + "-" + s.digits(4)
}
