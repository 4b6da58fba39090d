package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A paper gives the hours of the event and says that this person came later or went earlier: "She joined
// the seminar at 11.20 and stayed until the end". The breaks that lie in what is left are taken off.

const dayHour = `(\d{1,2}(?: ?[.:h] ?\d\d)?(?: ?(?:[ap]\.? ?m\b\.?|uhr|uur|heures?|h\b))?)`

var (
	cameLate = matching(`\b(?:joined|arrived|came|turned up|kam|stiess|erschien|traf|gekommen|arrivee?|rejointe?s?|llego|incorporo|kwam|sloot|aangesloten|gekomen)\b[^.;\d]{0,30}?\b(?:at|um|ab|a|a las|om|vanaf) ` + dayHour + `(?:\W|$)`)
	wentSoon = matching(`\b(?:left|departed|went|ging|verliess|gegangen|partie?|quittee?|retiro|marcho|fue|vertrok|verliet|vertrokken)\b[^.;\d]{0,30}?\b(?:at|um|a|a las|om) ` + dayHour + `(?:\W|$)`)
	fromHour = matching(`\b(?:ab|from|as of|a partir de|des|desde(?: las)?|vanaf) ` + dayHour + `(?:\W|$)`)
	tillHour = matching(`^\W{0,3}(?:bis|until|till|jusqu'a|hasta(?: las)?|tot) ` + dayHour + `(?:\W|$)`)
	// presentBegins begins a label for when somebody was there.
	presentBegins = matching(`^(?:anwesen\w+|aanwezig\w*|present|presence|presencia|asistencia|attended|attendance|signed in|in attendance)\b`)
	somebody      = words(`she|he|they|sie|er|elle|il|ella|zij|hij|ze|se`)
)

// partThere is the time for which the person was at an event that had one span of the day, where the
// paper says that they came later or went earlier.
func (l *look) partThere() (timed, bool) {
	if l.eventDays() > 1 || len(l.series) > 1 {
		return timed{}, false
	}
	whole, ok := l.onlySpan()
	if !ok {
		return timed{}, false
	}
	from, to, a, sure := whole.From, whole.To, at{}, true
	for _, c := range l.clocks {
		if p, ok := l.labelOf(c.at); ok && !c.clock.PastMidnight && (p.role == isAttended || presentBegins.MatchString(p.label)) && whole.From <= c.clock.From && c.clock.To <= whole.To {
			from, to, a = c.clock.From, c.clock.To, c.at
		}
	}
	for i, text := range slices.Concat(l.folded, l.rowsSaid()) {
		for _, sentence := range strings.Split(text, ". ") {
			mine := somebody.MatchString(sentence+" ") || l.namesHolder(sentence)
			for k, p := range []*pattern{cameLate, wentSoon, fromHour, tillHour} {
				said := sentence
				if k == 3 {
					said = l.behindHolder(sentence)
				}
				m := p.FindStringSubmatch(said)
				if m == nil || !mine || k > 1 && !l.namesHolder(sentence) || len(text) > 100 && k > 1 {
					continue
				}
				t, ok := l.hourWithin(m[1], whole)
				if !ok {
					continue
				}
				if a = l.sentenceIn(i, sentence); k%2 == 0 {
					from = max(from, t)
				} else {
					to = min(to, t)
				}
			}
		}
	}
	if from == whole.From && to == whole.To || from >= to {
		return timed{}, false
	}
	sum := to - from
	pauses := slices.Clone(whole.Breaks)
	for _, c := range l.clocks {
		if l.isPause(c) {
			pauses = append(pauses, find.Break{From: c.clock.From, To: c.clock.To, Minutes: c.clock.Minutes, Count: 1})
		}
	}
	for _, p := range l.passages {
		for _, b := range find.Breaks(p.text, l.langs) {
			if !slices.ContainsFunc(pauses, func(o find.Break) bool { return o.From == b.From && o.Minutes == b.Minutes }) {
				pauses = append(pauses, b)
			}
		}
	}
	slices.SortFunc(pauses, func(a, b find.Break) int { return a.From - b.From })
	until := from
	for _, b := range pauses {
		switch {
		case b.To <= b.From: // it may have been before they came
			sure = false
			sum -= int(b.Minutes) * max(b.Count, 1)
		case b.From < to && b.To > until:
			sum -= min(b.To, to) - max(b.From, until)
			until = min(b.To, to)
		}
	}
	if sum <= 0 {
		return timed{}, false
	}
	m := credit.Minutes(sum)
	return timed{guess: guess{text: minutesText(m), at: a, score: 80, why: "it is the time attended, by the hours of coming and going", sure: sure}, minutes: m, level: 5}, true
}

// onlySpan is the one span of the day of an event.
func (l *look) onlySpan() (find.Clock, bool) {
	if _, _, _, seen := l.clocksOnce(); len(seen) == 1 && seen[0].clock.Minutes > 0 && !seen[0].clock.PastMidnight {
		return seen[0].clock, true
	} else if len(seen) > 1 {
		return find.Clock{}, false
	}
	c, _, ok := l.outerSpan()
	return c, ok && c.Minutes > 0 && !c.PastMidnight
}

// hourWithin reads an hour of the day, in minutes after midnight, that lies within a span of it.
func (l *look) hourWithin(text string, whole find.Clock) (int, bool) {
	found := find.Clocks(colons(text)+" - 23:59", l.langs)
	if len(found) != 1 {
		return 0, false
	}
	for _, t := range []int{found[0].From, found[0].From + 720} {
		if whole.From < t && t < whole.To {
			return t, true
		}
	}
	return 0, false
}

// namesHolder reports that a text names the person of the paper.
func (l *look) namesHolder(text string) bool { return l.behindHolder(text) != "" }

// behindHolder is what stands behind the surname of the person in a folded text, "" if they are not in it.
func (l *look) behindHolder(text string) string {
	name := strings.Fields(fold(l.out.Values[paper.FieldAttendee].Text))
	if len(name) == 0 {
		return ""
	}
	k := strings.Index(text, name[len(name)-1])
	if k < 0 {
		return ""
	}
	rest := text[k+len(name[len(name)-1]):]
	if first := strings.Trim(rest, " ,"); strings.HasPrefix(first, name[0]) {
		rest = strings.TrimPrefix(first, name[0])
	}
	return rest + " "
}

// rowsSaid are the rows of cells, each folded and as one text.
func (l *look) rowsSaid() []string {
	var out []string
	for _, row := range l.rows {
		text := ""
		if len(row) > 1 {
			for _, ci := range row {
				text += " " + l.cells[ci].text
			}
		}
		out = append(out, fold(text))
	}
	return out
}

// sentenceIn is the place of a folded sentence of one of the texts, or of the whole of it where folding
// moved the letters.
func (l *look) sentenceIn(i int, sentence string) at {
	whole := l.passageOf(i)
	if i >= len(l.passages) || len(l.folded[i]) != len(l.passages[i].text) {
		return whole
	}
	if a := whole.within(strings.Index(l.folded[i], sentence), len(sentence)); fold(l.text(a)) == sentence {
		return a
	}
	return whole
}

// passageOf is the place of one of the texts: all passages, and behind them the rows.
func (l *look) passageOf(i int) at {
	if i < len(l.passages) {
		return l.passageAt(i)
	}
	return l.whole(l.rows[i-len(l.passages)][len(l.rows[i-len(l.passages)])-1])
}
