package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A sentence may give the whole and, without its unit, the part that somebody was there for.

var (
	wholeBefore = matching(`(?:^|[\s,(])(?:of|out of|from|von|sur|de|van|uit)(?: (?:the|a|those|den|der|les|las|los|de|het|un|une))?(?: (?:total(?: of)?|possible|planned|scheduled|insgesamt|gesamten|angebotenen|vorgesehenen|geplanten|total de|in totaal|totale?|geplande|voorziene))* ?$`)

	attendedVerb = `(?:attended|completed|sat|present|besuchte|besucht|absolvierte|absolviert|wahrgenommen|teilgenommen|anwesend|suivie?s?|effectuee?s?|accomplie?s?|asistio|asistido|cursado|curso|cumplio|cumplido|volgde|gevolgd|bijgewoond|woonde|aanwezig)`
	// partThenVerb stands behind the whole: "hat sie neun besucht"; verbThenPart: "she attended nine".
	partThenVerb = matching(`^ ?(?:(?:prevues?|previstas|possible|planned|vorgesehenen|in total|en tout|en total)\b)?,? ?(?:\p{L}+[ ,]+){0,5}?` + someNumber + ` (?:davon |ervan |er |stunden |hours |heures |horas |uur )?` + attendedVerb + `\b`)
	verbThenPart = matching(`^ ?(?:(?:prevues?|previstas|possible|planned|in total|en tout|en total)\b)?,? ?(?:\p{L}+[ ,]+){0,5}?` + attendedVerb + `(?: (?:sie|er|zij|hij|a|en|at|for|to|only|just|nur|seulement|solo|slechts)){0,2} ` + someNumber + `(?:$|[\s.,;])`)

	// allBehind is the whole behind the part in the value of a label: "8 of 10"; remarkBehind what stands in
	// brackets behind a figure, and sentenceBehind a sentence that follows it.
	allBehind      = matching(`^(\s*\d{1,3}(?:[.,]\d{1,2})?)\s?(?:of|out of|von|sur|de|van|/)\s?\d{1,3}(?:[.,]\d{1,2})?\s*$`)
	sentenceBehind = matching(`^(\s*\d{1,4}(?:[.,]\d{1,2})?)[.;]\s+\p{L}{2}`)
	remarkBehind   = matching(`^(\s*\d{1,4}(?:[.,]\d{1,2})?)\s*\([^()]{2,40}\)\s*$`)

	// partNamed is what one of several times of a course is that of, right before it or behind it.
	partNamed = `(?:theory|theoretical(?: part)?|practice|practicals?|practical part|lectures?|classroom|workshops?|discussion|online|e-?learning|field ?work|laboratory|lab|seminars?|tutorials?|mornings?|afternoons?|` +
		`theorie(?:teil)?|praxis(?:teil)?|vortrage?|ubung(?:en)?|diskussion|prasenz|vor ort|vormittags?|nachmittags?|` +
		`theorie|theorique|partie theorique|pratique|partie pratique|travaux pratiques|cours|ateliers?|presentiel(?:le)?|distanciel|a distance|en ligne|en salle|matin|apres-midi|` +
		`teoria|parte teorica|practicas?|parte practica|taller|presencial(?:es)?|no presencial(?:es)?|virtual(?:es)?|en linea|en aula|a distancia|manana|tarde|` +
		`praktijk|klassikaal|op locatie|fysiek|lezing(?:en)?|oefening(?:en)?|ochtend|middag)`
	partAhead  = matching(`(?:^|[\s,;+/(])(` + partNamed + `)(?: (?:of|von|de|van))?[ :=–-]*$`)
	partBehind = matching(`^ ?(?:of |de |d'|in |en |im |)(` + partNamed + `)\b`)

	// cameThenWent says when somebody came and went.
	cameThenWent = matching(`\b(?:arrived|came|signed in|joined|gekommen|ankunft|kam|arrivee?|llego|llegada|entrada|gekomen|kwam|aankomst)(?: (?:at|um|a|a las|las|om|le))?:? (\d{1,2}(?:[:.h]\d\d)?(?: ?(?:[ap]\.?m\b\.?|uhr|uur|h))?)[^\d.]{1,30}?\b(?:left|departed|went|signed out|gegangen|abfahrt|ging|partie?|depart|se retiro|salio|salida|vertrokken|vertrok|vertrek)(?: (?:at|um|a|a las|las|om|le))?:? (\d{1,2}(?:[:.h]\d\d)?(?: ?(?:[ap]\.?m\b\.?|uhr|uur|h))?)(?:[^\d]|$)`)
)

// ofWhole returns the part of a time, in minutes, that its sentence says somebody was there for: "of the
// twelve hours she attended nine"; 0 where it says none.
func (l *look) ofWhole(h lengthHit, before, after string) credit.Minutes {
	unit := map[find.Unit]credit.Minutes{find.Hour: 60, find.Minute: 1}[h.length.Unit]
	if unit == 0 || h.length.Minutes <= 0 || !wholeBefore.MatchString(before) {
		return 0
	}
	for _, said := range []*pattern{partThenVerb, verbThenPart} {
		m := said.FindStringSubmatch(after)
		if m == nil {
			continue
		}
		part, ok := wholeMinutes(amount(strings.ReplaceAll(m[1], ",", ".")).Mul(credit.Whole(int64(unit))))
		if n := numberOf(m[1]); n > 0 {
			part, ok = credit.Minutes(n)*unit, true
		}
		if ok && part > 0 && part <= h.length.Minutes {
			return part
		}
	}
	return 0
}

// namedParts adds up times of which the paper gives no whole, each of another part of the course:
// "Theory 3 h, practice 2.5 h".
func (l *look) namedParts(list []timed) []timed {
	var sum credit.Minutes
	var names []string
	for _, t := range list {
		before, after := l.ownSentence(t.at)
		name := ""
		if m := partAhead.FindStringSubmatch(before); m != nil {
			name = m[1]
		} else if m := partBehind.FindStringSubmatch(after); m != nil {
			name = m[1]
		}
		if name == "" || slices.Contains(names, name) || (t.level != 4 || t.why != "it is stated") && t.why != "count times length" || len(t.open) > 0 {
			return list
		}
		names, sum = append(names, name), sum+t.minutes
	}
	if len(names) < 2 {
		return list
	}
	whole := timed{minutes: sum, level: 3}
	whole.guess = guess{text: minutesText(sum), at: list[0].at, score: 76, why: "the times of its parts add up to it", sure: true}
	return []timed{whole}
}

// ofAll returns the figure of a value without the whole or the remark that stands behind it, and
// whether it was a part.
func ofAll(text string) (string, bool) {
	if m := allBehind.FindStringSubmatch(text); m != nil {
		return m[1], true
	}
	for _, behind := range []*pattern{remarkBehind, sentenceBehind} {
		if m := behind.FindStringSubmatch(text); m != nil {
			return m[1], false
		}
	}
	return text, false
}

// saidToCome reads when a sentence says that the person came and went.
func (l *look) saidToCome() (find.Clock, at, bool) {
	for i, text := range l.folded {
		m := cameThenWent.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		if c := find.Clocks(m[1]+" - "+m[2], l.langs); len(c) == 1 {
			return c[0], l.passageAt(i), true
		}
	}
	return find.Clock{}, at{}, false
}
