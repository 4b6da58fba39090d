package extract

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// What a label says of credits beside their unit: how they came to the person, and for what.
const (
	toPerson  = `earned|awarded|claimed|credited|gained|obtained|accrued|allocated|assigned|approved|granted|recogni[sz]ed|recorded`
	toPersonD = `erworben|vergeben|angerechnet|anerkannt|erreicht|gutgeschrieben|zuerkannt|erhalten|beantragt|gewährt`
	toPersonF = `obtenue?s?|attribuée?s?|acquis(?:es)?|accordée?s?|validée?s?|reconnue?s?|demandée?s?`
	toPersonS = `obtenid[oa]s|otorgad[oa]s|concedid[oa]s|reconocid[oa]s|asignad[oa]s|acreditad[oa]s|solicitad[oa]s`
	toPersonN = `behaalde?|toegekende?|verkregen|verleende?|verdiende?|erkende?|aangevraagde?`
)

var (
	unitPlain = matching(`(?i)^(?:total |number of |no\. of |anzahl (?:der )?|nombre de |número de |aantal |(?:` + toPerson + `) |(?:` + toPersonD + `)(?:e|en) |(?:` + toPersonN + `) )|\s*(?:\(.*\)|earned|awarded|value|erworben|obtenus?|obtenidos|behaald|vergeben|approved|granted)\s*$|\s(?:` + toPerson + `|` + toPersonD + `|` + toPersonF + `|` + toPersonS + `|` + toPersonN + `)\s*$|[:*]`)
	// unitFor is for what credits are given, behind their unit: "CPD points for speaking".
	unitFor = matching(`(?i)\s+(?:for|für|pour|por|para|voor)\s+\p{L}[^\d]*$`)
)

// unitOf returns the unit that a label names: "Number of CEUs" gives "CEUs".
func unitOf(label string) string {
	unit := strings.TrimSpace(label)
	if m := enumerator.FindStringIndex(fold(unit)); m != nil {
		unit = unit[m[1]:] // "9. CE hours" on a form
	}
	for range 3 {
		unit = strings.TrimSpace(unitPlain.ReplaceAllString(unit, ""))
	}
	if m := unitFor.FindStringIndex(unit); m != nil && creditStem.MatchString(fold(unit[:m[0]])) && !creditLetters.MatchString(unit[m[0]:]) {
		unit = unit[:m[0]]
	}
	switch fold(unit) {
	case "continuing education", "continuing education units", "continuing education unit":
		return "CEU"
	}
	return strings.Join(strings.Fields(unit), " ")
}

// labelledCredits reads bare numbers whose label names the unit: "PDH 17.5".
func (l *look) labelledCredits() {
	for _, p := range l.withRole(isCredits) {
		text := l.text(p.value)
		n := bareNumber.FindStringSubmatch(withoutBrackets(text))
		if n == nil || l.isCredit(p.value) || l.firstOfColumn(p) {
			continue
		}
		label := l.labelText(p)
		unit := unitOf(label)
		for _, a := range l.numbersBeside(p) {
			v := bareNumber.FindStringSubmatch(withoutBrackets(l.text(a)))
			l.credits = append(l.credits, creditHit{at: a, value: amount(v[1]), unit: unit, kind: foldUnit(unit)})
		}
	}
}

// numbersBeside returns the numbers that stand in the row of a label for credits: the one in the column of what was
// gained, where the columns are headed, else all of them.
func (l *look) numbersBeside(p pair) []at {
	row := l.rows[l.cells[l.cellAt(p.value)].row]
	var numbers []int
	for _, ci := range row {
		if bareNumber.MatchString(l.cells[ci].text) {
			numbers = append(numbers, ci)
		}
	}
	if p.how != beside || len(numbers) < 2 {
		return []at{p.value}
	}
	for r := l.cells[row[0]].row - 1; r >= 0; r-- {
		heads := l.rows[r]
		if len(heads) < len(numbers) || l.figured(heads) {
			continue
		}
		var gained []at
		for k, ci := range heads[len(heads)-len(numbers):] {
			if gainedHead.MatchString(fold(l.cells[ci].text)) {
				gained = append(gained, l.whole(numbers[k]))
			}
		}
		if len(gained) == 1 {
			return gained
		}
		break
	}
	out := make([]at, len(numbers))
	for k, ci := range numbers {
		out[k] = l.whole(ci)
	}
	return out
}

