package page

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// calendarNames are the properties that say something to a person.
var calendarNames = map[string]string{
	"SUMMARY": "Summary", "DTSTART": "Start", "DTEND": "End", "DURATION": "Duration", "LOCATION": "Location",
	"DESCRIPTION": "Description", "ORGANIZER": "Organizer", "ATTENDEE": "Attendee", "STATUS": "Status",
	"CATEGORIES": "Categories", "COMMENT": "Comment", "CONTACT": "Contact", "RRULE": "Repeats", "DTSTAMP": "Made on",
	"METHOD": "Method", "PRODID": "Made by",
}

// calendarEvent is what of one entry belongs together.
type calendarEvent struct {
	start   string // as it stands there
	summary string
}

// readCalendar reads a calendar as lines "Summary: …". An entry says what was planned, so
// that its times stay at the place that it names: a day is never moved to another zone.
// Source: RFC 5545, sections 3.1 (lines) and 3.3 (values).
func readCalendar(b []byte) Document {
	if len(b) > textBytes {
		return tooLarge("it is a calendar of more than 8 MiB")
	}
	text := decoded(unfolded(b), "text/calendar")
	text = strings.NewReplacer("\n ", "", "\n\t", "").Replace(text)
	var c calendarReading
	for _, line := range strings.Split(text, "\n") {
		c.read(line)
	}
	var out []string
	for _, line := range c.lines {
		out = append(out, strings.Split(line, "\n")...)
	}
	d := textDocument(out)
	if len(c.events) == 1 {
		d.Title = plain(c.events[0].summary, 500)
	}
	return d
}

// calendarReading is a calendar while its lines are read.
type calendarReading struct {
	lines  []string
	events []calendarEvent
	inside string // the innermost component
	entry  bool   // within an entry
}

// isEntry reports a component that says what was planned.
func isEntry(name string) bool {
	return name == "VEVENT" || name == "VTODO" || name == "VJOURNAL"
}

// read takes one unfolded line.
func (c *calendarReading) read(line string) {
	head, value, ok := cutOutside(line, ':')
	if !ok {
		return
	}
	var parts []string
	for rest, more := head, true; more; {
		head, rest, more = cutOutside(rest, ';')
		parts = append(parts, head)
	}
	name, what := strings.ToUpper(strings.TrimSpace(parts[0])), strings.ToUpper(strings.TrimSpace(value))
	switch name {
	case "BEGIN":
		c.inside = what
		if isEntry(what) {
			c.lines, c.events, c.entry = append(c.lines, ""), append(c.events, calendarEvent{}), true
		}
		return
	case "END":
		c.inside = ""
		c.entry = c.entry && !isEntry(what)
		return
	}
	label := calendarNames[name]
	if label == "" || c.inside == "VTIMEZONE" || c.inside == "STANDARD" || c.inside == "DAYLIGHT" || c.inside == "VALARM" {
		return
	}
	event := &calendarEvent{} // of the calendar itself, outside any entry
	if c.entry {
		event = &c.events[len(c.events)-1]
	}
	c.lines = append(c.lines, label+": "+calendarValue(name, parts[1:], value, event))
}

// unfolded joins lines that were folded within a letter of several bytes, before the bytes
// become letters. RFC 5545, section 3.1. In UTF-16 no byte of these stands alone.
func unfolded(b []byte) []byte {
	if utf16ish(b) {
		return b
	}
	for _, fold := range []string{"\r\n ", "\r\n\t", "\n ", "\n\t"} {
		b = bytes.ReplaceAll(b, []byte(fold), nil)
	}
	return b
}

// cutOutside cuts s at the first mark that stands in no quotation marks.
func cutOutside(s string, mark rune) (before, after string, found bool) {
	quoted := false
	for i, r := range s {
		switch {
		case r == '"':
			quoted = !quoted
		case r == mark && !quoted:
			return s[:i], s[i+1:], true
		}
	}
	return s, "", false
}

