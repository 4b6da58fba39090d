package extract

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
)

// How a value stands with its label.
type standing int

const (
	inline  standing = iota // "Label: value"
	beside                  // in the next cell of the row
	beneath                 // in the row below
)

// A pair is a label with its value.
type pair struct {
	label string // folded
	role  role
	value at
	how   standing
	colon bool

	guessed bool // no list has the label; its stems and the value tell the role
}

// findPairs collects labels with their values.
func (s *sheet) findPairs() {
	s.upward = s.labelsBeneath()
	s.stacked = !s.upward && s.labelsAbove()
	s.pairsBeneath()
	for r, row := range s.rows {
		for k, ci := range row {
			if s.inTable(ci) || s.formed[ci] || s.inlinePairs(ci) || s.pairOverLines(r, ci) {
				continue
			}
			c := &s.cells[ci]
			role := s.roleHere(c.text)
			if value, ok := s.behindColon(row, k); ok {
				s.addPair(c.text+":", role, value, beside)
				continue
			}
			colon := strings.HasSuffix(c.text, ":")
			if !colon && neverBare.MatchString(fold(c.text)) && !s.labels[ci] {
				continue
			}
			if role == noRole && !colon && !s.labels[ci] || utf8.RuneCountInString(c.text) > 45 {
				continue
			}
			if (role == isNumber && hasFigure(c.text) || startsFigure(c.text) && !s.isLabel(ci)) && !colon {
				continue // the number stands with its label
			}
			if k+1 < len(row) && !(s.cells[row[k+1]].item && !colon) && (!s.isLabel(row[k+1]) || role == isPosition && len(row) == 2 && roleOf(s.cells[row[k+1]].text) == isSigner && !strings.HasSuffix(s.cells[row[k+1]].text, ":") && !s.labels[row[k+1]]) && !s.betterBelow(r, row, k, role) {
				s.addPair(c.text, role, s.whole(row[k+1]), beside)
				continue
			}
			if s.upward && !colon {
				if above := s.overhead(r, ci); above >= 0 && !s.isLabel(above) {
					s.addPair(c.text, role, s.whole(above), beneath)
				}
				continue
			}
			if total := s.columnTotal(r, ci, role); total >= 0 {
				s.addPair(c.text, role, s.whole(total), beneath)
				continue
			}
			if below := s.below(r, ci); below >= 0 && !s.isLabel(below) && !(role == isNumber && !colon && len(find.Dates(s.cells[below].text, nil)) > 0) && (colon || len(row) > 1 || s.looksLabel(ci) || s.stacked && s.fits(role, below) || asksDay(role) && s.onlyDays(below)) {
				s.addPair(c.text, role, s.whole(below), beneath)
			}
		}
	}
}

// roleHere is the role of a label on this paper: that of its words, or of what the paper calls itself.
func (s *sheet) roleHere(label string) role {
	if r := roleOf(label); r != noRole || !s.ofThisPaper(label) {
		return r
	}
	return isIssue
}

// behindColon returns what stands in the next cell of a row behind a colon of its own, as
// where a program sets the colons beneath each other.
func (s *sheet) behindColon(row []int, k int) (at, bool) {
	if k+1 >= len(row) {
		return at{}, false
	}
	text := s.cells[row[k+1]].text
	value := strings.TrimLeft(strings.TrimPrefix(text, ":"), " ")
	if !strings.HasPrefix(text, ":") || value == "" {
		return at{}, false
	}
	return s.whole(row[k+1]).within(len(text)-len(value), len(value)), true
}

// columnTotal returns the number in the row of the sum, where several numbers stand
// beneath a heading for credits or time; -1 if there is no such row.
func (s *sheet) columnTotal(r, ci int, role role) int {
	if role != isCredits && role != isDuration && role != isAttended || r >= len(s.rows) {
		return -1
	}
	head, numbers := &s.cells[ci], 0
	for next := r + 1; next < len(s.rows); next++ {
		row := s.rows[next]
		if len(row) == 0 && s.boxed {
			continue
		}
		if len(row) < 2 {
			return -1
		}
		last := row[len(row)-1]
		c := &s.cells[last]
		if !bareNumber.MatchString(c.text) || s.boxed && (c.page != head.page || min(c.box[2], head.box[2]) < max(c.box[0], head.box[0])-200) {
			return -1
		}
		if numbers++; numbers > 1 && totalWord.MatchString(fold(s.cells[row[0]].text)) {
			return last
		}
	}
	return -1
}

