package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// Of several spans of the day on a paper the widest is that of the event. What lies within it is
// a break, where a word says so, or a part of it that counts no second time.

// breakSaid is a word for a break, or that a span is not counted.
var breakSaid = words(`zu tisch|\w*essen|gegessen|eating|ate|a table|a comer|gegeten|breaks?|lunch|tea|coffee|refreshments|koffie\w*|thee(?:pauze)?|tee(?:pause)?|dinner|supper|interval|rest|not (?:creditable|counted)|\w*pausen?|mittag\w*|kaffee\w*|abendessen|brotzeit|jause|imbiss|nicht (?:anrechenbar|gerechnet)|pauses?|dejeuner|diner|repas|collation|entracte|non comptee?s?|pausas?|descansos?|recesos?|almuerzo|comida|cena|refrigerio|no computa\w*|\w*pauzes?|middageten|avondeten|borrel|telt niet mee|niet meegeteld|adjournment|adjourned|schorsing|geschorst|onderbreking|onderbroken|unterbrechung|unterbrochen|suspension|suspendue?|suspendida|interruption|recess`)

// isPause reports that a span of the day is that of a break: its label, the head above it, or the
// words right before or behind it say so.
func (l *look) isPause(c clockHit) bool {
	if p, ok := l.labelOf(c.at); ok && (p.role == isBreak || breakSaid.MatchString(p.label+" ")) {
		return true
	}
	before, after := l.around(c.at)
	if interrupted.MatchString(tail(before, 30)) || breakSaid.MatchString(tail(before, 24)+" ") || breakSaid.MatchString(" "+head(after, 18)+" ") {
		return true
	}
	return strings.TrimSpace(before) == "" && breakSaid.MatchString(l.rowLabel(c.at)+" ") || l.boxed && breakSaid.MatchString(l.overColumn(c.at)+" ")
}

