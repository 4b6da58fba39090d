package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"evidencevault/credit"
)

// Limits of a calendar file.
const (
	mostOctets  = 75 // of a line without its end; RFC 5545, section 3.1
	alarmBefore = 14 // days before a deadline; common practice, no source
)

// Calendar returns the deadlines of standings as an iCalendar file: one event of a whole
// day for each deadline and each day on which credit stops counting, from the
// standing's day on, with a reminder two weeks before. Equal deadlines keep their UID
// when the file is made again, so that a calendar replaces them. now is the time of
// making.
//
// Source: RFC 5545 (iCalendar), sections 3.1 (folding), 3.3.11 (escaping), 3.6.1
// (events: DTEND of a whole day is the day after) and 3.6.6 (alarms).
func Calendar(standings []credit.Statement, now time.Time) []byte {
	c := calendar{stamp: now.UTC().Format("20060102T150405Z"), used: map[string]int{}}
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//evidencevault//vaultctl//EN")
	c.line("CALSCALE", "GREGORIAN")
	for _, s := range standings {
		for _, d := range s.InOrder() {
			c.event(s, d.Date, d.What)
		}
		for _, l := range s.Leaving {
			c.event(s, l.Date, credit.Quantity(l.Amount, s.Unit)+" no longer count from this day")
		}
	}
	c.line("END", "VCALENDAR")
	return []byte(c.text.String())
}

type calendar struct {
	text  strings.Builder
	stamp string
	used  map[string]int // of each UID without its counter
}

func (c *calendar) event(s credit.Statement, day credit.Date, what string) {
	if day.IsZero() || day.Before(s.On) {
		return
	}
	summary := s.Certification + ": " + what
	c.line("BEGIN", "VEVENT")
	c.line("UID", c.uid(s, what))
	c.line("DTSTAMP", c.stamp)
	c.line("DTSTART;VALUE=DATE", day.Time().Format("20060102"))
	c.line("DTEND;VALUE=DATE", day.AddDays(1).Time().Format("20060102"))
	c.line("SUMMARY", escapeText(summary))
	c.line("DESCRIPTION", escapeText("As the vault knew it on "+s.On.Words()+". The certifying body's current rules decide."))
	c.line("TRANSP", "TRANSPARENT")
	c.line("BEGIN", "VALARM")
	c.line("ACTION", "DISPLAY")
	c.line("TRIGGER", fmt.Sprintf("-P%dD", alarmBefore))
	c.line("DESCRIPTION", escapeText(summary))
	c.line("END", "VALARM")
	c.line("END", "VEVENT")
}

// uid names a deadline by what it is, not by its day, so that it can move.
func (c *calendar) uid(s credit.Statement, what string) string {
	sum := sha256.Sum256([]byte(s.Certification + "\n" + s.Cycle.Start.String() + "\n" + what))
	id := hex.EncodeToString(sum[:16])
	n := c.used[id]
	c.used[id]++
	if n > 0 {
		id += fmt.Sprintf("-%d", n+1)
	}
	return id + "@evidencevault"
}

// line writes one content line, folded between characters.
func (c *calendar) line(name, value string) {
	line, room := name+":"+value, mostOctets
	for len(line) > room {
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		c.text.WriteString(line[:cut] + "\r\n ")
		line, room = line[cut:], mostOctets-1
	}
	c.text.WriteString(line + "\r\n")
}

func escapeText(text string) string {
	text = strings.ToValidUTF8(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, text), "\uFFFD")
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(text)
}