func (s *sheet) addPair(label string, r role, value at, how standing) {
	if how != inline {
		value.span = s.further(value.passage, value.span)
	}
	if r == noRole && salutes.MatchString(fold(label)) {
		return // a letter greets somebody, and what it goes on with is no value
	}
	guessed := false
	if (r == isCame || r == isWent) && !oneClock.MatchString(s.text(value)) {
		r = noRole // where somebody left from, or what they left
	}
	if r == isFinish && s.lang == find.German && strings.HasPrefix(fold(label), "termine") {
		r = isEvent // in French it is what is finished
	}
	if r == isNumber && how == beneath && !strings.Contains(label, ":") && len(find.Dates(s.text(value), nil)) > 0 {
		return // a day is no number of registration
	}
	r = s.dayOrHour(label, r, value)
	if r == isProvider && centreOnly.MatchString(strings.Trim(fold(label), " :")) && s.onExam() {
		r = isPlace
	}
	if r == noRole && forWhom.MatchString(fold(strings.Trim(label, " :"))) && !signsFor.MatchString(label) && isPersonal(s.text(value)) {
		r = isPerson
	}
	if asksDay(r) && !hasFigure(s.text(value)) {
		r = noRole // "Firma" asks for a day in Spanish and for a company in German
	}
	if r == noRole && (capitalised(label) || how != inline) {
		if r = stemRole(label, s.text(value)); r == isProvider && !strings.Contains(label, ":") && len(strings.Fields(label)) > 2 && !startsLower(label[strings.LastIndexByte(label, ' ')+1:]) {
			r = noRole // the name of a body itself: "Cedarbrook County Schools"
		}
		guessed = r != noRole
	}
	if r == isEvent && eventDay.MatchString(fold(strings.Trim(label, " :"))) && !hasFigure(s.text(value)) && capitalised(s.text(value)) {
		r = isTitle // "Training day: Inspecting Bell Frames"
	}
	if d := find.Dates(s.text(value), s.langs); r == isTitle && len(d) > 0 && d[0].From == 0 && d[0].Lack == find.Whole {
		r = isEvent // "Séance : samedi 18 avril 2026, centre de Mirabel"
	}
	s.pairs = append(s.pairs, pair{label: strings.Trim(fold(label), " :"), role: r, value: value, how: how, colon: strings.Contains(label, ":"), guessed: guessed})
}

// centreOnly is a label for the place where an examination was sat, and forWhom one that says for whom a copy was made.
var (
	centreOnly = whole(`(?:exam(?:ination)? |test |assessment )?(?:centre|center|centro|centrum)(?: (?:no|number|name)\.?)?`)
	forWhom    = matching(`^(?:extract|copy|print-?out|printed|record|confirmation|auszug|ausdruck|abschrift|bestatigung|extrait|copie|attestation|releve|extracto|copia|uittreksel|uitdraai|afschrift|bevestiging)(?: \p{L}+)? (?:for|fur|pour|para|voor)$`)
)

// onExam reports a paper whose first lines or labels speak of an examination.
func (s *sheet) onExam() bool {
	return slices.ContainsFunc(s.cells[:min(len(s.cells), 14)], func(c cell) bool { return ofExamination.MatchString(fold(c.text)) })
}

// ofExamination is a word for an examination.
var ofExamination = words(`exam(?:s|en|ens|ination|inations|inee|iners?)?|candidates?|\S*prufung\w*|prufling|kandidat(?:in)?|candidate?s?|examen|candidat[oa]|examens?|kandidate?n?`)

