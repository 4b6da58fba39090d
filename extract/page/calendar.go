package page

import (
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

// readCalendar reads a calendar as lines "Summary: …".
// Source: RFC 5545, sections 3.1 (lines) and 3.3 (values).
func readCalendar(b []byte) Document {
	if len(b) > textBytes {
		return tooLarge("it is a calendar of more than 8 MiB")
	}
	text := decoded(b, "text/calendar")
	text = strings.NewReplacer("\n ", "", "\n\t", "").Replace(text)
	var lines []string
	inside := ""
	for _, line := range strings.Split(text, "\n") {
		head, value, ok := cutOutside(line, ':')
		if !ok {
			continue
		}
		var parts []string
		for rest, more := head, true; more; {
			head, rest, more = cutOutside(rest, ';')
			parts = append(parts, head)
		}
		name := strings.ToUpper(strings.TrimSpace(parts[0]))
		switch name {
		case "BEGIN":
			inside = strings.ToUpper(strings.TrimSpace(value))
			if inside == "VEVENT" || inside == "VTODO" || inside == "VJOURNAL" {
				lines = append(lines, "")
			}
			continue
		case "END":
			inside = ""
			continue
		}
		label := calendarNames[name]
		if label == "" || inside == "VTIMEZONE" || inside == "STANDARD" || inside == "DAYLIGHT" || inside == "VALARM" {
			continue
		}
		lines = append(lines, label+": "+calendarValue(name, parts[1:], value))
	}
	var out []string
	for _, line := range lines {
		out = append(out, strings.Split(line, "\n")...)
	}
	return textDocument(out)
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

func calendarValue(name string, params []string, value string) string {
	switch name {
	case "DTEND":
		// An end that is a day is the day after. RFC 5545, section 3.6.1.
		if day, err := time.Parse("20060102", strings.TrimSpace(value)); err == nil {
			return day.AddDate(0, 0, -1).Format(time.DateOnly)
		}
		return calendarTime(value)
	case "DTSTART", "DTSTAMP":
		return calendarTime(value)
	case "ORGANIZER", "ATTENDEE":
		for _, p := range params {
			if cn, ok := strings.CutPrefix(p, "CN="); ok {
				return strings.Trim(cn, `"`)
			}
		}
		return strings.TrimPrefix(strings.TrimPrefix(value, "mailto:"), "MAILTO:")
	}
	return strings.NewReplacer(`\n`, "\n", `\N`, "\n", `\,`, ",", `\;`, ";", `\\`, `\`).Replace(value)
}

// calendarTime writes a date or a time so that it can be read: "2026-03-05 09:30". A
// value of another form stays as it is.
func calendarTime(v string) string {
	v = strings.TrimSpace(v)
	for _, form := range []struct{ in, out string }{
		{"20060102", "2006-01-02"}, {"20060102T150405", "2006-01-02 15:04"}, {"20060102T150405Z", "2006-01-02 15:04 UTC"},
	} {
		if t, err := time.Parse(form.in, v); err == nil {
			return t.Format(form.out)
		}
	}
	return v
}