// gainedHead heads the column of what somebody got, beside what there was to get.
var gainedHead = words(toPerson + `|attended|` + fold(toPersonD) + `|besucht|` + fold(toPersonF) + `|suivie?s?|` + fold(toPersonS) + `|asistid[oa]s|` + fold(toPersonN) + `|gevolgde?`)

// firstOfColumn reports a number beneath the heading of a column in which more numbers stand, in
// rows that may fill several lines: it is that of one row.
func (l *look) firstOfColumn(p pair) bool {
	ci := l.cellAt(p.value)
	c := &l.cells[ci]
	if p.how != beneath || p.colon || !l.boxed || len(l.rows[c.row]) < 3 {
		return false
	}
	height := c.box[3] - c.box[1]
	for i := ci + 1; i < len(l.cells); i++ {
		o := &l.cells[i]
		if o.page == c.page && o.box[1] >= c.box[3] && o.box[1]-c.box[3] < 6*height && abs(o.box[0]-c.box[0]) <= height && len(l.rows[o.row]) > 2 && bareNumber.MatchString(o.text) {
			return true
		}
	}
	return false
}

// labelText returns the label of p as it is printed.
func (l *look) labelText(p pair) string {
	if p.how == inline {
		text := l.passages[p.value.passage].text[:p.value.span.From]
		text = strings.TrimRight(text, " :")
		if i := strings.LastIndexAny(text, ":·|;\t"); i >= 0 {
			text = text[i+1:]
		}
		if len([]rune(fold(text))) >= len([]rune(p.label)) {
			r := []rune(strings.TrimSpace(text))
			return string(r[max(0, len(r)-len([]rune(p.label))):])
		}
	}
	for i := range l.cells {
		if strings.Trim(fold(l.cells[i].text), " :") == p.label {
			return l.cells[i].text
		}
	}
	return p.label
}

func foldUnit(unit string) string {
	f := find.Credits("1 "+unit, nil)
	if len(f) == 1 {
		return f[0].Kind
	}
	return strings.TrimSuffix(bare(unit), "s")
}

// findCredits settles the credits as printed, one value per unit.
func (l *look) findCredits() {
	switch l.kind {
	case paper.Receipt, paper.NotEvidence:
		return
	}
	l.nameUnits()
	earned := l.earnedHits(l.kind == paper.Credential)
	if named := l.namedTotals(earned); named != nil {
		var printed []paper.Printed
		for _, c := range named {
			printed = append(printed, paper.Printed{Unit: c.unit, Value: c.value})
		}
		l.putCredits([]guess{{text: paper.FormatCredits(printed), at: named[0].at, score: 88, why: "the rows add up to the sum that is stated", sure: true}})
		return
	}
	hits := l.ownCredits(l.wholeCredits(earned))
	if l.kind == paper.Transcript && l.listCredits(hits) {
		return
	}
	if sum, ok := l.inLines(hits); ok {
		l.putCredits([]guess{sum})
		return
	}
	if len(hits) == 0 {
		if sum, ok := l.inLines(l.hitsOfRows()); ok {
			l.putCredits([]guess{sum})
			return
		}
		l.rowCredits()
		return
	}
	var rivals []guess
	for _, s := range creditSets(hits) {
		var printed []paper.Printed
		for _, c := range s {
			printed = append(printed, paper.Printed{Unit: c.unit, Value: c.value})
		}
		rivals = append(rivals, guess{text: paper.FormatCredits(printed), at: s[0].at, score: 85, why: "it is printed", sure: !slices.ContainsFunc(s, l.inKinds)})
	}
	l.putCredits(append(rivals, l.rowsDiffer(hits)...))
}

