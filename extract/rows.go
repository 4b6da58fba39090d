package extract

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// addWords takes the words of a page with boxes: it finds rows by the height at
// which words stand, and parts them into cells at wide gaps.
func (s *sheet) addWords(p page.Page) {
	var level, upright, across []page.Word
	var bullets []paper.Box
	first := len(s.cells)
	hidden := slices.ContainsFunc(p.Words, func(w page.Word) bool { return !w.Hidden })
	var turned []page.Word
	for _, w := range p.Words {
		if w.Laid != [4]int{} {
			w.Box = w.Laid
		}
		if sideways(w, p) {
			turned = append(turned, w)
		}
	}
	for i, w := range p.Words {
		w.Text = plainHyphens(strings.TrimSpace(w.Text))
		if p.Picture {
			w.Text = counted(w.Text)
			if half := halved(w.Text, nextWords(p.Words, i)); half != w.Text {
				w.Text, w.Confidence = half, min(w.Confidence, 60) // it was not read
			}
		}
		if w.Laid == [4]int{} {
			w.Laid = w.Box
		}
		// From here on the box is that of the page as it is read, and the other the displayed one.
		w.Box, w.Laid = w.Laid, w.Box
		switch {
		case bullet(w.Text):
			bullets = append(bullets, paper.Box(w.Box))
		case w.Text == "" || w.Hidden && hidden || p.Picture && noise(w) || ruled(w.Text):
		case w.Across:
			across = append(across, w)
		case sideways(w, p) || margin(w, turned):
			upright = append(upright, w)
		default:
			level = append(level, w)
		}
	}
	s.grid = gridOf(p)
	s.addStrands(p, level)
	if len(upright) > 0 {
		slices.SortStableFunc(upright, func(a, b page.Word) int { return cmp.Compare(b.Box[3], a.Box[3]) })
		s.addCells(p, [][]page.Word{upright})
	}
	if len(across) > 0 {
		s.addCells(p, [][]page.Word{across})
	}
	s.rows = append(s.rows, nil)
	for ci := first; ci < len(s.cells); ci++ {
		c := &s.cells[ci]
		c.item = slices.ContainsFunc(bullets, func(b paper.Box) bool {
			height := c.box[3] - c.box[1]
			return b[2] <= c.box[0] && c.box[0]-b[2] < 3*height && b[1] < c.box[3] && b[3] > c.box[1]
		})
	}
}

// addStrands adds the words of a page that stand upright, column by column.
func (s *sheet) addStrands(p page.Page, level []page.Word) {
	for i, strand := range strands(level) {
		if i > 0 && len(s.rows) > 0 {
			s.rows = append(s.rows, nil)
			s.parted = true
		}
		from := len(s.cells)
		s.addRows(p, chosenRows(s.grid.rows(rowsOf(strand.words))))
		for ci := from; ci < len(s.cells) && strand.edge > 0; ci++ {
			s.cells[ci].edge = strand.edge
		}
	}
}

// ruled reports a line drawn with letters: "--------".
func ruled(text string) bool {
	return len(text) > 2 && strings.Trim(text, text[:1]) == "" && strings.Contains("-_=*~.", text[:1]) && text != "..."
}

// bullet reports the mark of an item of a list, which says nothing.
func bullet(text string) bool {
	return utf8.RuneCountInString(text) == 1 && strings.Contains("•▪◦‣➢►▸", text)
}

// misreadDona is the Spanish form of address of a lady with the small letter behind it misread.
var misreadDona = matching(`^D\.?["'”’*?°º%ª]a?$`)

var misreadOrdinal = matching(`^([1-3]?[l|]|[1-3]I)(st\W*)$|^([1-3]?Z)(nd\W*)$|^([1-3]?S|[1-3]O)(th\W*)$`)

// counted puts figures back where recognition took them for letters before the ending of
// an ordinal number: "Sth" for "5th" is no word.
func counted(text string) string {
	if misreadDona.MatchString(text) {
		return "D.ª"
	}
	m := misreadOrdinal.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	return strings.NewReplacer("S", "5", "l", "1", "I", "1", "|", "1", "Z", "2", "O", "0").Replace(m[1]+m[3]+m[5]) + m[2] + m[4] + m[6]
}