// dayOrHour returns the role of a label with the role r that is known by more than its words: by the day or
// the hour of its value, or by what the paper calls itself.
func (s *sheet) dayOrHour(label string, r role, value at) role {
	low, days := strings.Trim(fold(label), " :"), len(find.Dates(s.text(value), s.langs))
	if (r == noRole || r == isAttended) && days > 0 && sessionsSeen.MatchString(low) {
		r = isEvent // "Mornings attended: Mon 4 May"
	}
	if hour := s.hourRole(label, value); hour != noRole {
		r = hour
	}
	if r == noRole && days == 1 && countedDay.MatchString(low) {
		r = isEvent
	}
	if (r == isEvent || r == noRole) && s.ofThisPaper(label) {
		r = isIssue
	}
	return r
}

// salutes opens a letter.
var salutes = matching(`^(?:dear|sehr geehrte[rs]?|liebe[rs]?|guten tag|hallo|cher|chere|madame|monsieur|estimad[oa]s?|muy senor\S*|geachte|beste) `)

// countedDay is a label for one of several days of an event: "2nd evening", "Abend 2".
var countedDay = whole(`\d{1,2}(?:\.|st|nd|rd|th|er|ere|re|e|eme|o|a|º|ª|de|ste)? ?` + sessionNoun + `|` + sessionNoun + ` (?:no\.? |nr\.? |n° |n[º.] )?\d{1,2}`)

// hourRole is the role of a label behind whose last word an hour of the day stands: "Time, each evening,
// from" and "to"; noRole for any other.
func (s *sheet) hourRole(label string, value at) role {
	text := strings.Trim(fold(label), " :")
	if !oneClock.MatchString(s.text(value)) {
		return noRole
	}
	for _, rule := range furtherLabels {
		if (rule.role == isCame || rule.role == isWent) && rule.fits.MatchString(text) {
			return rule.role // "Signed in" may also stand over a signature
		}
	}
	if !strings.Contains(text, " ") {
		return noRole
	}
	switch text[strings.LastIndexByte(text, ' ')+1:] {
	case "from", "von", "ab", "de", "desde", "van", "vanaf":
		return isStart
	case "to", "until", "till", "bis", "a", "jusqu'a", "hasta", "tot":
		return isEnd
	}
	return noRole
}

// ofThisPaper reports a label for the day of a thing by which the paper calls itself in its heading: "Date
// of affidavit" on a "Course Completion Affidavit".
func (s *sheet) ofThisPaper(label string) bool {
	m := dayOfThing.FindStringSubmatch(strings.Trim(fold(label), " :"))
	if m == nil {
		return false
	}
	thing := m[1] + m[2]
	if heldThing.MatchString(thing + " ") {
		return false
	}
	return slices.ContainsFunc(s.cells[:min(len(s.cells), 16)], func(c cell) bool {
		return strings.HasSuffix(fold(c.text), thing) && len(strings.Fields(c.text)) < 8 && (allCaps(c.text) || c.size > s.usual || c.bold || len(strings.Fields(c.text)) == 1 && thing != fold(c.text))
	})
}

// dayOfThing is such a label, and heldThing what is held or done rather than made.
var (
	dayOfThing = matching(`^(?:date|datum|fecha|day) (?:of|de|du|de la|del|der|des|van|van de|van het)(?: (?:the|this|cette?|este?a?|dieser|deze|dit))? ?(\p{L}{5,})$|^(\p{L}{5,}) (?:vom|du|del?|van|dated)$`)
	heldThing  = words(`\S*(?:` + taughtThing + `)|events?|activit(?:y|ies)|occasion|\S*veranstaltung|evento|actividad|evenement|activite|activiteit|attendance|completion|participation|examination|\S*prufung|\S*teilnahme|presence|asistencia|participacion|deelname|afronding|membership|employment|payment|birth|naissance|nacimiento|geboorte|zahlung|paiement|pago|betaling`)
)