// inKinds reports credits whose figure is followed by a word and by a further figure with another
// word: "Credits: 2 ethics, 4 technical" are two values, of units that no label gives.
func (l *look) inKinds(c creditHit) bool {
	text := l.passages[c.at.passage].text
	return endsInFigure.MatchString(text[c.at.span.From:c.at.span.To]) && furtherKind.MatchString(text[c.at.span.To:])
}

var endsInFigure = matching(`\d$`)

var furtherKind = matching(`^ ?\p{L}{3,}(?: \p{L}+)?(?: ?[,;+/]| and| und| et| y| en) ?\d{1,3}(?:[.,]\d{1,2})? \p{L}{3,}`)

// creditSets returns the ways to take one value of each unit, at most eight.
func creditSets(hits []creditHit) [][]creditHit {
	var units []string
	byUnit := map[string][]creditHit{}
	for _, c := range hits {
		if !slices.Contains(units, c.kind) {
			units = append(units, c.kind)
		}
		byUnit[c.kind] = append(byUnit[c.kind], c)
	}
	sets := [][]creditHit{nil}
	for _, u := range units {
		var values []creditHit
		for _, c := range byUnit[u] {
			if !slices.ContainsFunc(values, func(o creditHit) bool { return o.value.Equal(c.value) }) {
				values = append(values, c)
			}
		}
		var next [][]creditHit
		for _, s := range sets {
			for _, c := range values {
				next = append(next, append(slices.Clone(s), c))
			}
		}
		if sets = next; len(sets) > 8 {
			sets = sets[:8]
		}
	}
	return sets
}

// nameUnits gives credits of which only "credits" or "points" is said the letters with which
// the paper has that word elsewhere, once: "CPE credits".
func (l *look) nameUnits() {
	for i := range l.credits {
		c := &l.credits[i]
		word := strings.TrimSuffix(fold(c.unit), "s")
		if word != "credit" && word != "point" && word != "hour" {
			continue
		}
		found := map[string]bool{}
		for _, p := range l.passages {
			for _, m := range lettersUnit.FindAllStringSubmatch(p.text, -1) {
				if strings.TrimSuffix(fold(m[2]), "s") == word {
					found[m[1]] = true
				}
			}
		}
		if len(found) == 1 {
			for letters := range found {
				c.unit = letters + " " + strings.ToLower(c.unit)
				c.kind = foldUnit(c.unit)
			}
		}
	}
}

// lettersUnit is a word for credits with the letters of those who give them.
var lettersUnit = matching(`\b(\p{Lu}{2,5}) ((?i:credits?|points?|hours?))\b`)

// rowsDiffer is what the rows of a list come to, where the text gives another value of their unit.
func (l *look) rowsDiffer(hits []creditHit) []guess {
	if l.kind != paper.Transcript {
		return nil
	}
	sums := map[string]credit.Amount{}
	var units []string
	for _, r := range l.series {
		for _, c := range r.credits {
			if r.total || r.absent {
				continue
			}
			if !slices.Contains(units, c.Unit) {
				units = append(units, c.Unit)
			}
			sums[c.Unit] = sums[c.Unit].Add(c.Value)
		}
	}
	for _, u := range units {
		if slices.ContainsFunc(hits, func(c creditHit) bool { return (c.kind == foldUnit(u) || len(units) == 1) && !c.value.Equal(sums[u]) }) {
			return []guess{{text: paper.FormatCredits([]paper.Printed{{Unit: u, Value: sums[u]}}), at: hits[0].at, score: 80, why: "the rows add up to it"}}
		}
	}
	return nil
}

