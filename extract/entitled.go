package extract

import (
	"strings"

	"evidencevault/extract/paper"
)

// A title may be told in so many words: "under the name Bearings That Sing", "the day's subject was".

const (
	wordName  = `(?:name|title|heading|motto|theme|banner|titel|namen|thema|stichwort|leitwort|überschrift|titre|nom|intitulé|thème|título|nombre|lema|tema|naam|noemer)`
	wordTopic = `(?:subject|topic|theme|title|thema|gegenstand|titel|sujet|thème|titre|intitulé|tema|título|asunto|onderwerp)`
)

var (
	// underName holds what stands behind "under the name".
	underName = matching(`(?:^|[\s,(])(?i:under the ` + wordName + `(?: of)?|by the name of|(?:unter|mit) dem ` + wordName + `|sous (?:le |l['’])` + wordName + `(?: de)?|bajo el ` + wordName + `(?: de)?|con el ` + wordName + `(?: de)?|onder (?:de|het) ` + wordName + `(?: van)?|met (?:de|als) ` + wordName + `)[: ]\s*(\p{Lu}.{2,140})`)
	// topicWas ends a line, or stands before a title: "the subject was", "das Thema lautete".
	topicWas = matching(`(?i)(?:^|[\s'’])` + wordTopic + `(?: (?:of|der|des|de|del?|van) [^.,;:]{2,40})?,? (?:was|is|being|war|ist|lautete?|hieß|était|est|fut|fue|era|es|luidde|luidt|heette)\s*:?\s*$`)
	// topicIs holds the title that follows it in the same line.
	topicIs = matching(`(?:^|[\s'’])(?i:` + wordTopic + `)(?: (?:of|der|des|de|del?|van) [^.,;:]{2,40})?,? (?:was|is|being|war|ist|lautete?|hieß|était|est|fut|fue|era|es|luidde|luidt|heette):?\s+(\p{Lu}[^.;]{5,120})`)
)

// stoodAtEnd is the verb with which a German or Dutch clause ends behind the title.
var stoodAtEnd = matching(`\s(?:stand|steht|lief|läuft|stattfand|angeboten|durchgeführt|veranstaltet|plaatsvond|liep|loopt)(?: (?:wurde|wird|werd|wordt|hat))?$`)

// titlesNamed finds what a sentence says the thing was called, or was about.
func (l *look) titlesNamed(i int, text string, add func(at, int, string)) {
	for _, p := range []*pattern{underName, topicIs} {
		m := p.FindStringSubmatchIndex(text)
		if m == nil || strings.ContainsAny(head(text[m[2]:], 3), "“„«\"") {
			continue
		}
		cut := l.cutTitle(text[m[2]:m[3]])
		if k := strings.IndexAny(cut, "(“„«\""); k > 0 {
			cut = strings.TrimRight(cut[:k], " ,")
		}
		cut = stoodAtEnd.ReplaceAllString(cut, "")
		if n := len(strings.Fields(cut)); n < 2 || n > 14 || isPersonal(cut) && l.namesAttendee(cut) {
			continue
		}
		add(l.passageAt(i).within(m[2], len(cut)), 84, "the sentence says what it was called")
	}
	if next := l.nextPassage(i); topicWas.MatchString(text) && next >= 0 && capitalised(l.passages[next].text) && len(strings.Fields(l.passages[next].text)) < 16 && !quotesRE.MatchString(l.passages[next].text) {
		if cut := l.cutTitle(l.passages[next].text); cut != "" {
			add(l.passageAt(next).within(0, len(cut)), 86, "the line before announces it")
		}
	}
}

// atPlace is the word for the event, and the place, behind a title on a bill: "… course at
// Lincoln, 6 and 7 October".
var atPlace = matching(`\s(?:(?i:course|seminar|workshop|training|class|masterclass|webinar|conference|study day|kurs|lehrgang|seminar|schulung|formation|stage|atelier|curso|taller|cursus|training|studiedag)s?,? |held )(?i:at|in|held (?:at|in)|à|en|a|te|im?n?|zu) \p{Lu}[\p{L}’'-]+(?: \p{Lu}[\p{L}’'-]+){0,2}$`)

