package extract

import "evidencevault/extract/find"

// examDays returns the first and the last day of an examination: of a span both ends, and of
// several days those that stand in one list, in one sentence, or under labels beside each other.
func (l *look) examDays() (start, end *pick) {
	var first, last *day
	for _, d := range l.daysOf(isExam, isEvent) {
		if d.lack != find.Whole || len(d.spans) == 0 || d.open {
			continue
		}
		switch {
		case first == nil || first.role == isEvent && d.role == isExam:
			first, last = &d, &d
		case d.role == first.role && l.sameExam(*last, d):
			if d.spans[0].Start.Before(first.spans[0].Start) {
				first = &d
			}
			if d.spans[0].End.After(last.spans[0].End) {
				last = &d
			}
		}
	}
	if first == nil {
		return nil, nil
	}
	s, e := starts(*first), ends(*last)
	return &s, &e
}

// sameExam reports two days of one examination, which lie within two months.
func (l *look) sameExam(a, b day) bool {
	if n := b.spans[0].Start.Sub(a.spans[0].Start); n > 60 || n < -60 {
		return false
	}
	parts := a.role == isExam && (a.label == "" || a.label != b.label) && l.ofPart(a) && l.ofPart(b)
	beside := a.role == isExam && l.cells[l.cellAt(a.at)].row == l.cells[l.cellAt(b.at)].row
	return parts || beside || l.inOneList(a, b)
}

// ofPart reports a day whose label, or else whose line, names a part of an examination.
func (l *look) ofPart(d day) bool {
	label := d.label
	if text := l.passages[d.at.passage].text; label == "" && len(text) < 60 {
		label = fold(text)
	}
	return examParts.MatchString(label)
}

// examParts is a label for a part of an examination.
var examParts = words(`written|oral|practical|theory|theoretical|papers?|part|viva|first|second|schriftlich\w*|mundlich\w*|praktisch\w*|theoret\w*|teil|ecrite?|orale?|pratique|theorique|partie|escrit[oa]|teoric[oa]|practic[oa]|parte|schriftelijk\w*|mondeling\w*|praktijk\w*|theorie\w*|deel`)
