package find

import (
	"time"

	"evidencevault/credit"
)

// side is one end of a range, as far as it tells.
type side struct {
	readings []Reading
	form     Form
	lack     Lack
	short    bool
	weekday  bool
	day      time.Weekday // the weekday, if any
	bare     bool         // only a day of the month, a month, or a year
}

func sideOf(d Date) side {
	return side{readings: d.Readings, form: d.Form, lack: d.Lack, short: d.TwoDigitYear, weekday: d.HasWeekday, day: d.Weekday}
}

func (s *scan) finish(r Range, i, next int) Range {
	r.Span = s.span(i, next)
	return r
}

func stretch(from, to Reading) Stretch {
	o := from.Order
	if to.Order != Unordered {
		o = to.Order
	}
	return Stretch{Start: from.First(), End: to.Last(), From: from, To: to, Order: o}
}

// join pairs the meanings of both ends. An order under which the end would lie
// before the start, or under which an end is no day, falls away.
func join(left, right side) (Range, bool) {
	r := Range{Form: left.form, TwoDigitYear: left.short || right.short, Weekday: left.weekday || right.weekday}
	if left.bare || right.form != Numeric {
		r.Form = right.form
	}
	for _, same := range []bool{true, false} {
		for _, b := range right.readings {
			for _, a := range left.readings {
				if same && a.Order != b.Order && a.Order != Unordered && b.Order != Unordered && !eitherWay(a, left) && !eitherWay(b, right) {
					continue
				}
				if eitherWay(a, left) {
					a.Order = b.Order // 11/11 is the same day either way
				} else if eitherWay(b, right) {
					b.Order = a.Order
				}
				if st, ok := pair(a, b, left, right); ok {
					r.Readings = append(r.Readings, st)
				}
			}
		}
		if len(r.Readings) > 0 {
			break
		}
	}
	if len(r.Readings) == 0 {
		return Range{}, false
	}
	one := r.Readings[0]
	switch {
	case one.To.Year == 0:
		r.Lack = NoYear
		return r, one.To.DayOfMonth > 0
	case one.To.DayOfMonth == 0 || one.From.DayOfMonth == 0:
		r.Lack = MonthOnly
	}
	return r, true
}

// eitherWay reports a date in figures that is the same day whichever of day and month
// stands first.
func eitherWay(r Reading, of side) bool {
	return len(of.readings) == 1 && of.form == Numeric && r.DayOfMonth == int(r.Month) && r.Order != Unordered
}

// pair fills in what each end leaves to the other.
func pair(a, b Reading, left, right side) (Stretch, bool) {
	if b.Month == 0 {
		return Stretch{}, false
	}
	if a.Month == 0 && (a.DayOfMonth == 0 || b.DayOfMonth == 0) {
		return Stretch{}, false
	}
	if (a.DayOfMonth == 0) != (b.DayOfMonth == 0) && (a.Year == 0 || b.Year == 0) {
		return Stretch{}, false
	}
	if a.Month == 0 {
		a.Month = b.Month
	}
	before := a.Month > b.Month || a.Month == b.Month && a.DayOfMonth > b.DayOfMonth
	switch {
	case a.Year == 0 && b.Year > 0:
		a.Year = b.Year
		if before {
			a.Year--
		}
	case b.Year == 0 && a.Year > 0:
		b.Year = a.Year
		if before {
			b.Year++
		}
	case a.Year == 0 && a.Month == b.Month && before:
		return Stretch{}, false
	}
	if !fill(&a) || !fill(&b) {
		return Stretch{}, false
	}
	st := stretch(a, b)
	if a.Year > 0 && !st.Start.Before(st.End) && st.Start != st.End {
		return Stretch{}, false
	}
	st.Weekday = (left.weekday || right.weekday) && left.agrees(a) && right.agrees(b)
	return st, true
}

// agrees reports whether the weekday given, if any, is that of r.
func (d side) agrees(r Reading) bool {
	return !d.weekday || !r.Day.IsZero() && r.Day.Weekday() == d.day
}

// fill sets the day of r where year, month and day are known; false when there is
// no such day.
func fill(r *Reading) bool {
	if r.DayOfMonth == 0 {
		return true
	}
	year := r.Year
	if year == 0 {
		year = 2024 // a leap year
	}
	d, ok := credit.ValidDay(year, int(r.Month), r.DayOfMonth)
	if ok && r.Year > 0 {
		r.Day = d
	}
	return ok
}

func reading(d credit.Date) Reading {
	y, m, day := d.YMD()
	return Reading{Day: d, Year: y, Month: m, DayOfMonth: day}
}
