package extract

import (
	"slices"
	"strings"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// The name of a body at the head of a paper often fills several lines, flush with the left
// margin or the right one, or centred, and other things stand beside it.

// firmNames are the names of two partners, of which the line beneath says what they are.
var firmNames = matching(`^\p{Lu}[\p{L}’'-]+(?:,? \p{Lu}[\p{L}’'-]+)*,? (?:&|\+|und|et|y|en|and) \p{Lu}[\p{L}’'-]+$`)

// endsOpen ends a line with what joins it to the next.
var endsOpen = matching(`(?i)(?:\s(?:&|\+|of|for|and|the|und|für|der|des|im|am|de|du|la|le|les|et|pour|y|del|los|las|para|van|voor|en|het))$`)

// underHead returns the cell right beneath a cell at the head that is in line with it at the
// left, in the middle or at the right; -1 if there is none. flush says that it is at the left.
func (l *look) underHead(ai int) (below int, flush bool) {
	a := &l.cells[ai]
	height := a.box[3] - a.box[1]
	best, least := -1, 3*height/2+1
	for k := range min(len(l.cells), 16) {
		b := &l.cells[k]
		gap := b.box[1] - a.box[3]
		if k != ai && b.page == a.page && b.box[1] >= a.box[1]+height/2 && min(a.box[2], b.box[2]) > max(a.box[0], b.box[0]) && gap < least {
			best, least = k, gap
		}
	}
	if best < 0 {
		return -1, false
	}
	b := &l.cells[best]
	flush = abs(b.box[0]-a.box[0]) <= 100
	if flush || abs(b.box[0]-a.box[0]) <= height/2 || abs(b.box[2]-a.box[2]) <= height/2 || abs(b.box[0]+b.box[2]-a.box[0]-a.box[2]) <= height {
		return best, flush
	}
	return -1, false
}

// stackedName returns the name of a body that fills several short lines at the head of the
// paper, of which none alone is its name: "Severn Vale" over "Speech Therapy" over "Circle".
// Lines that are not flush with the left have to run on, or the name to stand elsewhere too.
func (l *look) stackedName() (guess, bool) {
	if !l.boxed || len(l.cells) < 3 {
		return guess{}, false
	}
	first := &l.cells[0]
	name, runs, even := first.text, false, true
	var rest []string
	for a, k := 0, 1; k < 5; k++ {
		next, flush := l.underHead(a)
		if next < 0 {
			break
		}
		o, b := &l.cells[a], &l.cells[next]
		if b.size != o.size || b.bold != o.bold || b.box[1]-o.box[3] > o.box[3]-o.box[1] ||
			len(strings.Fields(b.text)) > 3 || hasFigure(b.text) || roleOf(b.text) != noRole || heading.MatchString(fold(b.text)) || l.isName(b.text) {
			break
		}
		runs, even = runs || runsOn(o.text), even && flush
		name, rest = name+" "+b.text, append(rest, b.text)
		a = next
	}
	if name == first.text || l.isBody(first.text) || len(strings.Fields(first.text)) > 3 || !l.isBody(name) || hasFigure(name) || heading.MatchString(fold(first.text)) {
		return guess{}, false
	}
	again := strings.Contains(l.all, fold(name))
	if !even && !runs && !again || !runs && !again && (l.namedWhole(rest) || overName(first.text, rest[0])) {
		return guess{}, false
	}
	score := 84
	if again {
		score = 92
	}
	return guess{text: name, at: l.whole(0), score: score, why: "it fills the lines at the head", sure: true}, true
}

// namedWhole reports lines of which one alone is the name of a body, so that the one above them is
// something else: a logo, a notice, what the body says of itself. Two words may both say only what
// sort of body it is: "Training Trust".
func (l *look) namedWhole(lines []string) bool {
	return slices.ContainsFunc(lines, func(text string) bool {
		return len(strings.Fields(text)) > 2 && l.isBody(text) && capitalised(text)
	})
}

// overName reports a line right above the name of a body, next, that is neither that name nor the begin
// of it: a way to reach somebody, a number, the letters of a logo, or words that a body says of itself.
func overName(text, next string) bool {
	if runsOn(text) || strings.HasSuffix(text, "-") || !capitalised(next) || !bodyWord.MatchString(fold(next)) || bodyWord.MatchString(fold(text)) || len(strings.Fields(next)) < 2 {
		return false
	}
	if hasFigure(text) || reachLine(text) || siteAlone.MatchString(text) || strings.Contains(text, ": ") {
		return true
	}
	if logoLetters.MatchString(text) {
		return true
	}
	return saysOfItself(text)
}

// besideName reports a line at the head that is no name, over one that may be: the address of a site, the
// number of a page, or words that a body says of itself.
func (l *look) besideName(text, next string) bool {
	if siteAlone.MatchString(text) || pageAlone.MatchString(fold(text)) {
		return true
	}
	return l.slogan(text) && capitalised(next) && !saysOfItself(next) && !hasFigure(next) && roleOf(next) == noRole && !heading.MatchString(fold(next)) && !isPersonal(next) && len(strings.Fields(next)) < 8
}

// slogan reports words that a body says of itself, in a language that writes names with capitals.
func (l *look) slogan(text string) bool {
	return l.lang != find.French && l.lang != find.Spanish && saysOfItself(text) && !l.isBody(text)
}

// saysOfItself reports a line with a small letter at the begin of half of its words or more, or with the
// year since which a body does its work: no name.
func saysOfItself(text string) bool {
	words, small := strings.Fields(text), 0
	for _, w := range words[min(1, len(words)):] {
		if startsLower(w) && !smallWord.MatchString(fold(w)) {
			small++
		}
	}
	return small > 1 && 2*small+1 >= len(words) || sinceYear.MatchString(fold(text))
}

var (
	// sinceYear ends what a body says of its age.
	sinceYear = matching(`\S (?:since|est\.?|established|seit|gegrundet|depuis|fondee? en|desde|sinds|anno) (?:1[89]|20)\d\d$`)
	// siteAlone is the address of a site and nothing else.
	siteAlone = matching(`^(?:https?://|www\.)\S+$`)
	// pageAlone is the number of a page.
	pageAlone = matching(`^\W*(?:page|seite|pagina|blatt|sheet|folio)\W{0,2}\d{1,3}(?: ?(?:of|von|/|de|sur|van) ?\d{1,3})?\W*$`)
	// logoLetters are the few capitals of a logo.
	logoLetters = matching(`^(?:\p{Lu}{1,4}|\p{Lu}(?: ?[·.&+]? ?\p{Lu}){1,3})$`)
)

// standing reports what a body says of its own standing: whose member it is, who recognised it. On a
// paper about a membership that is what it proves.
func (l *look) standing(text string) bool {
	return l.kind != paper.Membership && ownStanding.MatchString(fold(text))
}

// ownStanding begins a line with what somebody is to a body, without anybody's name before it.
var ownStanding = matching(`^\W*(?:(?:a |an |ein |eine |un |une |una |een )?(?:proud |full |founding |founder |corporate |associate |affiliated? |active )?(?:member|mitglied|membre|miembro|lid|mitgliedsverband|affiliate)(?:s|organi[sz]ation)? (?:of|der|des|im|in|bei|de|d'|del|van)|(?:officially |staatlich |offiziell |officiellement |oficialmente |officieel )?(?:accredited|recogni[sz]ed|approved|endorsed|supported|sponsored|funded|affiliated|anerkannt|akkreditiert|gefordert|zugelassen|unterstutzt|accreditee?|reconnue?|agreee?|soutenue?|financee?|acreditad[oa]|reconocid[oa]|homologad[oa]|financiad[oa]|geaccrediteerd|erkend|ondersteund|gesubsidieerd)(?: (?:training |course |learning )?(?:provider|centre|center))? (?:by|through|to|with|durch|von|vom|par|por|door|bij)|(?:organisme|etablissement|entidad|einrichtung|instelling|centre|centro)(?: de formation| de formacion)? (?:declaree?|enregistree?|agreee?|certifiee?|habilitee?|registrad[oa]|acreditad[oa]|homologad[oa]|erkend)(?: [a-z]+)? (?:sous|par|aupres|con|por|en|bajo|onder|door))\b`)

// headGoesOn returns the name of a body in cell ci that the line beneath it goes on: with a
// small word, or with the legal form that the first line lacks.
func (l *look) headGoesOn(ci int) (guess, bool) {
	a := &l.cells[ci]
	pair := firmNames.MatchString(a.text)
	if !l.boxed || len(l.cells) < 3 || a.page != l.cells[0].page || len(l.passages[a.passage].cells) > 1 || !pair && !l.isBody(a.text) || formAtEnd.MatchString(a.text) || hasFigure(a.text) {
		return guess{}, false
	}
	next, _ := l.underHead(ci)
	if next < 0 {
		return guess{}, false
	}
	b := &l.cells[next]
	form := formAtEnd.MatchString(b.text) && !ended(a.text)
	far := 12
	if form {
		far = 35 // the form is often set smaller
	} else if ofWhat.MatchString(b.text) {
		far = 60 // so is what a body is of, or for
	}
	if abs(a.size-b.size)*100 > far*a.size || hasFigure(b.text) || heading.MatchString(fold(b.text)) || l.isName(b.text) || len(strings.Fields(b.text)) > 6 {
		return guess{}, false
	}
	if !form && !pair && l.hadToBreak(a, b) {
		return guess{text: a.text + " " + b.text, at: l.whole(ci), score: 86, why: "it goes on in the line beneath", sure: true}, true
	}
	if form || !pair && (goesOnSmall.MatchString(b.text) || endsOpen.MatchString(a.text) && capitalised(b.text) && !l.isName(b.text)) {
		return guess{text: a.text + " " + b.text, at: l.whole(ci), score: 86, why: "it goes on in the line beneath", sure: true}, true
	}
	return guess{}, false
}

// ofWhat begins a line that says what a body is of, or for.
var ofWhat = matching(`^(?i:of|for|and|für|der|des|de|du|del|d|van|voor|et|y|e|para|pour|zur?|zum|im|in|aan|bij)(?:(?:\s(?i:the|la|las|los|les|den|de|het|der))?\s(?:[lLdD]['’])?|['’])\p{Lu}`)

// mayGoOn reports the name of a body at the head beneath which, in line with it, stands a line in letters as large that
// may belong to it: "CENTRE FOR FOREST STUDIES" over "THREE ALDERS". On a picture sizes are measured, and do not tell.
func (l *look) mayGoOn(a at) bool {
	ci := l.cellAt(a)
	c := &l.cells[ci]
	if !l.boxed || ci > 4 || c.confidence == 100 || !l.endsPassage(a) || l.passages[a.passage].cells[0] != ci || formAtEnd.MatchString(c.text) {
		return false
	}
	next, _ := l.underHead(ci)
	if next < 0 {
		return false
	}
	b := &l.cells[next]
	low := fold(b.text)
	if 4*b.size < 3*c.size || allCaps(c.text) && !allCaps(b.text) || len(strings.Fields(b.text)) > 3 || hasFigure(b.text) || !capitalised(b.text) || b.box[1]-c.box[3] > c.box[3]-c.box[1] || b.hidden {
		return false
	}
	if roleOf(b.text) != noRole || heading.MatchString(low) || beginsAsHeading(b.text) || reachLine(b.text) || startsStreet.MatchString(b.text) || officeLine(b.text) || l.slogan(b.text) || strings.ContainsAny(b.text, ",;:·|•@") || didIt.MatchString(low) || certifyLine.MatchString(low) || kindOfPaper.MatchString(low) {
		return false
	}
	return utf8.RuneCountInString(b.text) > 3 && (!isPersonal(b.text) || allCaps(b.text))
}

// kindOfPaper names what a paper is.
var kindOfPaper = words(`\S*(?:rechnung|quittung|beleg|schein|bestatigung|bescheinigung|zertifikat|zeugnis|urkunde|protokoll|liste|ausweis|karte|nachweis|pass)|invoice|receipt|certificate|statement|diploma|licen[cs]e|card|letter|record|notice|minutes|register|transcript|report|facture|recu|attestation|certificat|diplome|carte|releve|proces-verbal|feuille|factura|recibo|certificado|constancia|diploma|titulo|carne|acta|hoja|expediente|factuur|kwitantie|bewijs|getuigschrift|certificaat|diploma|pas|kaart|verklaring|overzicht|notulen|verslag|lijst`)

// hadToBreak reports two lines of one size and weight, much larger than the text, of which the
// second begins with a word that found no room behind the first: a name too wide for the page.
func (l *look) hadToBreak(a, b *cell) bool {
	if a.size != b.size || a.bold != b.bold || a.size*10 < l.bodySize()*14 || !capitalised(b.text) || len(strings.Fields(b.text)) > 3 || ended(a.text) || beginsAsHeading(b.text) || roleOf(b.text) != noRole || l.isBody(b.text) && len(strings.Fields(b.text)) > 1 {
		return false
	}
	left, right := a.box[0], a.box[2]
	for i := range l.cells {
		if c := &l.cells[i]; c.page == a.page {
			left, right = min(left, c.box[0]), max(right, c.box[2])
		}
	}
	n := 0
	for _, r := range a.text {
		if r != ' ' {
			n++
		}
	}
	letter := (a.box[2] - a.box[0]) / max(n, 1)
	return a.box[2]-a.box[0]+letter*(len([]rune(firstWord(b.text)))+1) > right-left
}

// withForm gives the first of the bodies its legal form where the paper writes it elsewhere:
// "SKERRY ACCESS" at the head, "Skerry Access Ltd" at the foot.
func withForm(list []guess) []guess {
	if len(list) == 0 || formAtEnd.MatchString(list[0].text) {
		return list
	}
	key := fold(list[0].text) + " "
	for _, o := range list[1:] {
		if rest, ok := strings.CutPrefix(strings.ReplaceAll(fold(o.text), ",", ""), key); ok && o.score >= 40 && formAlone.MatchString(rest) {
			list[0].text, list[0].at = o.text, o.at
			break
		}
	}
	return list
}

// formAlone is a legal form and nothing else.
var formAlone = matching(`^(?:inc|ltd|limited|llc|plc|llp|clg|(?:gemeinnutzige )?g?gmbh|mbh|ag|kg|ohg|ug|e\.\s?v|e\.\s?g|asbl|vzw|nv|bv|n\.\s?v|b\.\s?v|s\.?\s?a|s\.?\s?l|sarl|sas|s\.\s?a\.\s?s|s\.\s?c|a\.\s?c|s\.?\s?coop|s\.\s?l\.\s?[lu]|slu|s\.\s?a\.\s?u|sau|sccl|scop|scic|eurl|sasu|snc|gbr|e\.\s?k|v\.\s?o\.\s?f|vof|cic|srl)\.?$`)