// numberBelow reports a bare number in one of the rows beneath a list that is none of its
// sums: perhaps what was counted in the end.
func (l *look) numberBelow(sums map[string]credit.Amount) bool {
	last := l.series[len(l.series)-1]
	if len(last.cells) == 0 {
		return false
	}
	r := l.cells[last.cells[len(last.cells)-1]].row
	for _, row := range l.rows[r+1 : min(r+4, len(l.rows))] {
		for _, ci := range row {
			m := bareNumber.FindStringSubmatch(l.cells[ci].text)
			if m == nil {
				continue
			}
			equal := false
			for _, s := range sums {
				equal = equal || s.Equal(amount(m[1]))
			}
			if !equal {
				return true
			}
		}
	}
	return false
}

// byTime is what the time adds to credits that go by the hour, or takes from them.
func (l *look) byTime() int {
	m, err := strconv.ParseInt(l.out.Values[paper.FieldDuration].Text, 10, 64)
	if err != nil {
		return 0
	}
	return l.byCredits(credit.Minutes(m))
}

// barePoints are what an examination is marked in.
var barePoints = matching(`^(?:points?|punkte?|puntos?|punt(?:en)?|marks?)$`)

func (l *look) putCredits(rivals []guess) {
	rivals[0].score += l.byTime()
	v := l.value(rivals[0])
	l.note(paper.FieldCredits, rivals...)
	v.Certain = len(rivals) == 1 && rivals[0].sure && v.Score >= leastScore[paper.FieldCredits] && l.legible(rivals[0].at, v.Place)
	if !v.Certain {
		text := fmt.Sprintf("Are %s the credits that the paper gives?", rivals[0].text)
		if len(rivals) > 1 {
			text = fmt.Sprintf("Which credits hold: %s? The paper gives values that disagree.", orList(rivals, func(g guess) string { return g.text }))
		}
		l.question(paper.FieldCredits, &v, rivals, text)
	}
	l.out.Values[paper.FieldCredits] = v
}

// asResult reports a mark or score rather than credits: "18 points of 20".
func (l *look) asResult(a at) bool {
	p, ok := l.labelOf(a)
	before, after := l.around(a)
	return ok && p.role == isResult || resultNear.MatchString(" "+head(after, 16)) || resultNear.MatchString(tail(before, 16)+" ")
}

var resultNear = words(`of \d+|von \d+|sur \d+|de \d+ posibles|van de \d+|score|scored|result|ergebnis|mark|grade|note|punktzahl|pass mark|correct|richtig`)

// rowCredits adds up the rows of a list, or takes its stated sum.
func (l *look) rowCredits() {
	sums := map[string]credit.Amount{}
	stated := map[string]credit.Amount{}
	var units []string
	var first at
	for _, r := range l.series {
		if r.absent {
			continue
		}
		for _, c := range r.credits {
			if _, ok := sums[c.Unit]; !ok {
				units = append(units, c.Unit)
				sums[c.Unit] = credit.Amount{}
			}
			if r.total {
				stated[c.Unit], first = c.Value, r.at
				continue
			}
			if first == (at{}) {
				first = r.at
			}
			sums[c.Unit] = sums[c.Unit].Add(c.Value)
		}
	}
	if len(units) == 0 {
		return
	}
	var printed, other []paper.Printed
	differ := false
	for _, u := range units {
		value := sums[u]
		if s, ok := stated[u]; ok {
			differ = differ || !s.Equal(value)
			value = s
		}
		printed = append(printed, paper.Printed{Unit: u, Value: value})
		other = append(other, paper.Printed{Unit: u, Value: sums[u]})
	}
	rivals := []guess{{text: paper.FormatCredits(printed), at: first, score: 80, why: "it is the sum of the list", sure: len(stated) > 0 || len(l.lostRows()) == 0 && !l.oddMarks() && !l.numberBelow(sums)}}
	if differ {
		rivals[0].why = "it is the sum that is stated"
		rivals = append(rivals, guess{text: paper.FormatCredits(other), at: first, score: 70, why: "the rows add up to it"})
	}
	l.putCredits(rivals)
}
