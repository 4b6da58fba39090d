package extract

import "strings"

var (
	// passedOnFirst are the marks of an answer and of a message passed on.
	passedOnFirst = matching(`^(?i:(?:re|tr|fwd?|wg|aw|rv|antw|doorst|sv) ?: ?)+`)
	// provesFirst begins the subject of a message that says what it proves of what: "Certificate of
	// attendance for ", "Ihre Teilnahme am Seminar ".
	provesFirst = matching(`^(?i:(?:your |ihre? |deine? |votre |su |tu |uw |je |jouw )?(?:(?:certificate|confirmation|proof|record|attestation|certificat|certificado|constancia|confirmación|bewijs|bevestiging|verklaring|certificaat|bestätigung|bescheinigung|nachweis)(?: (?:of|de|d['’]|del|van|der|über die|ihrer) ?(?:your |votre |su |uw )?(?:attendance|participation|completion|présence|participation|suivi|asistencia|participación|aanwezigheid|deelname|teilnahme))?|(?:attendance|participation|présence|participation|asistencia|participación|aanwezigheid|deelname|teilnahme)(?:bescheinigung|bestätigung|nachweis)?)(?: (?:at|in|for|to|on|à|a|au|pour|en|para|aan|bij|voor|an|am|für|bei))(?: (?:the|our|der|dem|die|das|la|le|les|el|los|las|de|het|unserem|unserer|notre|nuestr[oa]|onze))?(?: ` + accented(eventWord) + `)?:? )`)
)

// titlesOfSubject finds the name of what a message is about in its subject, where that says what the
// message proves: "Your certificate of attendance: Ropes at Sea".
func (l *look) titlesOfSubject() []guess {
	if l.doc.Mail == nil || len(l.passages) == 0 {
		return nil
	}
	subject := strings.TrimSpace(passedOnFirst.ReplaceAllString(l.doc.Mail.Subject, ""))
	name, score := "", 76
	if m := quotesRE.FindStringSubmatchIndex(subject); m != nil {
		from, to := group(m)
		name = subject[from:to]
	} else if head, rest, ok := strings.Cut(subject, ": "); ok && (aboutPaper.MatchString(fold(head)) || heading.MatchString(fold(head))) {
		name = rest
	} else if m := provesFirst.FindStringIndex(subject); m != nil {
		name, score = subject[m[1]:], 68
	}
	name = strings.TrimRight(l.undated(name), " ,.;:(–-")
	if len(strings.Fields(name)) < 2 || !capitalised(name) || l.isBody(name) || isPersonal(name) || heading.MatchString(fold(name)) {
		return nil
	}
	return []guess{{text: name, at: at{0, l.passageAt(0).span}, score: score, why: "the subject of the message names it", sure: score > 70}}
}
