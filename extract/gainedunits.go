package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// Credits are written in other ways than a number and a known unit: as hours that were recognised,
// beside a label that has their letters, under letters that a legend explains, or one by one in the
// lines of a list, with their sum in words.

var (
	// recognisedHours are hours of training that somebody recognised as such.
	recognisedHours = matching(`(?i)\b(?:recogni[sz]ed (?:as|with|for)|accredited (?:with|for)|anerkannt (?:mit|für|als)|angerechnet (?:mit|als|werden)|anrechenbar (?:mit|als)|anrechnung:?|angerechnet:?|anerkannt:?|erkend (?:voor|met)|geaccrediteerd (?:voor|met)|goed voor|reconnue?s? (?:pour|à hauteur de|comme)|validée?s? pour|reconocid[oa]s? (?:con|por|como)|acreditad[oa]s? con)(?: (?:insgesamt|total|a total of|in total|totaal))? (\d{1,3}(?:[.,]\d{1,2})?) ((?:\p{L}*(?:fort|weiter)bildungsstunden|bildungsstunden|(?:nascholings|bijscholings|opleidings|nascholing)s?uren|heures? de (?:formation|perfectionnement)(?: continue)?|horas de (?:formación|actualización)(?: continua(?:da)?)?|(?:cpd|cpe|ce|cme|training|learning) hours))`)

	// creditLetters are the letters in a label that make hours beside it credits.
	creditLetters = matching(`\b(CPD|CPE|CE|CME|CNE|PDH|PDU|CLE|DPC|PE|NA)\b`)
	// countedUnit is a number with the word for what it counts.
	countedUnit = matching(`(?i)^\s*(\d{1,3}(?:[.,]\d{1,2})?)\s(hours?|hrs\.?|units?|points?|credits?|stunden|punkte|heures?|points|horas?|puntos|uur|uren|punten)\.?\s*$`)

	// timeLabel is a label of time, whatever letters stand in it: "Total CPD time".
	timeLabel = words(`time|duration|length|logged|spent|\w*dauer|\w*zeit|duree|temps|duracion|tiempo|tijd|duur`)

	// structuredUnits are units of a kind that members record.
	structuredUnits = matching(`(?i)\b(\d{1,3}(?:[.,]\d{1,2})?) ((?:structured|verifiable|non-verifiable|unstructured|recognised|society|member|scheme|learning|study) units?)\b`)

	// dueWord ends in front of credits that somebody is bound to get, dueBehind begins behind them.
	dueWord   = matching(`\b(?:minimo exigido|minimum (?:required|requirement)|required minimum|mindest\w*|seuil|obligation (?:annuelle|biennale|triennale|de formation)|annual (?:target|quota|requirement)|pflichtpunkte|sollpunkte|noch zu erwerben|verplichting)\b[^.;\d]{0,40}$|\b(?:(?:separate|another) (?:certificate|record|paper|confirmation) (?:for|of|over)|(?:provided|on condition|subject to the condition) (?:that )?(?:you|he|she|they|the holder)(?: \S+)?|to renew|(?:be |is |are |get )?(?:renewed|extended|recertified|prolonged|kept alive) (?:with|by|on|for|upon|against|through)|(?:renewal|recertification|maintenance|revalidation) (?:requires?|needs?|takes?|calls for|is by|upon|on|asks? for)|(?:verlangert|erneuert) (?:\S+ ){0,3}(?:mit|bei|durch|gegen)|(?:verlangerung|erneuerung|rezertifizierung) (?:\S+ ){0,3}(?:mit|durch|verlangt|erfordert|bedarf|sind)|(?:renouvel\w+|prolong\w+) (?:\S+ ){0,4}(?:avec|sur|contre|moyennant|exige|demande|suppose)|(?:renov\w+|prorrog\w+|revalid\w+) (?:\S+ ){0,4}(?:con|mediante|exige|requiere|precisa|se exigen)|(?:verleng\w+|herregistratie|hercertificering) (?:\S+ ){0,4}(?:met|mits|vereist|vraagt|zijn|door))\b[^.;\d]{0,40}$|\b(?:reste a acquerir|still to be (?:earned|gained)|noch zu erbringen|por adquirir|nog te behalen)\b[^.;]{0,40}$|\b(?:must|shall|have to|has to|need to|should|obliged? to|required to|expected to|mussen|muss|sollen|verpflichtet|doi(?:t|vent)|oblige(?:nt)?|tenu\w* de|deben?|tienen? que|obligad\w*|moet(?:en)?|dien(?:t|en)|verplicht)\b(?:[^.;:\d]{0,12}\b(?:earn|complete|obtain|accrue|collect|gain|do|have|record|show|report|a|acquerir|obtenir|suivre|justifier de|obtener|reunir|acreditar|cursar)\b)?[^.;:\d]{0,24}$`)
	dueBehind = matching(`^[^.;\d]{0,30}\b(?:verlangt|gefordert|erforderlich|vorgeschrieben|benotigt|are required|is required|exigid[oa]s?|exigee?s?|requis(?:es)?|vereist|verplicht gesteld)\b|^[,)]? ?(?:[^.;\d\s]+ )?(?:due|must|to be (?:earned|obtained|completed)|per (?:renewal|period|licen[cs]e)|(?:at|by|for|before|on) (?:each |every |the )?renewal|each renewal|in each|in every|zu (?:erwerben|erbringen|erreichen)|nachzuweisen|a (?:acquerir|obtenir|justifier)|por obtener|te behalen)\b`)
)

