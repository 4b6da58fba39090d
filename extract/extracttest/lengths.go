package extracttest

import (
	"fmt"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// clock writes a stretch of the day.
func (s *sheet) clock(c clockTime) string {
	form := s.say("clock")
	if s.loc == "en-US" && strings.Contains(form, "{H1}") {
		form = "{h1}:{M1} {AP1} – {h2}:{M2} {AP2}"
	}
	return s.clockIn(form, c)
}

func (s *sheet) clockIn(form string, c clockTime) string {
	values := []string{}
	for i, at := range []int{c.from, c.to} {
		n := strconv.Itoa(i + 1)
		h, m := at/60, at%60
		half, h12 := "am", (h+11)%12+1
		if h >= 12 {
			half = "pm"
		}
		values = append(values, "H"+n, fmt.Sprintf("%02d", h), "G"+n, strconv.Itoa(h), "h"+n, strconv.Itoa(h12), "M"+n, fmt.Sprintf("%02d", m),
			"ap"+n, half, "AP"+n, strings.ToUpper(half), "a.p"+n, half[:1]+".m.")
	}
	return fill(form, values...)
}

// and joins a list as a sentence does.
func (s *sheet) and(parts []string) string {
	if len(parts) == 1 {
		return parts[0]
	}
	word := ", "
	if s.chance(50) {
		word = " " + strings.TrimSpace(s.say("list.and")) + " "
	}
	return strings.Join(parts[:len(parts)-1], ", ") + word + parts[len(parts)-1]
}

// day times that an event may have.
func (s *sheet) drawClock() clockTime {
	from := oneOf(s.draw, 480, 510, 540, 540, 570, 600, 780, 810, 840, 1020, 1080)
	switch {
	case from >= 1020:
		return clockTime{from, from + oneOf(s.draw, 60, 75, 90, 120, 150)}
	case from >= 780:
		return clockTime{from, from + oneOf(s.draw, 90, 120, 150, 180, 210, 240)}
	}
	return clockTime{from, from + oneOf(s.draw, 180, 240, 360, 390, 420, 450, 480, 510)}
}

// drawBreaks draws one to three breaks within c.
func (s *sheet) drawBreaks(c clockTime) []clockTime {
	if c.minutes() <= 210 {
		at := c.from + min(oneOf(s.draw, 60, 75), c.minutes()/10*5)
		return []clockTime{{at, at + oneOf(s.draw, 10, 15)}}
	}
	lunch := clockTime{720 + oneOf(s.draw, 0, 15, 30), 0}
	lunch.to = lunch.from + oneOf(s.draw, 30, 45, 60)
	if c.to <= lunch.to+30 || lunch.from < c.from+60 {
		return []clockTime{{c.from + 90, c.from + 90 + oneOf(s.draw, 15, 20)}}
	}
	list := []clockTime{lunch}
	if s.chance(50) && lunch.from-c.from > 120 {
		list = append([]clockTime{{c.from + 90, c.from + 105}}, list...)
	}
	if s.chance(40) && c.to-lunch.to > 120 {
		list = append(list, clockTime{lunch.to + 90, lunch.to + 105})
	}
	return list
}

// hours writes a length of time; the wording shows it exactly.
func (s *sheet) hours(minutes int) string {
	section := "hours"
	if minutes%60 == 0 && s.chance(70) {
		section = "hours.whole"
	}
	form := s.say(section)
	if minutes > 12*60 && strings.Contains(form, "{word}") {
		form = s.list(section)[0]
	}
	if minutes%15 != 0 && (strings.Contains(form, "{dec}") || strings.Contains(form, "{frac}")) {
		form = "{min} min"
	}
	if minutes%30 != 0 && strings.Contains(form, "{frac}") || minutes%60 == 0 && strings.Contains(form, "{m}") {
		form = s.say("hours.whole")
	}
	for (minutes > 12*60 || minutes%60 != 0) && strings.Contains(form, "{word}") { // only twelve are written out
		form = s.say("hours.whole")
	}
	return s.hoursIn(form, minutes)
}

func (s *sheet) hoursIn(form string, minutes int) string {
	frac := strconv.Itoa(minutes / 60)
	if minutes%60 == 30 {
		frac += "½"
	}
	return fill(form, "word", s.w["numbers"][(minutes/60+11)%12], "dec", s.decimal(credit.Fraction(int64(minutes), 60)), "h", strconv.Itoa(minutes/60),
		"m", strconv.Itoa(minutes%60), "mm", fmt.Sprintf("%02d", minutes%60), "min", strconv.Itoa(minutes), "frac", frac)
}

// decimal writes a number with the decimal mark of the language.
func (s *sheet) decimal(a credit.Amount) string {
	if s.lang == "en" {
		return a.String()
	}
	return strings.Replace(a.String(), ".", ",", 1)
}

// ways to state the length of an event, drawn by weight.
const (
	lengthNone = iota
	lengthStated
	lengthClock
	lengthBreaks
	lengthBreakTotal
	lengthUnits
	lengthBareUnits
	lengthDisagree
	lengthClockAndContact
	lengthAttended
	lengthBoth
)

// eventLength writes how long an event was, and puts down the truth.
func (s *sheet) eventLength() {
	way := s.weighted(10, 26, 9, 12, 8, 8, 6, 6, 7, 5, 5)
	if s.week {
		way = oneOf(s.draw, lengthNone, lengthStated, lengthUnits, lengthAttended) // clock times of how many days?
	}
	if s.lang == "de" && s.chance(12) {
		way = lengthUnits
	}
	days := s.f.end.Sub(s.f.start) + 1
	clocked := way == lengthClock || way == lengthBreaks || way == lengthBreakTotal || way == lengthDisagree || way == lengthClockAndContact || way == lengthBoth
	if clocked && days > 3 {
		way, clocked = lengthStated, false
	}
	if clocked {
		s.clockLength(way, days)
		return
	}
	minutes := oneOf(s.draw, 60, 75, 90, 120, 150, 180, 195, 210, 240, 270, 300, 330, 360, 390, 420, 450, 480)
	if days > 1 {
		minutes = days * oneOf(s.draw, 240, 300, 330, 360, 375, 390, 420, 450)
	}
	switch way {
	case lengthStated:
		s.stated("l.hours", minutes)
	case lengthUnits:
		n, l := max(1, minutes/90)*2, oneOf(s.draw, 45, 45, 45, 50, 60, 90)
		for n*l > days*540 {
			n--
		}
		s.put("l.hours", "s.hours", "hours", s.say("units.length", "n", strconv.Itoa(n), "l", strconv.Itoa(l)))
		s.t.Duration, s.f.stated = number(n*l), n*l
		s.why("count × length")
	case lengthBareUnits:
		n := max(2, minutes/50)
		s.put("l.hours", "s.hours", "hours", s.say("units.bare", "n", strconv.Itoa(n)))
		s.ask(paper.FieldDuration, 45*n, 50*n, 60*n)
		s.why("units whose length is not said")
	case lengthAttended:
		all := minutes + oneOf(s.draw, 60, 90, 120)
		if s.labelled {
			s.item("l.scheduled", s.hours(all))
			s.item("l.attended", s.hours(minutes))
		} else {
			s.c.says = append(s.c.says, s.say("attended.note", "a", s.hours(all), "b", s.hours(minutes)))
		}
		s.t.Duration, s.f.stated = number(minutes), minutes
		s.why("attended goes before scheduled")
	}
}

func (s *sheet) stated(label string, minutes int) {
	s.put(label, "s.hours", "hours", s.hours(minutes))
	s.t.Duration, s.f.stated = number(minutes), minutes
}

// clockLength writes clock times, with or without breaks and a total beside them.
func (s *sheet) clockLength(way, days int) {
	c := s.drawClock()
	s.f.clocks, s.f.days = []clockTime{c}, days
	written := s.clock(c)
	if days > 1 {
		written += " " + s.say("daily")
	}
	net := c.minutes()
	if way == lengthBreaks || way == lengthBreakTotal || way == lengthBoth {
		net = s.writeBreaks(way, c, written)
	} else {
		s.put("l.time", "s.time", "clock", written)
	}
	total := net * days
	switch way {
	case lengthBoth:
		s.put("l.hours", "s.hours", "hours", s.hours(total))
		s.f.stated = total
	case lengthClockAndContact:
		if c.minutes() > 210 {
			total -= days * oneOf(s.draw, 45, 60, 75)
		}
		s.contact(total)
	case lengthDisagree:
		other := total + days*oneOf(s.draw, 30, 60, 90, 120)
		s.put("l.hours", "s.hours", "hours", s.hours(other))
		s.ask(paper.FieldDuration, total, other)
		s.f.stated = other
		s.why("the stated length is longer than the clock times")
		return
	}
	s.t.Duration = number(total)
}

// contact states the net time beside clock times; breaks that are not listed explain
// the difference.
func (s *sheet) contact(minutes int) {
	written := s.say("contact", "hours", s.hours(minutes))
	if s.labelled {
		s.item("l.hours", written)
	} else {
		s.c.says = append(s.c.says, strings.ToUpper(written[:1])+written[1:]+".")
	}
	s.f.stated = minutes
	s.why("contact time is stated; the clock times hold breaks that are not listed")
}

// writeBreaks writes clock times with their breaks and returns the net minutes of a day.
func (s *sheet) writeBreaks(way int, c clockTime, written string) int {
	var phrase, value string
	var off int
	if way != lengthBreakTotal {
		s.f.breaks = s.drawBreaks(c)
		form := s.say("break.clock")
		var parts []string
		for _, b := range s.f.breaks {
			parts = append(parts, s.clockIn(form, b))
			off += b.minutes()
		}
		value = s.and(parts)
		phrase = s.say("breaks.ranges", "list", value)
	} else {
		off = oneOf(s.draw, 30, 45, 60, 75)
		if c.minutes() <= 210 {
			off = oneOf(s.draw, 10, 15, 20)
		}
		s.f.breaks = []clockTime{{0, off}}
		value = s.say("break.min", "n", strconv.Itoa(off))
		phrase = s.say("breaks.length", "n", strconv.Itoa(off))
		if c.minutes() <= 210 || c.to < 780 || c.from > 720 {
			phrase = s.say("break.short", "n", strconv.Itoa(off))
		}
	}
	s.why("clock times less the listed breaks")
	if s.labelled && s.chance(60) {
		s.item("l.time", written)
		s.item("l.breaks", value)
		return c.minutes() - off
	}
	joined := written + " (" + phrase + ")"
	if s.chance(30) {
		joined = written + ", " + phrase
	}
	s.put("l.time", "s.time", "clock", joined)
	return c.minutes() - off
}

// credits writes credits and puts them down.
func (s *sheet) credits() {
	if !s.chance(42) {
		return
	}
	unit := s.say("unit")
	for s.byTheHour(unit) && (s.t.Asks(paper.FieldDuration) || s.t.Duration != nil && (*s.t.Duration%15 != 0 || *s.t.Duration == 60)) {
		unit = s.say("unit")
	}
	value := s.creditValue(unit)
	if s.chance(20) {
		s.c.items = append(s.c.items, item{unit, s.decimal(value)})
	} else {
		s.put("l.credits", "s.credits", "credits", s.decimal(value)+" "+unit)
	}
	s.setCredits(unit, value)
	if s.t.Kind == paper.Attendance && s.chance(5) {
		other := value.Add(credit.Fraction(1, 2))
		s.c.says = append(s.c.says, s.say("s.credits", "credits", s.decimal(other)+" "+unit))
		s.t.Credits = nil
		delete(s.t.Also, string(paper.FieldCredits))
		s.ask(paper.FieldCredits, []paper.Printed{{Unit: unit, Value: value}}, []paper.Printed{{Unit: unit, Value: other}})
		s.why("two values for the same unit")
	}
}

// creditValue draws a value that fits the unit and the length, never 1.
func (s *sheet) creditValue(unit string) credit.Amount {
	minutes := int64(oneOf(s.draw, 120, 150, 300, 450))
	if s.t.Duration != nil {
		minutes = *s.t.Duration
	}
	switch {
	case unit == "CEU":
		return credit.Fraction(minutes, 600)
	case s.byTheHour(unit):
		return credit.Fraction(minutes, 60)
	}
	return credit.Fraction(int64(s.between(4, 40)), 2)
}

// byTheHour reports whether a unit follows from the length: then its value agrees with it.
func (s *sheet) byTheHour(unit string) bool {
	return unit == "CEU" || unit == "PDH" || strings.HasSuffix(unit, "hours") || strings.HasSuffix(unit, "uren")
}

func (s *sheet) setCredits(unit string, value credit.Amount) {
	s.t.Credits = []paper.Printed{{Unit: unit, Value: value}}
	for _, bare := range []string{"points", "Punkte", "punten", "puntos"} {
		if unit != bare && strings.HasSuffix(strings.ToLower(unit), strings.ToLower(bare)) {
			s.also(paper.FieldCredits, []paper.Printed{{Unit: bare, Value: value}})
		}
	}
}