// noise is what recognition makes of rules, stamps and dust.
func noise(w page.Word) bool {
	letters := strings.ContainsFunc(w.Text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
	return !letters && strings.Trim(w.Text, "|_—-~=.,'`\"*[]{}<>\\/") == "" && w.Text != "|" && w.Text != "-" && w.Text != "—" && w.Text != "–"
}

// sideways reports a word that runs up or down the page.
func sideways(w page.Word, p page.Page) bool {
	width, height := w.Box[2]-w.Box[0], w.Box[3]-w.Box[1]
	return utf8.RuneCountInString(w.Text) > 2 && height > 2*width && p.Width > 0
}

// margin reports a short word in the same narrow column as words that run sideways.
func margin(w page.Word, turned []page.Word) bool {
	return slices.ContainsFunc(turned, func(t page.Word) bool {
		width := t.Box[2] - t.Box[0]
		return w.Box[0] >= t.Box[0]-width/3 && w.Box[2] <= t.Box[2]+width/3
	})
}

// rowsOf groups words by height. A word joins the row whose word nearest to it
// overlaps with it by half, so that a page scanned askew keeps its rows.
func rowsOf(list []page.Word) [][]page.Word {
	slices.SortStableFunc(list, func(a, b page.Word) int { return cmp.Compare(a.Box[0], b.Box[0]) })
	var rows [][]page.Word
	for _, w := range list {
		best, bestGap := -1, 0
		for i, row := range rows {
			last := row[len(row)-1]
			gap := w.Box[0] - last.Box[2]
			if n := len(row); n > 1 && raised(row[n-2], last) {
				last = row[n-2]
			}
			if (level(last, w) || raised(last, w)) && (best < 0 || gap < bestGap) {
				best, bestGap = i, gap
			}
		}
		if best < 0 {
			rows = append(rows, []page.Word{w})
			continue
		}
		rows[best] = append(rows[best], w)
	}
	slices.SortStableFunc(rows, func(a, b []page.Word) int { return cmp.Compare(middle(a), middle(b)) })
	return rows
}

func middle(row []page.Word) int {
	sum := 0
	for _, w := range row {
		sum += w.Box[1] + w.Box[3]
	}
	return sum / (2 * len(row))
}

func level(a, b page.Word) bool {
	overlap := min(a.Box[3], b.Box[3]) - max(a.Box[1], b.Box[1])
	return 2*overlap > min(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
}

// addRows parts rows into cells and adds them: at wide gaps, and at a smaller one where
// the word behind it begins in line with cells of two other rows.
func (s *sheet) addRows(p page.Page, rows [][]page.Word) {
	parted := make([][][]page.Word, len(rows))
	var begins, spaces []int
	pitch := 0
	if p.Picture {
		pitch = pitchOf(rows)
	}
	for i, row := range rows {
		parted[i] = s.grid.partedRow(p, row, pitch)
		for _, part := range parted[i][min(1, len(parted[i])):] {
			if len(part) > 0 {
				begins = append(begins, part[0].Box[0])
			}
		}
		for _, part := range parted[i] {
			for k := 1; k < len(part); k++ {
				spaces = append(spaces, part[k].Box[0]-part[k-1].Box[2])
			}
		}
	}
	if !p.Picture {
		partHeads(parted)
	}
	slices.Sort(spaces)
	if !p.Picture {
		for _, x := range gutters(parted, spaces) {
			begins = append(begins, x, x)
		}
	}
	numbered := formNumbers(textsOf(parted))
	for r, parts := range parted {
		var out [][]page.Word
		for k, part := range parts {
			if k == 0 && numbered[r] {
				continue
			}
			from := 0
			for k := 1; k < len(part) && len(part) < 12 && !p.Picture; k++ {
				if apartBy(part[k-1], part[k], spaces) && inLine(begins, part[k].Box[0]) > 1 {
					out, from = append(out, part[from:k]), k
				}
			}
			out = append(out, part[from:])
		}
		s.addCells(p, out)
	}
}

// gutters returns where values begin beside labels that are set up to the same edge, in four rows at least: the white between
// them is narrow, and the same in all.
func gutters(parted [][][]page.Word, spaces []int) []int {
	var found [][3]int // where the label ends, where the value begins, where the label begins
	for _, parts := range parted {
		for _, part := range parts {
			for k := 1; k < len(part); k++ {
				if a, b := part[k-1], part[k]; apartBy(a, b, spaces) {
					found = append(found, [3]int{a.Box[2], b.Box[0], part[0].Box[0]})
				}
			}
		}
	}
	var out []int
	for _, g := range found {
		n := 0
		var begins []int // of labels of several lengths
		for _, o := range found {
			if abs(o[0]-g[0]) > 60 || abs(o[1]-g[1]) > 40 {
				continue
			}
			n++
			if inLine(begins, o[2]) == 0 {
				begins = append(begins, o[2])
			}
		}
		if n > 3 && len(begins) > 2 {
			out = append(out, g[1])
		}
	}
	return out
}

// apartBy reports two words with more white between than most words of the page have.
func apartBy(a, b page.Word, spaces []int) bool {
	gap, height := b.Box[0]-a.Box[2], min(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
	return 20*gap > 9*height && 2*gap > 3*spaces[len(spaces)/2]
}

// partHeads parts headings that stand so near to each other that the white between them does not tell: where beneath
// one cell of a row of three or more the rows of a list have two, in three of them at least.
func partHeads(parted [][][]page.Word) {
	for r, parts := range parted {
		if len(parts) < 3 {
			continue
		}
		for i := 0; i < len(parts); i++ {
			if k := headsApart(parts[i], parted[r+1:min(len(parted), r+12)]); k > 0 {
				parts = slices.Insert(parts, i+1, parts[i][k:])
				parts[i] = parts[i][:k:k]
			}
		}
		parted[r] = parts
	}
}

// headsApart returns before which word of a cell the second of two headings begins; 0 if it is one.
func headsApart(part []page.Word, beneath [][][]page.Word) int {
	if len(part) < 2 || len(part) > 5 || slices.ContainsFunc(part, func(w page.Word) bool { return hasFigure(w.Text) }) || !startsUpper(part[0].Text) {
		return 0
	}
	best, widest := 0, 0
	for k := 1; k < len(part); k++ {
		gap := part[k].Box[0] - part[k-1].Box[2]
		if gap <= widest || !startsUpper(part[k].Text) || !knownHead(part[:k]) || !knownHead(part[k:]) {
			continue
		}
		two := 0
		for _, row := range beneath {
			left, right, both := 0, 0, 0
			for _, cell := range row {
				from, to := cell[0].Box[0], cell[len(cell)-1].Box[2]
				l, r := from < part[k-1].Box[2] && to > part[0].Box[0], from < part[len(part)-1].Box[2] && to > part[k].Box[0]
				switch {
				case l && r:
					both++
				case l:
					left++
				case r:
					right++
				}
			}
			if both > 0 && len(row) > 2 {
				two = -len(beneath)
			} else if left == 1 && right == 1 && len(row) > 2 {
				two++
			}
		}
		if two > 2 {
			best, widest = k, gap
		}
	}
	return best
}

// knownHead reports words that are a label without a colon.
func knownHead(words []page.Word) bool {
	text := textsOf([][][]page.Word{{words}})[0][0]
	return !strings.ContainsAny(text, ":,") && (roleOf(text) != noRole || hourLabel.MatchString(fold(text)))
}

// textsOf returns what the parts of rows say.
func textsOf(parted [][][]page.Word) [][]string {
	out := make([][]string, len(parted))
	for r, parts := range parted {
		for _, part := range parts {
			words := make([]string, len(part))
			for k, w := range part {
				words[k] = w.Text
			}
			out[r] = append(out[r], strings.Join(words, " "))
		}
	}
	return out
}

// inLine counts the cells that begin at x.
func inLine(begins []int, x int) int {
	n := 0
	for _, b := range begins {
		if abs(b-x) <= 40 {
			n++
		}
	}
	return n
}

// partRow parts a row into cells at wide gaps; pitch is that of a typewriter, or 0.
func partRow(p page.Page, row []page.Word, pitch int) [][]page.Word {
	if p.Picture {
		evenRow(row)
	}
	row = withRaised(rejoin(row))
	spaced := evenlySpaced(row) || justified(row)
	var parts [][]page.Word
	for i, w := range row {
		if w.Text == "|" || w.Text == "¦" {
			if len(parts) > 0 && len(parts[len(parts)-1]) > 0 {
				parts = append(parts, nil)
			}
			continue
		}
		if len(parts) == 0 || i > 0 && !spaced && wide(row[i-1], w) && !quoteMark(row[i-1], w) && !typed(row[i-1], w, pitch) && !dashed(row, i) && !priced(row, i) && len(parts[len(parts)-1]) > 0 {
			parts = append(parts, nil)
		}
		parts[len(parts)-1] = append(parts[len(parts)-1], w)
	}
	return parts
}

// quoteMark reports a mark of quotation before or behind its word, with white between that is not that of columns.
func quoteMark(a, b page.Word) bool {
	return (a.Text == "«" || a.Text == "„" || b.Text == "»") && b.Box[0]-a.Box[2] < 3*max(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
}

// evenlySpaced reports a row of words in capitals between which the gaps are all the same: a line whose
// letters are set apart. No two gaps between the columns of a list are.
func evenlySpaced(row []page.Word) bool {
	return len(row) >= 4 && sameGaps(row) && !slices.ContainsFunc(row, func(w page.Word) bool {
		return hasFigure(w.Text) || w.Text != strings.ToUpper(w.Text) || !strings.ContainsFunc(w.Text, isLetter)
	})
}

// justified reports a line of prose that was stretched to both margins: at least six words, some in small letters,
// with gaps that are all the same.
func justified(row []page.Word) bool {
	small := 0
	for _, w := range row {
		if startsLower(w.Text) {
			small++
		}
	}
	return len(row) >= 6 && small > 2 && sameGaps(row)
}

// sameGaps reports a row of words with gaps that are all the same, to within a twentieth, and no more than twice as
// wide as the letters are high.
func sameGaps(row []page.Word) bool {
	first := row[1].Box[0] - row[0].Box[2]
	for i, w := range row[1:] {
		before := row[i]
		gap, height := w.Box[0]-before.Box[2], min(before.Box[3]-before.Box[1], w.Box[3]-w.Box[1])
		if 20*abs(gap-first) > max(gap, 20) || gap > 2*height {
			return false
		}
	}
	return true
}

// wide reports a gap that parts cells: more than the height of the letters.
func wide(a, b page.Word) bool {
	height := min(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
	return 10*(b.Box[0]-a.Box[2]) > 11*height
}

var (
	currencyCell = matching(`^(?:USD|EUR|GBP|CHF|CAD|AUD|NZD|SEK|NOK|DKK|[€$£])$`)
	priceCell    = matching(`^[-−]?\d{1,3}(?:[.,' ]?\d{3})*[.,]\d\d$`)
)

// priced reports that the words at i are a currency and its sum, which is set at the far
// side of their column; another sum before the currency has it behind itself.
func priced(row []page.Word, i int) bool {
	return currencyCell.MatchString(row[i-1].Text) && priceCell.MatchString(row[i].Text) && (i < 2 || !priceCell.MatchString(row[i-2].Text)) &&
		row[i].Box[0]-row[i-1].Box[2] < 12*(row[i].Box[3]-row[i].Box[1])
}

// dashed reports that a dash joins the words at i, as in "1 May - 3 May". With much white
// on both sides it does so between figures only: else it is an empty cell of a table.
func dashed(row []page.Word, i int) bool {
	dash := func(w page.Word) bool { return strings.Trim(w.Text, "-–—") == "" }
	near := func(a, b page.Word) bool { return b.Box[0]-a.Box[2] < 2*(a.Box[3]-a.Box[1])+2*(b.Box[3]-b.Box[1]) }
	joins := func(k int) bool {
		a, b := row[k-1], row[k+1]
		white := min(row[k].Box[0]-a.Box[2], b.Box[0]-row[k].Box[2])
		apart := 10*white > 11*min(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
		return near(a, row[k]) && near(row[k], b) && (!apart || hasFigure(a.Text) && hasFigure(b.Text))
	}
	if dash(row[i-1]) {
		return i > 1 && joins(i-1)
	}
	return dash(row[i]) && i+1 < len(row) && joins(i)
}

func (s *sheet) addCells(p page.Page, parts [][]page.Word) {
	var row []int
	for _, part := range parts {
		if len(part) == 0 {
			continue
		}
		c := cell{page: p.Number, confidence: 100, row: len(s.rows), bold: true}
		var sizes []int
		for i, w := range part {
			if i > 0 {
				c.text += " "
			}
			c.words = append(c.words, placed{len(c.text), len(c.text) + len(w.Text), w.Laid, confidence(p, w), w.Hidden, w.Bold})
			c.text += w.Text
			c.box = c.box.Union(w.Box)
			c.bold = c.bold && w.Bold
			c.hidden = c.hidden || w.Hidden
			c.confidence = min(c.confidence, confidence(p, w))
			size := w.Size
			if size == 0 {
				size = (w.Box[3] - w.Box[1]) * 4 / 5
			}
			sizes = append(sizes, size)
		}
		slices.Sort(sizes)
		c.size = sizes[len(sizes)/2]
		if room, ok := s.grid.cellOf(c.box); ok {
			c.ruled, c.room = s.grid.number(c.box), room
		}
		row = append(row, len(s.cells))
		s.cells = append(s.cells, c)
	}
	s.rows = append(s.rows, row)
}

func confidence(p page.Page, w page.Word) int {
	if !p.Picture {
		return 100
	}
	return w.Confidence
}

// rejoin puts letter-spaced words together again: "C E R T I F I C A T E".
func rejoin(row []page.Word) []page.Word {
	var out []page.Word
	for i := 0; i < len(row); {
		j, singles := i, 0
		for ; j < len(row) && row[j].Text != "|"; j++ {
			if one := utf8.RuneCountInString(row[j].Text) == 1; !one && (j == 0 || !kerned(row[j-1], row[j])) {
				break
			} else if one {
				singles++
			}
		}
		if singles < 4 || j-i > singles+singles/2 {
			out = append(out, row[i:max(j, i+1)]...)
			i = max(j, i+1)
			continue
		}
		out = append(out, spell(row[i:j])...)
		i = j
	}
	return out
}

// kerned reports two capitals that the font sets so near to each other that they were taken for
// one among spaced letters: "AT" in "C E R T I F I C AT E".
func kerned(before, w page.Word) bool {
	height := w.Box[3] - w.Box[1]
	return utf8.RuneCountInString(w.Text) == 2 && strings.ToUpper(w.Text) == w.Text && !hasFigure(w.Text) && 10*(w.Box[0]-before.Box[2]) < 3*height
}

// spell joins single letters; a gap well above the usual one parts words. Two spaces
// between words where one is between letters are just twice as wide; on a picture the
// gaps are those of the ink, which vary more.
func spell(letters []page.Word) []page.Word {
	gaps := make([]int, 0, len(letters))
	for i := 1; i < len(letters); i++ {
		gaps = append(gaps, letters[i].Box[0]-letters[i-1].Box[2])
	}
	sorted := slices.Sorted(slices.Values(gaps))
	usual := sorted[len(sorted)/3]
	tenths := 20
	if letters[0].Confidence == 100 {
		tenths = 16
	}
	out := []page.Word{letters[0]}
	for i, w := range letters[1:] {
		height := w.Box[3] - w.Box[1]
		if 10*gaps[i] > tenths*max(usual, height/8) {
			out = append(out, w)
			continue
		}
		last := &out[len(out)-1]
		last.Text += w.Text
		last.Box, last.Laid = paper.Box(last.Box).Union(w.Box), paper.Box(last.Laid).Union(w.Laid)
	}
	return out
}

// above returns the cell of an earlier row that cell ci goes on from, or -1.
func (s *sheet) above(r, ci int, kind string) int {
	if r == 0 {
		return -1
	}
	c := &s.cells[ci]
	item := beginsItem(c.text) || beginsDated(c.text)
	closes := placeAndDay(c.text)
	if !s.boxed {
		if item || len(s.rows[r-1]) == 1 && (closes && !runsOn(s.cells[s.rows[r-1][0]].text) || loneDay(s.cells[s.rows[r-1][0]].text, c.text)) {
			return -1
		}
		if pi := s.bodyAbove(r, ci); pi >= 0 {
			return pi
		}
		return s.aboveLine(r, ci, kind)
	}
	if c.ruled > 0 {
		if over := s.overInRuled(ci); over < 0 || s.wrapsInRuled(&s.cells[over], c) {
			return over
		}
	}
	for back := r - 1; back >= max(0, r-3); back-- {
		for _, pi := range s.rows[back] {
			p := &s.cells[pi]
			if p.ruled != c.ruled {
				continue
			}
			if p.page == c.page && (r-back == 1 && s.wrapsCell(p, c) || s.wrapsBesideMiddle(p, c) || back < 2 && ofPlace(p, c)) {
				return pi
			}
			if closes && !runsOn(p.text) || loneDay(p.text, c.text) {
				continue
			}
			if p.page == c.page && (!item || openQuote(s.passages[p.passage].text)) && s.goesOn(p, c, r-back) {
				return pi
			}
		}
	}
	return -1
}

// ofPlace reports two lines in capitals at the head of which the second begins with a small word, or the first ends
// with one, of whatever size each is: "ASOCIACIÓN DE TOPÓGRAFOS" over "DE VALDUERNA".
func ofPlace(p, c *cell) bool {
	return allCaps(p.text) && allCaps(c.text) && !hasFigure(p.text+c.text) && len(strings.Fields(c.text)) < 5 && bodyWord.MatchString(fold(p.text)) &&
		(smallFirst.MatchString(strings.ToLower(c.text)) && (2*c.size > p.size || p.confidence < 100 && 3*c.size > p.size) || runsOn(p.text) && 2*p.size > c.size) &&
		c.box[1]-p.box[3] < 3*max(p.box[3]-p.box[1], c.box[3]-c.box[1])/2 && min(p.box[2], c.box[2]) > max(p.box[0], c.box[0])
}

// wrapsCell reports that c goes on the cell p of a table: it stands right beneath it, alone in its row, and
// its first word had no room before what stands beside p.
func (s *sheet) wrapsCell(p, c *cell) bool {
	head := s.passages[p.passage].cells[0] // of which p may be a further line
	row := s.rows[s.cells[head].row]
	k := slices.Index(row, head)
	if k < 0 || &s.cells[head] != p && len(s.rows[p.row]) != 1 || k+1 >= len(row) || len(s.rows[c.row]) != 1 || p.size != c.size || p.bold != c.bold {
		return false
	}
	edge := s.cells[row[k+1]].box[0]
	first := c.words[0].box
	return nextInCell(p, c) && roleOf(c.text) == noRole && c.box[2] <= edge && p.box[2]+first[2]-first[0]+p.size/4 > edge-p.size/2
}

// nextInCell reports that c stands where the next line of the cell p would, and looks like one.
func nextInCell(p, c *cell) bool {
	height, gap := p.box[3]-p.box[1], c.box[1]-p.box[3]
	if abs(p.box[0]-c.box[0]) > height/3 || 2*gap > height || gap < -height/2 || ended(p.text) || strings.HasSuffix(p.text, ":") {
		return false
	}
	if roleOf(p.text) != noRole || reachLine(c.text) || beginsItem(c.text) || isPersonal(c.text) || isPersonal(p.text) && !courseName.MatchString(fold(p.text)) {
		return false
	}
	return !dayAlone(c.text) || strings.Count(p.text, "(") != strings.Count(p.text, ")")
}

// wrapsBesideMiddle reports that c goes on the cell p of a table whose other cells are set level with the middle
// of this one: the nearest of them to the right stands between the two lines, and left no room for the first word of c.
func (s *sheet) wrapsBesideMiddle(p, c *cell) bool {
	if p.size != c.size || p.bold != c.bold || !nextInCell(p, c) || strings.HasSuffix(c.text, ":") {
		return false
	}
	edge, between := s.width(p.page)*2, false
	for i := range s.cells {
		o := &s.cells[i]
		if o.page != p.page || o == p || o == c || o.box[2] <= p.box[0] || o.middle() < p.box[1] || o.middle() > c.box[3] {
			continue
		}
		if o.box[0] < max(p.box[2], c.box[2]) || o.middle() < p.middle()+p.size/4 {
			return false // beneath p, or level with it
		}
		if o.box[0] < edge {
			edge, between = o.box[0], o.middle() < c.middle()-p.size/4
		}
	}
	first := c.words[0].box
	return between && p.box[2]+first[2]-first[0]+p.size/4 > edge-p.size/2
}

// bothLabelled reports two cells in rows of a form, each with a text of its own before it.
func (s *sheet) bothLabelled(p, c *cell) bool {
	first := func(x *cell) bool {
		row := s.rows[x.row]
		return len(row) > 1 && &s.cells[row[0]] != x && strings.ContainsFunc(s.cells[row[0]].text, isLetter)
	}
	return first(p) && first(c)
}

// goesOn reports whether c is the next line of the paragraph that p ends.
func (s *sheet) goesOn(p, c *cell, back int) bool {
	height := min(p.box[3]-p.box[1], c.box[3]-c.box[1])
	gap := c.box[1] - p.box[3]
	if gap > height*9/10 || gap < -height/2 || 5*abs(p.size-c.size) > min(p.size, c.size) && !(p.measured(c) && 4*abs(p.size-c.size) <= p.size) || p.bold != c.bold || dayLine(p.text) && !startsLower(c.text) || p.row < 3 && (overName(p.text, c.text) || startsLower(c.text) && allCaps(p.text) && len(strings.Fields(p.text)) > 1 && !runsOn(p.text)) {
		return false
	}
	overlap := min(p.box[2], c.box[2]) - max(p.box[0], c.box[0])
	if overlap > 0 && s.sameTitle(p, c, height) {
		return true
	}
	open := openQuote(s.passages[p.passage].text)
	left := abs(p.box[0]-c.box[0]) <= height
	colon := strings.HasSuffix(p.text, ":") && (startsLower(p.text) && len(p.text) > 24 || left && s.fills(p, c, height) && utf8.RuneCountInString(p.text) >= 60)
	if overlap <= 0 || ended(p.text) && !open && !colon || proseRow(p.text) && proseRow(c.text) {
		return false
	}
	if s.bodyInTwo(p, c, height) || s.valueGoesOn(p, c, height) || signBeneath(p, c, height) || c.edge > 0 && p.edge == c.edge && left && back == 1 && s.wraps(p, c, height) {
		return true
	}
	centre := abs(p.box[0]+p.box[2]-c.box[0]-c.box[2]) <= 2*height
	if left && 3*gap < height && s.letterhead(p, c) {
		return true
	}
	if (left || centre) && (open || s.headline(p, c) || dayBetween(p.text, c.text) && !s.bothLabelled(p, c)) {
		return true
	}
	if centre && !left && strings.HasSuffix(p.text, ",") && capitalised(c.text) && roleOf(c.text) == noRole && back == 1 && len(strings.Fields(p.text)) < 9 && len(find.Dates(c.text, nil)) == 0 {
		return true // a title in two lines
	}
	if left && p.size == c.size && 3*gap < height && smallFirst.MatchString(c.text) && capitalised(p.text) && !isPersonal(p.text) && !hasFigure(c.text) && len(strings.Fields(c.text)) < 5 {
		return true // what a name is of, or in
	}
	if back > 1 || len(s.rows[c.row]) > 1 {
		return false
	}
	if left && hyphenated(p.text, c.text) > 0 {
		return true // a word that a line broke, wherever that line ends
	}
	if (left || centre) && 3*gap < 2*height && s.noRoom(p, c) {
		return true
	}
	if left && len(s.rows[s.cells[s.passages[p.passage].cells[0]].row]) > 1 && 2*gap < height && (runsOn(p.text) || startsLower(c.text) || strings.ContainsAny(c.text[:1], "-0123456789") || strings.HasPrefix(c.text, "–") || strings.ContainsAny(p.text[len(p.text)-1:], "-,/&")) {
		return true
	}
	long := utf8.RuneCountInString(p.text) >= 50
	full := long && s.fills(p, c, height)
	if left && full {
		return true
	}
	return (left || centre) && (startsLower(c.text) && (full || centre && (runsOn(p.text) || long)) || runsOn(p.text) && (c.size*10 >= s.usual*12 || left && roleOf(p.text) == noRole && capitalised(p.text)))
}

// sameTitle reports that c goes on a title that is set large in the middle of the page: in the same letters,
// with a small word first, or behind a question.
func (s *sheet) sameTitle(p, c *cell, height int) bool {
	if p.size != c.size || p.bold != c.bold || 10*p.size < 11*s.usual || abs(p.box[0]-c.box[0]) <= height || abs(p.box[0]+p.box[2]-c.box[0]-c.box[2]) > 2*height || p.row < 2 || hasFigure(c.text) || allCaps(p.text) != allCaps(c.text) || len(s.rows[c.row]) > 1 || len(s.rows[p.row]) > 1 {
		return false
	}
	if roleOf(c.text) != noRole || heading.MatchString(fold(p.text)) || heading.MatchString(fold(c.text)) || isPersonal(p.text) || isPersonal(c.text) || didIt.MatchString(fold(c.text)+" ") || endsEvent.MatchString(p.text) {
		return false
	}
	return strings.HasSuffix(p.text, "?") && capitalised(c.text) && len(strings.Fields(p.text)) < 6 || startsLower(c.text) && (capitalised(p.text) || s.afterColon(p)) && !ended(p.text) && smallFirst.MatchString(c.text)
}

// afterColon reports that p is the second part of a title, beneath a line in the same letters that ends with a colon.
func (s *sheet) afterColon(p *cell) bool {
	if p.row == 0 || len(s.rows[p.row-1]) != 1 {
		return false
	}
	o := &s.cells[s.rows[p.row-1][0]]
	return o.page == p.page && o.size == p.size && o.bold == p.bold && strings.HasSuffix(o.text, ":") && capitalised(o.text)
}

// smallFirst begins what can only go on a name.
var smallFirst = matching(`^(?:of|for|and|in|on|with|to|from|by|und|für|der|des|die|den|im|am|bei|mit|von|zur?|zum|de|du|des|la|les?|et|en|pour|dans|sur|aux?|y|el|del|los|las|para|con|una?|van|voor|het|met|bij|op)\s`)

// loneDay reports a line that is a day and nothing else, beneath one that does not lead to it.
func loneDay(above, text string) bool {
	return dayLine(text) && !runsOn(above) && !strings.ContainsAny(above[len(above)-1:], ",-&/") && !strings.HasSuffix(above, "–") && !dayBetween(above, text)
}

// dayLine reports a line that is a day and nothing else, or a place and a day: it ends there.
func dayLine(text string) bool {
	if len(text) > 60 || !hasFigure(text) {
		return false
	}
	d := find.Dates(text, nil)
	return len(d) == 1 && d[0].Lack == find.Whole && (covers(d, text) || placeAndDay(text))
}

// dayAlone reports a line that is a day and nothing else.
func dayAlone(text string) bool {
	d := find.Dates(text, nil)
	return len(d) == 1 && covers(d, text)
}

// fills reports that the first word of c had no room in the line p.
func (s *sheet) fills(p, c *cell, height int) bool {
	first := c.words[0]
	return p.box[2]+(first.box[2]-first.box[0])+height/4 >= s.right(p, c)
}

// noRoom reports that the page was too narrow for the first word of c to stand in line p:
// whoever set the line had to break it there, however short it is in letters.
func (s *sheet) noRoom(p, c *cell) bool {
	wide := 0
	for _, q := range s.pages {
		if q.Number == p.page {
			wide = q.Width
		}
	}
	margin := wide
	for _, o := range s.cells {
		if o.page == p.page {
			margin = min(margin, o.box[0], wide-o.box[2])
		}
	}
	first := c.words[0].box
	if margin <= wide/30 || p.box[2]-p.box[0]+first[2]-first[0]+p.size/4 <= wide-2*margin {
		return false
	}
	return allCaps(p.text) == allCaps(c.text) && roleOf(c.text) == noRole && !reachLine(c.text) && !startsStreet.MatchString(c.text) && !isPersonal(c.text)
}

// dayBetween reports that a day begins in one line and ends in the next.
func dayBetween(a, b string) bool {
	a, b = tail(a, 30), head(b, 24)
	if !hasFigure(a) && !hasFigure(b) {
		return false
	}
	across := func(s find.Span) bool { return s.From < len(a) && s.To > len(a)+1 }
	return slices.ContainsFunc(find.Dates(a+" "+b, nil), func(d find.Date) bool { return across(d.Span) && d.Lack == find.Whole && d.Form == find.Spelt }) ||
		slices.ContainsFunc(find.Ranges(a+" "+b, nil), func(r find.Range) bool { return across(r.Span) && r.Lack == find.Whole && !r.Open && !r.Listed })
}

// wraps reports that c goes on the line p of a narrow column: its first word had no
// room there, or p ends with a small word.
func (s *sheet) wraps(p, c *cell, height int) bool {
	if roleOf(p.text) != noRole || roleOf(c.text) != noRole || reachLine(p.text) || reachLine(c.text) || officeLine(c.text) || startsFigure(c.text) || allCaps(p.text) != allCaps(c.text) || heading.MatchString(fold(c.text)) {
		return false
	}
	first := c.words[0]
	return runsOn(p.text) || p.box[2]+(first.box[2]-first.box[0])+height/4 > c.edge+height/2
}

// letterhead reports two bold lines of one size among the first of a narrow column beside
// the heading: the name of a body that has no room in one.
func (s *sheet) letterhead(p, c *cell) bool {
	if r := roleOf(p.text); r != noRole && r != isProvider {
		return false
	}
	if !p.bold || !c.bold || p.size != c.size || p.row > 3 || c.row > 4 || hasFigure(p.text+c.text) || roleOf(c.text) != noRole || heading.MatchString(fold(c.text)) {
		return false
	}
	return slices.ContainsFunc(s.cells, func(o cell) bool {
		return o.page == p.page && o.row <= 3 && 10*o.size > 13*p.size && o.clearOf(p)
	})
}

// headline reports that c goes on a line that is set large: one that fills most of
// the width, or a name of a body of which the telling word stands in the next line.
func (s *sheet) headline(p, c *cell) bool {
	if hasFigure(p.text) && allCaps(p.text) != allCaps(c.text) {
		return false // the number of the paper over who wrote it
	}
	first := p.row == c.row-1 && c.row < 3 && abs(p.size-c.size)*20 < p.size && abs(p.box[0]-c.box[0]) < p.size/2
	if c.size*20 < s.usual*23 && !first {
		return false
	}
	if c.size*20 >= s.usual*23 && (p.box[2]-p.box[0])*100 > s.width(p.page)*62 && c.box[2]-c.box[0] < p.box[2]-p.box[0] && !bodyWord.MatchString(fold(p.text)) {
		return true
	}
	if p.row == 0 && c.row == 1 && 7*abs(p.size-c.size) < p.size && c.size*20 >= s.usual*23 && bodyWord.MatchString(fold(p.text)) && !strings.ContainsAny(c.text, "0123456789:@") &&
		len(strings.Fields(p.text)) < 4 && len(strings.Fields(c.text)) < 4 && roleOf(c.text) == noRole && !heading.MatchString(fold(c.text)) && capitalised(c.text) && !allCaps(c.text) {
		return true // a name in two lines at the head
	}
	body := bodyWord.MatchString(fold(c.text)) && !heading.MatchString(fold(c.text)) && !heading.MatchString(fold(p.text))
	return body && (!bodyWord.MatchString(fold(p.text)) || !strings.Contains(c.text, " "))
}

// width is that of what is printed on a page.
func (s *sheet) width(page int) int {
	left, right := 1<<30, 0
	for _, c := range s.cells {
		if c.page == page {
			left, right = min(left, c.box[0]), max(right, c.box[2])
		}
	}
	return right - left
}

// right is the edge up to which lines of the paragraph run.
func (s *sheet) right(p, c *cell) int {
	edge := max(p.box[2], c.box[2])
	height := p.box[3] - p.box[1]
	for i := range s.cells {
		o := &s.cells[i]
		if o.page == p.page && abs(o.box[0]-p.box[0]) < height && 10*abs(o.size-p.size) < p.size && len(s.rows[o.row]) == 1 {
			edge = max(edge, o.box[2])
		}
	}
	return max(edge, p.box[0]+s.width(p.page)*6/10)
}

// bodyAbove returns the first part of the name of a body, in the same column of the line before, that cell ci goes on
// with a small word, or that ends with one; -1 if there is none.
func (s *sheet) bodyAbove(r, ci int) int {
	c := &s.cells[ci]
	if r > 2 || hasFigure(c.text) || len(strings.Fields(c.text)) > 5 || roleOf(c.text) != noRole {
		return -1
	}
	for _, pi := range s.rows[r-1] {
		p := &s.cells[pi]
		if p.column == c.column && p.page == c.page && !hasFigure(p.text) && len(strings.Fields(p.text)) < 7 && !heading.MatchString(fold(p.text)) && roleOf(p.text) == noRole && bodyWord.MatchString(fold(p.text)) &&
			(smallFirst.MatchString(c.text) && startsUpper(c.text[strings.IndexByte(c.text, ' ')+1:]) || runsOn(p.text) && capitalised(c.text)) {
			return pi
		}
	}
	return -1
}

func (s *sheet) aboveLine(r, ci int, kind string) int {
	if kind == "html" || kind == "docx" || len(s.rows[r]) != 1 || len(s.rows[r-1]) != 1 {
		return -1
	}
	prev := s.rows[r-1][0]
	text := s.cells[prev].text
	if ended(text) && !openQuote(text) || s.cells[prev].page != s.cells[ci].page {
		return -1
	}
	if proseRow(text) && proseRow(s.cells[ci].text) {
		return -1 // rows of a list
	}
	if dayBetween(text, s.cells[ci].text) || strings.HasSuffix(text, ",") && capitalised(s.cells[ci].text) && r > 1 && len(s.rows[r-2]) == 1 && endsEvent.MatchString(s.cells[s.rows[r-2][0]].text) {
		return prev
	}
	if allCaps(text) && !runsOn(text) && capitalised(s.cells[ci].text) && !allCaps(s.cells[ci].text) && !openQuote(text) {
		return -1 // a line in capitals, and what stands beneath it
	}
	if utf8.RuneCountInString(text) >= 50 || startsLower(s.cells[ci].text) && utf8.RuneCountInString(text) > 25 {
		return prev
	}
	return -1
}

func ended(text string) bool {
	last := text[strings.LastIndexByte(text, ' ')+1:]
	return strings.HasSuffix(text, ".") && (strings.Count(last, "-") > 1 || !abbreviation.MatchString(fold(last))) || strings.HasSuffix(text, ":") || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?")
}

var abbreviation = words(`dr\.|mr\.|mrs\.|ms\.|prof\.|dipl\.|ing\.|nr\.|no\.|vgl\.|bzw\.|st\.|e\. ?v\.|inkl\.|zzgl\.|ca\.|sr\.|sra\.|dhr\.|mevr\.|mme\.|[0-9]{1,2}\.`)

func runsOn(text string) bool {
	i := strings.LastIndexByte(text, ' ')
	return smallWord.MatchString(fold(text[i+1:]))
}

var smallWord = words(`the|a|an|of|and|for|on|in|at|to|by|from|with|der|die|das|dem|den|des|und|fur|am|im|an|in|zu|zur|zum|von|vom|bis|mit|de|du|des|la|le|les|et|pour|a|au|en|el|los|las|y|del|para|con|het|een|van|op|te|voor|met`)

func openQuote(text string) bool {
	if i := strings.LastIndex(text, "»"); i >= 0 && !strings.Contains(text, "«") {
		return true
	}
	if opensPlain.MatchString(text) {
		return true
	}
	for _, q := range [][2]string{{"“", "”"}, {"„", "“"}, {"«", "»"}} {
		if i := strings.LastIndex(text, q[0]); i >= 0 && !strings.Contains(text[i+len(q[0]):], q[1]) && (q[0] != "“" || !strings.Contains(text[:i], "„")) {
			return true
		}
	}
	return false
}

// opensPlain is a plain mark of quotation that nothing closes; one behind a figure is inches.
var opensPlain = matching(`^(?:[^"]*"[^"]*")*[^"]*(?:^|[\s(:])"[\p{L}\d][^"]*$`)

func startsLower(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsLower(r) || r == '('
}

// beginsDated reports a line such as "Issued 3 March 2026", which goes on nothing.
func beginsDated(text string) bool {
	d := find.Dates(text, nil)
	return len(d) > 0 && d[0].From > 0 && d[0].From < 40 && roleOf(text[:d[0].From]) != noRole && capitalised(text) && text[d[0].From-1] != '('
}

// orMore ends a label that may be for several, or for a woman: "Author(s)", "Teilnehmer(in)".
var orMore = matching(`\((?:e?s|e?n|in(?:nen)?|r|es|e|a|as)\)`)

// beginsItem reports a line that surely begins something of its own: "Label: …".
func beginsItem(text string) bool {
	label, value, ok := strings.Cut(text, ":")
	label = strings.TrimSuffix(orMore.ReplaceAllString(label, ""), ".")
	return ok && len(label) < 40 && strings.HasPrefix(value, " ") && strings.Count(label, " ") < 5 && !strings.ContainsAny(label, ",.(“„«\"")
}

func abs(n int) int { return max(n, -n) }
