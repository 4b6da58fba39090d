package extract

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// counts are the numbers that people write out in front of what they count.
var counts = sync.OnceValue(func() map[string]int {
	out := map[string]int{}
	for n, row := range map[int]string{2: "two both zwei beide beiden deux dos ambos twee", 3: "three drei trois tres drie", 4: "four vier quatre cuatro", 5: "five funf cinq cinco vijf",
		6: "six sechs seis zes", 7: "seven sieben sept siete zeven", 8: "eight acht huit ocho", 9: "nine neun neuf nueve negen", 10: "ten zehn dix diez tien",
		11: "eleven elf onze once", 12: "twelve zwolf douze doce twaalf", 14: "fourteen vierzehn", 15: "fifteen funfzehn quinze quince vijftien", 16: "sixteen sechzehn", 20: "twenty zwanzig"} {
		for w := range strings.FieldsSeq(row) {
			out[w] = n
		}
	}
	return out
})

// numberOf reads a number in figures or as a word; 0 if it is none.
func numberOf(word string) int {
	if n, err := strconv.Atoi(word); err == nil {
		return n
	}
	return counts()[fold(word)]
}

// countBefore stands before the length of each of several things: "six lectures of",
// "an 18 Montagen mit jeweils".
var countBefore = matching(`(?i)(?:^|[\s:(])(\d{1,3}|\p{L}+)\s+(\p{L}[\p{L}-]{2,}(?:\s\p{L}[\p{L}-]{2,})?)\s+(?:,\s*)?(?:de|of|von|zu|zu je|mit|mit je|mit jeweils|von je|von jeweils|je|jeweils|jeweils à|à|a|van|van elk|x|×|each of|each lasting|lasting|d['’]une durée de)\s+$`)

// sessionsBefore is the same with two words more before sessions: "ten live evening classes of".
var sessionsBefore = matching(`(?:^|[\s:(])` + someCount + ` \p{L}[\p{L}-]{2,} \p{L}[\p{L}-]{2,} ` + sessionNoun + ` (?:of|each of|zu je|von je|de|d'une duree de|van|van elk|lasting|each lasting) $`)

// measured are nouns that are lengths themselves, or stand for what is no session.
var measured = words(`minutes?|minuten|minutos|hours?|stunden?|heures?|horas?|uren|uur|years?|jahren?|credits?|points?|punkte?|scripts|students|total|insgesamt|maximum|minimum`)

// countOf returns how many things the length behind before holds for each of; 0 if
// that does not say.
func countOf(before string) int {
	if m := sessionsBefore.FindStringSubmatch(fold(tail(before, 200))); m != nil {
		return numberOf(m[1])
	}
	m := countBefore.FindStringSubmatch(tail(before, 200))
	if m == nil || measured.MatchString(fold(m[2])) {
		return 0
	}
	if count, noun, two := strings.Cut(m[2], " "); two && numberOf(m[1]) == 0 && !measured.MatchString(fold(noun)) {
		return numberOf(count) // "en cinco encuentros de"
	}
	return numberOf(m[1])
}

// fewer says of how many sessions somebody was at how many: "8 von 10 Abenden".
var fewer = matching(`(?i)(?:^|\s)(\d{1,2}|\p{L}+)\s+(?:of|out of|von|von insgesamt|der|sur|de|de las|de los|van de|van)(?:\s+(?:the|den|les|las|los|insgesamt|our))?\s+(\d{1,2}|\p{L}+)\s+(?:\p{L}+\s)?(?:evenings?|sessions?|days?|classes|lectures?|meetings?|mornings?|afternoons?|modules?|units|workshops|webinars|modulen?|abenden?|terminen?|sitzungen|tagen?|vormittagen|nachmittagen|einheiten|veranstaltungen|soirées|séances|jours|journées|sesiones|tardes|días|clases|avonden|bijeenkomsten|dagen|lessen)(?:[\s.,;)]|$)`)

// cameTo says the same without naming what it counts: "came to four of the five".
var cameTo = matching(`\b(?:came to|attended|(?:was |were |her |him |them )?(?:at|present at)|been to|besuchte?|war (?:an|bei)|(?:a )?assiste a|a suivi|(?:ha )?asisti(?:o|do) a|was bij|kwam naar|bezocht|taught|gave|held|led|delivered|hielt|gab|leitete|unterrichtete|a assure|a donne|a anime|impartio|dio|dicto|gaf|verzorgde|leidde) (\d{1,2}|\p{L}+) (?:of|out of|von|sur|de|van)(?: the| den| les| las| los| de)? (\d{1,2}|\p{L}+)\b`)

