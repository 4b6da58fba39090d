package extract

import (
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	// formAtEnd is a legal form at the end of a name, in any case.
	formAtEnd = matching(`(?i)(?:^|[\s,])(?:inc|ltd|llc|plc|llp|gmbh|mbh|ag|kg|e\.\s?v|asbl|vzw|nv|bv|n\.v|b\.v|s\.?a|s\.?l|sàrl|sarl|sas|s\.a\.s|s\.c|a\.c|s\.?\s?coop|s\.l\.[lu]|slu|s\.a\.u|sau|sccl|scop|scic|eurl|sasu|snc|gbr|e\.\s?k|e\.\s?g|v\.o\.f|vof|cic|clg|limited|srl)\.?$`)
	// goesOnSmall begins a line with a small word that joins it to the one above.
	goesOnSmall = matching(`^(?:am|an|beim?|zu[rm]?|at|by|près|bij|aan|te|au|aux|con|de|du|des|d['’]|pour|et|en|à|für|und|der|im|of|for|and|in|the|van|voor|het|del?|para|y|e)\s?\p{L}`)
	// periodicalIs is what a periodical says it is, behind its name or beneath it.
	periodicalIs = matching(`(?i)^(?:(?:the|die|das|le|la|el|het|de|\p{L}+)\s){0,2}(?:[\p{L}-]*(?:zeitschrift|schrift|magazin|blatt|tijdschrift|vakblad)|journal|review|quarterly|monthly|magazine|bulletin|revue|revista|bolet[ií]n)(?:\s\p{Ll}{4,})?\s(?:of|for|für|der|des|de|d['’]|du|pour|para|voor|van|on|fur|over|sobre|sur)\s`)
	// editorsOf stands before the name of a periodical whose editors did something.
	editorsOf = matching(`(?i:editorial (?:board|committee)|editors|comité (?:editorial|de rédaction|de lecture|científico)|consejo editorial|redactieraad|redactie|redaktion|schriftleitung|redaktionsbeirat|rédaction|redacción)(?i: of(?: the)?| de la| de l['’]| del?| du| des| van(?: de| het)?| von| der)\s?(\p{Lu}[\p{L}’'-]+(?: (?:(?:of|for|and|the|für|und|der|des|de|la|le|du|del|et|y|van|voor|&) ){0,2}(?:[dl]['’])?\p{Lu}[\p{L}’'-]+)+)`)
	// withPostcode is a body with its postcode and town behind it, as in a line at the foot.
	withPostcode = matching(`^(\p{Lu}[^,:;@]{4,70}), (?:[A-Z]{1,3}-)?\d{4,5} \p{Lu}\p{L}`)
)

// bodyAmong returns the part of a line that is a body where the part before the first mark
// is none: the name of a portal, then who runs it.
func (l *look) bodyAmong(line, first at) at {
	text := l.text(line)
	if l.isBody(l.text(first)) || formAtEnd.MatchString(l.text(first)) {
		return first
	}
	from := 0
	for part := range strings.SplitSeq(text, " · ") {
		if from > 0 && formAtEnd.MatchString(part) && capitalised(part) && !hasFigure(part) && len(strings.Fields(part)) > 1 {
			return line.within(from, len(part))
		}
		from += len(part) + len(" · ")
	}
	return first
}

// bodiesOfPlaces finds a body in a part of a line that has its postcode and town behind it,
// and the site that a path through its pages begins with.
func (l *look) bodiesOfPlaces(add func(at, int, string)) {
	for i, p := range l.passages {
		from := 0
		for part := range strings.SplitSeq(p.text, " · ") {
			if m := withPostcode.FindStringSubmatchIndex(part); m != nil && l.isBody(part[:m[3]]) && !hasFigure(part[:m[3]]) && (from > 0 || len(part) < len(p.text)) {
				add(l.passageAt(i).within(from, m[3]), 66, "its address stands behind it")
			}
			from += len(part) + len(" · ")
		}
		if site, _, path := strings.Cut(p.text, " > "); path && i < 3 && l.isBody(site) && len(strings.Fields(site)) > 1 {
			add(l.passageAt(i).within(0, len(site)), 62, "it stands at the head")
		}
	}
}

// periodicals finds the name of what a text is published in, with what it says it is behind
// a dash or in the line beneath.
func (l *look) periodicals(add func(at, int, string)) {
	if l.kind != paper.Publication {
		return
	}
	for i, p := range l.passages {
		if m := editorsOf.FindStringSubmatchIndex(p.text); m != nil {
			add(l.passageAt(i).within(m[2], m[3]-m[2]), 84, "its editors decided")
		}
		for _, mark := range []string{" - ", " – ", " — ", ": ", ", "} {
			if name, rest, parted := strings.Cut(p.text, mark); parted && capitalised(name) && len(strings.Fields(name)) < 9 && periodicalIs.MatchString(rest) {
				add(l.passageAt(i).within(0, len(name)), 84, "it says that it is a periodical")
				break
			}
		}
		if next := l.nextPassage(i); next >= 0 && capitalised(p.text) && len(strings.Fields(p.text)) < 9 && len(find.Dates(p.text, l.langs)) == 0 && (startsLower(l.passages[next].text) || l.kind == paper.Publication) && periodicalIs.MatchString(l.passages[next].text) {
			add(l.passageAt(i), 84, "it says that it is a periodical")
		}
	}
}

// firmOfPerson reports the value of a label that asks where the person works.
func (l *look) firmOfPerson(text string) bool {
	if l.kind == paper.Employment || l.kind == paper.Receipt {
		return false
	}
	for _, p := range l.withRole(isProvider) {
		if ownFirm.MatchString(p.label) && bare(l.text(p.value)) == bare(text) {
			return true
		}
	}
	return false
}

// midSentence reports a line that goes on a sentence begun above it.
func (l *look) midSentence(ci int) bool {
	p := l.passages[l.cells[ci].passage]
	return p.cells[0] != ci && len(strings.Fields(p.text)) > 14 && !formAtEnd.MatchString(l.cells[ci].text)
}

// listsDay reports a cell of a list of courses: a day stands in its row.
func (l *look) listsDay(ci int) bool {
	return l.kind == paper.Transcript && len(l.rows[l.cells[ci].row]) > 2 && len(l.daysIn(l.rows[l.cells[ci].row])) > 0
}
