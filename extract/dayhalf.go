package extract

import (
	"slices"
	"strings"
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
