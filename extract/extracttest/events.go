package extracttest

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

var months = []time.Month{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}

func (s *sheet) attendance() {
	s.t.Title = text(s.compose("title"))
	s.frame("l.holder", "l.title")
	if s.chance(9) {
		s.series()
		return
	}
	if s.labelled {
		s.eventDays()
	} else if s.chance(4) {
		s.weekOf()
	} else {
		s.sentence("lines.attendance", "when", s.when(s.f.start, s.f.end))
	}
	s.eventLength()
	s.credits()
	s.provide()
	s.distract()
	s.signIssue()
	if s.chance(2) {
		s.otherSpelling()
	}
}

// otherSpelling writes the holder's name a second time, differently.
func (s *sheet) otherSpelling() {
	last := []rune(s.holder.last)
	at := s.between(1, len(last)-2)
	other := s.holder.first + " " + string(last[:at]) + string(last[at]) + string(last[at:])
	s.item("l.holder", other)
	s.ask(paper.FieldAttendee, s.holder.full(), other)
	s.t.Attendee = nil
	s.why("two spellings of the holder's name")
}

// attach puts a programme behind a paper, or another paper before it.
func (s *sheet) attach() {
	if s.t.Format != "pdf" || s.t.Kind != paper.Attendance || s.open {
		return
	}
	switch {
	case s.f.stated > 0 && s.chance(7):
		s.c.behind = []string{s.say("ne.agenda")}
		for i := range s.between(4, 6) {
			s.c.behind = append(s.c.behind, fmt.Sprintf("%02d:%02d  %s", 9+i, oneOf(s.draw, 0, 15, 30), s.compose("ne.slots")))
		}
		s.why("a programme is stapled behind")
	case s.chance(5):
		b := &sheet{draw: s.draw, w: s.w, lang: s.lang, loc: s.loc, dayFirst: s.dayFirst, layout: s.layout, labelled: s.labelled,
			city: s.city, provider: s.provider, holder: s.holder}
		b.t = Truth{Kind: s.t.Kind, Format: s.t.Format, Ask: []Ask{}, Also: map[string][]any{}}
		b.drawDays()
		b.attendance()
		s.before = b
		s.why("two certificates in one file; the last one counts")
	}
}

// eventDays writes the days beside one label or two.
func (s *sheet) eventDays() {
	if s.f.start != s.f.end && s.chance(35) {
		form := s.form()
		s.item("l.first", s.write(form, s.f.start, roleStart))
		s.item("l.last", s.write(form, s.f.end, roleEnd))
		return
	}
	s.item("l.date", s.span(s.f.start, s.f.end))
}

// weekOf names a week instead of days.
func (s *sheet) weekOf() {
	s.f.start = s.f.start.AddDays(1 - int(s.f.start.Weekday()))
	monday := s.f.start
	s.f.end = monday.AddDays(4)
	if !s.f.issue.IsZero() {
		s.f.issue = monday.AddDays(s.between(7, 20))
	}
	form := s.list("date")[0]
	s.sentence("lines.attendance", "when", s.say("weekof", "a", s.write(form, monday, roleOther)))
	s.week = true
	s.ask(paper.FieldStart, monday.String())
	s.ask(paper.FieldEnd, monday.AddDays(4).String(), monday.AddDays(5).String(), monday.AddDays(6).String())
	s.why("a week gives no exact days")
}

