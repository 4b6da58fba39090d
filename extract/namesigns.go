package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// What stands around a name and tells whose it is: the number by which somebody is registered,
// the heading of a column of those who lead, a word that joins somebody to another.

var (
	// registered is a line with the number by which a person is registered, whatever they are
	// called: "Chartered Assayer, roll no. 17", "Lidnummer 2207".
	registered = matching(`^(?:\S+ ){0,5}?[a-z(]*(?:no|nos|nr|n°|nº|n\.º|number|nummer|num|numero|roll|badge|licen[cs]e|membership|mitglied|lid|colegiad[oa]|soci[oa]|adherente?|matricula|matricule|dni|id|reg|registration|registrant|lizenz|ausweis|pass)\b\.?º?:? ?(?:no|nr|n°|nº|n\.º|number)?\.?:? ?#?[a-z]{0,4}[ ./-]?\d[\da-z./-]*`)
	// otherNumber is the number of something else than a person.
	otherNumber = words(`charity|provider|sponsor|company|partnership|firm|gesellschaft|firma|societe|entreprise|sociedad|empresa|vennootschap|onderneming|bedrijf|vat|tax|gst|accredit\S*|approv\S*|invoice|receipt|course|event|order|certificate|document|page|seite|ust\S*|kvk|siret|siren|hrb|amtsgericht|npc|steuer\S*|tel|phone|telefon\S*|fax|zertifikat\S*|urkunde\S*|bescheinigung\S*|rechnung\S*|beleg\S*|facture|attestation|certificat\S*|factura|certificado|constancia|bewijs|factuur|btw|cif|nif|po box|box|postfach|activity|session|kurs\S*|cours|curso|cursus|stand|room|raum|konto|iban|agrement|declaration|anbieter\S*|trager\S*|organisme|form|formular|module?|part|issue|heft|vol|band`)
	// callingNumber is a calling in small letters behind a name, with a number of registration
	// behind it: ", community nurse (Band 6), registration 11X0093E".
	callingNumber = matching(`^, (?:[a-z'-]+ ?){1,5}(?:\([^)]{1,24}\))?[,;(]? ?\(?(?:\S+ )?(?:no|nr|n°|nº|n\.º|registration|reg|registered|licen[cs]e|roll|member|membership|badge|matricula|matricule|lizenz|mitglied\S*|personal\S*|id|gln|rpps|big)\b\.?:? ?(?:no|nr|n°|nº)?\.?:? ?[a-z]{0,4}[ ./-]?\d`)
	// wroteLabel asks for who wrote something, and courseWord says what.
	wroteLabel = stems(`^(?:the |course |module |content )?(?:author|auteure?|autrice|autor(?:a|in)?|verfass|schrijver|written by|developed by)|(?:kurs|modul)autor`)
	// joinedBy ends in front of somebody who did it with the person.
	joinedBy = matching(`(?:^|[\s,(])(?:(?:together|along|jointly|in cooperation|in collaboration) with|as well as|zusammen mit|gemeinsam mit|neben|ensemble avec|conjointement avec|aux cotes de|en collaboration avec|junto (?:con|a)|conjuntamente con|en colaboracion con|samen met|tezamen met|naast|met medewerking van|assisted by|supported by|co-?(?:author|auteur|autor|autora|autorin|presenter|referent)s?)(?: (?:her|his|their|my|our|the|seiner?|ihrer?|dem|der|son|sa|le|la|el|su|de|haar|zijn)(?: \p{L}+)?)?$`)
	// houseName is a first name and a surname that is a compound with a house, a mill or the
	// like, as those of bodies are: "Jan Veldhuis".
	houseName = matching(`^(?:\p{Lu}\p{Ll}{1,10}(?:-\p{Lu}\p{Ll}+)?|\p{Lu}\.)(?: (?:\p{Lu}\.|\p{Lu}\p{Ll}+))? (?:(?:van|von|de|der|den|ten|zum) )*(?:\p{Lu}\p{Ll}+-)?\p{Lu}\p{Ll}+(?:huis|haus|house|huizen|hausen)(?:-\p{Lu}\p{L}+)?$`)
	// houseWord is a compound as bodies are named with it.
	houseWord = matching(`(?:huis|haus|house|werk|bund|kreis|dienst|hof|zentrum|bildung|druck)(?: |$)`)
	// leads is the heading of a column of those who led something.
	leads = matching(`^(?:led by|lead|leader|taught by|teacher|given by|held by|run by|presented by|presenters?|speakers?|chairs?|tutors?|instructors?|trainers?|lecturers?|facilitators?|faculty|by|moderat(?:or|ion)|leit(?:ung|er|erin)|geleitet von|dozent(?:in|en|innen)?|referent(?:in|en|innen)?|lehrkraft|vortragende[rn]?|moderation|gehalten von|anime par|animat(?:eur|rice)|interven(?:ante?|ants)|format(?:eur|rice)s?|conferencier(?:e|s)?|orateurs?|enseignante?|imparte|impartid[oa] por|ponentes?|docentes?|profesor(?:a|es)?|instructor(?:a|es)?|a cargo de|moderad?or(?:a|es)?|docent(?:en)?|spreker(?:s)?|begeleid(?:er|ing)|geleid door|gegeven door|leiding|door|inleider)(?: ?[/,&] ?\p{L}+)*$`)
)

