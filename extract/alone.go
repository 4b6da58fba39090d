package extract

import (
	"strings"
)

// What a line that stands alone says by its grammar.
var (
	// earned is a line that names what was earned, with its subject.
	earned = matching(`(?i)^(?:\p{L}+ ){0,3}(?:diploma|certificate|degree|licen[cs]e|master|bachelor|diplome|diplôme|certificat|brevet|licence|título|titulo|diplomado|certificado|licenciatura|máster|diplom|zertifikat|fachausweis|brevet|getuigschrift|certificaat|brevet|\p{L}+diploma|\p{L}+diplom)\s(?:in|of|as|en|de|d['’]|als|für|zum|zur|voor|van|para|pour)\s?(?:\p{Ll}+\s)?\p{L}.{4,90}$`)
	// noCredential is a certificate of something that was done rather than of what somebody is.
	noCredential = words(`attendance|participation|completion|achievement|presence|appreciation|employment|membership|assistance|reussite|suivi|asistencia|participacion|aprovechamiento|trabajo|travail|stage|teilnahme|anwesenheit|deelname|aanwezigheid|examen|examens?|exam|examination`)
	// stateOf is a thing and what became of it: "Module completed", "Badge freigeschaltet".
	stateOf = matching(`^\W*(?:(?:the|your|you|sie|ihre?|votre|vous|su|usted|uw|je|u) )?(?:\S+ ){0,2}(?:unlocked|completed?|earned|achieved|finished|paid|abgeschlossen|freigeschaltet|erreicht|bezahlt|beendet|terminee?|debloquee?|reussie?|validee?|payee?|completad[oa]|finalizad[oa]|desbloquead[oa]|superad[oa]|pagad[oa]|voltooid|afgerond|ontgrendeld|betaald)\W*$`)
	// eventIn are words for an event, also within a compound.
	eventIn = stems(`kurs|lehrgang|seminar|schulung|tagung|fortbild|workshop|webinar|course\b|training|\bstage|atelier|\bcurso|\btaller|jornada|congres|kongress|cursus|opleiding|bijscholing|nascholing|studiedag|symposi|summit|masterclass|refresher|auffrischung|introduc|einfuhrung|inleiding|grundlagen|fundament|notions|bases`)
	// formName is a form that somebody filled in.
	formName = matching(`(?i)(?:^|\s)(?:\p{L}*form|\p{L}*formular|formulaire|formulario|\p{L}*formulier|stub|slip|talon|\p{L}*abschnitt|boleto|\p{L}*strook)(?:\s[–-]|$)`)
	// byEnds ends in front of who did it.
	byEnds = matching(`\s(?:by|von|durch|par|por|door)$`)
	// editionOf is an event by its year and its theme: "Forum 2025: Designing for Drift".
	editionOf = matching(`\s(?:19|20)\d\d: \p{Lu}`)
)

// saysState reports a line that says what became of something, is a form, or has a person
// or somebody's office behind it.
func (l *look) saysState(text string) bool {
	low := fold(text)
	if stateOf.MatchString(low) || strings.HasSuffix(text, "!") || formName.MatchString(text) {
		return true
	}
	label, value, parted := strings.Cut(text, ": ")
	if parted && beginsItem(text) && (heading.FindStringIndex(fold(value)) != nil && startsLower(value) || isPersonal(value) && (len(strings.Fields(label)) < 3 || byEnds.MatchString(fold(label))) || hasFigure(value) && len(strings.Fields(value)) < 5 && !hasFigure(label)) {
		return true
	}
	first, rest, comma := strings.Cut(text, ", ")
	return comma && len(strings.Fields(first)) < 4 && len(strings.Fields(rest)) < 4 && officeWord.MatchString(fold(rest)) && !eventIn.MatchString(fold(first))
}

// titleLike returns how much the words of a line speak for a title: a word for an event, or
// a theme with its subtitle.
func titleLike(text string) int {
	score := 0
	if eventIn.MatchString(fold(text)) {
		score += 5
	}
	if label, value, parted := strings.Cut(text, ": "); parted && capitalised(value) && len(strings.Fields(label)) > 1 && !hasFigure(text) {
		score += 5
	}
	return score
}