// series is one event of several evenings, of which some were attended.
func (s *sheet) series() {
	n := s.between(3, 5)
	from := oneOf(s.draw, 1020, 1080, 1110)
	c := clockTime{from, from + oneOf(s.draw, 60, 75, 90, 120)}
	form := s.form()
	written := s.clock(c)
	missed, last := 0, credit.Date{}
	s.c.grid = [][]string{strings.Split(s.say("series.cols"), "|")}
	first := s.f.start
	s.f.end = first.AddDays(7 * (n - 1))
	for i := range n {
		here := s.say("yes")
		if s.chance(20) && missed < n-1 {
			here, missed = s.say("no"), missed+1
		}
		d := first.AddDays(7 * i)
		if here == s.say("yes") {
			last = d
		}
		r := roleOther
		if i == 0 {
			r = roleStart
		} else if i == n-1 {
			r = roleEnd
		}
		s.c.grid = append(s.c.grid, []string{s.write(form, d, r), written, s.say("topic"), here})
	}
	if !s.f.issue.IsZero() {
		s.f.issue = s.f.end.AddDays(s.between(0, 12))
	}
	if last != s.f.end && !last.IsZero() {
		s.also(paper.FieldEnd, last.String())
	}
	minutes := (n - missed) * c.minutes()
	if !s.labelled {
		s.sentence("lines.series")
	}
	if s.chance(50) {
		s.c.says = append(s.c.says, s.say("series.sum", "k", strconv.Itoa(n-missed), "n", strconv.Itoa(n), "hours", s.hours(minutes)))
	}
	s.t.Duration = number(minutes)
	s.why("the sum of the sessions attended")
	s.f.stated = minutes
	s.credits()
	s.provide()
	s.signIssue()
}

func (s *sheet) completion() {
	s.t.Title = text(s.compose("title"))
	s.frame("l.holder", "l.title")
	live := s.chance(18)
	if live {
		s.f.end = s.f.start.AddDays(7 * s.between(1, 5))
		s.moveIssue()
	} else {
		s.f.start = credit.Date{}
	}
	switch {
	case s.labelled && live:
		form := s.form()
		s.item("l.first", s.write(form, s.f.start, roleStart))
		s.item("l.last", s.write(form, s.f.end, roleEnd))
		s.item("l.mode", s.say("mode"))
	case s.labelled:
		s.item("l.done", s.day(s.f.end, roleEnd))
		s.item("l.mode", s.say("mode")) // tells it from an event
	case live:
		form := s.form()
		s.sentence("lines.live", "when", s.say("when.long", "a", s.write(form, s.f.start, roleStart), "b", s.write(form, s.f.end, roleEnd)))
	default:
		s.sentence("lines.completion", "when", s.say("when.day", "date", s.day(s.f.end, roleEnd)))
	}
	s.studyLength(live)
	s.credits()
	if s.chance(30) {
		right := s.between(14, 20)
		s.item("l.score", s.say("score.text", "a", strconv.Itoa(right), "b", "20", "p", strconv.Itoa(right*5)))
	}
	if !live && s.chance(20) {
		if d := s.f.end.AddDays(-s.between(10, 90)); !s.open {
			s.item("l.registered", s.day(d, roleOther))
			s.also(paper.FieldStart, d.String()) // enrolling begins nothing, but its day passes
		}
	}
	s.provide()
	s.distract()
	s.signIssue()
}

func (s *sheet) studyLength(live bool) {
	switch {
	case live:
		n, l := s.between(3, 8), oneOf(s.draw, 45, 60, 90)
		s.put("l.hours", "s.hours", "hours", s.say("units.length", "n", strconv.Itoa(n), "l", strconv.Itoa(l)))
		s.t.Duration, s.f.stated = number(n*l), n*l
	case s.chance(8):
		a := oneOf(s.draw, 30, 40, 45, 60)
		b := a + oneOf(s.draw, 15, 20, 30)
		s.put("l.study", "s.study", "hours", s.say("hours.range", "a", strconv.Itoa(a), "b", strconv.Itoa(b)))
		s.ask(paper.FieldDuration, a, b)
		s.why("a span is not one length")
	case s.chance(75):
		minutes := oneOf(s.draw, 30, 45, 60, 90, 120, 150, 180, 240, 300, 600)
		written := s.hours(minutes)
		for strings.Contains(written, "conta") || strings.Contains(written, "instruction") { // nobody is met
			written = s.hours(minutes)
		}
		s.put("l.study", "s.study", "hours", written)
		s.t.Duration, s.f.stated = number(minutes), minutes
	}
}

// moveIssue keeps the day of issue behind the end.
func (s *sheet) moveIssue() {
	if !s.f.issue.IsZero() {
		s.f.issue = s.f.end.AddDays(s.between(0, 20))
	}
}

