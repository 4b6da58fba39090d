package extract

import (
	"slices"
	"strings"
)

// A bill with several rows may be for one thing all the same: the only one that it quotes
// behind a word for an event, or the only row that says when the thing takes place. The other
// rows are what goes with it.

// quotedEvent ends in front of the quoted name of an event.
var quotedEvent = matching(`(?i)(?:^|[\s('’])(?:[\p{L}-]*(?:` + accented(eventWord) + `)|hui|retreat|masterclass|practical|circle|abend|tag|soirée|velada|avond)[\p{L}]{0,3}\s*[,:–-]?\s*$`)

// oneThing finds the one thing that a bill is for where its rows name several.
func (l *look) oneThing() []guess {
	if g, ok := l.onlyQuoted(); ok {
		return []guess{g}
	}
	if g, ok := l.onlyDated(); ok {
		return []guess{g}
	}
	if g, ok := l.onlyLabelled(); ok {
		return []guess{g}
	}
	return nil
}

// onlyLabelled finds the only name that stands outside the rows with a label for an event.
func (l *look) onlyLabelled() (guess, bool) {
	var found []guess
	for _, p := range l.withRole(isTitle) {
		text := l.text(p.value)
		if l.inTable(l.cellAt(p.value)) || p.how == beneath || !eventLabel.MatchString(p.label) || len(strings.Fields(text)) < 2 || !capitalised(text) {
			continue
		}
		a := l.clean(p.value)
		g := l.core(guess{text: l.text(a), at: a, score: 88, why: "it stands with the label " + quoted(p.label), sure: true})
		if !slices.ContainsFunc(found, func(o guess) bool { return bare(o.text) == bare(g.text) }) {
			found = append(found, g)
		}
	}
	if len(found) != 1 || len(strings.Fields(found[0].text)) < 2 {
		return guess{}, false
	}
	return found[0], true
}

// eventLabel is a label for an event, and for no thing that may be bought as well.
var eventLabel = matching(`^(?:(?:your|ihre?|votre|su|uw) )?(?:` + eventWord + `)(?:titel| title| name)?$`)

// onlyQuoted finds the only name that the paper quotes, behind a word for an event.
func (l *look) onlyQuoted() (guess, bool) {
	var found []guess
	for i, p := range l.passages {
		for _, m := range quotesRE.FindAllStringSubmatchIndex(p.text, -1) {
			from, to := group(m)
			text := strings.TrimSpace(p.text[from:to])
			if slices.ContainsFunc(found, func(g guess) bool { return bare(g.text) == bare(text) }) {
				continue
			}
			g := guess{text: text, at: l.passageAt(i).within(from, to-from), score: 60, why: "it stands in quotation marks", sure: true}
			if quotedEvent.MatchString(strings.TrimRight(tail(p.text[:from], 40), "„“«»\"‘' \u00a0")) {
				g.score = 84
			}
			found = append(found, g)
		}
	}
	if len(found) != 1 || found[0].score < 80 || !capitalised(found[0].text) {
		return guess{}, false
	}
	return found[0], true
}

// onlyDated finds the only row with a price that says when the thing takes place.
func (l *look) onlyDated() (guess, bool) {
	var found []guess
	for _, a := range l.pricedThings() {
		text := l.text(a)
		low := fold(text)
		days := l.daysIn(l.passages[a.passage].cells)
		if len(days) == 0 || days[0].at.span.From < 6 || payLine.MatchString(low) || chargeLine.MatchString(low) || extraLine.MatchString(low) || roleOf(text) != noRole ||
			slices.ContainsFunc(days, func(d day) bool { return d.role == isPaid || d.role == isIssue }) {
			continue // what was paid before, or none of the things
		}
		found = append(found, l.core(guess{text: text, at: a, score: 82, why: onlyThing, sure: true}))
	}
	if len(found) != 1 || len(strings.Fields(found[0].text)) < 2 {
		return guess{}, false
	}
	return found[0], true
}

// pricedThings returns what stands in front of the prices: in the column for it, or in the row.
func (l *look) pricedThings() []at {
	var out []at
	for _, t := range l.tables {
		for _, line := range t.lines {
			if k := slices.Index(t.roles, isTitle); k >= 0 && len(line[k]) > 0 && len(line[len(line)-1]) > 0 {
				out = append(out, l.wholePassage(line[k][0]))
			}
		}
	}
	tabled := len(out) > 0
	for _, row := range l.rows {
		if !tabled && len(row) > 1 && priceAtEnd.MatchString(" "+l.cells[row[len(row)-1]].text) && !beginsItem(l.cells[row[0]].text) {
			out = append(out, l.wholePassage(row[0]))
		}
	}
	return out
}
