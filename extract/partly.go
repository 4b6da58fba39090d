package extract

import (
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A paper may say that somebody was not there all the time: then what it gives for the whole is not
// surely theirs.

const someNumber = `(\d{1,3}(?:[.,]\d{1,2})?|\p{L}{3,9})`

var (
	// partlyThere says that somebody came later, went earlier or was missing, or gives the hours of
	// coming and going.
	partlyThere = words(`(?:left|departed|went) (?:early|before|after|at|us at)|had to leave|missed (?:the|one|two|three|a|\d+|part)|(?:arrived|came|joined)(?: us)? (?:late|later|at|after|only|\d\S*)|sign(?:ed)?[- ](?:in|out):? (?:at )?\d\S*|check(?:ed)?[- ](?:in|out):? (?:at )?\d\S*|in part|partly|partial attendance|` +
		`(?:verliess|ging)(?: \S+){0,3} (?:um|nach|vor|fruher)|fruher gegangen|kam(?: \S+){0,2} (?:um|erst|spater|verspatet)|versaumte?|verspatet|war(?: \S+){0,2} verhindert|fehlte|gefehlt|(?:gekommen|gegangen):? (?:um )?\d\S*|teilweise (?:teilgenommen|anwesend)|zeitweise|` +
		`(?:a quitte|est partie?|partie?|est arrivee?|arrivee?)(?: \S+){0,3} (?:a|avant|apres|en retard|plus tot)|a manque|en partie|partiellement|` +
		`se retiro|(?:llego|se incorporo)(?: \S+){0,2} (?:a|tarde|mas tarde)|falto a|se ausento|parcialmente|en parte|` +
		`(?:vertrok|ging)(?: \S+){0,2} (?:om|eerder|voor|na)|kwam(?: \S+){0,2} (?:om|later|pas)|miste|gemist|verliet|gedeeltelijk`)

	// missedSome says how many sessions somebody missed.
	missedSome  = matching(`\b(?:(?:she|he|they|the (?:holder|participant|delegate|candidate|attendee|trainee|student)|mr\S* \p{L}+|ms\S* \p{L}+|who|and|but) (?:missed|was absent (?:from|for|on)|was unable to attend)|an|hat|fehlte an|fehlte bei|versaumte|with|con|avec|mit|met|a manque|a ete absente? (?:a|de)|falto a|no asistio a|miste|ontbrak (?:op|bij))(?: just| only| nur)? (one|two|three|four|einem|einer|eine|einen|zwei|drei|une?|deux|trois|una?|uno|dos|tres|een|twee|drie|\d)\b([^.;]{0,24})`)
	looseMissed = matching(`^(?:an|hat|with|con|avec|mit|met) `)
	outThere    = words(`absences?|ausencias?|abwesenheit(?:en)?|fehltermine?n?|afwezigheid|verzuim|verhindert|gefehlt|fehlte|versaumt|krank|entschuldigt|abwesend`)

	// ofWhichWent stands behind a time or a number of sessions and says how many of them were attended.
	ofWhichWent = matching(`^[^.;\d]{0,16}[,;(]? ?(?:of which|of these|of them|davon|dont|de l[oa]s (?:que|cuales)|waarvan|daarvan)(?: (?:she|he|sie|er|elle|il|ella|zij|hij|ze))? (?:(?:attended|besuchte|a suivi|asistio a|curso|cumplio|volgde|bezocht)(?: (?:sie|er|zij|hij|ze))? ` + someNumber + `\b|` + someNumber + `(?: (?:hours?|h|std|stunden|heures?|horas?|uur))? (?:were |was |wurden |ont ete |zijn |werden )?(?:attended|present|besucht|anwesend|presente?|aanwezig|suivies?|asistidas?|cursadas?|gevolgd|bijgewoond)\b)`)
	// ofThoseWent says it in the next sentence, with who it was: "Davon hat Frau Stockmann 20 besucht".
	ofThoseWent = matching(`^[.,;(]? ?(?:of (?:which|these|them|those)|davon|hiervon|dont|sur ce total|de (?:ell[oa]s|est[oa]s|l[oa]s cuales)|waarvan|daarvan|hiervan)((?: [\p{L}.’'-]+){1,6}?) ` + someNumber + `(?: \p{L}+)? ` + attendedVerb + `\b`)
	netSaid     = matching(`\b(?:net|netto|reine[rsn]?|nette?s?|netas?|netto-?\p{L}*|netto[- ]\p{L}+|effective|effektive[rn]?|actual|tatsachliche[rn]?)(?: \p{L}+){0,2}[ :]*$`)
)

// shareThere gives how much of the whole somebody was there, in hundredths that are not all.
var shareThere = matching(`\b(?:attendance|present|anwesenheit\w*|teilnahmequote|prasenz\w*|assiduite|presence|asistencia|aanwezigheid\w*)\b[^.;%\d]{0,24}\b\d{1,2}(?:[.,]\d+)? ?%|\b\d{1,2}(?:[.,]\d+)? ?% (?:of |der |de |van )?(?:\p{L}+ )?(?:attend\w*|anwesen\w*|presen\w*|asistencia|aanwezig\w*)`)

// awayAhead ends in front of the time for which somebody was missing.
var awayAhead = matching(`\b(?:absent|absences?|missed|fehlzeit(?:en)?|fehlstunden|versaumt|gefehlt|absente?|ausencias?|faltas?|gemist|afwezig|verzuim)(?: for| of| de| von| pendant| durant)?[ :]*$`)

// lessAway takes from the one time that is stated those for which the person was missing.
func (l *look) lessAway(list []timed) []timed {
	var away credit.Minutes
	for _, h := range l.lengths {
		if before, _ := l.ownSentence(h.at); h.length.Minutes > 0 && (h.length.Unit == find.Hour || h.length.Unit == find.Minute) && awayAhead.MatchString(before) {
			away += h.length.Minutes
		}
	}
	for _, p := range l.withRole(isLeftOut) {
		n := bareNumber.FindStringSubmatch(l.text(p.value))
		if n == nil || !ofThat.MatchString(p.label) {
			continue
		}
		if m, ok := lengthOf(n[1], p.label, l.langs); ok {
			away += m
		}
	}
	if away == 0 && len(list) == 0 {
		return l.awayOf()
	}
	if away == 0 || len(list) != 1 || list[0].level != 4 || len(list[0].open) > 0 || away >= list[0].minutes {
		return list
	}
	t := list[0]
	t.minutes -= away
	t.level, t.why, t.text = 5, "it is said to be the time attended", minutesText(t.minutes)
	return []timed{t}
}

// awayOf is the whole less the part of it for which the person is said to have been missing: "absent for
// 2 of the 8 hours".
func (l *look) awayOf() []timed {
	for _, h := range l.lengths {
		before, after := l.ownSentence(h.at)
		if d := h.length; len(d.Candidates) != 2 || d.Unit != find.Hour && d.Unit != find.Minute || !awayAhead.MatchString(before) || l.notMine(h, before, after) {
			continue
		}
		t := timed{minutes: h.length.Candidates[1] - h.length.Candidates[0], level: 5}
		t.guess = guess{text: minutesText(t.minutes), at: h.at, score: 80, why: "it is said to be the time attended", sure: true}
		return []timed{t}
	}
	return nil
}

// eachAhead ends in front of clock times that hold for each of a number of sessions.
var eachAhead = matching(`(?:^|[\s(])` + someCount + ` (?:\p{L}+ )?` + sessionNoun + `\b[^.;\d]{0,24}\b(?:jeweils|je|each|chaque fois|chacune?|a chaque fois|cada un[oa]|cada vez|telkens|elke?|iedere?)(?: (?:from|von|de|van|lasting|um))?[ :]*$`)

// sessionsAhead is how many sessions a sentence counts of which clock times are said to be those of each.
func (l *look) sessionsAhead(a at) int {
	before, _ := l.ownSentence(a)
	m := eachAhead.FindStringSubmatch(before)
	if m == nil && len(l.clocks) == 1 && l.overDays() {
		m = countAhead.FindStringSubmatch(before) // "six evenings, 18:30–20:00"
	}
	if m == nil {
		return 0
	}
	return max(0, numberOf(m[1])-l.missedCount())
}

// countAhead ends in front of the clock times of so many sessions, with nothing between.
var countAhead = matching(`(?:^|[\s(])` + someCount + ` (?:\p{L}+ )?` + sessionNoun + `[,:]? ?(?:(?:each |jeweils |je |telkens )?(?:from|von|de|van) ?)?$`)

// oneCounts are words for one that [numberOf] leaves out, since they are articles too.
var oneCounts = matching(`^(?:one|einem|einer|eine|einen|une?|una?|uno|een|1)$`)

// missedCount is how many sessions a sentence says that the person missed.
func (l *look) missedCount() int {
	for _, text := range l.folded {
		m := missedSome.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		if loose := looseMissed.MatchString(m[0]); loose && !outThere.MatchString(m[2]+" ") {
			continue
		}
		if oneCounts.MatchString(m[1]) {
			return 1
		}
		return numberOf(m[1])
	}
	return 0
}

// notHeldOne says that a session of a series was cancelled: "Eén les (4 februari) is vervallen".
var notHeldOne = matching(`(?:^|[\s(.])(one|two|three|einer|eine|ein|zwei|drei|une?|deux|trois|una|dos|tres|een|twee|drie|\d) (?:\p{L}+ )?(?:` + sessionNoun + `|les|lecon|clases?|unterrichtsstunden?|kursstunden?)(?: \([^)]{2,30}\)| (?:on|am|vom|le|du|el|op|van) [^.;]{3,20})? (?:(?:was|were|had to be|is|ist|sind|wurden?|a ete|ont ete|est|fue|fueron|zijn|werd|moest)(?: \p{L}+)? (?:cancel?led|not held|called off|vervallen|uitgevallen|ausgefallen|abgesagt|entfallen|annulee?s?|supprimee?s?|cancelad[oa]s?|suspendid[oa]s?|anulad[oa]s?)|(?:fiel|fielen)(?: \p{L}+){0,3} aus)\b([^.;]{0,60})`)

var madeUp = words(`made up|rescheduled|nachgeholt|rattrapee?s?|reportee?s?|recuperad[oa]s?|ingehaald|verplaatst`)

// notHeldCount is how many sessions of a series a sentence says were cancelled and not made up.
func (l *look) notHeldCount() int {
	for _, text := range l.folded {
		m := notHeldOne.FindStringSubmatch(text)
		if m == nil || madeUp.MatchString(" "+m[2]+" ") && !deniedPart.MatchString(" "+m[2]+" ") {
			continue
		}
		return max(1, numberOf(m[1]))
	}
	return 0
}

// ofCount takes from a number of sessions of one length those that the person did not attend.
func (l *look) ofCount(t timed, h lengthHit) timed {
	each := h.length.Each
	if each <= 0 || h.length.Minutes%each != 0 {
		return t
	}
	count := int(h.length.Minutes / each)
	been := 0
	before, _ := l.ownSentence(h.at)
	if m := someOf.FindStringSubmatch(before); m != nil && numberOf(m[1]) > 0 && !deniedPart.MatchString(before+" ") {
		been = numberOf(m[1])
	} else if m := ofWhichWent.FindStringSubmatch(fold(head(l.passages[h.at.passage].text[h.at.span.To:], 60))); m != nil {
		been = numberOf(m[1] + m[2])
	} else if m := ofThoseWent.FindStringSubmatch(fold(head(l.passages[h.at.passage].text[h.at.span.To:], 100))); m != nil && !deniedPart.MatchString(m[1]+" ") {
		been = numberOf(m[2])
	} else if n, of := l.attendedCount(); n > 0 && of == count {
		been = n
	} else if missed := l.missedCount() + l.notHeldCount(); missed > 0 {
		been = count - missed
	}
	if been < 1 || been >= count {
		return t
	}
	t.minutes = each * credit.Minutes(been)
	t.level, t.why, t.text = 5, "the sessions attended times the time of one", minutesText(t.minutes)
	return t
}

// someOf ends in front of a number of sessions and says how many of them: "she took part in 7 of".
var someOf = matching(`(?:^|[\s(])` + someNumber + ` (?:of|out of|von|der|sur|de|van)(?: (?:the|den|les|la[s]?|los|de))? ?$`)

// partMine reports a part of a whole, "18 of the 21 hours", of which the sentence says that the person
// was there for it or that it counts for them.
func (l *look) partMine(h lengthHit) bool {
	if !partWritten.MatchString(fold(l.text(h.at))) {
		return false
	}
	before, after := l.ownSentence(h.at)
	before, after = tail(before, 60)+" ", " "+head(after, 40)+" "
	if deniedPart.MatchString(before) || deniedPart.MatchString(after) || leftOutWord.MatchString(after) {
		return false
	}
	return mineSaid.MatchString(before) || mineSaid.MatchString(after)
}

var (
	partWritten = matching(`^\S+(?: \S+){0,3}? (?:of|out of|von|der|sur|des?|van)(?: (?:the|den|der|die|les|la[s]?|los|de|het))? \S`)
	// wholeSaid is such a part of what an article says to be known.
	wholeSaid  = matching(`^\S+(?: \S+){0,3}? (?:(?:of|out of|von|sur|de|van) (?:the|den|la[s]?|los|les|de|het)|der|des) \S`)
	deniedPart = words(`not|never|nicht|kein\w*|nie|ne|n'\w+|pas|non|no|nunca|niet|geen|nooit|absent|missed|miss(?:es|ing)?|fehlten?|versaumt\w*|verpasst\w*|entfiel\w*|manque\w*|falto|perdio|gemist|miste|afwezig|verzuimd\w*|only if|if|wenn|sofern|si`)
	// mineSaid is a verb for having been there, or for what that is counted for.
	mineSaid = words(`attended|attending|was (?:there|present|with us)|were (?:there|present|with us)|present|stayed|sat|took part in|completed|did|joined us|followed|(?:credit(?:ed)?|grant(?:ed)?|certif(?:y|ied)|confirm(?:ed)?|recogni[sz]ed?|count(?:ed)?|award(?:ed)?|allow(?:ed)?) (?:you|her|him|them|for|as)|` +
		`anwesend|dabei|zugegen|teilgenommen|besucht|absolviert|mitgemacht|angerechnet|anrechnen|anerkannt|anerkennen|bescheinigt|bescheinigen|gutgeschrieben|gutschreiben|bestatigt|bestatigen|` +
		`presente?s?|assiste|suivi(?:e|es|s)?|accompli(?:es|s)?|effectue(?:es|s)?|participe|creditons|comptons|reconnaissons|validons|attribuons|retenons|` +
		`asistio|asistido|cumplio|curso|realizo|presencio|estuvo|acreditamos|reconocemos|computamos|se le (?:acreditan|reconocen|computan)|asistidas|cumplidas|` +
		`aanwezig|bijgewoond|gevolgd|volgde|deelgenomen|bijwoonde|toekennen|toegekend|meetellen|erkennen|bevestigen|geregistreerd|bijgeschreven`)
)

// onlyPartly reports that the paper speaks of somebody who was not there all the time, where the
// length is not said to be that of which they were.
func (l *look) onlyPartly(t timed) bool {
	if shareThere.MatchString(l.all) && !strings.Contains(t.why, "sessions attended") && (t.level < 5 || len(l.lengths) == 1) {
		return true
	}
	return t.level < 5 && !strings.Contains(t.why, "attended") && partlyThere.MatchString(" "+chosen(l.all)+" ")
}

// chosen is a text without the words behind boxes that are empty, where others are ticked: what nobody
// chose says nothing.
func chosen(text string) string {
	if !tickedBox.MatchString(text) {
		return text
	}
	return emptyChoice.ReplaceAllString(text, " ")
}

var (
	tickedBox   = matching(`[☒☑◉⦿🗹🗷✓✔]|[\[(] ?[xX✓✔] ?[\])]`)
	emptyChoice = matching(`(?:[☐□▢❏◯○◻]|\[ ?\]|\( ?\))[^☒☑◉⦿🗹🗷✓✔☐□▢❏◯○◻\[(\n]*`)
)

// sessionsNamed adds up times of which each stands with a session that has a number, without those at
// which the person is said to have been missing: "Session 1: 90 min", "Session 2: 75 min (absent)".
func (l *look) sessionsNamed(list []timed) []timed {
	var sum timed
	var rest []timed
	n := 0
	for _, t := range list {
		before, after := l.upToOthers(t, list)
		if t.level != 4 || t.why != "it is stated" || len(t.open) > 0 || !sessionAhead.MatchString(before) {
			rest = append(rest, t)
			continue
		}
		n++
		if saidOut.MatchString(after+" ") || notThere.MatchString(after+" ") {
			continue
		}
		if sum.minutes == 0 {
			sum = t
			sum.minutes = 0
		}
		sum.minutes += t.minutes
	}
	if n < 2 || sum.minutes == 0 {
		return list
	}
	sum.level, sum.why, sum.score, sum.text = 3, "the sessions add up to it", 70, minutesText(sum.minutes)
	return append(rest, sum)
}

// upToOthers returns the folded text of its passage before and after a time, as far as the next one
// on either side, or a little behind the last.
func (l *look) upToOthers(t timed, list []timed) (before, after string) {
	text, span := l.passages[t.at.passage].text, t.at.span
	from, to := 0, span.To+len(head(text[span.To:], 60))
	behind := false
	for _, o := range list {
		switch {
		case o.at.passage != t.at.passage || o.at == t.at:
		case o.at.span.To <= span.From:
			from = max(from, o.at.span.To)
		case o.at.span.From >= span.To && (!behind || o.at.span.From < to):
			to, behind = o.at.span.From, true
		}
	}
	return fold(text[from:span.From]), fold(text[span.To:to])
}

// sessionAhead ends in front of the time of a session that has a number.
var sessionAhead = matching(`(?:^|[\s\W])(?:session|day|part|evening|modules?|meeting|class|lesson|lecture|unit|termin|tag|teil|abend|sitzung|modul|einheit|seance|jour|journee|partie|soiree|unite|sesion|dia|parte|clase|jornada|modulo|unidad|sessie|dag|deel|avond|les|bijeenkomst|dagdeel) ?(?:n[o°º]\.? ?|nr\.? ?)?(?:\d{1,2}|[ivx]{1,4})\b[^0-9;]{0,50}$|(?:^|[\s\W])(?:morning|afternoon|evening|vormittags?|nachmittags?|abends?|matin|matinee|apres-midi|manana|tarde|ochtend|middag|avond)(?: session| sitzung)?[ :]*$`)
