package extract

import (
	"fmt"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// putDay puts a day into the reading, with a question where it is open.
func (l *look) putDay(f paper.Field, p *pick, ask string) {
	if p == nil || len(p.days) == 0 {
		return
	}
	g := guess{text: p.days[0].String(), at: p.at, score: p.score, why: p.why, sure: p.sure}
	if g.score == 0 {
		g.score = 80
	}
	v := l.value(g)
	l.noteDay(f, p)
	g.why = l.whyDay(p)
	switch {
	case len(p.days) > 1 && p.why == "":
		var rivals []guess
		for _, d := range p.days {
			rivals = append(rivals, guess{text: d.String(), at: p.at, why: "as " + longDay(d)})
		}
		l.question(f, &v, rivals, fmt.Sprintf("Is %s %s? Nothing in the paper shows whether the day or the month stands first.", v.Place.Quote, orList(rivals, func(g guess) string { return "the " + ofMonth(g.text) })))
	case len(p.days) > 1:
		var rivals []guess
		for _, d := range p.days {
			rivals = append(rivals, guess{text: d.String(), at: p.at, why: p.why})
		}
		l.question(f, &v, rivals, fmt.Sprintf("%s: %s? The paper gives several days.", ask, orList(rivals, func(g guess) string { return g.text })))
	case p.clash:
		l.askWeekday(f, &v, p, g, ask)
	case p.week:
		l.askWeek(f, &v, p, g, ask)
	case !p.sure || v.Score < leastScore[f] || !l.legible(p.at, v.Place):
		l.question(f, &v, []guess{g}, fmt.Sprintf("%s: on %s? The paper does not say for certain what that day is.", ask, longDay(p.days[0])))
	default:
		v.Certain = true
	}
	l.out.Values[f] = v
	l.dayAt[f] = g
}

// askWeekday asks about a day with which another day's weekday stands.
func (l *look) askWeekday(f paper.Field, v *paper.Value, p *pick, g guess, ask string) {
	rivals := []guess{g}
	if p.single {
		rivals = append(rivals, guess{text: nearestWeekday(p.days[0], p.weekday).String(), at: p.at, why: "it is that weekday"})
	}
	l.question(f, v, rivals, fmt.Sprintf("%s: on %s? The weekday that the paper gives with it is another day's.", ask, orList(rivals, func(g guess) string { return asLongDay(g.text) })))
}

// askWeek asks about the first or last day of what was held in a week.
func (l *look) askWeek(f paper.Field, v *paper.Value, p *pick, g guess, ask string) {
	rivals := []guess{g}
	if f == paper.FieldEnd {
		first := p.days[0]
		rivals = nil
		for first.Weekday() != time.Monday {
			first = first.AddDays(-1)
		}
		for _, n := range []int{4, 5, 6} {
			rivals = append(rivals, guess{text: first.AddDays(n).String(), at: p.at, why: "it lies in that week"})
		}
	}
	l.question(f, v, rivals, fmt.Sprintf("%s? The paper only says %s.", ask, quoted(v.Place.Quote)))
}

func longDay(d credit.Date) string {
	y, m, day := d.YMD()
	return fmt.Sprintf("%d %s %d", day, m, y)
}

// nearestWeekday returns the day nearest to d that is a w.
func nearestWeekday(d credit.Date, w time.Weekday) credit.Date {
	for n := 1; n < 4; n++ {
		for _, o := range []credit.Date{d.AddDays(-n), d.AddDays(n)} {
			if o.Weekday() == w {
				return o
			}
		}
	}
	return d
}

func asLongDay(text string) string {
	d, err := credit.ParseDate(text)
	if err != nil {
		return text
	}
	return longDay(d)
}

func ofMonth(text string) string {
	d, err := credit.ParseDate(text)
	if err != nil {
		return text
	}
	y, m, day := d.YMD()
	return fmt.Sprintf("%s of %s %d", ordinal(day), m, y)
}

func ordinal(n int) string {
	end := "th"
	if n/10 != 1 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, end)
}

// checkSequence takes the certainty from days that contradict each other.
func (l *look) checkSequence() {
	day := func(f paper.Field) (credit.Date, bool) {
		d, err := credit.ParseDate(l.out.Values[f].Text)
		return d, err == nil
	}
	start, ok1 := day(paper.FieldStart)
	end, ok2 := day(paper.FieldEnd)
	issue, ok3 := day(paper.FieldIssue)
	doubt := func(f paper.Field, text string) {
		v := l.out.Values[f]
		if v.Certain {
			g := l.dayAt[f]
			g.text = v.Text
			l.question(f, &v, []guess{g}, text)
			l.out.Values[f] = v
		}
	}
	if ok1 && ok2 && end.Before(start) {
		doubt(paper.FieldStart, fmt.Sprintf("Did it begin on %s, after its end on %s?", longDay(start), longDay(end)))
		doubt(paper.FieldEnd, fmt.Sprintf("Did it end on %s, before its beginning on %s?", longDay(end), longDay(start)))
	}
	switch {
	case l.kind == paper.Employment && ok1 && ok3 && issue.Before(start):
		doubt(paper.FieldIssue, fmt.Sprintf("Was the paper issued on %s, before the employment began on %s?", longDay(issue), longDay(start)))
		doubt(paper.FieldStart, fmt.Sprintf("Did it begin on %s, after the paper was issued on %s?", longDay(start), longDay(issue)))
	case l.kind == paper.Employment && ok2 && ok3 && issue.Before(end) && l.dayAt[paper.FieldEnd].at != l.dayAt[paper.FieldStart].at:
		doubt(paper.FieldEnd, fmt.Sprintf("Did it end on %s, after the paper was issued on %s?", longDay(end), longDay(issue)))
	case ok2 && ok3 && issue.Before(end) && l.kind != paper.Receipt && l.kind != paper.Membership && l.kind != paper.Employment:
		doubt(paper.FieldIssue, fmt.Sprintf("Was the paper issued on %s, before the event ended on %s?", longDay(issue), longDay(end)))
		if !l.saidDays(paper.FieldEnd) {
			doubt(paper.FieldEnd, fmt.Sprintf("Did it end on %s, after the paper was issued on %s?", longDay(end), longDay(issue)))
		}
	}
}

// saidDays reports that a known label gives the day of a field.
func (l *look) saidDays(f paper.Field) bool {
	d, ok := l.dayOfPick(&pick{at: l.dayAt[f].at})
	return ok && d.label != "" && !d.guessed && d.sure
}
