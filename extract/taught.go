package extract

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// mostLabelled is how many labelled values a reading keeps, and mostPlaced how many without
// a label; a paper has a few.
const mostLabelled, mostPlaced = 40, 16

// keepLabelled notes the values that stand at a label, from which a correction can learn.
func (l *look) keepLabelled() {
	var placed []paper.Labelled
	add := func(a at, sort paper.Sort, text string) {
		p, ok := l.labelOf(a.last())
		place, _, hidden := l.place(a)
		if text == "" || len(p.label) > 60 || len(l.out.Labelled) >= mostLabelled {
			return
		}
		if !ok || p.label == "" {
			if !place.Box.IsZero() && !hidden && len(placed) < mostPlaced {
				placed = append(placed, paper.Labelled{Sort: sort, Text: text, Place: place})
			}
			return
		}
		l.out.Labelled = append(l.out.Labelled, paper.Labelled{Label: p.label, Sort: sort, Text: text, Place: place})
	}
	for _, d := range l.days {
		for _, s := range d.spans {
			switch {
			case d.week || d.open || d.lack != 0:
			case s.Start == s.End:
				add(d.at, paper.SortDay, s.Start.String())
			default:
				add(d.at, paper.SortFirst, s.Start.String())
				add(d.at, paper.SortLast, s.End.String())
			}
		}
	}
	l.keepFigures(add)
	for _, p := range l.pairs {
		text := strings.TrimSpace(l.text(p.value))
		if letters := strings.IndexFunc(text, func(r rune) bool { return r >= 'A' }); letters >= 0 && len(text) >= 4 && len(text) <= 120 && (p.role == noRole || p.role == isTitle) {
			add(p.value, paper.SortText, text)
		}
	}
	for _, g := range l.setLarge() {
		add(g, paper.SortText, strings.TrimSpace(l.text(g)))
	}
	l.out.Labelled = append(l.out.Labelled, placed...)
}

// keepFigures notes lengths, credits and sums.
func (l *look) keepFigures(add func(at, paper.Sort, string)) {
	for _, h := range l.lengths {
		if m := h.length.Minutes; m > 0 && !h.length.PerWeek && !h.length.Break {
			add(h.at, paper.SortLength, strconv.Itoa(int(m)))
		}
	}
	for _, h := range l.credits {
		if text, err := paper.Canonical(paper.FieldCredits, h.value.String()+" "+h.unit); err == nil {
			add(h.at, paper.SortCredits, text)
		}
	}
	for _, h := range l.sums {
		if a := h.amount; a.Currency != "" {
			if text, err := paper.Canonical(paper.FieldTotal, a.Value+" "+a.Currency); err == nil {
				add(h.at, paper.SortSum, text)
			}
		}
	}
}

// setLarge returns the texts that are set larger than the body, or bold, as titles are.
func (l *look) setLarge() []at {
	var out []at
	for i, p := range l.passages {
		c := &l.cells[p.cells[0]]
		if l.boxed && len(p.text) >= 4 && len(p.text) <= 120 && (10*c.size >= 11*l.usual || c.bold) {
			out = append(out, l.passageAt(i))
		}
	}
	return out
}

// taught proposes the values that stand where corrections of this provider's papers took
// them from. A proposal is a question: whatever was certain and differs is so no more.
func (l *look) taught() {
	for _, h := range l.hints.Habits {
		if !l.ofProvider(h.Providers) {
			continue
		}
		var found []paper.Labelled
		for _, v := range l.out.Labelled {
			if h.Label != "" && v.Label == h.Label && v.Sort.Fits(h.Field) && !slices.ContainsFunc(found, func(o paper.Labelled) bool { return o.Text == v.Text }) {
				found = append(found, v)
			}
		}
		if v, ok := l.placedAt(h); ok {
			found = append(found, v)
		}
		if len(found) > 0 {
			l.propose(h, found)
		}
	}
}

