package credit

import (
	"slices"
	"strings"
)

// breaks are the days on which the rules begin to look at a claim in another way.
func (p *planner) breaks(from, to Date) []Date {
	var list []Date
	add := func(d Date) {
		if d.After(from) && !d.After(to) {
			list = append(list, d)
		}
	}
	windows := func(per string) {
		_, rolls := rolling(per)
		switch {
		case per == PerDay:
			p.perDay = true
		case p.byCycle(per):
			for n := 1; n <= maxPlanYears; n++ {
				add(p.cycle.Start.AddYears(n))
			}
		case per == PerYear || rolls || per == PerCycleYear:
			for d := from.AddYears(1); ; d = d.AddYears(1) {
				y, _, _ := d.YMD()
				if first := Day(y, 1, 1); d.IsZero() || first.After(to) {
					break
				} else {
					add(first)
				}
			}
		}
	}
	selection := func(s Selection) {
		add(s.From)
		if !s.Until.IsZero() {
			add(s.Until.AddDays(1))
		}
	}
	for _, k := range p.inForce() {
		for _, per := range k.Per {
			windows(per)
		}
		selection(k.Selection)
	}
	for _, m := range p.scheme.Minimums {
		windows(m.Per)
		selection(m.Selection)
		selection(m.Part)
	}
	for _, k := range p.scheme.Categories {
		if on := p.st.On; k.Life > 0 && !on.IsZero() {
			add(on.AddMonths(-k.Life).AddDays(1))
		}
	}
	p.leaving(add)
	slices.SortFunc(list, Date.Compare)
	return slices.Compact(list)
}

// leaving tells the days on which an earlier claim leaves the years on which the rule for
// repeats looks back.
func (p *planner) leaving(add func(Date)) {
	for _, k := range p.scheme.Categories {
		if k.Repeat.Within == 0 {
			continue
		}
		for key, days := range p.series() {
			if !strings.HasPrefix(key, k.ID+"\x00") {
				continue
			}
			for _, d := range days {
				add(d.AddYears(k.Repeat.Within))
			}
		}
	}
}

const maxPlanYears = 200

func later(a, b Date) Date {
	if b.After(a) {
		return b
	}
	return a
}

func earlier(a, b Date) Date {
	if !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// addDay adds a day to the offer of its stretch, or one of its own.
func addDay(list []offer, d Date, breaks []Date, own bool) []offer {
	for k := range list {
		apart := func(b Date) bool { return b.After(list[k].days[0]) != b.After(d) }
		if !own && !slices.ContainsFunc(breaks, apart) {
			list[k].days = append(list[k].days, d)
			list[k].stretch.End = later(list[k].stretch.End, d)
			list[k].stretch.Start = earlier(list[k].stretch.Start, d)
			return list
		}
	}
	return append(list, offer{stretch: Period{d, d}, days: []Date{d}})
}

func stretches(from, to Date, breaks []Date) []offer {
	var list []offer
	for _, b := range breaks {
		if b.After(from) && !b.After(to) {
			list = append(list, offer{stretch: Period{from, b.AddDays(-1)}})
			from = b
		}
	}
	return append(list, offer{stretch: Period{from, to}})
}