func (s *sheet) instruction() {
	s.t.Title = text(s.compose("title"))
	s.frame("l.speaker", "l.talk")
	s.f.end = s.f.start
	s.moveIssue()
	congress := ""
	if s.chance(45) {
		congress = s.compose("congress")
	}
	if s.labelled {
		s.item("l.date", s.span(s.f.start, s.f.end))
		if congress != "" {
			s.item("l.conference", congress)
		}
	} else {
		s.sentence("lines.instruction", "when", s.when(s.f.start, s.f.end))
		if congress != "" {
			s.c.says = append(s.c.says, s.say("s.congress", "congress", congress))
		}
	}
	switch s.weighted(25, 45, 30) {
	case 1:
		minutes := oneOf(s.draw, 30, 45, 60, 75, 90, 120)
		s.talk(minutes)
	case 2:
		from := oneOf(s.draw, 540, 600, 660, 840, 900, 1080)
		c := clockTime{from, from + oneOf(s.draw, 45, 60, 75, 90)}
		s.put("l.time", "s.time", "clock", s.clock(c))
		s.t.Duration, s.f.clocks, s.f.days = number(c.minutes()), []clockTime{c}, 1
	}
	s.provide()
	s.distract()
	s.signIssue()
}

// talk writes the length of a talk, at times with its discussion, which counts, or with
// the preparation, which does not.
func (s *sheet) talk(minutes int) {
	if s.chance(15) {
		more := oneOf(s.draw, 10, 15, 20, 30)
		s.c.says = append(s.c.says, s.say("s.discussion", "a", strconv.Itoa(minutes), "b", strconv.Itoa(more)))
		minutes += more
		s.why("the discussion counts")
	} else {
		s.put("l.hours", "s.talk", "hours", s.hours(minutes))
	}
	s.t.Duration, s.f.stated = number(minutes), minutes
	if s.chance(12) {
		s.c.says = append(s.c.says, s.say("s.preparation", "n", strconv.Itoa(s.between(2, 9))))
		s.why("preparation is left out")
	}
}

func (s *sheet) meeting() {
	s.t.Title = text(s.compose("meeting"))
	if body, _, numbered := strings.Cut(*s.t.Title, ", "); numbered {
		s.also(paper.FieldTitle, body)
	}
	s.f.end = s.f.start
	s.moveIssue()
	roll := s.chance(45) && !s.mail
	if roll {
		s.roll()
	} else {
		s.frame("l.holder", "l.meeting")
		if s.labelled {
			s.item("l.date", s.span(s.f.start, s.f.end))
		} else {
			s.sentence("lines.meeting", "when", s.when(s.f.start, s.f.end))
		}
	}
	if s.chance(75) {
		from := oneOf(s.draw, 540, 840, 960, 1080, 1140)
		c := clockTime{from, from + oneOf(s.draw, 60, 90, 120, 150)}
		s.put("l.time", "s.time", "clock", s.clock(c))
		s.t.Duration, s.f.clocks, s.f.days = number(c.minutes()), []clockTime{c}, 1
	}
	s.provide()
	if s.chance(30) {
		s.c.notes = append(s.c.notes, s.say("m.chair")+": "+s.someone().full())
	}
	s.signIssue()
}

// roll is a list of those present, of which the paper is an extract for one.
func (s *sheet) roll() {
	s.c.heading = s.say("m.head")
	s.labelled = true
	s.layout = "pairs"
	s.item("l.meeting", *s.t.Title)
	s.item("l.date", s.span(s.f.start, s.f.end))
	s.c.grid = [][]string{strings.Split(s.say("m.cols"), "|")}
	others := s.between(0, 4)
	at := s.between(0, others)
	for i := range others + 1 {
		p := s.someone()
		if i == at {
			p = s.holder
		}
		s.c.grid = append(s.c.grid, []string{p.last + ", " + p.first, s.compose("org"), s.say("m.signed", "last", p.last)})
	}
	s.c.says = append(s.c.says, s.say("m.for", "holder", s.holder.full()))
}
