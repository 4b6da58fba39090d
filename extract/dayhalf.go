package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A form may give the hours of the morning and of the afternoon, and say that somebody was there for one
// of both.

// The halves of a day, as clock times are labelled with them, and what says that somebody was there in
// one only. The first of each is the earlier half.
var (
	dayHalves = [2]*pattern{
		matching(`\b(?:mornings?|a\.?m\.? session|vormittags?|matin(?:ee)?|manana|ochtend|voormiddag)\b[^\d]{0,12}$`),
		matching(`\b(?:afternoons?|p\.?m\.? session|nachmittags?|apres-midi|tarde|middag|namiddag)\b[^\d]{0,12}$`),
	}
	oneHalf = [2]*pattern{
		whole(`(?:only |just |nur |seulement |uniquement |solo |alleen |slechts )?(?:in the |the |am |le |por la |de |'s )?(?:mornings?|vormittags?|matin(?:ee)?|manana|ochtends?|voormiddags?)(?: session| only| nur| seulement| uniquement| solamente)?`),
		whole(`(?:only |just |nur |seulement |uniquement |solo |alleen |slechts )?(?:in the |the |am |l'|por la |de |'s )?(?:afternoons?|nachmittags?|apres-midi|tarde|middags?|namiddags?)(?: session| only| nur| seulement| uniquement| solamente)?`),
	}
	// thereLabel asks when somebody was there.
	thereLabel = words(`attended|attendance|present|took part|teilgenommen|teilnahme|anwesend|anwesenheit|besucht|presente?|presence|participation|a participe|assiste|asistio|asistencia|asistid[oa]|participacion|aanwezig|aanwezigheid|deelgenomen|deelname|bijgewoond|gevolgd`)
)

// halfThere is the half of the day, 0 or 1, to which alone the person came; -1 where none is named.
func (l *look) halfThere() int {
	for _, p := range l.pairs {
		if !thereLabel.MatchString(p.label + " ") {
			continue
		}
		for half, only := range oneHalf {
			if only.MatchString(strings.Trim(fold(l.text(p.value)), " .,")) {
				return half
			}
		}
	}
	return -1
}

// earlierHalf returns how long the morning was and where its words begin, where the length between text and
// after is that of the afternoon and the morning's number stands before it without its unit: "vormittags drei,
// nachmittags zweieinhalb Stunden"; 0 where that is not so.
func (l *look) earlierHalf(text, after string, unit find.Unit) (long credit.Minutes, from int) {
	m := morningOnly.FindStringSubmatchIndex(text)
	if m != nil && text[m[8]:m[9]] == "" && !afternoonNext.MatchString(fold(head(after, 40))) {
		m = nil
	}
	if m == nil || unit != find.Hour || atClock.MatchString(fold(text[:m[2]])) {
		return 0, 0
	}
	from, number := m[2], ""
	for _, k := range []int{4, 6} {
		if m[k] >= 0 {
			number = text[m[k]:m[k+1]]
		}
	}
	hours := map[find.Lang]string{find.English: "hours", find.German: "Stunden", find.French: "heures", find.Spanish: "horas", find.Dutch: "uur"}[l.lang]
	found := find.Durations(number+" "+hours, l.langs)
	if len(found) != 1 || len(found[0].Candidates) > 0 || found[0].Each > 0 {
		return 0, 0
	}
	return found[0].Minutes, from
}

// morningOnly ends with how much the morning was, a number without its unit, and the name of the afternoon.
var morningOnly = matching(`(?i)(?:^|[\s(:,;])((?:(?:in the |the |am |le |la |por la |de |['’]s )?(?:mornings?|vormittags?|matin(?:ée)?|mañana|ochtends?|voormiddags?):? (\pL{3,14}|\d{1,2}(?:[.,]\d{1,2})?)|(\pL{3,14}|\d{1,2}(?:[.,]\d{1,2})?) (?:in the |am |le |la |por la |['’]s )?(?:mornings?|vormittags?|matin(?:ée)?|mañana|ochtends?|voormiddags?)),? (?:(?:and|und|et|y|en) )?((?:(?:in the |the |am |l['’]|por la |de |['’]s )?(?:afternoons?|nachmittags?|après-midi|tarde|middags?|namiddags?):? )?))$`)

// atClock ends before a time of day.
var atClock = matching(`(?:^| )(?:at|from|since|until|till|to|um|ab|von|bis|a|de|des|a las|las|desde|hasta|om|vanaf|van|tot)$`)

// afternoonNext is the name of the afternoon behind how long it was.
var afternoonNext = matching(`^(?:in the |am |l'|por la |'s )?(?:afternoons?|nachmittags?|apres-midi|tarde|middags?|namiddags?)\b`)

// otherHalf reports clock times of the half of the day for which the person was not there.
func (l *look) otherHalf(a at) bool {
	half := l.halfThere()
	return half >= 0 && l.inHalf(a, 1-half)
}

// inHalf reports clock times that are labelled as those of one half of the day, 0 or 1.
func (l *look) inHalf(a at, half int) bool {
	before, _ := l.ownSentence(a)
	if p, ok := l.labelOf(a); ok && p.how != inline {
		before = p.label + " " + before
	}
	return dayHalves[half].MatchString(before)
}

// clocksThere are the clock times without those of a half of the day for which the person was not there.
func (l *look) clocksThere() []clockHit {
	return slices.DeleteFunc(slices.Clone(l.clocks), func(c clockHit) bool { return l.otherHalf(c.at) })
}
