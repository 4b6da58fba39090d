package credit

import (
	"errors"
	"fmt"
	"strconv"
	"time"
)

// ErrCycle says that a cycle cannot be worked out from what is known.
var ErrCycle = errors.New("the cycle is not known")

// Period is a span of days, both included. The zero Period is none. One whose End
// is zero has no end.
type Period struct {
	Start, End Date
}

// IsZero reports whether p is no period.
func (p Period) IsZero() bool { return p == Period{} }

// Holds reports whether d lies in p; every day lies in the zero Period.
func (p Period) Holds(d Date) bool {
	return !d.Before(p.Start) && (p.End.IsZero() || !d.After(p.End))
}

// Anchor says what a cycle hangs on.
type Anchor string

// The anchors. The facts that each reads stand in docs/scheme.md.
const (
	AnchorLength   Anchor = "length"            // Months from the fact start
	AnchorIssue    Anchor = "issue"             // Months from the fact issued, to the day before
	AnchorFixed    Anchor = "fixed"             // to the day EndMonth-EndDay on or after the full length
	AnchorBirth    Anchor = "birth-month-start" // from the 1st of the birth month after the fact admitted
	AnchorBirthEnd Anchor = "birth-month-end"   // to the end of the birth month, every so many years
	AnchorParity   Anchor = "odd-even"          // to 31 December of odd or even years, after the fact number
	AnchorDayAfter Anchor = "day-after"         // from the day after the fact closed
)

// CycleRule says how long a cycle is and what it hangs on. The zero CycleRule has no
// length: a cycle is then what the person states.
type CycleRule struct {
	Origin
	Anchor     Anchor
	Months     int
	First      int        // months of the first cycle, where they differ; 0: they do not
	EndMonth   time.Month // of AnchorFixed
	EndDay     int
	AcceptFrom int  // months before the start from which claims count
	From       Date // a first day accepted that is stated outright; zero: none
	GraceDays  int
	ReportDays int // days after the end by which one must have reported
}

// Starting returns the cycle that begins on start. The error wraps [ErrCycle].
func (r CycleRule) Starting(start Date) (Period, error) {
	if start.IsZero() || r.Months <= 0 {
		return Period{}, fmt.Errorf("%w: want a start day and a length in the scheme", ErrCycle)
	}
	end := start.AddMonths(r.Months)
	if end.IsZero() {
		return Period{}, fmt.Errorf("%w: it would end after the year 9999", ErrCycle)
	}
	return Period{start, end.AddDays(-1)}, nil
}

// Next returns the cycle that follows p. The error wraps [ErrCycle].
func (r CycleRule) Next(p Period) (Period, error) { return r.Starting(p.End.AddDays(1)) }

// For returns the cycle that the facts tell. The error wraps [ErrCycle] and names the
// fact that is missing.
func (r CycleRule) For(facts Facts) (Period, error) {
	switch r.Anchor {
	case AnchorIssue:
		return r.from(facts, "issued")
	case AnchorFixed:
		return r.fixed(facts)
	case AnchorBirth:
		return r.birthStart(facts)
	case AnchorBirthEnd:
		return r.birthEnd(facts)
	case AnchorParity:
		return r.parity(facts)
	case AnchorDayAfter:
		d, err := facts.date("closed")
		if err != nil {
			return Period{}, err
		}
		if r.Months == 0 {
			return Period{Start: d.AddDays(1)}, nil
		}
		return r.Starting(d.AddDays(1))
	}
	return r.from(facts, "start")
}

func (r CycleRule) from(facts Facts, name string) (Period, error) {
	d, err := facts.date(name)
	if err != nil {
		return Period{}, err
	}
	return r.Starting(d)
}

func (r CycleRule) fixed(facts Facts) (Period, error) {
	issued, err := facts.date("issued")
	if err != nil {
		return Period{}, err
	}
	full := issued.AddMonths(r.Months)
	y, _, _ := full.YMD()
	end := monthDay(y, r.EndMonth, r.EndDay)
	if end.Before(full) {
		end = monthDay(y+1, r.EndMonth, r.EndDay)
	}
	return Period{issued, end}, nil
}

func (r CycleRule) birthStart(facts Facts) (Period, error) {
	admitted, err := facts.date("admitted")
	if err != nil {
		return Period{}, err
	}
	month, err := facts.number("birth_month", 1, 12)
	if err != nil {
		return Period{}, err
	}
	y, _, _ := admitted.YMD()
	start := Day(y, time.Month(month), 1)
	if !start.After(admitted) {
		start = Day(y+1, time.Month(month), 1)
	}
	if r.First > 0 {
		r.Months = r.First
	}
	return r.Starting(start)
}