// eventDay is a label for an event of a day, which asks for the day or for what it was about.
var eventDay = whole(`(?:training|course|study|teaching|session|theme|seminar|lecture|workshop) day|(?:kurs|seminar|schulungs|lehrgangs|studien|themen|fortbildungs)tag|journee (?:de formation|d'etude|thematique)|jornada(?: (?:de formacion|tecnica|formativa))?|(?:cursus|studie|thema|trainings|les)dag`)

// onlyDays reports a cell of one or several days and nothing else but small words.
func (s *sheet) onlyDays(ci int) bool {
	text := s.cells[ci].text
	found := find.Dates(text, s.langs)
	if len(found) == 0 || found[0].Lack != find.Whole {
		return false
	}
	rest, from := "", 0
	for _, d := range found {
		rest, from = rest+text[min(from, d.From):d.From], d.To
	}
	return len(strings.TrimSpace(rest+text[from:])) < 8
}

// asksDay reports a label for a day that is never without a figure.
func asksDay(r role) bool {
	return slices.Contains([]role{isIssue, isAward, isBare, isExam, isFinish, isAccepted, isPublished}, r)
}

// isLabel reports a cell that is a label and nothing else.
func (s *sheet) isLabel(ci int) bool {
	text := s.cells[ci].text
	if startsFigure(text) && !strings.HasSuffix(text, ":") && !enumerator.MatchString(fold(text)) {
		if r := roleOf(text); r == isCredits || r == isDuration || r == isAttended {
			return false
		}
	}
	if neverBare.MatchString(fold(text)) && !s.labels[ci] {
		return false
	}
	return s.labels[ci] || strings.HasSuffix(text, ":") || roleOf(text) != noRole && !strings.Contains(text, ": ") && len(find.Dates(text, nil)) == 0
}

// looksLabel reports a label that stands alone in its row and is set as one: in
// capitals, or smaller than what stands beneath.
func (s *sheet) looksLabel(ci int) bool {
	c := &s.cells[ci]
	if allCaps(c.text) {
		return true
	}
	below := s.below(c.row, ci)
	return below >= 0 && s.boxed && (c.size*10 < s.cells[below].size*9 || s.labels[ci] && s.bolder(ci, below))
}

// below returns the nearest cell underneath that shares ci's left edge or middle, or -1.
func (s *sheet) below(r, ci int) int {
	c := &s.cells[ci]
	for next := r + 1; next < min(r+4, len(s.rows)); next++ {
		for _, bi := range s.rows[next] {
			b := &s.cells[bi]
			if !s.boxed {
				if b.column == c.column {
					return bi
				}
				continue
			}
			height := c.box[3] - c.box[1]
			if b.page != c.page || b.box[1]-c.box[3] > 5*height/2 {
				continue
			}
			if abs(b.box[0]-c.box[0]) <= height || abs(b.box[0]+b.box[2]-c.box[0]-c.box[2]) <= 2*height {
				return bi
			}
		}
		if !s.boxed && len(s.rows[next]) > 0 {
			return -1
		}
	}
	if s.boxed && s.parted {
		return s.beneath(ci)
	}
	return -1
}

// beneath does the same on a page that is read in columns, where what stands underneath
// may come later.
func (s *sheet) beneath(ci int) int {
	c := &s.cells[ci]
	height, best, least := c.box[3]-c.box[1], -1, 1<<30
	for bi := range s.cells {
		b := &s.cells[bi]
		gap := b.box[1] - c.box[3]
		if b.page == c.page && gap >= -height/4 && gap <= 5*height/2 && gap < least && abs(b.box[0]-c.box[0]) <= height {
			best, least = bi, gap
		}
	}
	return best
}

var (
	partsLine = matching(`\s+[·•|]\s+|\s*;\s+|\s{3,}`)
	labelHead = matching(`^\s*([\p{L}#][^:]{0,45}?)\s*:(?:\s+|$)`)
)

