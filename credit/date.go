package credit

import (
	"errors"
	"fmt"
	"time"
)

// ErrDate says that a text is no day of the calendar.
var ErrDate = errors.New("not a date")

// Date is a day of the Gregorian calendar without a zone. The zero Date is no
// day at all: it prints as "" and sorts before every day.
type Date struct {
	day int32 // days since 0000-12-31, so that 1 is 0001-01-01 and 0 means none
}

// Minutes is a length of time in whole minutes.
type Minutes int64

var dayZero = time.Date(0, 12, 31, 0, 0, 0, 0, time.UTC)

// DateOf returns the day of t in t's own zone.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Day(y, m, d)
}

// Day returns the day y-m-d, counted on where m or d lie outside their range, as
// time.Date does. Years outside 1 to 9999 give the zero Date.
func Day(y int, m time.Month, d int) Date {
	t := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	if t.Year() < 1 || t.Year() > 9999 {
		return Date{}
	}
	return Date{int32((t.Unix() - dayZero.Unix()) / 86400)} // not Sub: a Duration ends after 292 years
}

// ValidDay reports whether y-m-d is a day of the calendar, and returns it.
func ValidDay(y, m, d int) (Date, bool) {
	got := Day(y, time.Month(m), d)
	gy, gm, gd := got.YMD()
	return got, got != Date{} && gy == y && int(gm) == m && gd == d
}

// ParseDate reads "2026-03-05" and nothing else. The error wraps [ErrDate].
func ParseDate(text string) (Date, error) {
	t, err := time.Parse("2006-01-02", text)
	if err != nil || t.Year() < 1 {
		return Date{}, fmt.Errorf("date %q: %w: want YYYY-MM-DD, a day of the calendar", text, ErrDate)
	}
	return DateOf(t), nil
}

// MustDate is [ParseDate] for days written in code; it panics on an error.
func MustDate(text string) Date {
	d, err := ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

// Time returns the first instant of d in UTC; the zero Date gives 0000-12-31.
func (d Date) Time() time.Time { return dayZero.AddDate(0, 0, int(d.day)) }

// YMD returns year, month and day of the month.
func (d Date) YMD() (int, time.Month, int) { return d.Time().Date() }

// IsZero reports whether d is no day.
func (d Date) IsZero() bool { return d.day == 0 }

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return d.Time().Weekday() }

// Before reports whether d lies before e.
func (d Date) Before(e Date) bool { return d.day < e.day }

// After reports whether d lies after e.
func (d Date) After(e Date) bool { return d.day > e.day }

// Compare returns −1, 0 or 1 as d lies before, on or after e.
func (d Date) Compare(e Date) int {
	switch {
	case d.day < e.day:
		return -1
	case d.day > e.day:
		return 1
	}
	return 0
}

// Equal reports whether d and e are the same day.
func (d Date) Equal(e Date) bool { return d == e }

// Sub returns the number of days from e to d.
func (d Date) Sub(e Date) int { return int(d.day) - int(e.day) }

// AddDays returns the day n days later.
func (d Date) AddDays(n int) Date {
	y, m, day := d.YMD()
	return Day(y, m, day+n)
}

// AddMonths returns the same day of the month n months later; a month too short
// for it gives its last day.
func (d Date) AddMonths(n int) Date {
	y, m, day := d.YMD()
	last := time.Date(y, m+time.Month(n)+1, 0, 0, 0, 0, 0, time.UTC)
	return Day(last.Year(), last.Month(), min(day, last.Day()))
}

// AddYears is [Date.AddMonths] with 12 n.
func (d Date) AddYears(n int) Date { return d.AddMonths(12 * n) }

// String prints "2026-03-05", and "" for the zero Date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.Time().Format("2006-01-02")
}

// MarshalText prints d as [Date.String] does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what [ParseDate] reads, and "" as the zero Date.
func (d *Date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = Date{}
		return nil
	}
	got, err := ParseDate(string(text))
	if err != nil {
		return err
	}
	*d = got
	return nil
}
