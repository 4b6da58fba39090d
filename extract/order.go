package extract

import (
	"slices"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// settleOrder decides whether day or month stands first in dates of figures, from
// what the document itself shows; where nothing does, such dates stay open.
func (l *look) settleOrder() {
	seen := map[find.Order]bool{}
	for _, d := range l.days {
		if !d.numeric {
			continue
		}
		if o := forced(d); o != find.Unordered {
			seen[o] = true
		}
		if o := l.speltOut(d); o != find.Unordered {
			seen[o] = true
		}
	}
	if len(seen) == 0 {
		l.byCountry(seen)
	}
	if len(seen) == 0 {
		l.bySequence(seen)
	}
	if len(seen) != 1 {
		return
	}
	for o := range seen {
		l.order = o
	}
	for i := range l.days {
		l.keep(&l.days[i])
	}
}

// keep drops readings of d in another order than the one that is settled.
func (l *look) keep(d *day) {
	if !d.numeric || len(d.spans) < 2 {
		return
	}
	kept := slices.DeleteFunc(slices.Clone(d.spans), func(s find.Stretch) bool { return s.Order != l.order })
	if len(kept) > 0 {
		d.spans = kept
	}
}

// forced returns the order that d alone shows: a figure above 12, or its weekday.
func forced(d day) find.Order {
	if len(d.spans) == 1 && ordered(d.spans[0].Order) {
		if r := d.spans[0].From; r.DayOfMonth != int(r.Month) || d.spans[0].To.DayOfMonth != int(d.spans[0].To.Month) {
			return d.spans[0].Order
		}
	}
	return onlyOrder(d.spans, func(s find.Stretch) bool { return s.Weekday })
}

// ordered reports an order of day and month, in which figures may stand both ways.
func ordered(o find.Order) bool { return o == find.DayFirst || o == find.MonthFirst }

// onlyOrder returns the order of the only one of several readings that fits.
func onlyOrder(spans []find.Stretch, fits func(find.Stretch) bool) find.Order {
	only := find.Unordered
	for _, s := range spans {
		if !ordered(s.Order) || !fits(s) {
			continue
		}
		if only != find.Unordered {
			return find.Unordered
		}
		only = s.Order
	}
	return only
}

// speltOut returns the order in which d is a day that the document also spells out.
func (l *look) speltOut(d day) find.Order {
	if len(d.spans) < 2 {
		return find.Unordered
	}
	return onlyOrder(d.spans, func(s find.Stretch) bool {
		return slices.ContainsFunc(l.days, func(o day) bool {
			return !o.numeric && len(o.spans) == 1 && (o.spans[0].Start == s.Start || o.spans[0].End == s.Start) && o.lack == find.Whole
		})
	})
}

// byCountry takes the order of the country in which the issuer's address or
// telephone lies: the United Kingdom, Ireland, or the United States.
func (l *look) byCountry(seen map[find.Order]bool) {
	for c := range l.countries() {
		switch c {
		case "GB", "IE":
			seen[find.DayFirst] = true
		case "US":
			seen[find.MonthFirst] = true
		}
	}
}

// countries returns those that addresses and telephone numbers show.
func (l *look) countries() map[string]bool {
	found := map[string]bool{}
	for _, p := range l.passages {
		for _, f := range find.Addresses(p.text) {
			if f.Country != "" {
				found[f.Country] = true
			}
		}
		for _, f := range find.Phones(p.text) {
			if f.Country != "" {
				found[f.Country] = true
			}
		}
	}
	return found
}

// bySequence takes the only order in which no paper ends before it begins and none
// is issued before its event.
func (l *look) bySequence(seen map[find.Order]bool) {
	fits := map[find.Order]bool{}
	for _, o := range []find.Order{find.DayFirst, find.MonthFirst} {
		fits[o] = l.inSequence(o)
	}
	if fits[find.DayFirst] != fits[find.MonthFirst] {
		seen[find.DayFirst], seen[find.MonthFirst] = fits[find.DayFirst], fits[find.MonthFirst]
		for o, ok := range seen {
			if !ok {
				delete(seen, o)
			}
		}
	}
}

func (l *look) inSequence(o find.Order) bool {
	var start, end, issue credit.Date
	for _, d := range l.days {
		s := d.spans[0]
		for _, other := range d.spans {
			if other.Order == o {
				s = other
			}
		}
		if !s.End.IsZero() && s.End.Before(s.Start) {
			return false
		}
		switch d.role {
		case isIssue:
			issue = s.Start
		case isStart:
			start = s.Start
		case isEnd, isFinish:
			end = s.End
		case isEvent, isExam:
			start, end = s.Start, s.End
		}
	}
	if sent, ok := l.sentOn(); ok && issue.IsZero() && l.certifies() {
		issue = sent // what it says that somebody did was done by then
	}
	if len(l.sums) > 0 && !l.certifies() {
		issue = credit.Date{} // an invoice may come before the event or after it
	}
	late := func(a, b credit.Date) bool { return !a.IsZero() && !b.IsZero() && a.After(b) }
	return !late(start, end) && !late(end, issue) && !late(start, issue)
}
