package extract

import (
	"slices"

	"evidencevault/extract/paper"
)

// A paper may say both what an event is worth and what this person got of it.

var (
	// ofPerson says that credits are those of the person.
	ofPerson = words(`(?:to|for|by) (?:this|the|each) (?:delegate|participant|attendee|holder|candidate|member|learner|person|(?:above-?)?named)|(?:this|the) (?:delegate|participant|attendee|holder|candidate|member|learner|person) (?:has )?(?:earn\w*|receiv\w*|gain\w*|obtain\w*|is|was|gets|got|claim\w*)|(?:she|he|they) (?:earn\w*|receiv\w*|gain\w*|is|was|has|got|gets)|(?:to|by) (?:her|him)|parts? attended|sessions? attended|` +
		`(?:der|dem|die|den|diese[rm]?) (?:teilnehmer(?:in|s)?|teilnehmenden|genannten?|inhaber(?:in)?)|ihr werden|ihm werden|ihnen werden|besuchten? (?:teile?|tage?|bausteine?|module?)|` +
		`(?:au|a la|la|le|a l'|cette|ce) (?:participante?|stagiaire|titulaire|interessee?|congressiste)|lui sont|se voit (?:attribuer|accorder)|parties? suivies?|` +
		`(?:al|a la|la|el|esta|este) (?:asistente|participante|alumn[oa]|titular|interesad[oa]|congresista)|se le (?:reconoce|otorga|acredita|concede|asigna)n?|sesiones asistidas|` +
		`(?:aan )?(?:deze|de) (?:deelnemer|deelneemster|cursist|houder|kandidaat)|(?:haar|hem) worden|bijgewoonde (?:delen|dagen|sessies)`)
	// ofEvent says that they are those of the event as a whole.
	ofEvent = words(`(?:full|whole|entire|complete) (?:\S+ )?(?:` + wholeEvent + `)|(?:the |this )?(?:` + wholeEvent + `) (?:as a whole |in full )?(?:is|was|has been|carries|carried) (?:accredited|approved|worth|rated|recogni[sz]ed|up to)|` +
		`(?:gesamt\w*|ganzen?|vollstandigen?|kompletten?) (?:\S+ )?(?:` + wholeEvent + `)|\S*(?:` + wholeEvent + `) (?:ist|wurde|war) (?:insgesamt )?(?:mit|durch|von|als)|insgesamt mit|` +
		`(?:` + wholeEvent + `) (?:complete?|entiere?|integrale?)|(?:ensemble|integralite|totalite) d[ue]\S*|(?:` + wholeEvent + `) (?:complet[oa]|enter[oa]|integr[oa])|(?:totalidad|conjunto) del?|` +
		`(?:volledige|gehele|hele|complete) (?:\S+ )?(?:` + wholeEvent + `)`)
)

// wholeEvent are words for an event of several parts.
const wholeEvent = `event|congress|conference|programme|program|course|seminar|meeting|symposium|day|week|series|kongress(?:es)?|tagung|veranstaltung|programms?|kurs(?:es)?|lehrgangs?|reihe|symposiums?|seminars?|fortbildung|congres|colloque|journees?|formation|cycle|stage|programme|congreso|jornadas?|curso|programa|simposio|seminario|ciclo|congres|cursus|programma|studiedag|reeks|bijeenkomst|symposium`

// ownCredits takes of several values of a unit the one that is said to be the person's, where
// all others are said to be those of the whole event.
func (l *look) ownCredits(hits []creditHit) []creditHit {
	if l.kind == paper.Transcript {
		return hits
	}
	if l.kind == paper.Instruction {
		hits = slices.DeleteFunc(slices.Clone(hits), l.ofAudience)
	}
	if len(hits) < 2 {
		return hits
	}
	sentence := func(c creditHit) string {
		before, after := l.ownSentence(c.at)
		return " " + before + " " + l.text(c.at) + " " + after + " "
	}
	own := func(c creditHit) bool {
		s := sentence(c)
		return ofPerson.MatchString(s) && !ofEvent.MatchString(s)
	}
	k := slices.IndexFunc(hits, own)
	if k < 0 {
		return hits
	}
	for i, c := range hits {
		if i != k && sameUnit(c, hits[k]) && !c.value.Equal(hits[k].value) && (own(c) || !ofEvent.MatchString(sentence(c)) || c.value.Cmp(hits[k].value) < 0) {
			return hits
		}
	}
	return slices.DeleteFunc(slices.Clone(hits), func(c creditHit) bool { return sameUnit(c, hits[k]) && !c.value.Equal(hits[k].value) })
}

// ofAudience reports credits that are said to be those of who listened: "Attendees of your session receive
// 1.5 CE hours".
func (l *look) ofAudience(c creditHit) bool {
	before, _ := l.ownSentence(c.at)
	return audienceGets.MatchString(before)
}

var audienceGets = matching(`\b(?:attendees|participants|listeners|delegates|audience|auditeurs|auditrices|stagiaires|teilnehmer\w*|teilnehmende\w*|zuhorer\w*|horer(?:innen)?|asistentes|participantes|oyentes|deelnemers|toehoorders|luisteraars)\b[^.;\d]{0,60}$`)