// inlinePairs collects what a cell holds in the form "Label: value", several times
// where marks or further labels part the line.
func (s *sheet) inlinePairs(ci int) bool {
	whole := s.whole(ci)
	text, found := s.cells[ci].text, false
	if label, value := personBehind(text); label != "" && !(ci > 0 && strings.HasSuffix(s.cells[ci-1].text, ",")) { // within a list of names
		s.addPair(label+":", isPerson, at{whole.passage, find.Span{From: whole.span.From + len(text) - len(value), To: whole.span.To}}, inline)
		return true
	}
	for _, part := range partsOf(text) {
		m := labelHead.FindStringSubmatchIndex(text[part[0]:part[1]])
		if m == nil || strings.Count(text[part[0]+m[2]:part[0]+m[3]], "(") > strings.Count(text[part[0]+m[2]:part[0]+m[3]], ")") {
			continue // the colon stands within brackets
		}
		label := text[part[0]+m[2] : part[0]+m[3]]
		if strings.Count(label, `"`)%2 == 1 || strings.ContainsAny(label, "„“«") && !strings.ContainsAny(label, "”»") {
			continue // the colon stands within what is quoted
		}
		if part[0] == 0 && s.midSentence(ci) {
			continue // "… the unit Reading a" and, in the next line, "Meeting: Minutes and Motions"
		}
		if part[0] == 0 && roleOf(label) == noRole && s.besideLabel(ci) {
			continue // a title with its subtitle, as the value of the label before it
		}
		from, to := part[0]+m[1], part[1]
		if from >= to {
			continue // the value stands in another cell
		}
		value := find.Span{From: whole.span.From + from, To: whole.span.From + to}
		if to == len(text) {
			value = s.further(whole.passage, value)
		}
		s.addPair(label+":", roleOf(label), at{whole.passage, trim(s.passages[whole.passage].text, value)}, inline)
		found = true
	}
	return found
}

// midSentence reports a cell that goes on with a passage of which the line before ends with a small word, or
// with a figure before what it counts.
func (s *sheet) midSentence(ci int) bool {
	cells := s.passages[s.cells[ci].passage].cells
	k := slices.Index(cells, ci)
	if k < 1 {
		return false
	}
	before := s.cells[cells[k-1]].text
	return runsOn(before) && startsUpper(s.cells[ci].text) || startsLower(s.cells[ci].text) && hasFigure(tail(before, 2))
}

// besideLabel reports a cell right behind a label without a colon, or with one, in its row.
func (s *sheet) besideLabel(ci int) bool {
	row := s.rows[s.cells[ci].row]
	k := slices.Index(row, ci)
	return k > 0 && s.isLabel(row[k-1]) && strings.ContainsFunc(s.cells[row[k-1]].text, isLetter)
}

// personBehind parts "Issued to Ann Vey" and "Att. Ann Vey" into a label for a person and
// the name that fills the rest of the line; "" where it is nothing of that sort.
func personBehind(text string) (label, value string) {
	for k, words := 0, 0; words < 4; words++ {
		next := strings.IndexByte(text[k:], ' ')
		if next < 0 {
			return "", ""
		}
		k += next + 1
		label, value = text[:k-1], text[k:]
		if name, _, _, _ := person(value); len(label) > 3 && !strings.HasSuffix(label, ":") && roleOf(label) == isPerson && isPersonal(name) && namesOnly(value, name) && !notName.MatchString(fold(name)) {
			return label, value
		}
	}
	return "", ""
}

// namesOnly reports a text that holds a name and nothing but titles and letters around it.
func namesOnly(text, name string) bool {
	rest := strings.Replace(text, name, "", 1)
	for _, w := range strings.Fields(strings.ReplaceAll(rest, ",", " ")) {
		if !onlyTitles.MatchString(w+" ") && !lettersAfter.MatchString(", "+w) && !degree.MatchString(" "+w) {
			return false
		}
	}
	return true
}

// further lets a value run on to the end of its passage, which is a wrapped line.
func (s *sheet) further(passage int, value find.Span) find.Span {
	text := s.passages[passage].text
	if rest := text[value.To:]; utf8.RuneCountInString(rest) < 160 {
		value.To = len(text)
	}
	return value
}