// placedAt returns the value without a label that stands nearest to where that of the
// habit stood, on the same line or nearly so.
func (l *look) placedAt(h paper.Habit) (paper.Labelled, bool) {
	if h.Label != "" || h.At.Box.IsZero() {
		return paper.Labelled{}, false
	}
	const high, wide = 900, 1200 // hundredths of a point
	best, off := paper.Labelled{}, high+1
	for _, v := range l.out.Labelled {
		a, b := h.At.Box, v.Place.Box
		beside := min(abs(a[0]-b[0]), abs(a[2]-b[2]), abs(a[0]+a[2]-b[0]-b[2])/2)
		if v.Label == "" && v.Sort.Fits(h.Field) && v.Place.Page-l.out.From+1 == h.At.Page && beside <= wide && abs(a[1]-b[1]) < off {
			best, off = v, abs(a[1]-b[1])
		}
	}
	return best, off <= high
}

// ofProvider reports whether the paper is of one of these providers, or may be.
func (l *look) ofProvider(names []string) bool {
	v := l.out.Values[paper.FieldProvider]
	read := []string{v.Text}
	for _, c := range v.Candidates {
		read = append(read, c.Text)
	}
	return slices.ContainsFunc(read, func(text string) bool {
		return text != "" && slices.ContainsFunc(names, func(n string) bool { return nameKey(n) == nameKey(text) })
	})
}

// nameKey is a name without case, accents, marks and white space.
func nameKey(name string) string {
	return strings.Join(strings.FieldsFunc(fold(name), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') && r < 0x80 }), " ")
}

// propose puts what stands at the label of a habit before the other candidates of its
// field. A reading that gives just that for certain needs no question.
func (l *look) propose(h paper.Habit, found []paper.Labelled) {
	v := l.out.Values[h.Field]
	if len(found) == 1 && v.Certain && v.Text == found[0].Text {
		return
	}
	var list []paper.Candidate
	put := func(c paper.Candidate) {
		if c.Text != "" && !slices.ContainsFunc(list, func(o paper.Candidate) bool { return o.Text == c.Text }) {
			list = append(list, c)
		}
	}
	for _, f := range found {
		put(paper.Candidate{Text: f.Text, Why: fmt.Sprintf("it stands %s, where you took it for %s of this provider", whereTaught(h), strings.Join(h.From, " ")), Place: f.Place})
	}
	q, asked := l.out.Question(h.Field)
	for _, c := range slices.Concat(q.Candidates, v.Candidates) {
		put(c)
	}
	put(paper.Candidate{Text: v.Text, Why: "it is what would be read without that", Place: v.Place})
	if !asked {
		text := fmt.Sprintf("Is the %s %s, which stands %s", fieldWords[h.Field], shownValue(h.Field, found[0].Text), whereTaught(h))
		if v.Text != "" && v.Text != found[0].Text {
			text += ", or " + shownValue(h.Field, v.Text)
		}
		q = paper.Question{Field: h.Field, Text: text + "?"}
	}
	q.Candidates = list
	l.out.Questions = slices.DeleteFunc(l.out.Questions, func(o paper.Question) bool { return o.Field == h.Field })
	l.out.Questions = append(l.out.Questions, q)
	l.out.Values[h.Field] = paper.Value{Text: found[0].Text, Place: found[0].Place, Score: v.Score, By: paper.ByProgram, Candidates: list}
}

// whereTaught says at what label, or in what place, a habit takes its value.
func whereTaught(h paper.Habit) string {
	if h.Label == "" {
		return "in its place on the page"
	}
	return "at “" + h.Label + "”"
}

// fieldWords name the fields in a sentence.
var fieldWords = map[paper.Field]string{paper.FieldTitle: "title", paper.FieldStart: "first day", paper.FieldEnd: "last day", paper.FieldIssue: "day of issue",
	paper.FieldDuration: "time in minutes", paper.FieldCredits: "credit", paper.FieldTotal: "whole sum"}

// shownValue is a value as a sentence has it.
func shownValue(f paper.Field, text string) string {
	if d, err := credit.ParseDate(text); err == nil && f != paper.FieldTitle {
		return longDay(d)
	}
	return text
}
