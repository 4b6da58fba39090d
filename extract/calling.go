package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
)

// calling is what somebody is by training, before the name: letters without a vowel
// ("ZTM"), capitals with points ("M.V.Z."), or the word for a profession.
var calling = matching(`^(?:(?:\p{Lu}\.){3,5}|[B-DF-HJ-NP-TV-Z]{2,5}|\p{Lu}\p{L}*(?:berater|prüfer|meister|ingenieur|techniker|pfleger|anwalt|anwält|therapeut|pädagog|assistent|gutachter|sanitäter|dolmetscher|übersetzer|sekretär|wirt|praktiker)(?:in|e)?|\p{Lu}\p{Ll}{5,}(?:erin|orin|istin|eurin|ärin|ältin)|(?:Médic[oa]|Contadora?|Licenciad[oa]|Ingenier[oa]|Técnic[oa]|Maestr[oa]|Enfermer[oa]|Abogad[oa]|Arquitect[oa]|Psicólog[oa]|Traductora?)(?: (?:Veterinari[oa]|Públic[oa]|Civil|Industrial|Agrónom[oa]|Cirujan[oa]|Superior))?)\s+`)

// pointed are two capitals with points, which before a first name are a degree in Spanish
// and initials elsewhere; onlyPointed are nothing but such letters.
var (
	pointed     = matching(`^(?:\p{Lu}\.){2}\s+`)
	onlyPointed = matching(`^(?:\p{Lu}\.\s?)+$`)
)

// withoutCalling returns how many bytes of a name are the calling of the person, where a
// first name and a surname are left behind it.
func (l *look) withoutCalling(name string) int {
	skip := 0
	for _, p := range []*pattern{calling, calling, pointed} {
		m := p.FindStringIndex(name[skip:])
		if m == nil || p == pointed && l.lang != find.Spanish {
			continue
		}
		rest := name[skip+m[1]:]
		if full, _ := nameWords(rest); full > 1 && !onlyPointed.MatchString(rest) && !allCaps(name) {
			skip += m[1]
		}
	}
	return skip
}

// isCalling reports a form of address or a profession, as it stands behind a name and a comma.
func isCalling(text string) bool {
	return onlyTitles.MatchString(text+" ") || !strings.Contains(text, " ") && calling.MatchString(text+" ")
}

// betweenVerb stands between a name and its verb: a number in brackets, a calling between commas.
var betweenVerb = matching(`^\s*(?:\([^()]{2,60}\)|,[^,.;:]{3,60},)\s*`)

// didBehind reports that a verb of taking part stands behind a name, right there or
// behind a bracket or what stands between commas.
func didBehind(rest string) bool {
	if nameVerb.MatchString(fold(head(rest, 80))) {
		return true
	}
	m := betweenVerb.FindStringIndex(rest)
	return m != nil && nameVerb.MatchString(" "+fold(head(rest[m[1]:], 80)))
}

// givesEnd ends a line that gives the paper to the person in the next one, whatever the
// form of its verb: "la direction décerne à", "otorga la presente a", "ten behoeve van".
var givesEnd = matching(`(?:^|\s)(?:(?:decern|remet|remis|delivr|octroi|octroy|confer|confier|otorg|conced|expid|exped|extiend|extend|entreg|award|present|grant|issu|verlieh|verleih|uberreich|ausgestell|uitgereik|uitgegev|verle?en|toegeken|overhandig)\w*(?: \S+){0,3} (?:a|au|al|a la|aan|an|to|upon|fur|voor|for|para|pour)|ten (?:behoeve|name) van|op naam van|a nombre de|in the name of|auf den namen|au benefice de)(?: (?:la|el|le|de|the|der|die|den))?\s*$|^(?:a|al|a la|an|aan|to|the|fur|voor|pour|para)$`)

// Labels whose verb says that their value is a person: the one who did it, for whom it was
// made, or who has opened the page.
var (
	doneBy   = matching(`(?:attend|complet|achiev|earned|taken|follow|besucht|absolv|abgeschloss|suivi|realis|realiz|asisti|cursad|superad|bijgewoond|gevolgd|behaald|afgerond|voltooid)\w* (?:by|door|von|durch|par|por)$`)
	madeFor  = matching(`(?:ausgestellt|erstellt|bestimmt|issued|prepared|made out|delivre|remis|etabli|expedid|emitid|otorgad|extendid|uitgereikt|afgegeven|verstrekt|opgemaakt)\w*(?: \S+)? (?:fur|an|to|for|a|pour|aan|voor|para)$|(?:name|nom|nombre|namen) (?:of|de|van|von)$`)
	recordOf = matching(`^(?:\S+ ){0,3}\S*(?:record|transcript|statement|account|logbook|passport|nachweis|auszug|ubersicht|konto|releve|fiche|expediente|ficha|overzicht|dossier)$`)
	openAs   = matching(`^(?:logged|signed) in(?: as)?$|^(?:angemeldet|eingeloggt|ingelogd|aangemeld)(?: als)?$|^(?:connectee?|identifiee?)(?: en tant que)?$|^(?:conectad[oa]|identificad[oa])(?: como)?$|^sesion (?:iniciada|de)(?: por| como)?$`)
)

