package extract

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// mostLabelled is how many labelled values a reading keeps; a paper has a few.
const mostLabelled = 40

// keepLabelled notes the values that stand at a label, from which a correction can learn.
func (l *look) keepLabelled() {
	add := func(a at, sort paper.Sort, text string) {
		p, ok := l.labelOf(a.last())
		if !ok || p.label == "" || text == "" || len(p.label) > 60 || len(l.out.Labelled) >= mostLabelled {
			return
		}
		place, _, _ := l.place(a)
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
	for _, p := range l.pairs {
		text := strings.TrimSpace(l.text(p.value))
		if letters := strings.IndexFunc(text, func(r rune) bool { return r >= 'A' }); letters >= 0 && len(text) >= 4 && len(text) <= 120 && (p.role == noRole || p.role == isTitle) {
			add(p.value, paper.SortText, text)
		}
	}
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
			if v.Label == h.Label && v.Sort.Fits(h.Field) && !slices.ContainsFunc(found, func(o paper.Labelled) bool { return o.Text == v.Text }) {
				found = append(found, v)
			}
		}
		if len(found) > 0 {
			l.propose(h, found)
		}
	}
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
		put(paper.Candidate{Text: f.Text, Why: fmt.Sprintf("it stands at “%s”, where you took it for %s of this provider", h.Label, strings.Join(h.From, " ")), Place: f.Place})
	}
	q, asked := l.out.Question(h.Field)
	for _, c := range slices.Concat(q.Candidates, v.Candidates) {
		put(c)
	}
	put(paper.Candidate{Text: v.Text, Why: "it is what would be read without that", Place: v.Place})
	if !asked {
		text := fmt.Sprintf("Is the %s %s, which stands at “%s”", fieldWords[h.Field], shownValue(h.Field, found[0].Text), h.Label)
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
