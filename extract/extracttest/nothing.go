package extracttest

import (
	"fmt"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// notEvidence is a paper that proves nothing about what the person did.
func (s *sheet) notEvidence() {
	title := s.compose("title")
	start, end := s.f.start, s.f.end
	t := Truth{Format: s.t.Format, Language: s.t.Language, Kind: paper.NotEvidence, Ask: []Ask{}, Also: map[string][]any{}}
	s.t, s.c.top = t, true
	s.f.start, s.f.end, s.f.issue = credit.Date{}, credit.Date{}, credit.Date{}
	s.labelled, s.layout = false, "letter"
	unit := s.say("unit")
	credits := s.decimal(credit.Whole(int64(s.between(2, 12)))) + " " + unit
	_, _, sum := s.cents(s.between(90, 900) * 100)
	switch s.weighted(20, 20, 20, 20, 10, 10) {
	case 0:
		s.t.Why, s.c.heading = "a programme", s.say("ne.agenda")
		s.c.says = append(s.c.says, title+", "+s.span(start, end))
		s.c.grid = [][]string{{s.say("l.time"), s.say("l.title")}}
		for i := range s.between(4, 6) {
			s.c.grid = append(s.c.grid, []string{fmt.Sprintf("%02d:%02d", 9+i, oneOf(s.draw, 0, 15, 30)), s.compose("ne.slots")})
		}
		s.c.notes = append(s.c.notes, s.say("ne.agenda.note", "credits", credits))
	case 1:
		s.t.Why, s.c.heading = "a flyer", title
		s.c.says = append(s.c.says, s.say("ne.flyer", "title", title, "span", s.span(start, end), "sum", sum), s.say("ne.flyer.note", "credits", credits))
	case 2:
		s.t.Why, s.c.letter = "a reminder", true
		s.c.heading = s.say("ne.remind.subj", "title", title)
		s.c.to = s.holder.full()
		s.c.says = append(s.c.says, s.say("ne.remind", "title", title, "when", s.when(start, end)))
	case 3:
		s.t.Why, s.c.letter = "a booking", true
		s.c.heading = s.say("ne.book")
		s.c.to = s.holder.full()
		s.c.says = append(s.c.says, s.say("ne.book.body", "title", s.quoted(title), "when", s.when(start, end)))
	case 4:
		s.t.Why, s.c.heading = "terms", s.say("ne.terms")
		for _, line := range s.w["ne.terms.body"] {
			s.c.says = append(s.c.says, fill(line, "a", s.day(start, roleOther)))
		}
	default:
		s.t.Why, s.t.Format, s.layout = "a calendar entry announces", "ics", "ics"
		s.c.heading, s.f.start, s.f.end = title, start, end
	}
	s.address()
}
