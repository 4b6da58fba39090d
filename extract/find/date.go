package find

import (
	"time"

	"evidencevault/credit"
)

// Order is the order in which day, month and year stand.
type Order int

// The orders. Unordered means that the words tell what is what.
const (
	Unordered  Order = iota // a month in words
	DayFirst                // 31/12/2026
	MonthFirst              // 12/31/2026
	YearFirst               // 2026-12-31, 20261231
)

// Form is how a date is written.
type Form int

// The forms of a date.
const (
	Numeric  Form = iota // figures with marks between them, 3.3.2026
	Spelt                // a month in words, 3 March 2026
	Compact              // eight figures, 20260303
	Relative             // today, yesterday, tomorrow: no reading, Offset tells
)

// Lack is what a date does not tell.
type Lack int

// What a date may lack.
const (
	Whole     Lack = iota // a day
	NoYear                // day and month
	MonthOnly             // month and year
	YearOnly              // a year
)

// Reading is one meaning of a date.
type Reading struct {
	Day        credit.Date // zero unless the date is whole
	Year       int         // 0 if lacking
	Month      time.Month  // 0 if lacking
	DayOfMonth int         // 0 if lacking
	Order      Order
	Weekday    bool // the weekday given, if any, is that of Day
}

// In returns r in the given year, where r lacks one; false when that year has no
// such day.
func (r Reading) In(year int) (credit.Date, bool) {
	return credit.ValidDay(year, int(r.Month), r.DayOfMonth)
}

// First returns the first day of what r tells: the day itself, or that of the
// month or year. Zero when r has no year.
func (r Reading) First() credit.Date {
	if r.Year == 0 {
		return credit.Date{}
	}
	return credit.Day(r.Year, max(r.Month, 1), max(r.DayOfMonth, 1))
}

// Last is [Reading.First] with the last day.
func (r Reading) Last() credit.Date {
	switch {
	case r.Year == 0:
		return credit.Date{}
	case r.DayOfMonth > 0:
		return r.Day
	case r.Month > 0:
		return credit.Day(r.Year, r.Month+1, 0)
	}
	return credit.Day(r.Year, time.December, 31)
}

// Date is a date in a text, with all its meanings.
type Date struct {
	Span
	Readings     []Reading // day first before month first; empty only when Relative
	Form         Form
	Lack         Lack
	HasWeekday   bool         // a weekday stands with it
	Weekday      time.Weekday // that weekday
	TwoDigitYear bool         // 26 for 2026; read as 1970 to 2069
	Mended       bool         // the month's name has one letter wrong, as scans do
	Offset       int          // days from the day of writing, when Relative
}

// Days returns the days that d may be, day first before month first; none when
// d lacks its year or day.
func (d Date) Days() []credit.Date {
	var days []credit.Date
	for _, r := range d.Readings {
		if !r.Day.IsZero() {
			days = append(days, r.Day)
		}
	}
	return days
}

// Ambiguous reports whether d has more than one reading.
func (d Date) Ambiguous() bool { return len(d.Readings) > 1 }

// Range is a span of days in a text, with all its meanings.
type Range struct {
	Span
	Readings     []Stretch // day first before month first
	Form         Form
	Lack         Lack // Whole, NoYear; MonthOnly when the ends are months, YearOnly when they are years
	Open         bool // it goes on: "since 4 January 2021", "1 March 2019 to date"
	Week         bool // "the week of 6 July": both ends are to be asked
	TwoDigitYear bool
	Weekday      bool // weekdays stand with it
	Listed       bool // days are listed ("3, 10 and 17 March"): not every day between counts
}

// Stretch is one meaning of a range.
type Stretch struct {
	Start, End credit.Date // zero when the year lacks, End also when open
	From, To   Reading     // the parts
	Order      Order
	Weekday    bool // every weekday given is that of its day
}