// numberBeneath reports a name alone in its line, not at the foot, beneath which the number
// stands by which the person is registered.
func (l *look) numberBeneath(ci int) bool {
	i, own := l.cells[ci].passage, fold(l.cells[ci].text)
	if certifyLine.MatchString(own) || thatEnds.MatchString(own) || beginsAsHeading(l.cells[ci].text) {
		return false
	}
	below := l.below(l.cells[ci].row, ci)
	if below < 0 {
		below = l.after(ci)
	}
	if g := below; g >= 0 && l.cells[g].size <= l.cells[ci].size && !hasFigure(l.cells[g].text) && len(strings.Fields(l.cells[g].text)) < 5 && capitalised(l.cells[g].text) && !l.officeAt(l.cells[g].passage, 0) && !l.isBody(l.cells[g].text) {
		if next := l.after(g); next >= 0 && l.cells[next].row == l.cells[g].row+1 {
			below = next // beneath what they are
		}
	}
	if below < 0 || l.closing.signs[i] || 4*i >= 3*len(l.passages) || l.cells[below].passage == len(l.passages)-1 {
		return false
	}
	low := fold(l.rowText(below))
	return len(low) < 70 && registered.MatchString(low) && !otherNumber.MatchString(low) && len(find.Dates(l.cells[below].text, nil)) == 0
}

// numberUnder is the reason for a name that such a number stands beneath.
const numberUnder = "the number of registration stands beneath it"

// billedTo stands alone over the one who is billed.
var billedTo = matching(`^(?:for|to|bill(?:ed)? to|invoice to|sold to|attn\.?|for the attention of|an|fur|z\. ?hd\.?(?: von)?|rechnung an|pour|a|a l'attention de|facture a|para|a la atencion de|facturar a|aan|voor|t\.? ?a\.? ?v\.?|ter attentie van|factuur aan):?$`)

// rowText returns what stands in the row of a cell from it on, where it is a label with its value.
func (l *look) rowText(ci int) string {
	row := l.rows[l.cells[ci].row]
	k := slices.Index(row, ci)
	if k >= 0 && k+1 < len(row) && !hasFigure(l.cells[ci].text) && len(row) == k+2 {
		return l.cells[ci].text + " " + l.cells[row[k+1]].text
	}
	return l.cells[ci].text
}