func (r CycleRule) birthEnd(facts Facts) (Period, error) {
	on, err := facts.date("on")
	if err != nil {
		return Period{}, err
	}
	month, err := facts.number("birth_month", 1, 12)
	if err != nil {
		return Period{}, err
	}
	base, err := facts.number("base_year", 1, 9999)
	if err != nil {
		return Period{}, err
	}
	years := max(r.Months/12, 1)
	y, _, _ := on.YMD()
	for ; ; y++ {
		end := monthDay(y, time.Month(month), 31)
		if (y-base)%years == 0 && !end.Before(on) {
			return Period{monthDay(y-years, time.Month(month), 31).AddDays(1), end}, nil
		}
		if y > 9999 {
			return Period{}, fmt.Errorf("%w: it would end after the year 9999", ErrCycle)
		}
	}
}

func (r CycleRule) parity(facts Facts) (Period, error) {
	on, err := facts.date("on")
	if err != nil {
		return Period{}, err
	}
	text := facts["number"]
	if text == "" || text[len(text)-1] < '0' || text[len(text)-1] > '9' {
		return Period{}, fmt.Errorf("fact number %q: %w: want a number that ends in a digit", text, ErrCycle)
	}
	y, _, _ := on.YMD()
	if y%2 != int(text[len(text)-1]-'0')%2 {
		y++
	}
	years := max(r.Months/12, 1)
	return Period{Day(y-years+1, time.January, 1), Day(y, time.December, 31)}, nil
}

// monthDay is a day of a month; one that the month does not have gives its last day.
func monthDay(y int, m time.Month, d int) Date {
	last := Day(y, m+1, 0)
	if _, _, n := last.YMD(); d > n {
		return last
	}
	return Day(y, m, d)
}

func (f Facts) date(name string) (Date, error) {
	d, err := ParseDate(f[name])
	if err != nil {
		return Date{}, fmt.Errorf("fact %s %q: %w: want YYYY-MM-DD", name, f[name], ErrCycle)
	}
	return d, nil
}

func (f Facts) number(name string, low, high int) (int, error) {
	n, err := strconv.Atoi(f[name])
	if err != nil || n < low || n > high {
		return 0, fmt.Errorf("fact %s %q: %w: want a number from %d to %d", name, f[name], ErrCycle, low, high)
	}
	return n, nil
}

// Windows of a cap or minimum. Besides these a cap may name "rolling:N" (every N
// calendar years in a row), "provider", or a log field.
const (
	PerClaim     = "claim"
	PerDay       = "day"
	PerYear      = "year"       // of the calendar
	PerCycleYear = "cycle_year" // counted from the day the cycle began
	PerCycle     = "cycle"
	PerProvider  = "provider"
)

// Windows returns the names of the windows that are fixed words.
func Windows() []string {
	return []string{PerClaim, PerDay, PerYear, PerCycleYear, PerCycle, PerProvider}
}

// yearOf returns which year of p holds d, counted from 0; it is negative before p.
func (p Period) yearOf(d Date) int {
	ys, _, _ := p.Start.YMD()
	yd, _, _ := d.YMD()
	n := yd - ys
	if p.Start.AddYears(n).After(d) {
		n--
	}
	return n
}

// told reports whether a fact is there on which the cycle hangs.
func (r CycleRule) told(facts Facts) bool {
	for _, name := range r.Anchor.facts() {
		if facts[name] != "" {
			return true
		}
	}
	return false
}

// facts are the names of the facts that an anchor reads.
func (a Anchor) facts() []string {
	switch a {
	case AnchorIssue, AnchorFixed:
		return []string{"issued"}
	case AnchorBirth:
		return []string{"admitted", "birth_month"}
	case AnchorBirthEnd:
		return []string{"birth_month", "base_year"}
	case AnchorParity:
		return []string{"number"}
	case AnchorDayAfter:
		return []string{"closed"}
	}
	return []string{"start"}
}

// Anchors returns every anchor, in the order in which the manual lists them.
func Anchors() []Anchor {
	return []Anchor{AnchorLength, AnchorIssue, AnchorFixed, AnchorBirth, AnchorBirthEnd, AnchorParity, AnchorDayAfter}
}
