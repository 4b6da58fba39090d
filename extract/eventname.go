package extract

import "strings"

// A conference is called by its kind and its subject together, where a course has a name of its own.

var (
	beingThere = matching(`(?:^|[\s,(])(?i:attended|attending|(?:was |were )?present at|took part in|taking part in|participated in|participation in|attendance at|(?:participation|attendance|presence) of (?:(?:Mr|Mrs|Ms|Dr)\.? )?(?:\p{Lu}[\p{L}.’'-]* ){1,5}(?:in|at)|joined|assisté?e?s?|participé?e?s?|participation|présente?s?|asistió|asistencia|asistido|participó|participado|participación|aanwezig|aanwezigheid|deelgenomen|deelname|teilgenommen|teilnahme|teilnehmer(?:in)?|nahm|hat|heeft)\s+(?:(?i:an|am|al|beim|à|a|au|aux|en|bij|op|aan|bei|auf)\s+)?(?:(?i:the|our|la|le|les|las|los|el|de|het|der|den|dem|des)\s+|(?i:l)['’])?`)
	// conference is the name of one, with what makes it the n-th or the yearly one.
	conference = matching(`^(?:(?:\d{1,3}(?:st|nd|rd|th|e|er|\.|ª|º)|[IVXL]{1,5})\s+)?(?:\p{Lu}[\p{L}’'-]*\s+){0,4}?(?:Conference|Congress|Symposium|Convention|Summit|Study Day|Fachtagung|Jahrestagung|Tagung|Kongress|Journées?|Colloque|Congrès|Jornadas?|Congreso|Simposio|Studiedag|Congres|Symposion|\p{Lu}\p{Ll}+(?:tagung|kongress|congres|symposium|tag|tage|dag|dagen))\b`)
	// beforeNoun is a name in front of the word for what it names: "attended our Rope Splicing workshop".
	beforeNoun = matching(`(?:^|[\s,(])(?:attended|attending|joined|joining|completed|completing|took part in|taking part in|participated in|participation in|attendance at|passed)\s+(?:the|our|your|its|their|this|a|an)\s+((?:\p{Lu}[\p{L}’'&-]*|\d{4})(?:\s(?:(?:of|for|and|in|the|to|on|with|&|–)\s){0,2}(?:\p{Lu}[\p{L}’'&-]*|\d{1,4})){1,9})\s(?:online |virtual |live |one-day |two-day |half-day |training |refresher )?(?:workshop|course|seminar|webinar|training|class|session|lecture|masterclass|programme|program|module)\b`)
	// conferenceEnd begins what stands behind the name: the day, the place, a clause.
	conferenceEnd = matching(`\s*[,.;:(]|\s+(?i:on|am|vom|le|les|du|el|los|del|op|van|from|den)\s+(?:(?i:the)\s+)?(?:\p{L}+(?:day|tag|di|dag|es|o),?\s+)?\d|\s+(?i:held|hosted|organi[sz]ed|organisée?s?|celebrad[oa]s?|gehouden|teil|teilgenommen|in|at|zu)\s|\s+\d{1,3}(?:\D|$)|$`)
)

// namedEvents finds the names of conferences behind the words for being there, and names before the
// word for what they name.
func (l *look) namedEvents(i int, text string, add func(at, int, string)) {
	for _, m := range beforeNoun.FindAllStringSubmatchIndex(text, -1) {
		if name := text[m[2]:m[3]]; !l.isBody(name) {
			add(l.passageAt(i).within(m[2], m[3]-m[2]), 80, "the sentence says what it was called")
		}
	}
	for _, m := range beingThere.FindAllStringIndex(text, -1) {
		rest := text[m[1]:]
		c := conference.FindStringIndex(rest)
		if c == nil {
			c = eventFirst.FindStringIndex(rest)
		}
		if c == nil || strings.ContainsAny(head(rest[c[1]:], 3), "“„«\"") {
			continue
		}
		end := conferenceEnd.FindStringIndex(rest[c[1]:])
		name := strings.TrimRight(rest[:c[1]+end[0]], " ")
		if n := len(strings.Fields(name)); n > 1 && n < 14 && !strings.ContainsAny(name, "“„«\"") {
			add(l.passageAt(i).within(m[1], len(name)), 80, "the sentence says what it was called")
		}
	}
}
