package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

// A form gives the time of one and how many there were at labels of their own: "Length of each
// 90 minutes", "Lectures given 12".

// oneOfMany is a session, or one of the things that a label may count like sessions; elsewhere their
// words mean something else: units of credit, and "les" in French.
const oneOfMany = `(?:` + sessionNoun + `|unit|module|group|modul|gruppe|vorlesung|lektion|doppelstunde|unterrichtstag|` +
	`groupe|cours|lecon|intervention|modulo|grupo|leccion|ponencia|les|dagdeel|lezing|college|groep)`

var (
	// oneLabel is a label for the time of each of several things.
	oneLabel = matching(`\b(?:of (?:each|one)|each|apiece)(?: ` + oneOfMany + `)?$|\b(?:per|each|je|pro|par|por|de chaque|d'une|de cada|cada|van elke|van iedere|je einzelne[rmn]?) ` + oneOfMany + `$|^(?:` + oneOfMany + `s?dauer|dauer (?:eines|einer|eines einzelnen|einer einzelnen) ` + oneOfMany + `e?s?|lesduur|duur van (?:een|elke) ` + oneOfMany + `)$`)
	// manyLabel is a label for how many there were.
	manyLabel = matching(`^(?:(?:total )?(?:number|no\.?) of |(?:gesamt)?(?:an)?zahl (?:der )?|how many |wie viele |combien de |cuant[oa]s |hoeveel |nombre (?:total )?(?:de |d')|numero (?:total )?de |n\.?[º°o] de |(?:totaal )?aantal )?(?:\p{L}+ )?` + sessionNoun + `(?: (` + manyBeen + `|` + manyHeld + `))?$|^(?:(` + manyBeen + `|` + manyHeld + `) )` + sessionNoun + `$`)
	bareCount = matching(`^\W*(\d{1,3}|\p{L}{3,9})(?:$|[\s,;.(/])`)
	manyWent  = matching(`^(?:` + manyBeen + `)$`)
)

// What a label for a count says of the things it counts.
const (
	manyBeen = `attended|present at|besuchte?|teilgenommen|wahrgenommene?|suivie?s?|asistid[oa]s?|bijgewoonde?|gevolgde?`
	manyHeld = `given|held|delivered|taught|conducted|done|completed|led|gehaltene?|erteilte?|durchgefuhrte?|gegebene?|geleitete?|stattgefunden|donnee?s?|tenue?s?|assuree?s?|animee?s?|effectuee?s?|dictad[oa]s?|impartid[oa]s?|realizad[oa]s?|celebrad[oa]s?|gegeven|gehouden|verzorgde?`
)

// countLabelled is how many there were of the things whose time a label gives, by a label for their
// number: those attended before those held, and these before the rest; 0 where none tells, or several do.
func (l *look) countLabelled() int {
	best, count := 0, 0
	for _, p := range l.pairs {
		m := manyLabel.FindStringSubmatch(strings.Trim(p.label, " :"))
		if m == nil || p.role == isScheduled || len(l.spansAt(p.value)) > 0 || l.holdsDay(p.value) {
			continue
		}
		c := bareCount.FindStringSubmatch(fold(l.text(p.value)))
		if c == nil || numberOf(c[1]) < 1 {
			continue
		}
		rank := 1
		if said := m[1] + m[2]; manyWent.MatchString(said) {
			rank = 3
		} else if said != "" {
			rank = 2
		}
		switch n := numberOf(c[1]); {
		case rank > best:
			best, count = rank, n
		case rank == best && n != count:
			count = 0
		}
	}
	return count
}

// holdsDay reports a place in which a day stands.
func (l *look) holdsDay(a at) bool {
	return slices.ContainsFunc(l.days, func(d day) bool { return d.at.overlaps(a) })
}

// spansAt are the lengths and spans of the day within a place.
func (l *look) spansAt(a at) []at {
	var out []at
	for _, h := range l.lengths {
		if h.at.overlaps(a) {
			out = append(out, h.at)
		}
	}
	for _, c := range l.clocks {
		if c.at.overlaps(a) {
			out = append(out, c.at)
		}
	}
	return out
}

// longestSitting is the longest time that one of several sessions takes; what is longer at such a
// label is the whole: "Lesduur: 12 uur".
const longestSitting credit.Minutes = 10 * 60