// partsOf returns the spans of a line that may each hold a label and a value.
func partsOf(text string) [][2]int {
	var parts [][2]int
	from := 0
	cut := func(to, next int) {
		if to > from {
			parts = append(parts, [2]int{from, to})
		}
		from = next
	}
	marks := partsLine.FindAllStringIndex(text, -1)
	for _, m := range marks {
		cut(m[0], m[1])
	}
	cut(len(text), len(text))
	var out [][2]int
	for _, p := range parts {
		start := p[0]
		for i := p[0] + 1; i < p[1]; i++ {
			if text[i] != ':' || i+1 < p[1] && text[i+1] != ' ' {
				continue
			}
			if label := labelBefore(text[start:i]); label > 0 && strings.Contains(text[start:start+label], ":") {
				out = append(out, [2]int{start, start + label})
				start += label
			}
		}
		out = append(out, [2]int{start, p[1]})
	}
	return out
}

// numberFor begins a label for a number: anything may stand before "no.", a name too.
var numberFor = matching(`^(?:the |your |our |ihre? |n\S* de |numero de )?(?:student|staff|member(?:ship)?|employee|payroll|licen[cs]e|certificate|course|activity|event|provider|sponsor|approval|accreditation|invoice|order|receipt|booking|customer|account|registration|reg\.|tax|vat|document|serial|candidate|badge|session|class|personal|matrikel|mitglieds?|kunden|rechnungs|beleg|teilnehmer|kurs|kurs-|lehrgangs|numero|n°|nº|factuur|klant|lid|cursist|matricule|dossier|expediente|registro|folio|id|ref|reference)`)

// labelBefore returns where in text the label begins that ends it; -1 if none is known.
func labelBefore(text string) int {
	var starts []int
	for i := len(text) - 1; i > 0 && len(starts) < 4; i-- {
		if text[i-1] == ' ' && text[i] != ' ' {
			starts = append(starts, i)
		}
	}
	for _, k := range []int{3, 2, 1, 0} { // the longest label is the most exact: "on behalf of" before "of"
		if k >= len(starts) {
			continue
		}
		label := text[starts[k]:]
		if r := roleOf(label); r != noRole && (k == 0 || r != isNumber || numberFor.MatchString(fold(label))) {
			return starts[k]
		}
	}
	return -1
}

// hasPair reports that a cell is the label, or begins with the label, of a pair.
func (s *sheet) hasPair(ci int) bool {
	text := strings.Trim(fold(s.cells[ci].text), " :")
	return slices.ContainsFunc(s.pairs, func(p pair) bool {
		return p.role != noRole && (p.how != inline && p.label == text || p.how == inline && p.value.passage == s.cells[ci].passage)
	})
}

// trim takes white space and marks off the ends of a span.
func trim(text string, s find.Span) find.Span {
	for s.From < s.To {
		r, n := utf8.DecodeRuneInString(text[s.From:s.To])
		if !unicode.IsSpace(r) && !strings.ContainsRune("·•|,;:", r) {
			break
		}
		s.From += n
	}
	for s.From < s.To {
		r, n := utf8.DecodeLastRuneInString(text[s.From:s.To])
		if !unicode.IsSpace(r) && !strings.ContainsRune("·•|,;:", r) {
			break
		}
		s.To -= n
	}
	return s
}

// labelOf returns the pair in whose value a lies, the narrowest first.
func (s *sheet) labelOf(a at) (pair, bool) {
	best, found := pair{}, false
	for _, p := range s.pairs {
		if p.value.passage == a.passage && a.span.Within(p.value.span) {
			if !found || p.value.span.To-p.value.span.From < best.value.span.To-best.value.span.From {
				best, found = p, true
			}
		}
	}
	return best, found
}

// withRole returns the pairs of the roles, in order of the document.
func (s *sheet) withRole(roles ...role) []pair {
	var out []pair
	for _, p := range s.pairs {
		if slices.Contains(roles, p.role) {
			out = append(out, p)
		}
	}
	return out
}

// startsUpper reports a text whose first letter is a capital.
func startsUpper(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsUpper(r)
}
