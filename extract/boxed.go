package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
)

// On forms a day stands in boxes: a figure in each, or day, month and year in one each.

var (
	figureBoxes = matching(`(?:^|[\s:(])((\d) ?\|? ?(\d) ?[|/.-]? ?(\d) ?\|? ?(\d) ?[|/.-]? ?(\d) ?\|? ?(\d) ?\|? ?(\d) ?\|? ?(\d))(?:$|[\s).,])`)
	partBoxes   = matching(`(?:^|[\s:(])((\d\d?) ?\| ?(\d\d?) ?\| ?(\d{4}))(?:$|[\s).,])`)
	namedBoxes  = matching(`(?i)(?:^|[\s(])((?:day|tag|jour|d[ií]a|dag) ?:? ?(\d{1,2}),? +(?:month|monat|mois|mes|maand) ?:? ?(\d{1,2}),? +(?:year|jahr|ann[ée]e|a[nñ]o|jaar) ?:? ?((?:19|20)\d\d))(?:$|[\s).,])`)
)

// collectBoxed adds days that stand in boxes.
func (l *look) collectBoxed(passage int, text string) {
	if m := figureBoxes.FindStringSubmatchIndex(text); m != nil && strings.ContainsAny(text[m[2]:m[3]], " |") && (strings.ContainsAny(text[m[2]:m[3]], "/.|-") || l.wantsDay(at{passage, find.Span{From: m[2], To: m[3]}})) {
		figure := func(k int) string { return text[m[2*k]:m[2*k+1]] }
		l.addBoxed(passage, find.Span{From: m[2], To: m[3]}, figure(2)+figure(3), figure(4)+figure(5), figure(6)+figure(7)+figure(8)+figure(9))
	}
	for _, p := range []*pattern{partBoxes, namedBoxes} {
		if m := p.FindStringSubmatchIndex(text); m != nil {
			l.addBoxed(passage, find.Span{From: m[2], To: m[3]}, text[m[4]:m[5]], text[m[6]:m[7]], text[m[8]:m[9]])
		}
	}
}

// addBoxed adds such a day where it is one of our time and nothing was found in its place.
func (l *look) addBoxed(passage int, s find.Span, first, second, year string) {
	found := find.Dates(first+"/"+second+"/"+year, l.langs)
	if len(found) != 1 || found[0].Lack != find.Whole || l.hasDay(passage, s) || year < "1930" || year > "2100" {
		return
	}
	d := day{at: at{passage, s}, single: true, numeric: true}
	for _, r := range found[0].Readings {
		d.spans = append(d.spans, find.Stretch{Start: r.Day, End: r.Day, From: r, To: r, Order: r.Order})
	}
	if len(d.spans) > 0 && !slices.ContainsFunc(find.Phones(l.passages[passage].text), func(p find.Phone) bool { return p.Overlaps(s) }) {
		l.addDay(d, l.passages[passage].text)
	}
}

// What boxes for a day are called.
var (
	dayBox   = whole(`day|tag|jour|dia|dag|dd|tt|jj`)
	monthBox = whole(`month|monat|mois|mes|maand|mm`)
	yearBox  = whole(`year|jahr|annee|ano|jaar|yyyy|jjjj|aaaa|yy`)
)

// addNamedBoxes adds days of which day, month and year stand under labels of their own.
func (l *look) addNamedBoxes() {
	for i := 2; i < len(l.pairs); i++ {
		d, m, y := l.pairs[i-2], l.pairs[i-1], l.pairs[i]
		if monthBox.MatchString(d.label) && dayBox.MatchString(m.label) {
			d, m = m, d
		}
		if !dayBox.MatchString(d.label) || !monthBox.MatchString(m.label) || !yearBox.MatchString(y.label) {
			continue
		}
		found := find.Dates(l.text(d.value)+"."+l.text(m.value)+"."+l.text(y.value), nil)
		if m := find.Dates(l.text(d.value)+" "+l.text(m.value)+" "+l.text(y.value), l.langs); len(m) == 1 && len(m[0].Readings) == 1 {
			found = m
		}
		if len(found) != 1 || found[0].Lack != find.Whole {
			continue
		}
		r := found[0].Readings[0]
		l.addDay(day{at: d.value, single: true, spans: []find.Stretch{{Start: r.Day, End: r.Day, From: r, To: r}}}, l.passages[d.value.passage].text)
	}
}

// wantsDay reports a value whose label is one for a day.
func (l *look) wantsDay(a at) bool {
	p, ok := l.labelOf(a)
	return ok && (asksDay(p.role) || slices.Contains([]role{isEvent, isStart, isEnd, isOther, isPaid}, p.role))
}

// addCellBoxes adds days whose figures fill cells of their own behind a label: two, two and four of
// them in three cells, or one in each of eight.
func (l *look) addCellBoxes() {
	for _, row := range l.rows {
		for k := 1; k+2 < len(row); k++ {
			if !l.wantsDay(l.whole(row[k])) {
				continue
			}
			digits := ""
			for _, ci := range row[k:] {
				if text := strings.Trim(l.cells[ci].text, " |/.-"); len(digits) < 8 && onlyFigures.MatchString(text) {
					digits += text
				} else if text != "" {
					break
				}
			}
			if len(digits) == 8 {
				a := l.whole(row[k])
				l.addBoxed(a.passage, a.span, digits[:2], digits[2:4], digits[4:])
			}
		}
	}
}

// onlyFigures is a cell of figures.
var onlyFigures = matching(`^\d{1,4}$`)
