package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A guess is a value that a field may have.
type guess struct {
	text  string
	at    at
	score int
	why   string
	sure  bool // what speaks for it is enough to be certain, if nothing speaks against it

	backed bool // another sign gives the same, from another place

	share int      // of 100, how far the traits of the text are for it before all others of the paper; 0 where they were not looked at
	seen  []string // the traits
}

// best returns guesses by score, equal texts counted once; where two places give
// the same text the better one stays, with a little more to speak for it.
func best(list []guess) []guess {
	slices.SortStableFunc(list, func(a, b guess) int { return b.score - a.score })
	var out []guess
	for _, g := range list {
		k := slices.IndexFunc(out, func(o guess) bool { return bare(o.text) == bare(g.text) })
		if k < 0 {
			out = append(out, g)
			continue
		}
		out[k].score += min(8, max(g.score, 0)/8)
		out[k].sure = out[k].sure || g.sure
		out[k].backs(g)
	}
	slices.SortStableFunc(out, func(a, b guess) int { return b.score - a.score })
	return out
}

// outweighs reports that what can be seen of both texts leaves next to nothing for the other,
// which is neither a part of it nor the whole.
func (g guess) outweighs(o guess) bool {
	a, b := bare(g.text), bare(o.text)
	return g.share >= provenShare && o.seen != nil && o.share <= 5 && !strings.Contains(a, b) && !strings.Contains(b, a)
}

// settle puts the best guess into the reading: certain when it is sure and nothing
// comes near it, else with a question.
func (l *look) settle(f paper.Field, list []guess, ask func([]guess) string) {
	list = best(list)
	if len(list) == 0 || list[0].score <= 0 {
		return
	}
	top := list[0]
	v := l.value(top)
	others := slices.DeleteFunc(slices.Clone(list[1:]), func(g guess) bool {
		named := f == paper.FieldAttendee && g.sure && g.score >= strongSign // a sentence or a label says that it is about somebody else
		return top.outweighs(g) && !named
	})
	v.Score = l.strength(top, others)
	rivals := list[:1:1]
	for _, g := range others {
		if g.score >= top.score-6 && len(rivals) < 5 && !strings.Contains(bare(top.text), bare(g.text)) && !(f == paper.FieldProvider && sameFirm(top.text, g.text)) {
			rivals = append(rivals, g)
		}
	}
	l.note(f, list...)
	v.Certain = len(l.doubts(f, top, rivals, v)) == 0
	if !v.Certain {
		l.question(f, &v, rivals, ask(rivals))
	}
	l.out.Values[f] = v
}

// sameFirm reports that b is the body a with its legal form behind it.
func sameFirm(a, b string) bool {
	rest, ok := strings.CutPrefix(fold(b), fold(a)+" ")
	return ok && legalForm.MatchString(" "+b) && len(strings.Fields(rest)) < 5
}

func (l *look) value(g guess) paper.Value {
	place, _, _ := l.place(g.at)
	return paper.Value{Text: g.text, Place: place, By: paper.ByProgram, Score: min(1000, 10*g.score), Why: g.why}
}

// question adds a question on f, with the rivals as candidates.
func (l *look) question(f paper.Field, v *paper.Value, rivals []guess, text string) {
	q := paper.Question{Field: f, Text: text}
	for _, g := range rivals {
		place, _, _ := l.place(g.at)
		q.Candidates = append(q.Candidates, paper.Candidate{Text: g.text, Why: g.why, Place: place})
	}
	v.Candidates, v.Certain = q.Candidates, false
	l.out.Questions = slices.DeleteFunc(l.out.Questions, func(old paper.Question) bool { return old.Field == f })
	l.out.Questions = append(l.out.Questions, q)
}

// legible reports that a can be read on its page beyond doubt: it is not hidden,
// recognition was sure of it, and the second opinion has it too.
func (l *look) legible(a at, p paper.Place) bool { return len(l.unclear(a, p)) == 0 }

// unclear says why a cannot be read on its page beyond doubt; nothing if it can.
func (l *look) unclear(a at, p paper.Place) []string {
	var out []string
	_, confidence, hidden := l.place(a)
	least := 88
	if strings.ContainsAny(p.Quote, "0123456789") {
		least = 75
	}
	if confidence < 100 && l.worn(p.Page) {
		least = 95
	}
	if hidden {
		out = append(out, "it cannot be seen on the page")
	}
	if confidence < least {
		out = append(out, fmt.Sprintf("its letters were recognised with %d of 100, of which %d are wanted", confidence, least))
	}
	if !l.seconded(p) {
		out = append(out, "the second opinion does not have its figures")
	}
	return out
}

// worn reports a page of which recognition was not sure in many places: what it gives
// there with confidence may be wrong too.
func (l *look) worn(number int) bool {
	sum, n := 0, 0
	for _, p := range l.pages {
		for _, w := range p.Words {
			if p.Number == number && p.Picture && len(bare(w.Text)) > 2 {
				sum, n = sum+w.Confidence, n+1
			}
		}
	}
	return n > 0 && sum < 88*n
}

// seconded reports whether the second opinion, where there is a good one, has the
// figures of the quote.
func (l *look) seconded(p paper.Place) bool {
	for _, pg := range l.pages {
		if pg.Number != p.Page || pg.Second == "" || pg.Picture {
			continue
		}
		second := bare(pg.Second)
		if slices.ContainsFunc(pg.Words, func(w page.Word) bool { return w.Form && w.Text != "" && strings.Contains(p.Quote, w.Text) }) {
			return true // it does not see what was filled into a form
		}
		total, known := 0, 0
		for _, w := range pg.Words {
			if b := bare(w.Text); len(b) > 2 {
				total++
				if strings.Contains(second, b) {
					known++
				}
			}
		}
		if total == 0 || known*100 < total*85 {
			return true // too poor to say anything
		}
		for _, w := range strings.Fields(p.Quote) {
			if b := bare(w); strings.ContainsAny(b, "0123456789") && !strings.Contains(second, b) {
				return false
			}
		}
	}
	return true
}

// within returns the part of a that begins at byte from and has n bytes.
func (a at) within(from, n int) at {
	return at{a.passage, find.Span{From: a.span.From + from, To: a.span.From + from + n}}
}

// last returns the last byte of a, which lies in the value even where a finder took
// the label with it.
func (a at) last() at {
	return at{a.passage, find.Span{From: max(a.span.From, a.span.To-1), To: a.span.To}}
}

// overlaps reports that a and b share a byte of one passage.
func (a at) overlaps(b at) bool { return a.passage == b.passage && a.span.Overlaps(b.span) }

// inside reports that a lies in b.
func (a at) inside(b at) bool { return a.passage == b.passage && a.span.Within(b.span) }

// passageAt returns all of a passage.
func (s *sheet) passageAt(i int) at {
	return at{i, find.Span{From: 0, To: len(s.passages[i].text)}}
}
