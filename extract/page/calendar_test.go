package page

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"
)

// entry is a calendar with one event of these lines.
func entry(lines ...string) []byte {
	return []byte("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")
}

func TestCalendarEntries(t *testing.T) {
	tests := []struct {
		name, why string
		give      []byte
		want      []string // lines that it must have
	}{
		{"zone", "the day is that of the place named; nothing is moved", entry("DTSTART;TZID=Asia/Tokyo:20260303T003000", "DTEND;TZID=\"Asia/Tokyo\":20260303T013000"),
			[]string{"Start: 2026-03-03 00:30 (Asia/Tokyo)", "End: 2026-03-03 01:30 (Asia/Tokyo)"}},
		{"UTC", "it says so", entry("DTSTART:20260303T233000Z"), []string{"Start: 2026-03-03 23:30 UTC"}},
		{"no zone", "a time wherever one is", entry("DTSTART:20260303T090000"), []string{"Start: 2026-03-03 09:00"}},
		{"days", "the end of whole days is the day after", entry("DTSTART;VALUE=DATE:20260303", "DTEND;VALUE=DATE:20260306"), []string{"Start: 2026-03-03", "End: 2026-03-05"}},
		{"no day", "an end that leaves no day is the day itself", entry("DTSTART;VALUE=DATE:20260303", "DTEND;VALUE=DATE:20260303"), []string{"End: 2026-03-03"}},
		{"length", "as it stands", entry("DTSTART:20260303T090000", "DURATION:PT7H30M"), []string{"Duration: PT7H30M"}},
		{"times", "each week from the start", entry("DTSTART;TZID=Europe/Vienna:20260303T180000", "RRULE:FREQ=WEEKLY;COUNT=6"), []string{"Repeats: every week, 6 times, the last on 2026-04-07"}},
		{"until", "the last that is not after it", entry("DTSTART:20260303T180000", "RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=20260501T000000Z;BYDAY=TU"), []string{"Repeats: every 2 weeks, the last on 2026-04-28"}},
		{"months", "there is no 31st in April", entry("DTSTART:20260331T180000", "RRULE:FREQ=MONTHLY;COUNT=3"), []string{"Repeats: every month, 3 times, the last on 2026-07-31"}},
		{"without end", "nothing bounds it", entry("DTSTART:20260303T180000", "RRULE:FREQ=DAILY"), []string{"Repeats: every day, without end"}},
		{"leap days", "the last lies far off", entry("DTSTART:20240229T180000", "RRULE:FREQ=YEARLY;INTERVAL=5;COUNT=24"), []string{"Repeats: FREQ=YEARLY;INTERVAL=5;COUNT=24"}},
		{"endless", "nobody counts so far", entry("DTSTART:20260303T180000", "RRULE:FREQ=DAILY;COUNT=999999999"), []string{"Repeats: FREQ=DAILY;COUNT=999999999"}},
		{"second Tuesday", "a rule of several parts stays as it is", entry("DTSTART:20260310T180000", "RRULE:FREQ=MONTHLY;BYDAY=2TU;COUNT=3"), []string{"Repeats: FREQ=MONTHLY;BYDAY=2TU;COUNT=3"}},
		{"folded", "within a letter, too", entry("SUMMARY:Pr\xc3\r\n \xbcfung von Sei\r\n\tlen\\, Teil 1"), []string{"Summary: Prüfung von Seilen, Teil 1"}},
		{"alarm", "it is no part of the event", entry("BEGIN:VALARM", "DESCRIPTION:ring", "END:VALARM", "SUMMARY:Ropes"), []string{"Summary: Ropes"}},
	}
	for _, tt := range tests {
		d := readCalendar(tt.give)
		text := "\n" + strings.Join(d.Pages[0].Lines, "\n") + "\n"
		for _, want := range tt.want {
			if !strings.Contains(text, "\n"+want+"\n") {
				t.Errorf("%s (%s): %q, want %q", tt.name, tt.why, text, want)
			}
		}
		if strings.Contains(text, "ring") {
			t.Errorf("%s: %q", tt.name, text)
		}
	}
	if d := readCalendar(entry("SUMMARY:Ropes")); d.Title != "Ropes" {
		t.Errorf("title %q, want that of the one entry", d.Title)
	}
}

// The calendars of others say what their makers meant. See testdata/SOURCE.md.
func TestCalendarsOfOthers(t *testing.T) {
	for file, want := range map[string][]string{
		"ics-rfc5545sec4-input1.ics": {"Start: 1996-09-18 14:30 UTC", "End: 1996-09-20 22:00 UTC", "Summary: Networld+Interop Conference"},
		"ics-rfc5545sec4-input2.ics": {"Start: 1998-03-12 08:30 (America/New_York)", "End: 1998-03-12 09:30 (America/New_York)"},
		"ics-timeparsing.ics":        {"Start: 2021-12-07 14:00 (Europe/Copenhagen)", "Start: 2022-01-22 17:00 UTC"},
		"ics-rfc5545sec4-input5.ics": {"Description: Project xyz Review Meeting Minutes", "3. Review of project schedule."},
	} {
		b, err := os.ReadFile(filepath.Join("testdata", "mail", file))
		if err != nil {
			t.Fatal(err)
		}
		d := readCalendar(b)
		text := strings.Join(d.Pages[0].Lines, "\n")
		for _, line := range want {
			if !strings.Contains(text, line) {
				t.Errorf("%s: %q, want %q", file, text, line)
			}
		}
		sound(t, d)
	}
}

// TestRepeats compares the last day of simple rules with what github.com/emersion/go-ical
// (by github.com/teambition/rrule-go) works out.
func TestRepeats(t *testing.T) {
	for _, freq := range []string{"DAILY", "WEEKLY", "MONTHLY", "YEARLY"} {
		for _, first := range []string{"20260303", "20260131", "20240229", "20251230"} {
			for _, bound := range []string{"COUNT=1", "COUNT=7", "COUNT=24", "UNTIL=20270115T120000Z", "UNTIL=20300301T000000Z"} {
				for _, step := range []int{1, 2, 5} {
					rule := fmt.Sprintf("FREQ=%s;INTERVAL=%d;%s", freq, step, bound)
					b := entry("UID:1", "DTSTAMP:20260101T000000Z", "DTSTART:"+first+"T090000Z", "RRULE:"+rule)
					cal, err := ical.NewDecoder(bytes.NewReader(b)).Decode()
					if err != nil {
						t.Fatal(err)
					}
					set, err := cal.Events()[0].RecurrenceSet(time.UTC)
					if err != nil {
						t.Fatal(err)
					}
					all := set.All()
					if len(all) == 0 {
						continue
					}
					want := "the last on " + all[len(all)-1].Format(time.DateOnly)
					if got := calendarRule(rule, first+"T090000Z"); len(all) < 200 && all[len(all)-1].Year() < 2200 && !strings.HasSuffix(got, want) {
						t.Errorf("%s from %s: %q, want %q", rule, first, got, want)
					}
				}
			}
		}
	}
}
