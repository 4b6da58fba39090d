package extract

import (
	"strings"

	"evidencevault/extract/find"
)

// A label may ask for two ends at once: "From / to 6.00 pm / 7.40 pm", "First and last 23 July, 8 October".

// endsLabel is a label for a begin and an end.
var endsLabel = matching(`^(?:(?:dates?|times?|hours?|period|zeit|datum|fecha|horario|horaire|tijd)(?: of)?:? ?)?(?:from|first|start(?:s|ed|ing)?|beg[ia]n(?:n|s|ning)?|begonnen|anfang|von|vom|erste[rsnm]?|du|de|debut|premiere?s?|desde|del?|inicio|primer[oa]?s?|van|eerste|aanvang|opened|opening)(?: \p{L}+)? ?(?:/|-|–|&|,|and|und|et|y|en) ?(?:the |der |die |la |le |el |de )?(?:to|until|till|last|end(?:s|ed|ing)?|clos(?:es?|ed|ing)|finish(?:ed)?|bis|ende|schluss|letzte[rsnm]?|au|a|fin|derniere?s?|hasta|al|ultim[oa]s?|final|tot|t/m|einde|laatste|slot)(?: (?:of )?\p{L}+)?$`)

// twoEnds stands between the days at such a label.
var twoEnds = matching(`(?i)^\s*(?:[/,;|–-]|and|und|et|y|en|to|bis|au|al|tot)\s*(?:(?:on|am|le|el|op|the|den) )?$`)

// betweenEnds parts the two ends in a value.
var betweenEnds = strings.NewReplacer(" / ", " - ", "/ ", " - ", "; ", " - ", ", ", " - ")

// endsOfLabels takes two hours or two days at a label for a begin and an end for these.
func (l *look) endsOfLabels() {
	for _, p := range l.pairs {
		if !endsLabel.MatchString(strings.Trim(p.label, " :")) {
			continue
		}
		text := l.text(p.value)
		if !l.timed(p.value) {
			if c := find.Clocks(betweenEnds.Replace(text), l.langs); len(c) == 1 && c[0].Minutes > 0 && !c[0].PastMidnight && len(find.Clocks(text, l.langs)) == 0 {
				c[0].Span = find.Span{From: p.value.span.From, To: min(p.value.span.To, p.value.span.From+c[0].Span.To)}
				l.clocks = append(l.clocks, clockHit{p.value, c[0]})
			}
		}
		l.firstAndLast(p)
	}
}

// firstAndLast gives the two days in a value the roles of a begin and an end, where they follow one
// another.
func (l *look) firstAndLast(p pair) {
	var in []int
	for i, d := range l.days {
		if d.at.passage == p.value.passage && d.at.span.From >= p.value.span.From {
			in = append(in, i)
		}
	}
	if len(in) < 2 || len(in) > 2 && l.days[in[2]].at.span.Within(p.value.span) {
		return
	}
	a, b := &l.days[in[0]], &l.days[in[1]]
	if !a.single || !b.single || len(a.spans) != len(b.spans) || len(a.spans) == 0 || a.at.span.From > b.at.span.From || !a.spans[0].Start.Before(b.spans[0].Start) ||
		!twoEnds.MatchString(l.passages[a.at.passage].text[a.at.span.To:b.at.span.From]) {
		return
	}
	for i, d := range []*day{a, b} {
		d.role, d.sure, d.guessed, d.label = []role{isStart, isEnd}[i], true, false, p.label
	}
}