// missed says that somebody was not there all the time.
var missed = words(`absent|unable to (?:be|attend|come)|missed|apolog\w*|excused|gefehlt|fehlte|entschuldigt|verhindert|verspatet|absente?|excusee?|ausente|falto|afwezig|verhinderd|left early|except`)

// attendedCount returns at how many sessions the person was, of how many; 0 if the paper
// does not say.
func (l *look) attendedCount() (been, of int) {
	for i, p := range l.passages {
		for _, m := range [][]string{fewer.FindStringSubmatch(p.text), cameTo.FindStringSubmatch(l.folded[i])} {
			if m == nil {
				continue
			}
			if a, b := numberOf(m[1]), numberOf(m[2]); a > 0 && b >= a && b < 60 {
				return a, b
			}
		}
	}
	for _, p := range l.pairs {
		if m := partOfAll.FindStringSubmatch(fold(l.text(p.value))); m != nil && sessionsSeen.MatchString(p.label) {
			if a, b := numberOf(m[1]), numberOf(m[2]); a > 0 && b >= a && b < 60 {
				return a, b
			}
		}
	}
	return 0, 0
}

// sessionsSeen is a label for at how many sessions somebody was, and partOfAll a value that says of how
// many: "Evenings attended: 3 of 4".
var (
	sessionsSeen = matching(`\b(?:attended|besuchte?n?|wahrgenommene?n?|suivie?s|asistid[oa]s|bijgewoonde|gevolgde|bezochte) ` + sessionNoun + `\b|\b` + sessionNoun + ` (?:attended|present|besucht|wahrgenommen|anwesend|suivie?s|presente?|asistid[oa]s|bijgewoond|gevolgd|bezocht|aanwezig)\b|^(?:attendance|anwesenheit|presence|asistencia|aanwezigheid)$`)
	partOfAll    = matching(`^(\d{1,2}) ?(?:of|out of|von|sur|de|van|/|aus|de las|de los|van de) ?(\d{1,2})(?: ` + sessionNoun + `)?$`)
)

// wasAtSome returns at how many sessions the person was, whether or not it is said of how many; 0
// if the paper does not say.
func (l *look) wasAtSome() int {
	if been, _ := l.attendedCount(); been > 0 {
		return been
	}
	for _, text := range l.folded {
		for _, p := range []*pattern{wasAt, wasAtLast} {
			if m := p.FindStringSubmatch(text); m != nil {
				if n := numberOf(m[1]); n > 1 && n < 60 {
					return n
				}
			}
		}
	}
	return l.markedPresent()
}

// listedDays returns how many single days the text of a counts out: "4 and 11 November"; 0 for a span.
func (l *look) listedDays(a at) int {
	text := l.text(a)
	if spanMark.MatchString(text) || !listMark.MatchString(text) {
		return 0
	}
	n := 1 + len(listMark.FindAllStringIndex(text, -1))
	if d := find.Dates(text, l.langs); len(d) > n {
		return 0
	}
	return n
}

var (
	spanMark = matching(`(?i)[–—-]|\s(?:to|until|till|through|bis|au|al|hasta|tot|t/m)\s`)
	listMark = matching(`(?i)(?:,|&|\s(?:and|und|et|y|en))\s*(?:den |the |le |el )?\d{1,2}(?:st|nd|rd|th|er)?\b`)
)

// dayCount counts the days of the event: those that are listed, else all from the first
// to the last.
func (l *look) dayCount(start, end credit.Date) int {
	for _, d := range l.days {
		if d.single || len(d.spans) == 0 || d.spans[0].Start != start || d.spans[0].End != end {
			continue
		}
		if n := l.listedDays(d.at); n > 1 {
			return n
		}
	}
	var seen []credit.Date
	for _, d := range l.days {
		if d.single && d.lack == find.Whole && len(d.spans) == 1 && slices.Contains([]role{isEvent, isBare, isTime}, d.role) {
			if s := d.spans[0].Start; !s.Before(start) && !end.Before(s) && !slices.Contains(seen, s) {
				seen = append(seen, s)
			}
		}
	}
	if slices.Contains(seen, start) && slices.Contains(seen, end) && start != end {
		return len(seen)
	}
	if end.Sub(start) > 13 {
		return 1
	}
	return end.Sub(start) + 1
}