// asksPerson reports a label that asks for a person by its verb.
func asksPerson(low string) bool {
	return recordOf.MatchString(low) || doneBy.MatchString(low) || madeFor.MatchString(low) || openAs.MatchString(low)
}

// nameFirst reports a value that is a name of two parts and nothing else but a calling
// or something in brackets behind it.
func nameFirst(value string) bool {
	name, _, to, _ := person(value)
	full, _ := nameWords(name)
	if full < 2 || full > 4 || notName.MatchString(fold(name)) {
		return false
	}
	rest := strings.Trim(value[to:], " .")
	after, calls := strings.CutPrefix(rest, ", ")
	return rest == "" || strings.HasPrefix(rest, "(") || calls && (startsLower(after) || isCalling(after))
}

// beneathOffice reports a name in the last part of the paper with an office in its column
// in the row above: "The Chair" over "Ann Vey". Where a person stands above the office, it is
// theirs, and what stands beneath it is their body.
func (l *look) beneathOffice(i int) bool {
	if 2*i < len(l.passages) || len(l.passages[i].cells) != 1 {
		return false
	}
	ci := l.passages[i].cells[0]
	c := &l.cells[ci]
	if !l.boxed || c.row == 0 || l.isBody(c.text) {
		return false
	}
	for _, above := range l.rows[c.row-1] {
		a := &l.cells[above]
		text := strings.TrimRight(fold(a.text), " :,")
		if a.page == c.page && min(a.box[2], c.box[2]) > max(a.box[0], c.box[0]) && len(strings.Fields(text)) < 6 && startsOffice.MatchString(text) {
			return a.row == 0 || !slices.ContainsFunc(l.rows[a.row-1], func(k int) bool {
				p := &l.cells[k]
				name, _, _, _ := person(p.text)
				return p.page == a.page && min(p.box[2], a.box[2]) > max(p.box[0], a.box[0]) && isPersonal(name) && namesOnly(p.text, name)
			})
		}
	}
	return false
}

// startsOffice begins with the office of who signs, with its article.
var startsOffice = matching(`^(?:the |der |die |le |la |l'|el |de |het )?(?:(?:vice|deputy|acting|general|honorary|executive|programme|course)[ -])?(?:director|directress|secretary|president|chair\w*|registrar|treasurer|principal|dean|examiner|direktor(?:in)?|leiter(?:in)?|vorsitzende\w*|prasident(?:in)?|sekretar(?:in)?|directeur|directrice|presidente?|secretaire|tresorier\w*|directora?|presidenta|secretari[oa]|tesorer[oa]|coordinador\w*|voorzitter|secretaris|penningmeester|kassier)\b`)

// goOn adds to a title what a narrow line had to leave to the next: behind a small word, or
// the subtitle behind a colon in letters of the same size.
func (l *look) goOn(g guess) guess {
	p := l.passages[g.at.passage]
	if g.at.span.To > len(p.text) || len(p.cells) == 0 {
		return g
	}
	rest := strings.TrimSpace(p.text[g.at.span.To:])
	c := &l.cells[p.cells[len(p.cells)-1]]
	next := l.nextPassage(g.at.passage)
	if below := l.below(c.row, p.cells[len(p.cells)-1]); l.boxed && below >= 0 {
		next = l.cells[below].passage
	}
	if next < 0 || next == g.at.passage || len(l.passages[next].cells) == 0 {
		return g
	}
	text := l.passages[next].text
	n := &l.cells[l.passages[next].cells[0]]
	cut := l.cutTitle(text)
	switch {
	case cut == "" || len(strings.Fields(cut)) > 10 || l.isName(text) || n.size != c.size || n.bold != c.bold:
	case rest == "" && runsOn(g.text) && startsLower(text) && !strings.HasPrefix(text, "("):
		g.text += " " + cut
	case rest == "" && l.boxed && startsLower(text) && !strings.HasPrefix(text, "(") && c.size*10 >= l.bodySize()*12 && roleOf(g.text) == noRole && !l.cutBefore(text):
		g.text += " " + strings.TrimRight(text, " .,;") // a headline in two lines
	case rest == ":" && startsLower(text) && !ended(text) && len(strings.Fields(text)) < 9 && roleOf(g.text) == noRole:
		g.text += ": " + cut
	case rest == ":" && l.boxed && c.size*10 >= l.bodySize()*12 && roleOf(g.text) == noRole:
		g.text += ": " + cut
	}
	return g
}

// cutBefore reports a line that goes on the sentence around a title rather than the title.
func (l *look) cutBefore(text string) bool {
	if m := endTitle.FindStringIndex(" " + text); m != nil && m[0] == 0 {
		return true
	}
	return stopAt.MatchString(" "+head(text, 12)+" ") && len(l.undated(text)) < len(text)
}
