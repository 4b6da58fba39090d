package extract

import (
	_ "embed"
	"math"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

//go:embed weights/day.txt
var dayWeightsText string

var dayWeights = readWeights("weights/day.txt", dayWeightsText)

// What a day of a paper may be: of what was done, of the paper itself, or of something else.
const (
	dayOfEvent = "event"
	dayOfIssue = "issue"
	dayOfOther = "other"
)

// leastDayShare is the share from which a day may be certain.
const leastDayShare = 60

// A daySight is a day with what can be seen of it.
type daySight struct {
	from, to credit.Date
	seen     []string
}

// daySights returns what can be seen of each whole day of the paper, in the order of l.days;
// none where its order is open.
func (l *look) daySights() []daySight {
	var known []credit.Date
	for _, d := range l.days {
		if len(d.spans) == 1 && d.lack == find.Whole {
			known = append(known, d.spans[0].Start)
		}
	}
	slices.SortFunc(known, credit.Date.Compare)
	out := make([]daySight, len(l.days))
	for i, d := range l.days {
		if len(d.spans) > 0 && d.lack == find.Whole {
			s := d.spans[0]
			out[i] = daySight{s.Start, s.End, l.dayTraits(d, known)}
		}
	}
	return out
}

// dayTraits are what stands around a day, where on the paper it stands, and where it lies
// among the other days.
func (l *look) dayTraits(d day, known []credit.Date) []string {
	p := l.passages[d.at.passage]
	before, after := p.text[:d.at.span.From], p.text[min(len(p.text), d.at.span.To):]
	if strings.TrimSpace(before) == "" && d.at.passage > 0 {
		before = l.passages[d.at.passage-1].text + "\n"
	}
	near, wide, behind := fold(tail(before, 28)), fold(tail(before, 110)), fold(head(after, 60))
	out := []string{"day", "of " + string(l.kind)}
	for _, part := range []struct{ where, text string }{{"right before it", near}, {"before it", wide}, {"behind it", behind}, {"in its label", fold(d.label)}} {
		for k, n := range conceptsIn(part.text) {
			if n > 0 {
				out = append(out, conceptNames[k]+" "+part.where)
			}
		}
	}
	if d.role != noRole {
		out = append(out, "said to be "+string(d.role))
	}
	return append(append(out, l.dayPlace(d, before, after)...), dayOrder(d, known)...)
}

// dayPlace is where on the paper a day stands, and in what form.
func (l *look) dayPlace(d day, before, after string) []string {
	var out []string
	i, n := d.at.passage, len(l.passages)
	alone := strings.TrimSpace(l.passages[i].text[:d.at.span.From]) == "" && len(strings.TrimSpace(after)) < 2
	last := strings.TrimRight(fold(before), " ")
	for _, t := range []struct {
		name string
		has  bool
	}{
		{"alone in its line", alone}, {"a place before it", d.at.span.From > 0 && placeGiven(l.passages[i].text[:d.at.span.From])},
		{"first lines", i < 3}, {"top", i*5 < n}, {"foot", i*4 > n*3}, {"last lines", i >= n-3},
		{"span", !d.single}, {"open span", d.open}, {"numeric", d.numeric}, {"weekday", len(d.spans) == 1 && d.spans[0].Weekday},
		{"labelled", d.label != ""}, {"unknown label", d.label != "" && d.guessed}, {"surely said", d.sure},
		{"in rows", l.inSeries(d.at)}, {"in brackets", strings.HasSuffix(last, "(")}, {"behind a comma", strings.HasSuffix(last, ",")},
		{"clock time behind", len(find.Clocks(head(after, 60), l.langs)) > 0}, {"who signs beneath", i+1 < n && l.closing.signs[i+1] || i+2 < n && l.closing.signs[i+2]},
		{"in a sentence", len(strings.Fields(l.passages[i].text)) > 9}, {"begins its line", strings.TrimSpace(l.passages[i].text[:d.at.span.From]) == "" && !alone},
	} {
		if t.has {
			out = append(out, t.name)
		}
	}
	return out
}

// dayOrder is where a day lies among all days of a paper.
func dayOrder(d day, known []credit.Date) []string {
	if len(known) == 0 || len(d.spans) != 1 {
		return nil
	}
	s := d.spans[0].Start
	first, last := known[0], known[len(known)-1]
	var out []string
	for _, t := range []struct {
		name string
		has  bool
	}{
		{"only day", first == last}, {"earliest", s == first && first != last}, {"latest", s == last && first != last},
		{"between", s != first && s != last}, {"years before the latest", last.Sub(s) > 700}, {"within a fortnight of the latest", s != last && last.Sub(s) < 15},
		{"several times", count(known, s) > 1},
	} {
		if t.has {
			out = append(out, t.name)
		}
	}
	return out
}

func count(days []credit.Date, day credit.Date) int {
	n := 0
	for _, d := range days {
		if d == day {
			n++
		}
	}
	return n
}

// dayShares returns of 100 how far what can be seen of a day speaks for each thing that it
// may be.
func dayShares(seen []string) map[string]int {
	sum := 0.0
	odds := map[string]float64{}
	for _, what := range []string{dayOfEvent, dayOfIssue, dayOfOther} {
		odds[what] = math.Exp(weighTraits(dayWeights, "", prefixed(what, seen)))
		sum += odds[what]
	}
	out := map[string]int{}
	for what, o := range odds {
		out[what] = int(100*o/sum + 0.5)
	}
	return out
}

// viewDays takes the certainty from a day that by all that can be seen of it is as likely
// something else.
func (l *look) viewDays(start, end, issue *pick) {
	l.daysSeen = l.daySights()
	for _, p := range []*pick{start, end, issue} {
		if p == nil || len(p.days) != 1 {
			continue
		}
		what := dayOfEvent
		if p == issue {
			what = dayOfIssue
		}
		if share, known := l.dayShare(p.days[0], what); known && share < leastDayShare {
			p.sure = false
		}
	}
}

// dayShare returns the largest share that a day has for what it may be, over all places of it.
func (l *look) dayShare(day credit.Date, what string) (share int, known bool) {
	for _, s := range l.daysSeen {
		if s.seen != nil && (s.from == day || s.to == day) {
			share, known = max(share, dayShares(s.seen)[what]), true
		}
	}
	return share, known
}