// ofOne takes a time at a label for each of several things as often as the paper says that there
// were of them; where it does not say, or a sentence that counts them comes to another time, the
// time is not sure.
func (l *look) ofOne(t timed) timed {
	n := l.countLabelled()
	if n == 0 {
		each := slices.IndexFunc(l.lengths, func(h lengthHit) bool {
			return h.length.Each == t.minutes && h.length.Minutes > t.minutes && h.at != t.at
		})
		if each < 0 {
			t = l.eachOf(t)
			t.sure = t.sure && l.eventDays() > 1
			return t
		}
		n = int(l.lengths[each].length.Minutes / t.minutes)
	}
	return l.timesEach(t, n, "count times length", 4)
}

const (
	bySaying    = `(?:by|according to|in addition to|besides|nach|laut|neben|selon|d'apres|outre|segun|ademas de|volgens|naast)`
	homeSubject = `(?:(?:the|his|her|their|its|die|der|das|seine?|ihre?|la|le|les|sa|son|ses|el|los|las|su|sus|de|het|zijn|haar) )?(?:own |eigene |propre |propia |eigen )?` +
		`(?:preparations?|preparing|marking|correcting|travel(?:ling)?|journeys?|self-study|private study|homework|vor- und nachbereitung|vorbereitung(?:en|szeit)?|nachbereitung|korrektur(?:en)?|anreise|an- und abreise|fahrt(?:en|zeit)?|selbststudium|corrections?|trajets?|deplacements?|travail personnel|preparacion|correccion(?:es)?|desplazamientos?|viajes?|estudio personal|trabajo personal|voorbereiding(?:en)?|nakijken|reistijd|reis|zelfstudie)`
	homeVerb = `(?:took|takes|cost|required|requires|needed|needs|came to|amounted to|amounts to|accounted for|nahm(?:en)?|kosteten?|erforderten?|umfassten?|betrug(?:en)?|dauerten?|brauchten?|beanspruchten?|a pris|a demande|a necessite|a requis|ont pris|ont demande|prend|demande|represente|llevo|llevaron|demando|demandaron|requirio|exigio|supuso|insumio|ocupo|kostten?|vergden?|vroeg|nam(?:en)?|besloeg(?:en)?|duurden?)`
)

var (
	// toRound ends in front of a time by which others are rounded: "from the next half hour".
	toRound = matching(`\b(?:(?:next|nearest|following|every|each|per|begun|started|commenced|full)|(?:nachsten?|naechsten?|je(?:de|der|den)?|angefangenen?|angebrochenen?|begonnenen?|vollen?)|(?:prochaine?|chaque|suivante?|par|entamee?)|(?:siguiente|proxim[oa]|cada|por|empezada|comenzada)|(?:volgende?|elke?|iedere?|per|begonnen)) ?(?:the |an? |eine[rnm]? |une? |een )?$`)
	// homeFirst ends in front of a time that preparing or travelling took, as the subject of its clause says.
	homeFirst = matching(`(?:^|[.;,:(] ?|\b(?:and|und|et|y|en) )(?:` + bySaying + `(?: \p{L}+){0,4},? )?` + homeSubject + `\b[^.;\d]{0,60}\b` + homeVerb + `\b[^.;\d]{0,40}$`)
	// homeThen does so where the verb stands before its subject: "kostete ihn die Vorbereitung".
	homeThen = matching(`\b` + homeVerb + ` (?:\p{L}+ ){0,2}` + homeSubject + `\b[^.;,\d]{0,40}$`)
	// notCounted stands behind a time that the paper leaves out itself.
	notCounted = matching(`^[^.;\d]{0,6}\b(?:which|that|die|das|qui|que|dat|welche) (?:(?:is|are|was|were|sind|ist|werden|wird|wurden|zijn|worden|ne (?:sont|est)|no) )?(?:se )?(?:(?:not|nicht|pas|niet|aqui|hier|here) )*(?:counted|certified|included|credited|vouched|bescheinigt|angerechnet|gerechnet|mitgerechnet|comptee?s?|certifiee?s?|prises? en compte|certifican?|cuentan?|computan?|acreditan?|meegeteld|meegerekend|geteld|gecertificeerd)\b`)
	saysNot    = words(`not|nicht|pas|no|niet|nor`)
)

// atHomeThere reports a time that the sentence around it gives to preparation, travel or the like,
// or of which it says that it does not count.
func atHomeThere(before, after string) bool {
	if homeFirst.MatchString(before) || homeThen.MatchString(before) {
		return true
	}
	m := notCounted.FindString(after)
	return m != "" && saysNot.MatchString(m)
}