// overColumn is the nearest text without figures above a place in its column.
func (l *look) overColumn(a at) string {
	c := l.cells[l.cellAt(a)]
	best := -1
	for i, o := range l.cells {
		if o.page != c.page || o.row >= c.row || c.row-o.row > 4 || hasFigure(o.text) || o.clearOf(&c) || len(strings.Fields(o.text)) > 4 {
			continue
		}
		if best < 0 || o.row > l.cells[best].row {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	return fold(l.cells[best].text)
}

// underPause reports a place in a column under a head for breaks, also where the cells of a row were
// read as one.
func (l *look) underPause(a at) bool {
	if !l.boxed || len(l.clocks)+len(l.lengths) < 2 {
		return false
	}
	p, _, _ := l.place(a)
	best := -1
	for i := range l.cells {
		o := &l.cells[i]
		if o.page != p.Page || o.box[3] > p.Box[1]+1 || o.box[2] < p.Box[0] || p.Box[2] < o.box[0] || hasFigure(o.text) {
			continue
		}
		if best < 0 || o.box[3] > l.cells[best].box[3] {
			best = i
		}
	}
	return best >= 0 && pauseHead.MatchString(strings.Trim(fold(l.cells[best].text), " :.")) && l.cells[best].row < l.cells[l.cellAt(a)].row
}

// pauseHead is the head of a column of breaks.
var pauseHead = matching(`^(?:(?:less |unpaid |minus )*(?:meal )?(?:breaks?|lunch|pausen?|pausenzeit|pauses?|pausas?|descansos?|pauzes?))(?: \(?(?:min\w*|mins?|h|lunch)\)?)?$`)

// besideOrOver is what stands before a place in its row, or else above it.
func (l *look) besideOrOver(a at) string {
	if text := l.rowLabel(a); text != "" || !l.boxed {
		return text
	}
	return l.overColumn(a)
}

// within reports that a span of the day lies in a longer one.
func (c clockHit) within(o find.Clock) bool {
	return o.From <= c.clock.From && c.clock.To <= o.To && c.clock.Minutes < o.Minutes
}

// afternoon is a span of the day of which nothing said in which half it lies, in the second.
func (c clockHit) afternoon() clockHit {
	if c.clock.HalfGuessed && c.clock.To <= 720 {
		c.clock.From, c.clock.To = c.clock.From+720, c.clock.To+720
	}
	return c
}

// outerSpan is the span of the day from an opening to a closing that the paper gives each for
// itself, where no span goes beyond it.
func (l *look) outerSpan() (find.Clock, at, bool) {
	c, a, ok := l.labelledClock()
	if !ok && l.kind == paper.Meeting {
		c, a, ok = l.openedAndClosed()
	}
	if !ok {
		c, a, ok = l.runningOrder()
	}
	if !ok || slices.ContainsFunc(l.clocks, func(o clockHit) bool { return !o.within(c) && !o.afternoon().within(c) }) {
		return find.Clock{}, a, false
	}
	return c, a, true
}

// pausesApart is the time of the breaks that no span of the day lists with it: spans of their own
// that lie within another, or else what labels and lines for breaks give.
func (l *look) pausesApart() credit.Minutes {
	var inside, said credit.Minutes
	outer, _, told := l.outerSpan()
	for _, c := range l.clocks {
		if l.isPause(c) && (told && c.within(outer) || slices.ContainsFunc(l.clocks, func(o clockHit) bool { return c.within(o.clock) && len(o.clock.Breaks) == 0 })) {
			inside += c.clock.Minutes
		}
	}
	if !l.breaksListed() && (!told || len(outer.Breaks) == 0) {
		said = l.otherBreaks()
	}
	return max(inside, said)
}

// dayOver reports that a single day stands right above a span of the day, in its column.
func (l *look) dayOver(a at) bool {
	if !l.boxed || len(l.passages[a.passage].text) > 32 {
		return false
	}
	c := l.cells[l.cellAt(a)]
	return slices.ContainsFunc(l.days, func(d day) bool {
		if d.at.passage == a.passage || len(l.passages[d.at.passage].text) > 40 {
			return false
		}
		o := l.cells[l.cellAt(d.at)]
		gap := c.box[1] - o.box[3]
		return d.single && gap >= -2 && gap <= 2*(c.box[3]-c.box[1]) && o.inColumnOf(&c)
	})
}

// A runItem is a line of a running order: its hour, what it says and where it stands.
type runItem struct {
	text, says string
	at         at
}

// runningOrder is the span of the day of a list of what was done from which hour on, of which the
// last line is the end; a break in it goes on until the next line.
func (l *look) runningOrder() (find.Clock, at, bool) {
	var items []runItem
	for r, row := range l.rows {
		if len(row) == 0 {
			continue
		}
		c := l.cells[row[0]]
		m := startsHour.FindStringSubmatch(fold(c.text))
		if m == nil || len(row) == 1 && m[2] == "" {
			continue
		}
		says := m[2]
		for _, ci := range row[1:] {
			says += " " + fold(l.cells[ci].text)
		}
		if n := len(items); n == 0 || r-l.cells[l.cellAt(items[n-1].at)].row < 4 {
			items = append(items, runItem{m[1], says + " ", l.whole(row[0])})
		}
	}
	if len(items) < 3 || !runEnds.MatchString(items[len(items)-1].says) {
		return find.Clock{}, at{}, false
	}
	return l.spanOf(items)
}

// spanOf is the span of the day of the lines of a running order, with the breaks in it.
func (l *look) spanOf(items []runItem) (find.Clock, at, bool) {
	if arrival.MatchString(strings.TrimSpace(items[0].says)) {
		items = items[1:]
	}
	found := find.Clocks(items[0].text+" - "+items[len(items)-1].text, l.langs)
	if len(found) != 1 || found[0].PastMidnight || found[0].Minutes > 12*60 {
		return find.Clock{}, at{}, false
	}
	out := found[0]
	for i, it := range items[:len(items)-1] {
		gap := find.Clocks(it.text+" - "+items[i+1].text, l.langs)
		if len(gap) != 1 || gap[0].PastMidnight {
			return find.Clock{}, at{}, false
		}
		if breakSaid.MatchString(it.says) && gap[0].Minutes <= 120 && len(strings.Fields(it.says)) < 5 {
			out.Breaks = append(out.Breaks, find.Break{From: gap[0].From, To: gap[0].To, Minutes: gap[0].Minutes, Count: 1})
		}
	}
	return out, items[0].at, true
}

var (
	startsHour = matching(`^(\d{1,2}(?:[.:h] ?\d\d)(?: ?(?:[ap]\.?m\b\.?|uhr|uur|h))?)(?: ?(?:-|–|to|bis|a|tot) ?\d{1,2}[.:h] ?\d\d(?: ?(?:[ap]\.?m\b\.?|uhr|uur|h))?)?[ :–-]*([^\d]*)`)
	runEnds    = words(`end|ends|close|closing|closed|finish|finished|departure|adjourned|ende|schluss|verabschiedung|abschluss|veranstaltungsende|fin|cloture|depart|fin de la (?:journee|seance)|cierre|clausura|fin de la jornada|despedida|einde|sluiting|afsluiting|vertrek`)
	arrival    = matching(`^(?:registration|arrival|doors|check-?in|welcome coffee|coffee on arrival|anmeldung|ankunft|einlass|empfang|registrierung|accueil|emargement|inscriptions?|llegada|acreditacion|recepcion|entrega de \S+|inloop|ontvangst|aankomst)(?: (?:and|und|et|y|en) (?:coffee|tea|kaffee|cafe|koffie)\w*)?$`)
)
