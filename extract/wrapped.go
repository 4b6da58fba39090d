package extract

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// pitchOf returns how far apart the letters of a picture stand if they are those of a
// typewriter, all of one width; else 0. A space between words is wide there, and wider
// still behind a comma, which fills little of its place.
func pitchOf(rows [][]page.Word) int {
	var widths, slim, other []int
	for _, row := range rows {
		for _, w := range row {
			n := utf8.RuneCountInString(w.Text)
			if n < 5 || strings.ContainsAny(w.Text[len(w.Text)-1:], ".,;:!") {
				continue // the mark at its end fills little of its place
			}
			width := (w.Box[2] - w.Box[0]) / n
			widths = append(widths, width)
			if 5*slimLetters(w.Text) >= 2*n {
				slim = append(slim, width)
			} else {
				other = append(other, width)
			}
		}
	}
	if len(widths) < 8 {
		return 0
	}
	usual, alike := median(widths), 0
	for _, w := range widths {
		if 100*abs(w-usual) <= 6*usual {
			alike++
		}
	}
	// Where slim letters take as much room as others, the head of the letter may be of another type.
	least := 72
	if len(slim) > 3 && len(other) > 3 && 100*median(slim) >= 96*median(other) {
		least = 60
	}
	if 100*alike < least*len(widths) {
		return 0
	}
	return usual * 26 / 25 // the white behind the last letter is not in its word
}

// slimLetters counts the letters that take little room in any type but a typewriter's.
func slimLetters(text string) int {
	n := 0
	for _, r := range text {
		if strings.ContainsRune("fijlrtI1", r) {
			n++
		}
	}
	return n
}

func median(list []int) int {
	slices.Sort(list)
	return list[len(list)/2]
}

// typed reports a gap of a typewriter that is one space, or the two behind a sentence.
func typed(a, b page.Word, pitch int) bool {
	gap := b.Box[0] - a.Box[2]
	if strings.HasSuffix(a.Text, ".") {
		return 10*gap < 29*pitch
	}
	return 10*gap < 21*pitch
}

// raised reports that b is set small and high right behind a, as the "o" in "Nº".
func raised(a, b page.Word) bool {
	height := a.Box[3] - a.Box[1]
	return abs(b.Box[0]-a.Box[2])*5 < height && b.Box[3] > a.Box[1] && b.Box[3] < a.Box[3]-height/4 && b.Box[1] < a.Box[1]+height/4 &&
		utf8.RuneCountInString(b.Text) < 4 && (b.Size < a.Size || 5*(b.Box[3]-b.Box[1]) < 4*height)
}

// withRaised joins small raised letters to the word they belong to: "1" and "er". Raised
// figures are notes, and stay by themselves.
func withRaised(row []page.Word) []page.Word {
	var out []page.Word
	for _, w := range row {
		if n := len(out); n > 0 && raised(out[n-1], w) && !strings.ContainsFunc(w.Text, func(r rune) bool { return !unicode.IsLetter(r) && r != 'º' && r != '°' }) {
			last := &out[n-1]
			last.Text += w.Text
			last.Box, last.Laid = paper.Box(last.Box).Union(w.Box), paper.Box(last.Laid).Union(w.Laid)
			last.Confidence = min(last.Confidence, w.Confidence)
			continue
		}
		out = append(out, w)
	}
	return out
}

// measured reports a line of a picture that another goes on from with a small letter: recognition
// guesses the size of a line by the letters that are in it, and may be off by a quarter.
func (p *cell) measured(c *cell) bool { return p.confidence < 100 && startsLower(c.text) }

// bodyInTwo reports a name of a body in two lines of one type at the head: the second goes
// on with a small word, or only one of them tells that it is a body.
func (s *sheet) bodyInTwo(p, c *cell, height int) bool {
	near := p.size / 20
	if p.measured(c) {
		near = p.size / 4
	}
	if p.row > 1 || c.row-p.row > 2 || abs(p.size-c.size) > near || 10*(c.box[1]-p.box[3]) > 8*height && !startsLower(c.text) || allCaps(p.text) != allCaps(c.text) {
		return false
	}
	if abs(p.box[0]-c.box[0]) > height/2 && abs(p.box[2]-c.box[2]) > height/2 && abs(p.box[0]+p.box[2]-c.box[0]-c.box[2]) > height {
		return false
	}
	for _, t := range []string{p.text, c.text} {
		if low := fold(t); strings.ContainsAny(t, "0123456789:@|") || heading.MatchString(low) || notBody.MatchString(low) || noticeOf.MatchString(low) || officeLine(t) || len(strings.Fields(t)) > 6 {
			return false
		}
	}
	if r := roleOf(p.text); r != noRole && r != isProvider || roleOf(c.text) != noRole {
		return false
	}
	for _, ci := range append(slices.Clone(s.rows[p.row]), s.rows[c.row]...) {
		if o := &s.cells[ci]; o.box[0] < min(p.box[0], c.box[0]) && (strings.HasSuffix(o.text, ":") || roleOf(o.text) != noRole) {
			return false // the rows of a form
		}
	}
	over, under := bodyWord.MatchString(fold(p.text)) || orderOf.MatchString(fold(p.text)), bodyWord.MatchString(fold(c.text))
	first, _, _ := strings.Cut(c.text, " ")
	switch {
	case runsOn(p.text) && (over || under):
		return true // "Society for" over "Sound and Bells"
	case over && under:
		return false
	case startsLower(c.text) || allCaps(c.text) && smallFirst.MatchString(strings.ToLower(c.text)):
		return over && smallWord.MatchString(fold(first))
	case under:
		return capitalised(p.text) && capitalised(c.text) && 2*len(p.text) < 3*len(c.text)
	}
	return over && capitalised(c.text) && !isPersonal(c.text) && namedAfter.MatchString(fold(p.text)) && 3*len(c.text) > 2*len(p.text) && 2*len(c.text) < 3*len(p.text)
}