func calendarValue(name string, params []string, value string, event *calendarEvent) string {
	switch name {
	case "DTEND":
		// An end that is a day is the day after; never one before the start. RFC 5545,
		// section 3.6.1.
		if day, err := time.Parse("20060102", strings.TrimSpace(value)); err == nil {
			if last := day.AddDate(0, 0, -1); last.Format("20060102") >= event.start {
				day = last
			}
			return day.Format(time.DateOnly)
		}
		return calendarTime(value, params)
	case "DTSTART":
		event.start = strings.TrimSpace(value)
		return calendarTime(value, params)
	case "DTSTAMP":
		return calendarTime(value, params)
	case "RRULE":
		return calendarRule(value, event.start)
	case "ORGANIZER", "ATTENDEE":
		for _, p := range params {
			if cn, ok := strings.CutPrefix(p, "CN="); ok {
				return strings.Trim(cn, `"`)
			}
		}
		return strings.TrimPrefix(strings.TrimPrefix(value, "mailto:"), "MAILTO:")
	}
	text := strings.NewReplacer(`\n`, "\n", `\N`, "\n", `\,`, ",", `\;`, ";", `\\`, `\`).Replace(value)
	if name == "SUMMARY" {
		event.summary = text
	}
	return text
}

// calendarTime writes a date or a time so that it can be read, with its zone: "2026-03-05
// 09:30 (Europe/Berlin)". A value of another form stays as it is. RFC 5545, section 3.3.5.
func calendarTime(v string, params []string) string {
	zone := ""
	for _, p := range params {
		if id, ok := strings.CutPrefix(strings.ToUpper(p), "TZID="); ok && len(id) > 0 {
			zone = " (" + strings.Trim(p[len("TZID="):], `"/`) + ")"
		}
	}
	v = strings.TrimSpace(v)
	for _, form := range []struct{ in, out string }{
		{"20060102", "2006-01-02"}, {"20060102T150405", "2006-01-02 15:04"}, {"20060102T150405Z", "2006-01-02 15:04 UTC"},
	} {
		if t, err := time.Parse(form.in, v); err == nil {
			if form.in == "20060102T150405" {
				return t.Format(form.out) + zone
			}
			return t.Format(form.out)
		}
	}
	return v
}

// frequencies are how often an entry comes again, with its step in days, months, years.
var frequencies = map[string]struct {
	word                string
	days, months, years int
}{"DAILY": {"day", 1, 0, 0}, "WEEKLY": {"week", 7, 0, 0}, "MONTHLY": {"month", 0, 1, 0}, "YEARLY": {"year", 0, 0, 1}}

// mostRepeats bounds the times that are counted out.
const mostRepeats = 1000

// calendarRule says in words how an entry comes again, and of a rule of one step with an
// end the last day: "every 2 weeks, 6 times, the last on 2026-05-14". A rule that asks for
// more stays as it is. RFC 5545, section 3.3.10.
func calendarRule(rule, start string) string {
	part := map[string]string{}
	for p := range strings.SplitSeq(strings.ToUpper(strings.TrimSpace(rule)), ";") {
		key, value, _ := strings.Cut(p, "=")
		part[key] = value
	}
	f, known := frequencies[part["FREQ"]]
	step, count := number(part["INTERVAL"], 1), number(part["COUNT"], 0)
	first, err := time.Parse("20060102", start[:min(len(start), 8)])
	for key := range part {
		known = known && (key == "FREQ" || key == "INTERVAL" || key == "COUNT" || key == "UNTIL" || key == "WKST" || key == "BYDAY" && part["FREQ"] == "WEEKLY" && err == nil && part[key] == weekdayCode(first))
	}
	if !known || step < 1 || step > 100 || count < 0 || count > mostRepeats {
		return rule
	}
	text := "every " + f.word
	if step > 1 {
		text = fmt.Sprintf("every %d %ss", step, f.word)
	}
	if count == 0 && part["UNTIL"] == "" {
		return text + ", without end"
	}
	last, n := first, 0
	for k := range mostRepeats {
		if last.Year() > 2200 {
			return rule
		}
		next := first.AddDate(k*step*f.years, k*step*f.months, k*step*f.days)
		if next.Day() != first.Day() && f.days == 0 {
			continue // there is no 31st in that month
		}
		if n == count && count > 0 || part["UNTIL"] != "" && next.Format("20060102") > part["UNTIL"][:min(len(part["UNTIL"]), 8)] {
			break
		}
		last, n = next, n+1
	}
	if count > 0 {
		text += fmt.Sprintf(", %d times", count)
	}
	if err != nil || n == 0 {
		return text
	}
	return text + ", the last on " + last.Format(time.DateOnly)
}

// number reads a small number; otherwise where there is none, -1 where it is something else.
func number(s string, otherwise int) int {
	if s == "" {
		return otherwise
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		return -1
	}
	return n
}

func weekdayCode(d time.Time) string { return strings.ToUpper(d.Weekday().String()[:2]) }