// recognised adds the credits that are written in one of these ways.
func (l *look) recognised() {
	for i, p := range l.passages {
		for _, of := range []*pattern{recognisedHours, structuredUnits} {
			for _, m := range of.FindAllStringSubmatchIndex(p.text, -1) {
				l.addCredit(l.passageAt(i).within(m[2], m[5]-m[2]), p.text[m[2]:m[3]], p.text[m[4]:m[5]])
			}
		}
	}
	for _, p := range l.withRole(isCredits) {
		m := countedUnit.FindStringSubmatch(l.text(p.value))
		if m == nil || timeLabel.MatchString(p.label+" ") {
			continue
		}
		if letters := creditLetters.FindStringSubmatch(l.labelText(p)); letters != nil {
			l.addCredit(p.value, m[1], letters[1]+" "+strings.ToLower(m[2]))
		}
	}
}

// addCredit adds credits at a place where none were found, and takes a length there for none.
func (l *look) addCredit(a at, value, unit string) {
	if l.isCredit(a) || strings.TrimSpace(value) == "" {
		return
	}
	l.credits = append(l.credits, creditHit{at: a, value: amount(value), unit: unit, kind: foldUnit(unit)})
	l.lengths = slices.DeleteFunc(l.lengths, func(h lengthHit) bool { return h.at.overlaps(a) })
}

// legendUnit is what letters at the head of a column stand for, where the paper explains them:
// "FP = Fortbildungspunkte".
func (l *look) legendUnit(head string) string {
	if !headLetters.MatchString(head) {
		return ""
	}
	for _, p := range l.passages {
		for _, m := range legend.FindAllStringSubmatch(p.text, -1) {
			if m[1] == head && len(find.Credits("1 "+m[2], l.langs)) == 1 {
				return strings.TrimSpace(m[2])
			}
		}
	}
	return ""
}

var (
	headLetters = matching(`^\p{Lu}[\p{Lu}\p{Ll}]{0,4}$`)
	legend      = matching(`(?:^|[\s(;,.])(\p{Lu}\p{L}{0,4})\s?(?:=|:|–|-|stands for|steht für|means|bedeutet)\s?(\p{L}[\p{L}-]{3,30}(?: (?:points?|credits?|units?|hours?|de \p{L}+))?)`)
)

// inLines sums up credits that stand one by one in the lines of a list of which each has its day,
// where the list has no table; "" where they are no such list.
func (l *look) inLines(hits []creditHit) (guess, bool) {
	if l.kind != paper.Transcript || len(hits) < 2 {
		return guess{}, false
	}
	var sum credit.Amount
	var seen []int
	for _, c := range hits {
		if c.kind != hits[0].kind || slices.Contains(seen, c.at.passage) || c.total {
			return guess{}, false
		}
		if !slices.ContainsFunc(l.days, func(d day) bool {
			return d.at.passage == c.at.passage || l.cells[l.cellAt(d.at)].row == l.cells[l.cellAt(c.at)].row
		}) {
			return guess{}, false
		}
		seen, sum = append(seen, c.at.passage), sum.Add(c.value)
	}
	return guess{text: paper.FormatCredits([]paper.Printed{{Unit: hits[0].unit, Value: sum}}), at: hits[0].at, score: 80, why: "the rows add up to it"}, true
}

// wholeCredits takes the one of several credits of a unit that a word calls the whole and the
// others come to.
func (l *look) wholeCredits(hits []creditHit) []creditHit {
	for k, w := range hits {
		before, after := l.around(w.at)
		if !wholeBehind.MatchString(after) && !wholeAhead.MatchString(before) && !totalWord.MatchString(tail(before, 16)+" ") {
			continue
		}
		var sum credit.Amount
		n := 0
		for j, c := range hits {
			if j != k && sameUnit(c, w) {
				sum, n = sum.Add(c.value), n+1
			}
		}
		if n > 1 && sum.Equal(w.value) {
			return slices.DeleteFunc(slices.Clone(hits), func(c creditHit) bool { return c.at != w.at && sameUnit(c, w) })
		}
	}
	return hits
}

// namedTotals returns the totals of several kinds of one unit that labels give at the end of a list, where
// they come together to what its entries do: "Créditos estructurados ... 21,5", "no estructurados ... 7".
func (l *look) namedTotals(hits []creditHit) []creditHit {
	if l.kind != paper.Transcript {
		return nil
	}
	var named []creditHit
	var all, parts credit.Amount
	n := 0
	for _, c := range hits {
		if p, ok := l.labelOf(c.at); ok && p.role == isCredits && p.value == c.at && len(strings.Fields(c.unit)) > 1 {
			named, all = append(named, c), all.Add(c.value)
			continue
		}
		n, parts = n+1, parts.Add(c.value)
	}
	if len(named) < 2 || n < 2 || !all.Equal(parts) {
		return nil
	}
	return named
}

// sameUnit reports one unit, whether of one or of several.
func sameUnit(a, b creditHit) bool {
	return a.kind == b.kind || unitStem.ReplaceAllString(a.kind, "") == unitStem.ReplaceAllString(b.kind, "")
}

var unitStem = matching(`(?:en|e|s|os|es)$`)
