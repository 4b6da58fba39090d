package extract

import (
	"slices"

	"evidencevault/extract/find"
)

// labelsBeneath reports a form whose labels stand beneath the values rather than above
// them or beside them: what stands over each label fits it better than what stands under it.
func (s *sheet) labelsBeneath() bool {
	up, down := 0, 0
	for r, row := range s.rows {
		for k, ci := range row {
			c := &s.cells[ci]
			role := roleOf(c.text)
			if role == noRole || s.inTable(ci) || !s.isLabel(ci) || c.text[len(c.text)-1] == ':' || k+1 < len(row) && !s.boxed || s.besideValue(row, k) {
				continue
			}
			over, under := s.overhead(r, ci), s.below(r, ci)
			fitsUp, fitsDown := over >= 0 && s.fits(role, over), under >= 0 && s.fits(role, under)
			switch {
			case fitsUp && !fitsDown:
				up++
			case fitsDown && !fitsUp:
				down++
			case fitsUp && fitsDown && s.boxed && 3*s.apart(over, ci) < 2*s.apart(ci, under):
				up++
			case fitsUp && fitsDown && s.boxed && 3*s.apart(ci, under) < 2*s.apart(over, ci):
				down++
			}
		}
	}
	return up >= 2 && up > down
}

// pairsBeneath collects the values over the rows whose cells all are labels of them; none of both takes
// part in any other pair. A lone label is one where other labels of the form stand beneath their values.
func (s *sheet) pairsBeneath() {
	for _, row := range s.rows {
		known := slices.ContainsFunc(row, func(ci int) bool { return roleOf(s.cells[ci].text) != noRole })
		if !known || len(row) == 1 && !s.upward || !s.labelsUnder(row) {
			continue
		}
		for _, ci := range row {
			value := s.overhead(s.cells[ci].row, ci)
			if value < 0 || s.formed[value] || s.formed[ci] || s.inTable(ci) {
				continue
			}
			s.formed[value], s.formed[ci], s.labels[ci] = true, true, true
			s.addPair(s.cells[ci].text, roleOf(s.cells[ci].text), s.whole(value), beneath)
		}
	}
}

// besideValue reports a label whose value stands next to it in the row.
func (s *sheet) besideValue(row []int, k int) bool {
	return k+1 < len(row) && !s.isLabel(row[k+1]) && s.fits(roleOf(s.cells[row[k]].text), row[k+1])
}

// apart returns the height between two cells, of which a stands higher.
func (s *sheet) apart(a, b int) int { return s.cells[b].box[1] - s.cells[a].box[3] }

// fits reports whether a cell may be the value of a label with that role.
func (s *sheet) fits(r role, ci int) bool {
	text := s.cells[ci].text
	if s.isLabel(ci) {
		return false
	}
	switch r {
	case isEvent:
		return len(find.Dates(text, nil)) > 0 || bareYear.MatchString(text)
	case isStart, isEnd, isFinish, isIssue, isBare, isExam, isAward, isAccepted, isPublished, isOther, isPaid:
		return len(find.Dates(text, nil)) > 0
	case isDuration, isAttended, isScheduled, isCredits, isTime, isBreak:
		return len(find.Dates(text, nil)) == 0 && hasFigure(text)
	case isCame, isWent:
		return oneClock.MatchString(text)
	case isNumber:
		return hasFigure(text)
	case isPerson, isSigner:
		name, _, _, _ := person(text)
		full, _ := nameWords(name)
		return full > 1
	case isTitle, isProvider, isGrade, isPosition:
		return len(find.Dates(text, nil)) == 0 && capitalised(text) && !heading.MatchString(fold(text))
	}
	return false
}

func hasFigure(text string) bool {
	return slices.ContainsFunc([]rune(text), func(r rune) bool { return r >= '0' && r <= '9' })
}

// overhead returns the nearest cell above that shares ci's left edge or middle, or -1.
func (s *sheet) overhead(r, ci int) int {
	c := &s.cells[ci]
	for prev := r - 1; prev >= max(0, r-3); prev-- {
		row := s.rows[prev]
		if !s.boxed {
			if k := slices.Index(s.rows[r], ci); k < len(row) {
				return row[k]
			}
			if len(row) > 0 {
				return -1
			}
			continue
		}
		for _, ai := range row {
			a := &s.cells[ai]
			height := c.box[3] - c.box[1]
			if a.page == c.page && c.box[1]-a.box[3] <= 5*height/2 && (abs(a.box[0]-c.box[0]) <= height || abs(a.box[0]+a.box[2]-c.box[0]-c.box[2]) <= 2*height) {
				return ai
			}
		}
	}
	return -1
}

// labelsAbove reports a form in which three labels or more stand alone in a row, each
// with a value beneath it that fits, or two and no other label.
func (s *sheet) labelsAbove() bool {
	n, misfits := 0, 0
	for r, row := range s.rows {
		if len(row) != 1 || s.inTable(row[0]) || !s.isLabel(row[0]) {
			continue
		}
		if under := s.below(r, row[0]); under >= 0 && s.fits(roleOf(s.cells[row[0]].text), under) {
			n++
		} else if roleOf(s.cells[row[0]].text) != noRole {
			misfits++
		}
	}
	return n >= 3 || n == 2 && misfits == 0
}

// betterBelow reports that the cell beneath a label fits it and the one beside it, which
// may be a label of another column, does not.
func (s *sheet) betterBelow(r int, row []int, k int, role role) bool {
	under := s.below(r, row[k])
	if s.smallAbove(r, row, k, under) {
		return true
	}
	if under < 0 || s.cells[under].row > r+1 || !s.fits(role, under) || s.fits(role, row[k+1]) {
		return false
	}
	beside := s.below(r, row[k+1])
	return beside >= 0 && s.cells[beside].row == s.cells[under].row
}

// smallAbove reports a label in small print over its value, as at least three more in its column are; what stands
// beside it in other letters is another column.
func (s *sheet) smallAbove(r int, row []int, k, under int) bool {
	if !s.boxed || under < 0 {
		return false
	}
	c, v, o := &s.cells[row[k]], &s.cells[under], &s.cells[row[k+1]]
	height := c.box[3] - c.box[1]
	if v.size <= c.size || o.size == v.size || 2*(v.box[1]-c.box[3]) > 3*height || abs(v.box[0]-c.box[0]) > 20 || o.box[0]-c.box[2] < 2*height {
		return false
	}
	more := 0
	for i := range s.cells {
		l := &s.cells[i]
		if l == c || l.page != c.page || l.size != c.size || l.bold != c.bold || abs(l.box[0]-c.box[0]) > 20 {
			continue
		}
		if b := s.below(l.row, i); b >= 0 && s.cells[b].size == v.size && abs(s.cells[b].box[0]-l.box[0]) <= 20 {
			more++
		}
	}
	return more > 2
}