// startsAtEnd is left of when something begins: "…, aanvang", "…, starting".
var startsAtEnd = matching(`(?i)\s*[,;(–—-]\s*(?:(?:course|class|training|kurs|cours|stage|formation|curso|cursus) )?(?:aanvang|begin(?:t|nend|ning|s)?|start(?:s|ing|et|ed)?(?: (?:on|am|op))?|commencing|commences|from|ab|beginn(?:end)?(?: am)?|gestartet am|startdatum|début(?:e|ant)?(?: le)?|à (?:partir du|compter du)|démarrage|rentrée|inicio|comienzo|empieza|a partir del?|desde el?|vanaf|ingaande|first (?:session|day|evening|meeting)|erster (?:tag|termin|abend)|première séance|primera sesión|eerste (?:les|avond|bijeenkomst)|(?:begun|started|begonnen|gestart|aangevangen|iniciad|comenzad|empezad|finalizad|concluid|commenc|entam|début|démarr)(?:[oaé]e?s?)?(?: (?:on|am|op|le|el))?)\s*:?\s*$|\s+(?:starts?|starting|begins?|beginning|begint|beginnt|beginnend|startet|start|comienza|empieza|débutant|commençant|débute|commence|iniciad[oa]s?|comenzad[oa]s?)(?: (?:on|am|op|le|el))?\s*$`)

// committeeBehind finds the committee that stands behind its body in one line at the head.
func (l *look) committeeBehind() []guess {
	for i := range l.passages[:min(5, len(l.passages))] {
		text := l.passages[i].text
		for _, mark := range []string{" — ", " – ", " - ", " · ", " | ", ": ", ", "} {
			k := strings.LastIndex(text, mark)
			if k < 0 || len(text) > 110 {
				continue
			}
			first, last := text[:k], text[k+len(mark):]
			if n := len(strings.Fields(last)); n > 0 && n < 7 && capitalised(last) && l.isBody(first) && committeeHead.MatchString(fold(last)) {
				return []guess{{text: last, at: l.passageAt(i).within(k+len(mark), len(last)), score: 90, why: committeeAtHead, sure: true}}
			}
		}
	}
	return nil
}

// wordsBefore extends a title that a word of its own stands before: "the Practical Examination
// for Sailmakers" of which only "Examination for Sailmakers" was found.
func (l *look) wordsBefore(g guess) guess {
	text := l.passages[g.at.passage].text
	from := g.at.span.From
	if l.kind == paper.Credential && strings.HasPrefix(text[from:], g.text) {
		if m := earnedIn.FindStringSubmatchIndex(text[:from]); m != nil {
			begin := m[2]
			g.text, g.at.span.From = text[begin:from+len(g.text)], begin
			return g
		}
	}
	if l.kind == paper.Receipt || from == 0 || !eventFirst.MatchString(g.text) || !strings.HasPrefix(text[from:], g.text) {
		return g
	}
	for n := 0; n < 3; n++ {
		lead := strings.TrimRight(text[:from], " ")
		k := strings.LastIndexByte(lead, ' ') + 1
		if word := lead[k:]; k == 0 || len(lead) == from || !plainCapital.MatchString(word) || ended(strings.TrimRight(lead[:k], " ")) {
			break
		}
		from = k
	}
	if from < g.at.span.From {
		g.text = text[from : g.at.span.From+len(g.text)]
		g.at.span.From = from
	}
	return g
}

// earnedIn is what somebody earned in the subject behind it, where it begins the line.
var earnedIn = matching(`(?:^|(?:^|\s)(?:the|an?|das|den|die|le|la|el|un|het|een|ein) )((?:(?:Level|Stage|Part|Grade|Stufe|Niveau|Nivel) (?:\d|\p{Lu}+) )?(?:\p{Lu}\p{Ll}+ ){0,2}(?:Certificate|Diploma|Award|Licen[cs]e|Qualification|Certificat|Diplôme|Certificado|Diploma|Título|Certificaat) (?:in|of|en|de) )$`)

var (
	eventFirst   = matching(`^(?:Examinations?|Exam|Course|Workshop|Seminar|Conference|Symposium|Masterclass|School|Study Day|Congress|Webinar|Meeting|Training) (?:for|of|on|in|:)`)
	plainCapital = matching(`^\p{Lu}[\p{Ll}’'-]{2,}$`)
)