// orderOf begins the name of a body that is an order.
var orderOf = matching(`^(?:ordre|orde|orden|ordine|collegi|kammer|kamer) (?:des|du|de|d'|van|del|der|national|regional|professionnel)\b`)

// namedAfter is within the name of a body what it is for or of.
var namedAfter = matching(`\S (?:of|for|de|des|du|fur|der|voor|van|para|pour) \S`)

// valueGoesOn reports the second line of a value that had no room beside its label: it
// begins where the value does, and beneath the label there is nothing.
func (s *sheet) valueGoesOn(p, c *cell, height int) bool {
	if s.rightValue(p, c, height) {
		return true
	}
	if len(s.rows[c.row]) != 1 || c.row != p.row+1 || abs(p.box[0]-c.box[0]) > height/3 || 2*(c.box[1]-p.box[3]) > height {
		return false
	}
	if head := s.passages[p.passage].cells[0]; s.rows[s.cells[head].row][0] == head {
		return false
	}
	if s.nameGoesOn(p, c) {
		return true
	}
	tight := s.tighter(p, c)
	if n := utf8.RuneCountInString(p.text); n < 10 || n < 18 && !tight || roleOf(c.text) != noRole || reachLine(c.text) || startsStreet.MatchString(c.text) || officeLine(c.text) || beginsItem(c.text) {
		return false
	}
	if (isPersonal(p.text) || isPersonal(c.text)) && !(tight && s.labelBeside(p) == isTitle) {
		return false
	}
	first := c.words[0]
	return p.box[2]+(first.box[2]-first.box[0])+p.size/4 > max(c.box[2], s.columnEdge(p))
}

// nameGoesOn reports the next part of a name that a narrow column broke behind the first one: "Begoña" over "Larrinaga",
// beside a label for a person.
func (s *sheet) nameGoesOn(p, c *cell) bool {
	parts := s.passages[p.passage]
	words := slices.DeleteFunc(strings.Fields(parts.text), func(w string) bool { return strings.Contains(w, ".") || onlyTitles.MatchString(w+" ") })
	if s.labelBeside(p) != isPerson || len(parts.cells) == 1 && len(words) != 1 || len(strings.Fields(c.text)) > 2 || roleOf(c.text) != noRole {
		return false
	}
	return !slices.ContainsFunc(append(words, strings.Fields(c.text)...), func(w string) bool { return !startsUpper(w) || hasFigure(w) || allCaps(w) != allCaps(words[0]) })
}

// labelBeside is the role of the label in whose row p, or the value that p goes on with, stands.
func (s *sheet) labelBeside(p *cell) role {
	head := s.passages[p.passage].cells[0]
	row := s.rows[s.cells[head].row]
	if k := slices.Index(row, head); k > 0 {
		return roleOf(s.cells[row[k-1]].text)
	}
	return noRole
}

// rightValue reports that c goes on the value p of a label at the left, both set up to the right edge.
func (s *sheet) rightValue(p, c *cell, height int) bool {
	return len(s.rows[c.row]) == 1 && len(s.rows[p.row]) == 2 && &s.cells[s.rows[p.row][1]] == p && c.row == p.row+1 && abs(p.box[2]-c.box[2]) < 30 && c.box[0]-p.box[0] > height &&
		2*(c.box[1]-p.box[3]) <= height && p.size == c.size && startsLower(c.text) && len(p.text) > 18 && !hasFigure(c.text)
}

// tighter reports that c stands closer to p than the row after it stands to c, and p to the row before it.
func (s *sheet) tighter(p, c *cell) bool {
	if c.row+1 >= len(s.rows) || len(s.rows[c.row+1]) == 0 {
		return false
	}
	head := s.cells[s.passages[p.passage].cells[0]].row // of which p may be a further line
	if head == 0 || len(s.rows[head-1]) == 0 {
		return false
	}
	over, under := &s.cells[s.rows[head-1][0]], &s.cells[s.rows[c.row+1][0]]
	gap := c.box[1] - p.box[3] + p.size/5
	return over.page == p.page && under.page == c.page && s.cells[s.rows[head][0]].box[1]-over.box[3] > gap && under.box[1]-c.box[3] > gap
}

// signBeneath reports a currency that had no room behind its sum.
func signBeneath(p, c *cell, height int) bool {
	return currencyCell.MatchString(c.text) && sumOnly.MatchString(p.text) && abs(p.box[2]-c.box[2]) < height/2 && c.row == p.row+1
}

var sumOnly = matching(`^[-−]?\d{1,3}(?:[.,' \x{a0}]?\d{3})*[.,]\d\d$`)

// columnEdge is how far right the lines run that begin where p does.
func (s *sheet) columnEdge(p *cell) int {
	edge := 0
	for i := range s.cells {
		if o := &s.cells[i]; o.page == p.page && abs(o.box[0]-p.box[0]) < p.size/2 {
			edge = max(edge, o.box[2])
		}
	}
	return edge
}