// saidBeneath reports that the line beneath a name goes on with what somebody is and then with
// what they did: "school cook, passed at a distance …".
func (l *look) saidBeneath(next int) bool {
	text := l.cells[next].text
	i := l.cells[next].passage
	if !startsLower(text) || !callingFirst.MatchString(text) {
		return false
	}
	return nameVerb.MatchString(" "+fold(text[strings.IndexByte(text, ',')+1:])) || didIt.MatchString(head(l.folded[i], 200))
}

// callingFirst is what somebody is, in small letters, at the begin of a line that goes on.
var callingFirst = matching(`^\p{Ll}[\p{L}’'-]+(?: [\p{L}’'-]+){0,4},\s`)

// wroteCourse reports a label for who wrote what the person of the paper only took: a course
// has an author too.
func (l *look) wroteCourse(p pair) bool {
	return l.kind != paper.Publication && l.kind != paper.Instruction && wroteLabel.MatchString(p.label)
}

// withWhom reports a name behind words that join somebody to the one the paper is about.
func (l *look) withWhom(a at) bool {
	before := tail(l.passages[a.passage].text[:a.span.From], 80)
	if m := endsAddress.FindStringIndex(before); m != nil {
		before = before[:m[0]]
	}
	return before != "" && joinedBy.MatchString(strings.TrimRight(fold(before), " "))
}

// beneathLeader reports a cell in a column whose heading, among others in its row, asks for
// who led each session, though the list is not read as a table.
func (l *look) beneathLeader(ci int) bool {
	c := &l.cells[ci]
	for r := c.row - 1; r >= 0; r-- {
		row := l.rows[r]
		if len(row) < 3 {
			continue
		}
		for _, hi := range row {
			h := &l.cells[hi]
			over := h.page == c.page && min(h.box[2], c.box[2]) > max(h.box[0], c.box[0])
			if !l.boxed {
				over = h.column == c.column
			}
			if over && leads.MatchString(strings.Trim(fold(h.text), " :")) && l.headsRow(row, hi) {
				return true
			}
		}
	}
	return false
}

// headsRow reports that no cell of a row holds a figure, and that another than hi is a label
// too: the row heads a list.
func (l *look) headsRow(row []int, hi int) bool {
	if slices.ContainsFunc(row, func(k int) bool {
		return len(find.Dates(l.cells[k].text, nil)) > 0 || len(find.Clocks(l.cells[k].text, nil)) > 0
	}) {
		return false
	}
	return slices.ContainsFunc(row, func(k int) bool { return k != hi && (l.labels[k] || roleOf(l.cells[k].text) != noRole) })
}

// callingOf reports a line that says what somebody is, with the number by which they are
// registered, beneath the name alone: what was done is said of the one above.
func (l *look) callingOf(i int) bool {
	if i == 0 || !registered.MatchString(l.folded[i]) || !l.nameStands(i-1) || l.noName(l.passages[i-1].text) || beginsAsHeading(l.passages[i-1].text) {
		return false
	}
	_, _, _, titled := person(l.passages[i].text)
	return !titled
}

// surnameOfHouse reports a name of two or three words whose last is such a compound, where
// nothing else in it is named like a body.
func surnameOfHouse(name string) bool {
	k := strings.LastIndexByte(name, ' ')
	return k > 0 && houseName.MatchString(name) && !bodyWord.MatchString(fold(name[:k])) && !houseWord.MatchString(fold(name[:k])) && !adjective.MatchString(name)
}

// adjective begins the name of a house rather than that of somebody: "Neues Druckhaus".
var adjective = matching(`^(?:\p{Lu}\p{Ll}*(?:isch|ische[rs]?|liche[rs]?|ings)|(?:Neu|Alt|Groß|Klein|Grün|Rot|Blau|Weiß|Frei|Offen|Erst|Zweit)(?:e[rs]?)?|The|Het|Das|De|Die|Der|Le|La|El|Our|New|Old|Royal|Green|Open|Groene|Oude|Nieuwe?|Stads|Rote|Blaue|Alte|Haus|Huis|Stichting) `)
