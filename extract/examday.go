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
	parts := a.label != "" && b.label != "" && a.label != b.label && a.role == isExam && examParts.MatchString(a.label) && examParts.MatchString(b.label)
	return parts || l.inOneList(a, b)
}

// examParts is a label for a part of an examination.
var examParts = words(`written|oral|practical|theory|theoretical|papers?|part|viva|first|second|schriftlich\w*|mundlich\w*|praktisch\w*|theoret\w*|teil|ecrite?|orale?|pratique|theorique|partie|escrit[oa]|teoric[oa]|practic[oa]|parte|schriftelijk\w*|mondeling\w*|praktijk\w*|theorie\w*|deel`)
