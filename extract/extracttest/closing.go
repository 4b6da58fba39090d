package extracttest

import (
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// provide says where the provider stands.
func (s *sheet) provide() {
	where := s.weighted(50, 15, 15, 20)
	if s.c.grid != nil || s.layout == "letter" || s.layout == "sidebar" || s.layout == "panel" {
		where = 0
	}
	switch {
	case where == 1 && !s.mail:
		s.c.foot = append(s.c.foot, s.provider)
	case where == 2:
		s.c.sign = append(s.c.sign, s.someone().full(), s.say("signed", "provider", s.provider, "role", s.say("role")))
	case where == 3 && s.labelled:
		s.item("l.provider", s.provider)
	default:
		s.c.top = true
	}
	if s.c.top && s.chance(5) && !s.labelled {
		s.outside()
	}
	s.address()
}

// outside lets an office issue the paper for the school that held the event.
func (s *sheet) outside() {
	school := s.compose("org")
	s.c.says = append(s.c.says, s.say("outside", "provider", school))
	s.provider = s.say("behalf")
	s.t.Provider = text(school)
	s.why("the one who held it goes before the one who issued it")
}

// address writes an address and a telephone number; in English they tell the country.
func (s *sheet) address() {
	line := ""
	switch s.loc {
	case "en":
		if s.chance(30) {
			s.c.foot = append(s.c.foot, "office@"+foldHost(s.provider)+".example")
		}
		return
	case "en-GB":
		line = s.digits(2) + " " + s.say("street") + ", " + s.city + " " + oneOf(s.draw, "OT4 9ZZ", "QX7 3AA", "ZZ1 1ZZ", "XQ12 8QQ")
		if s.chance(50) {
			line = s.say("phone", "n", "01632 960 "+s.digits(3))
		}
	case "en-US":
		line = s.city + ", " + oneOf(s.draw, "KS 67401", "OK 74103", "ND 58102", "ID 83702", "OH 43215", "NM 87501")
		if s.chance(50) {
			line = s.say("phone", "n", oneOf(s.draw, "614", "701", "918", "505")+"-555-01"+s.digits(2))
		}
	default:
		if s.chance(50) {
			return
		}
		line = s.say("address", "n", s.digits(2), "zip", "9"+s.digits(4), "street", s.say("street"), "place", s.city)
		if s.chance(40) {
			line = s.say("phone", "n", s.say("phoneno", "n", s.digits(3)))
		}
	}
	s.c.foot = append(s.c.foot, line)
}

// foldHost makes a host name of a provider's name.
func foldHost(name string) string {
	var b []byte
	for i := range len(name) {
		if c := name[i] | 0x20; c >= 'a' && c <= 'z' {
			b = append(b, c)
		}
	}
	return string(b[:min(len(b), 14)])
}

// distract adds what looks like an answer and is none.
func (s *sheet) distract() {
	for _, which := range s.r.Perm(8)[:s.weighted(30, 30, 25, 15)] {
		switch which {
		case 0:
			s.note(s.say("l.code"), s.code())
		case 1:
			s.note(s.say("l.number"), oneOf(s.draw, s.digits(6), s.code(), s.digits(2)+"/"+s.digits(4)))
		case 2:
			if !s.open {
				s.note(s.say("l.birth"), s.day(credit.Day(s.between(1955, 2002), 1, s.between(1, 360)), roleOther))
			}
		case 3:
			if !s.open {
				s.note(s.say("l.valid"), s.day(s.f.end.AddYears(s.between(2, 5)), roleOther))
			}
		case 4:
			s.printed()
		case 5:
			if !s.open {
				s.note(s.say("l.next"), s.day(s.f.end.AddDays(s.between(60, 200)), roleOther))
			}
		case 6:
			if s.t.Kind == paper.Attendance {
				s.note(s.say("l.teacher"), s.someone().full())
			}
		case 7:
			s.note(s.say("l.place"), s.syllables("place"))
		}
	}
	if s.chance(15) {
		s.c.says = append(s.c.says, s.say("extra"))
	}
}

// note adds a distractor among the items or in the small print.
func (s *sheet) note(label, value string) {
	for _, it := range s.c.items {
		if it.label == label {
			return
		}
	}
	if s.labelled && s.chance(60) {
		s.c.items = append(s.c.items, item{label, value})
		return
	}
	s.c.notes = append(s.c.notes, label+": "+value)
}

func (s *sheet) printed() {
	if !s.open && !s.mail { // a message is not printed later than it was sent
		day := s.f.end
		if day.Before(s.f.issue) {
			day = s.f.issue
		}
		s.c.notes = append(s.c.notes, s.say("printed.foot", "date", s.day(day.AddDays(s.between(1, 30)), roleOther)))
	}
}

// signIssue writes the day of issue and the one who signs.
func (s *sheet) signIssue() {
	if s.mail { // the message's own date counts
		if s.f.issue.IsZero() {
			s.f.issue = s.latest().AddDays(s.between(0, 6))
		}
		s.dates = append(s.dates, printedDate{date: s.f.issue, roles: []role{roleIssue}})
		s.signer()
		return
	}
	if !s.f.issue.IsZero() {
		switch {
		case s.layout == "letter":
			s.c.date = s.day(s.f.issue, roleIssue)
		case s.labelled && s.chance(65):
			s.item("l.issue", s.day(s.f.issue, roleIssue))
		default:
			s.c.sign = append(s.c.sign, s.say("s.issue", "date", s.day(s.f.issue, roleIssue), "place", s.city))
		}
		if s.chance(2) {
			s.twoIssues()
		}
	}
	s.signer()
}

// twoIssues dates the paper twice, on different days.
func (s *sheet) twoIssues() {
	if s.open || s.layout == "letter" {
		return
	}
	other := s.f.issue.AddDays(s.between(2, 9))
	s.c.notes = append(s.c.notes, s.say("l.issue")+": "+s.day(other, roleIssue))
	s.ask(paper.FieldIssue, s.f.issue.String(), other.String())
	s.f.issue = credit.Date{}
	s.why("two dates of issue")
}

func (s *sheet) signer() {
	if len(s.c.sign) < 2 && s.chance(70) {
		s.c.sign = append(s.c.sign, s.someone().full()+oneOf(s.draw, ", ", "\n")+s.say("role"))
	}
}

func (s *sheet) latest() credit.Date {
	if s.f.end.IsZero() {
		return s.f.start
	}
	return s.f.end
}
