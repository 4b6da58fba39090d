package credit

// costliest picks the variable to branch on: the one whose two sides cost the objective
// most, judged by the first step of the dual method on either side. It says which side
// costs less, to be gone to first; −1 if all are whole.
func (s *search) costliest() (v int, up bool) {
	v = -1
	var score frac
	five := frac{num: 5}
	for _, w := range s.whole {
		r := s.program.row[w]
		if r < 0 {
			if x := s.at(w); !x.isInt() { // at a bound that is no whole number
				return w, true
			}
			continue
		}
		x := s.value[r]
		if x.isInt() {
			continue
		}
		low := x.sub(x.floor())
		falls, canFall := s.penalty(r, false, low)
		rises, canRise := s.penalty(r, true, fracOne.sub(low))
		switch {
		case !canFall:
			return w, true
		case !canRise:
			return w, false
		}
		least, most := falls, rises
		if least.cmp(most) > 0 {
			least, most = most, least
		}
		is := least.mul(five).add(most)
		if v < 0 || is.cmp(score) > 0 {
			v, score, up = w, is, rises.cmp(falls) < 0
		}
	}
	return v, up
}

// penalty is what the objective loses at least when the variable of row r goes so far,
// and false if it cannot go.
func (s *search) penalty(r int, rises bool, way frac) (frac, bool) {
	j, factor := s.helping(r, rises, false)
	if j < 0 {
		return frac{}, false
	}
	return s.gain[j].abs().quo(factor.abs()).mul(way), true
}
